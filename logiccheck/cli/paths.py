"""`paths FILE [WIRE]`: every way by which something reaches a wire; without one, what reaches what unmeant."""

from __future__ import annotations

import argparse
import sys

from logiccheck.base.budget import memory_bound
from logiccheck.cli.formats import impossible, write
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE
from logiccheck.report.report import Report
from logiccheck.session.paths import paths


def run(arguments: argparse.Namespace) -> int:
    """Look, print, and draw if that was asked for; the first Ctrl-C lets what was found be reported."""
    if (why := impossible(arguments)) is not None:
        return refused(why, arguments)
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = paths(file, DiskReader(file), arguments.wire, arguments.budget, progress, interrupts.hold)
        interrupts.hold()
        status = printed(answer.report, arguments)
        drawn = _picture(arguments.svg, answer.report)
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        if drawn == MISTAKE:
            return MISTAKE
        return INTERRUPTED if interrupts.seen and status == GOOD else status


def _picture(path: str | None, report: Report) -> int:
    """Write the picture of the harness, where one is asked for and can be drawn. Returns `MISTAKE` where it cannot be
    written, else 0."""
    if path is None or report.drawing is None:
        return 0
    from logiccheck.render.svg import render  # loads what a report for people does not need

    return write(path, render(report.drawing))
