"""`check FILE`: every requirement proved, or the shortest story in which it fails."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.printing import printed
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import MISTAKE
from logiccheck.report.saved import Saved
from logiccheck.session import check


def run(arguments: argparse.Namespace) -> int:
    """Check, print the report, write the stories if that was asked for."""
    file = posix(arguments.file)
    with first_interrupt_reports(), Progress(sys.stderr) as progress:
        answer = check(file, DiskReader(file), arguments.budget, tuple(arguments.only), progress)
    status = printed(answer.report)
    if arguments.save is not None:
        return max(status, _save(Path(arguments.save), answer.stories), key=lambda each: each == MISTAKE)
    return status


def _save(folder: Path, stories: tuple[Saved, ...]) -> int:
    """Write the stories; those of an earlier run are replaced. Returns `MISTAKE` where that is not possible, else 0."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for story in stories:
            (folder / story.name).write_text(story.text, encoding="utf-8", newline="\n")
    except OSError as error:
        sys.stderr.write(f"Cannot write {error.filename}: {error.strerror}.\n")
        return MISTAKE
    sys.stderr.write(f"Stories written into {folder}: {len(stories)}\n")
    return 0
