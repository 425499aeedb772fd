"""How text leaves the program: what the stream can take, how wide it is, and whether anybody looks at it."""

from __future__ import annotations

import io
import os
import shutil
import sys
from typing import TextIO

from logiccheck.render.terminal import Look

NEEDED = "\u2502\u2500"  # the glyphs the terminal renderer draws with


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


def look(stream: TextIO) -> Look:
    """Wrapped and coloured on a terminal (colours not with NO_COLOR or TERM=dumb), plain and uncut anywhere else."""
    terminal = is_terminal(stream)
    colour = terminal and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    width = shutil.get_terminal_size().columns if terminal else None
    return Look(width=width, colour=colour, ascii=not _takes(stream, NEEDED))


def _takes(stream: TextIO, text: str) -> bool:
    try:
        text.encode(stream.encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True
