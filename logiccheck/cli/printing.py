"""A report on standard output, as text or as JSON, and the exit status it comes to."""

from __future__ import annotations

import argparse
import os
import shutil
import sys
from typing import TextIO

from logiccheck.cli.formats import takes_output
from logiccheck.cli.status import FAILS, GOOD, INTERRUPTED, MISTAKE
from logiccheck.cli.streams import is_terminal, put, tell
from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import DRAWN, show
from logiccheck.report.report import Outcome, Report

STATUS = {
    Outcome.MISTAKE: MISTAKE,
    Outcome.FAILS: FAILS,
    Outcome.OPEN: INTERRUPTED,
    Outcome.GOOD: GOOD,
}


def printed(report: Report, arguments: argparse.Namespace) -> int:
    """Print the report as the call wants it, unless another format takes its place; returns the exit status."""
    if arguments.json:
        from logiccheck.render.as_json import render  # loads what a report for people does not need

        put(render(report))
    elif not takes_output(arguments):
        show(report, look(sys.stdout), sys.stdout)
    return STATUS[report.outcome]


def refused(sentence: str, arguments: argparse.Namespace) -> int:
    """Say why the call is not answered; returns the exit status."""
    if arguments.json:
        return printed(Report(sentence, "", Outcome.MISTAKE), arguments)
    tell(sentence)
    return MISTAKE


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
