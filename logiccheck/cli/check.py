"""`check FILE`: every requirement proved, or the shortest story in which it fails."""

from __future__ import annotations

import argparse
import sys
from itertools import chain, count
from pathlib import Path

from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.printing import printed
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import MISTAKE
from logiccheck.report.saved import Saved
from logiccheck.report.words_check import NO_STORY, how_to_replay
from logiccheck.session import check


def run(arguments: argparse.Namespace) -> int:
    """Check, print the report, write the stories if that was asked for."""
    file = posix(arguments.file)
    with first_interrupt_reports(), Progress(sys.stderr) as progress:
        answer = check(file, DiskReader(file), arguments.budget, tuple(arguments.only), progress)
    status = printed(answer.report)
    if arguments.save is None or status == MISTAKE:
        return status
    return max(status, _save(file, Path(arguments.save), answer.stories), key=lambda each: each == MISTAKE)


def _save(file: str, folder: Path, stories: tuple[Saved, ...]) -> int:
    """Write the stories; what is there already is left alone. Returns `MISTAKE` where it cannot be done, else 0."""
    if not stories:
        sys.stderr.write(f"{NO_STORY}\n")
        return 0
    try:
        folder.mkdir(parents=True, exist_ok=True)
        paths = [_write(folder, story) for story in stories]
    except FileExistsError as error:
        sys.stderr.write(f"Cannot write into {error.filename}: it is there already, and is no folder.\n")
        return MISTAKE
    except OSError as error:
        sys.stderr.write(f"Cannot write {error.filename}: {error.strerror}.\n")
        return MISTAKE
    for path in paths:
        sys.stderr.write(f"story: {path}\n")
    sys.stderr.write(f"{how_to_replay(file, paths[0].as_posix())}\n")
    return 0


def _write(folder: Path, story: Saved) -> Path:
    """Write one story under its name, or the first numbered name that is free or holds the very same story."""
    stem = story.name.removesuffix(".circuit")
    for name in chain([story.name], (f"{stem}-{number}.circuit" for number in count(2))):
        path = folder / name
        text = story.text(path.as_posix()).encode("utf-8")
        try:
            with path.open("xb") as stream:
                stream.write(text)
        except FileExistsError:
            if path.is_file() and path.read_bytes() == text:
                return path
        else:
            return path
    raise AssertionError("numbers do not end")
