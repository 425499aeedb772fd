"""`play FILE [SCENARIO]`: a scenario played moment by moment, and compared with what it expects."""

from __future__ import annotations

import argparse

from logiccheck.cli.printing import printed
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.session import play


def run(arguments: argparse.Namespace) -> int:
    """Play and print."""
    file = posix(arguments.file)
    other = posix(arguments.scenario_file) if arguments.scenario_file is not None else None
    reader = DiskReader(file) if other is None else DiskReader(file, other)
    return printed(play(file, reader, arguments.scenario, other))
