"""`faults FILE --sets NUMBER`: the fewest things that have to break together before a requirement fails."""

from __future__ import annotations

import argparse
import sys

from logiccheck.base.budget import memory_bound
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED
from logiccheck.session.cut_sets import cut_sets

ALONE = ("csv", "html", "one_by_one", "pairs", "stories")  # what is about single faults, or pairs of them


def run(arguments: argparse.Namespace) -> int:
    """Look and print; the first Ctrl-C lets what was found be reported."""
    alone = [f"--{each.replace('_', '-')}" for each in ALONE if getattr(arguments, each, None)]
    if alone:
        return refused(f"--sets tells of no single faults; leave out: {', '.join(alone)}.", arguments)
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = cut_sets(
                file,
                DiskReader(file),
                arguments.sets,
                arguments.requirement,
                arguments.only,
                arguments.budget,
                progress,
                interrupts.hold,
            )
        interrupts.hold()
        status = printed(answer.report, arguments)
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        return INTERRUPTED if interrupts.seen and status == GOOD else status
