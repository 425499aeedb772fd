"""Reports in other formats, in new files or on standard output: the options that ask for them, and what they write."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from logiccheck.cli.newfile import wrote
from logiccheck.cli.status import MISTAKE
from logiccheck.cli.streams import put, tell

OPTIONS = ("sarif", "junit", "vcd", "csv", "html", "svg")
OUTPUT = "-"  # in place of a file: standard output, where then nothing else is printed


def takes_output(arguments: argparse.Namespace) -> bool:
    """Whether one of the formats is to stand on standard output, in place of the report."""
    return any(path == OUTPUT for _, path in _asked(arguments))


def impossible(arguments: argparse.Namespace) -> str | None:
    """Why what the call asks for cannot be written, before any work is done; None if it can as far as that is known."""
    asked = _asked(arguments)
    on_output = [f"--{option} {OUTPUT}" for option, path in asked if path == OUTPUT]
    on_output += ["--json"] if arguments.json else []
    if len(on_output) > 1:
        return f"Only one of these can stand on standard output: {', '.join(on_output)}."
    there = [path for _, path in asked if path != OUTPUT and os.path.lexists(path)]
    if there:
        return f"{there[0]} is there already. Nothing was done; name another file."
    nowhere = [path for _, path in asked if path != OUTPUT and not Path(path).parent.is_dir()]
    return f"{nowhere[0]} cannot be written: there is no such folder. Nothing was done." if nowhere else None


def write(path: str, text: str) -> int:
    """Write the text into a new file, or to standard output. Returns `MISTAKE` where it cannot be done, else 0."""
    if path == OUTPUT:
        put(text)
        return 0
    if not wrote(path, text.encode("utf-8", "replace")):
        return MISTAKE
    tell(f"written: {path}")
    return 0


def _asked(arguments: argparse.Namespace) -> list[tuple[str, str]]:
    """Each format that was asked for, with where it goes."""
    given = [(option, getattr(arguments, option, None)) for option in OPTIONS]
    return [(option, path) for option, path in given if path is not None]
