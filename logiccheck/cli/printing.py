"""A report printed to standard output, and the exit status it comes to."""

from __future__ import annotations

import os
import shutil
import sys
from typing import TextIO

from logiccheck.cli.status import FAILS, GOOD, INTERRUPTED, MISTAKE
from logiccheck.cli.streams import is_terminal
from logiccheck.render.terminal import DRAWN, Look, show
from logiccheck.report.report import Outcome, Report

STATUS = {
    Outcome.MISTAKE: MISTAKE,
    Outcome.FAILS: FAILS,
    Outcome.OPEN: INTERRUPTED,
    Outcome.GOOD: GOOD,
}


def printed(report: Report) -> int:
    """Print the report; returns the exit status."""
    show(report, look(sys.stdout), sys.stdout)
    return STATUS[report.outcome]


def look(stream: TextIO) -> Look:
    """Wrapped and coloured on a terminal (colours not with NO_COLOR or TERM=dumb), plain and uncut anywhere else."""
    terminal = is_terminal(stream)
    colour = terminal and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    width = shutil.get_terminal_size().columns if terminal else None
    return Look(width=width, colour=colour, ascii=not _takes(stream, DRAWN))


def _takes(stream: TextIO, text: str) -> bool:
    try:
        text.encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
