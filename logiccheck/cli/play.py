"""`play FILE [SCENARIO]`: a scenario played moment by moment, and compared with what it expects."""

from __future__ import annotations

import argparse
from pathlib import Path

from logiccheck.cli.formats import impossible, write
from logiccheck.cli.keeping import keep
from logiccheck.cli.printing import printed, refused
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.cli.status import MISTAKE
from logiccheck.cli.streams import tell
from logiccheck.report.played import Shape
from logiccheck.report.report import Report
from logiccheck.report.words_formats import one_scenario
from logiccheck.session.playing import play


def run(arguments: argparse.Namespace) -> int:
    """Play, print, and write the waveforms and the scenarios as played if that was asked for."""
    if (why := impossible(arguments)) is not None:
        return refused(why, arguments)
    file = posix(arguments.file)
    other = posix(arguments.scenario_file) if arguments.scenario_file is not None else None
    reader = DiskReader(file) if other is None else DiskReader(file, other)
    shape = Shape(bars=not arguments.table, everything=arguments.all)
    answer = play(file, reader, arguments.scenario, other, shape)
    status = printed(answer.report, arguments)
    done = [status]
    if status != MISTAKE and arguments.vcd is not None:
        done.append(_waves(arguments.vcd, answer.report))
    if status != MISTAKE and arguments.save is not None:
        done.append(keep(file, Path(arguments.save), answer.stories, "scenario"))
    return max(done)


def _waves(path: str, report: Report) -> int:
    """Write the waveforms of the one scenario that was played. Returns `MISTAKE` where it cannot be done, else 0."""
    from logiccheck.render.vcd import render  # loads what a report for people does not need

    if len(report.played) != 1:
        tell(one_scenario([part.name for part in report.played]))
        return MISTAKE
    return write(path, render(report, report.played[0]))
