"""`paths FILE [WIRE]`: every way by which something reaches a wire; without one, what reaches what unmeant."""

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
from logiccheck.session.paths import paths


def run(arguments: argparse.Namespace) -> int:
    """Look and print; the first Ctrl-C lets what was found be reported."""
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = paths(file, DiskReader(file), arguments.wire, arguments.budget, progress, interrupts.hold)
        interrupts.hold()
        status = printed(answer.report, arguments)
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        return INTERRUPTED if interrupts.seen and status == GOOD else status
