"""`parked FILE`: what the parked vehicle draws for ever, and for how long its battery still cranks."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from logiccheck.base.budget import memory_bound
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.keeping import keep
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE
from logiccheck.session.parked import parked


def run(arguments: argparse.Namespace) -> int:
    """Look, print, and write the stories if that was asked for; the first Ctrl-C lets what was found be reported."""
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = parked(file, DiskReader(file), arguments.stories, arguments.budget, progress, interrupts.hold)
        interrupts.hold()
        status = printed(answer.report, arguments)
        if status != MISTAKE and arguments.save is not None:
            status = keep(file, Path(arguments.save), answer.stories, "story") or status
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        return INTERRUPTED if interrupts.seen and status == GOOD else status
