"""`why FILE NAME`: the fewest facts that make a signal what it is at a moment; what it is whenever, in what ways."""

from __future__ import annotations

import argparse
import sys

from logiccheck.base.budget import memory_bound
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED
from logiccheck.report.words_ever import no_moment, one_at_a_time
from logiccheck.session.asking import Why, why, why_ever


def run(arguments: argparse.Namespace) -> int:
    """Explain and print."""
    if arguments.when is not None or arguments.all_ways:
        return _ever(arguments)
    file = posix(arguments.file)
    asked = Why(arguments.name, arguments.scenario, arguments.story, arguments.at, arguments.deep)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            report = why(file, DiskReader(file), asked, arguments.budget, progress)
        interrupts.hold()
        status = printed(report, arguments)
        return INTERRUPTED if interrupts.seen and status == GOOD else status


def _ever(arguments: argparse.Namespace) -> int:
    """All situations that meet conditions, or all ways to be on; the first Ctrl-C lets what was found be reported."""
    option = "--all-ways" if arguments.when is None else "--when"
    if arguments.when is not None and arguments.all_ways:
        return refused(one_at_a_time("--when", "--all-ways"), arguments)
    for name, value in (("--scenario", arguments.scenario), ("--story", arguments.story), ("--at", arguments.at)):
        if value is not None:
            return refused(no_moment(name, option), arguments)
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            report = why_ever(
                file,
                DiskReader(file),
                arguments.name,
                arguments.when,
                arguments.deep,
                arguments.budget,
                progress,
                interrupts.hold,
            )
        interrupts.hold()
        status = printed(report, arguments)
        return INTERRUPTED if interrupts.seen and status == GOOD else status
