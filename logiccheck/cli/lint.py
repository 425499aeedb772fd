"""`lint FILE`: what is no mistake and hardly meant, each with a situation that shows it where there is one."""

from __future__ import annotations

import argparse
import sys

from logiccheck.base.budget import memory_bound
from logiccheck.cli.check import formats
from logiccheck.cli.formats import impossible
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE
from logiccheck.session import lint


def run(arguments: argparse.Namespace) -> int:
    """Look and print; the first Ctrl-C lets what was found be reported."""
    file = posix(arguments.file)
    if (why := impossible(arguments)) is not None:
        return refused(why, arguments)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = lint(file, DiskReader(file), arguments.budget, tuple(arguments.only), progress, interrupts.hold)
        interrupts.hold()
        status = printed(answer.report, arguments)
        done = [status, *formats(arguments, answer.report)]
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        if MISTAKE in done:
            return MISTAKE
        return INTERRUPTED if interrupts.seen and status == GOOD else status
