"""A line on standard error that says what is being checked, once a run has lasted longer than a second."""

from __future__ import annotations

import time
from types import TracebackType
from typing import TextIO

from logiccheck.cli.streams import is_terminal

SILENT_SECONDS = 1.0
REPEAT_SECONDS = 5.0  # where no line can be rewritten
LINE = 78


class Progress:
    """Called with what is being worked on; rewrites one line on a terminal, adds one now and then anywhere else."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._in_place = is_terminal(stream)
        self._next = time.monotonic() + SILENT_SECONDS  # nothing is said before this
        self._shown = ""  # what stands on the line now

    def __call__(self, text: str) -> None:
        if time.monotonic() < self._next or text == self._shown:
            return
        if self._in_place:
            self._stream.write("\r" + f"checking {text}"[:LINE].ljust(LINE))
        else:
            self._stream.write(f"checking {text}\n")
            self._next = time.monotonic() + REPEAT_SECONDS
        self._stream.flush()
        self._shown = text

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._in_place and self._shown:
            self._stream.write("\r" + " " * LINE + "\r")
            self._stream.flush()
