"""`faults FILE`: what each single thing that can break lets happen, and whether anybody notices."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

from logiccheck.base.budget import memory_bound
from logiccheck.cli import cut_sets
from logiccheck.cli.formats import impossible, write
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE
from logiccheck.report.report import Report
from logiccheck.session.faults import FaultsAsked, faults


def run(arguments: argparse.Namespace) -> int:
    """Try all faults, print, and write the tables that were asked for; the first Ctrl-C lets what was found be
    reported."""
    if arguments.sets is not None:
        return cut_sets.run(arguments)
    file = posix(arguments.file)
    if (why := impossible(arguments)) is not None:
        return refused(why, arguments)
    asked = FaultsAsked(
        only=tuple(arguments.only),
        requirements=tuple(arguments.requirement),
        one_by_one=arguments.one_by_one,
        stories=arguments.stories,
        pairs=arguments.pairs,
    )
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = faults(file, DiskReader(file), asked, arguments.budget, progress, interrupts.hold)
        interrupts.hold()
        status = printed(answer.report, arguments)
        status = MISTAKE if MISTAKE in [*_formats(arguments, answer.report)] else status
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        return INTERRUPTED if interrupts.seen and status == GOOD else status


def _formats(arguments: argparse.Namespace, report: Report) -> Iterator[int]:
    """Write what was asked for in other formats; mistakes of the files stand there as well."""
    if arguments.csv is not None:
        from logiccheck.render import as_csv

        yield write(arguments.csv, as_csv.render(report))
    if arguments.html is not None:
        from logiccheck.render import as_html

        yield write(arguments.html, as_html.render(report))
