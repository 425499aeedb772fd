"""`lint FILE`: what is no mistake and hardly meant, each with a situation that shows it where there is one."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace

from logiccheck.base.budget import memory_bound
from logiccheck.base.bug import Bug, bug_of
from logiccheck.cli.check import formats
from logiccheck.cli.formats import impossible, takes_output
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.ourbug import kept, met
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.rewriting import rewrote
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE, OUR_BUG
from logiccheck.cli.streams import put
from logiccheck.lang.fixed import fixed
from logiccheck.lang.tidy.tidied import Untrue
from logiccheck.report.report import Report, TidiedPart
from logiccheck.report.tidied import tidied_part
from logiccheck.report.words_tidy import put_right
from logiccheck.session.checking import lint


def run(arguments: argparse.Namespace) -> int:
    """Look and print; the first Ctrl-C lets what was found be reported."""
    if (why := impossible(arguments)) is not None:
        return refused(why, arguments)
    if not arguments.fix:
        return _looked(arguments, ())
    parts, lost, bugs = _fixed(posix(arguments.file))
    if bugs:
        kept(bugs, arguments.called)
    if not arguments.json and not takes_output(arguments):
        put("".join(f"{part.diff}\n" for part in parts))
    status = _looked(arguments, parts)
    return OUR_BUG if bugs else MISTAKE if lost else status


def _looked(arguments: argparse.Namespace, parts: tuple[TidiedPart, ...]) -> int:
    file = posix(arguments.file)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            answer = lint(file, DiskReader(file), arguments.budget, tuple(arguments.only), progress, interrupts.hold)
        interrupts.hold()
        report = _with(answer.report, parts)
        status = printed(report, arguments)
        done = [status, *formats(arguments, report)]
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        if MISTAKE in done:
            return MISTAKE
        return INTERRUPTED if interrupts.seen and status == GOOD else status


def _with(report: Report, parts: tuple[TidiedPart, ...]) -> Report:
    """The report of what was found, and what was put right before."""
    return replace(report, tidied=parts, notes=(*(put_right(part.file) for part in parts), *report.notes))


def _fixed(path: str) -> tuple[tuple[TidiedPart, ...], bool, list[Bug]]:
    """What was put right in the files, whether something could not be written, and mistakes of ours, each of which left
    a file alone."""
    parts: list[TidiedPart] = []
    bugs: list[Bug] = []
    lost = False
    for file, each in list(fixed(path, DiskReader(path))):
        if isinstance(each, Untrue):
            bugs.append(bug_of(each, file))
        elif rewrote(file, each.raw):
            parts.append(tidied_part(file, each))
        else:
            lost = True
    return tuple(parts), lost, bugs
