"""`show FILE [NAME]`: rules and outputs as they are understood."""

from __future__ import annotations

import argparse

from logiccheck.cli.printing import printed
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.session.reading import show


def run(arguments: argparse.Namespace) -> int:
    """Show and print."""
    file = posix(arguments.file)
    return printed(show(file, DiskReader(file), arguments.name), arguments)
