"""`currents FILE`: the most that each source, fused wire and the box ever gives at once, against fuses and wires."""

from __future__ import annotations

import argparse
import sys

from logiccheck.base.budget import memory_bound
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED
from logiccheck.session.currents import currents


def run(arguments: argparse.Namespace) -> int:
    """Reckon and print; the first Ctrl-C lets what was found be reported."""
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = currents(file, DiskReader(file), arguments.stories, arguments.budget, progress, interrupts.hold)
        interrupts.hold()
        status = printed(answer.report, arguments)
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        return INTERRUPTED if interrupts.seen and status == GOOD else status
