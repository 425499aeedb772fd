"""`recheck CERTIFICATE [FILE]`: the proofs of a check proved again, from the rules alone and by another solver."""

from __future__ import annotations

import argparse
import sys
from importlib import import_module

from logiccheck.base.budget import memory_bound
from logiccheck.base.limits import CERTIFICATE_BYTES
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED
from logiccheck.lang.reading import Unreadable
from logiccheck.report import words_recheck as words
from logiccheck.session.rechecking import recheck


def run(arguments: argparse.Namespace) -> int:
    """Prove again and print; without z3 say what to do."""
    try:
        import_module("logiccheck.certificate.reals")
    except ImportError:
        return refused(words.NO_SOLVER, arguments)
    path = posix(arguments.certificate)
    raw = DiskReader(path, most=CERTIFICATE_BYTES)(path)
    if isinstance(raw, Unreadable) or len(raw) > CERTIFICATE_BYTES:
        why = raw.value if isinstance(raw, Unreadable) else words.TOO_LARGE
        return refused(words.unreadable(path, why), arguments)
    file = posix(arguments.file) if arguments.file is not None else None
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            report = recheck(path, raw, file, DiskReader, arguments.budget, progress)
        interrupts.hold()
        status = printed(report, arguments)
        return INTERRUPTED if interrupts.seen and status == GOOD else status
