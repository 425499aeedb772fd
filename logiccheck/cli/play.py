"""`play FILE [SCENARIO]`: a scenario played moment by moment, and compared with what it expects."""

from __future__ import annotations

import argparse

from logiccheck.cli.printing import printed
from logiccheck.cli.reader import DiskReader
from logiccheck.session import play


def run(arguments: argparse.Namespace) -> int:
    """Play and print."""
    return printed(play(arguments.file, DiskReader(), arguments.scenario))
