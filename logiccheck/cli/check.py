"""`check FILE`: every requirement proved, or the shortest story in which it fails."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from logiccheck.base.budget import memory_bound
from logiccheck.certificate.document import Document
from logiccheck.certificate.written import written
from logiccheck.cli.formats import impossible, write
from logiccheck.cli.interrupt import first_interrupt_reports
from logiccheck.cli.keeping import keep
from logiccheck.cli.memory import holds_more_than
from logiccheck.cli.newfile import wrote
from logiccheck.cli.ourbug import met
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE
from logiccheck.cli.streams import tell
from logiccheck.engine.check import Crew
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.verdict import Kind
from logiccheck.report.report import Report
from logiccheck.report.words_recheck import holds_proofs, how_to_recheck, there_already
from logiccheck.session.answer import Answer
from logiccheck.session.checking import check

CASE_SECONDS = 60.0


def run(arguments: argparse.Namespace) -> int:
    """Check, print the report, write the stories and the certificate if that was asked for."""
    file = posix(arguments.file)
    if (why := impossible(arguments)) is not None:
        return refused(why, arguments)
    if arguments.certify is not None and os.path.lexists(arguments.certify):
        return refused(there_already(arguments.certify), arguments)
    with first_interrupt_reports() as interrupts:
        with Progress(sys.stderr) as progress, memory_bound(holds_more_than(arguments.memory)):
            only = tuple(arguments.only)
            engines = BOTH if arguments.engine is None else {Engine(arguments.engine)}
            crew = _crew(arguments, progress)
            answer = check(
                file,
                DiskReader(file),
                arguments.budget,
                only,
                progress,
                interrupts.hold,
                engines,
                arguments.times,
                crew,
                arguments.edits,
                arguments.lint,
                CASE_SECONDS if arguments.cases else 0.0,
            )
        interrupts.hold()
        status = _told(arguments, file, answer)
        if answer.bugs:
            return met(answer.bugs, arguments.called)
        return INTERRUPTED if interrupts.seen and status == GOOD else status


def _crew(arguments: argparse.Namespace, progress: Progress) -> Crew | None:
    """The processes that share the work, if there shall be any."""
    if arguments.jobs == 1:
        return None
    from logiccheck.cli.crew import Processes  # loads what starts processes, which one job does not need

    return Processes(arguments.jobs, arguments.memory, progress)


def _told(arguments: argparse.Namespace, file: str, answer: Answer) -> int:
    """Print the report, write what was asked for beside it; returns the exit status."""
    status = printed(answer.report, arguments)
    done = [status, *formats(arguments, answer.report)]
    if status == MISTAKE:
        return status
    if arguments.save is not None:
        done.append(keep(file, Path(arguments.save), answer.stories, "story"))
    if arguments.certify is not None and answer.certificate is not None:
        done.append(_certify(file, Path(arguments.certify), answer.certificate))
    return MISTAKE if MISTAKE in done else status


def formats(arguments: argparse.Namespace, report: Report) -> Iterator[int]:
    """Write what was asked for in other formats; mistakes of the files stand there as well."""
    if arguments.sarif is not None:
        from logiccheck.cli.about import texts  # loads all messages there are
        from logiccheck.render import sarif

        yield write(arguments.sarif, sarif.render(report, texts()))
    if arguments.junit is not None:
        from logiccheck.render import junit

        yield write(arguments.junit, junit.render(report))


def _certify(file: str, path: Path, certificate: Document) -> int:
    """Write the certificate into a new file. Returns `MISTAKE` where it cannot be done, else 0."""
    try:
        main = os.path.relpath(file, path.parent)
    except ValueError:  # on another drive
        main = file
    text = written(replace(certificate, main=posix(main)))
    if not wrote(path, text.encode("utf-8")):
        return MISTAKE
    proved = sum(verdict == Kind.PROVED.value for _, verdict in certificate.verdicts)
    tell(holds_proofs(posix(str(path)), proved, len(certificate.verdicts)))
    tell(how_to_recheck(posix(str(path))))
    return 0
