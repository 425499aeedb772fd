"""The standard streams: made safe for any character, and asked whether anybody looks at them."""

from __future__ import annotations

import io
import os
import sys
from contextlib import suppress
from typing import TextIO


def prepare() -> None:
    """Make both streams put "?" for what they cannot encode, instead of failing; one that is closed takes anything."""
    sys.stdout = sys.stdout or _nowhere()
    sys.stderr = sys.stderr or _nowhere()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def tell(text: str) -> None:
    """Print a line on standard error; where nobody can take it, it is lost, and changes nothing."""
    try:
        sys.stderr.write(text + "\n")
        sys.stderr.flush()
    except (OSError, ValueError):
        sys.stderr = _nowhere()
        with suppress(OSError):
            os.dup2(sys.stderr.fileno(), 2)


def put(text: str) -> None:
    """Write text for machines to standard output: as UTF-8 and with "\\n" line ends, whatever the terminal speaks."""
    sys.stdout.flush()
    sys.stdout.buffer.write(text.encode("utf-8", "replace"))
    sys.stdout.buffer.flush()


def _nowhere() -> TextIO:
    return open(os.devnull, "w", encoding="utf-8")


def is_terminal(stream: TextIO) -> bool:
    """Whether a person looks at it directly; a closed stream is no terminal."""
    try:
        return stream.isatty()
    except ValueError:
        return False
