"""`why FILE NAME`: the fewest facts that make a signal what it is at a moment."""

from __future__ import annotations

import argparse
import sys

from logiccheck.cli.printing import printed
from logiccheck.cli.progress import Progress
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.session import Why, why


def run(arguments: argparse.Namespace) -> int:
    """Explain and print."""
    file = posix(arguments.file)
    asked = Why(arguments.name, arguments.scenario, arguments.story, arguments.at, arguments.deep)
    with Progress(sys.stderr) as progress:
        report = why(file, DiskReader(file), asked, arguments.budget, progress)
    return printed(report, arguments)
