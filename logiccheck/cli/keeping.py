"""Writes stories and scenarios as files into a folder; what is there already is left alone."""

from __future__ import annotations

import time
from itertools import chain, count
from pathlib import Path

from logiccheck.cli.newfile import write_new
from logiccheck.cli.status import MISTAKE
from logiccheck.cli.streams import tell
from logiccheck.report.saved import Saved
from logiccheck.report.words_check import NO_STORY, how_to_replay

WAITS, WAIT_SECONDS = 20, 0.05


def keep(file: str, folder: Path, stories: tuple[Saved, ...], kind: str) -> int:
    """Write the stories of the vehicle `file`, and say where, each as a `kind`.

    Returns `MISTAKE` where it cannot be done, else 0.
    """
    if not stories:
        tell(NO_STORY)
        return 0
    try:
        folder.mkdir(parents=True, exist_ok=True)
        paths = [_write(folder, story) for story in stories]
    except FileExistsError as error:
        tell(f"Cannot write into {error.filename}: it is there already, and is no folder.")
        return MISTAKE
    except OSError as error:
        tell(f"Cannot write {error.filename}: {error.strerror}.")
        return MISTAKE
    for path in paths:
        tell(f"{kind}: {path}")
    tell(how_to_replay(file, paths[0].as_posix()))
    return 0


def _holds(path: Path, text: bytes) -> bool:
    """Whether the file holds just this; one that holds its begin may be being written by another run at this moment."""
    for _ in range(WAITS):
        there = path.read_bytes()
        if there == text or not text.startswith(there):
            return there == text
        time.sleep(WAIT_SECONDS)
    return False


def _write(folder: Path, story: Saved) -> Path:
    """Write one story under its name, or the first numbered name that is free or holds the very same story."""
    stem = story.name.removesuffix(".circuit")
    for name in chain([story.name], (f"{stem}-{number}.circuit" for number in count(2))):
        path = folder / name
        text = story.text(path.as_posix()).encode("utf-8", "replace")
        try:
            write_new(path, text)
        except FileExistsError:
            if path.is_file() and _holds(path, text):
                return path
        else:
            return path
    raise AssertionError("numbers do not end")
