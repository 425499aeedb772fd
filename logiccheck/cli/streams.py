"""The standard streams: made safe for any character, and asked whether anybody looks at them."""

from __future__ import annotations

import io
import sys
from typing import TextIO


def prepare() -> None:
    """Make both streams put "?" for what they cannot encode, instead of failing."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def is_terminal(stream: TextIO) -> bool:
    """Whether a person looks at it directly; a closed stream is no terminal."""
    try:
        return stream.isatty()
    except ValueError:
        return False
