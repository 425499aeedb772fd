"""A line on a terminal that says what is being checked, once a run has lasted longer than a second."""

from __future__ import annotations

import time
from types import TracebackType
from typing import TextIO

from logiccheck.cli.streams import is_terminal

SILENT_SECONDS = 1.0
LINE = 78


class Progress:
    """Called with what is being worked on; rewrites one line where somebody looks, says nothing anywhere else."""

    def __init__(self, stream: TextIO) -> None:
        self._stream = stream
        self._watched = is_terminal(stream)
        self._begin = time.monotonic() + SILENT_SECONDS  # nothing is said before this
        self._shown = ""  # what stands on the line now

    def __call__(self, text: str) -> None:
        if not self._watched or time.monotonic() < self._begin or text == self._shown:
            return
        self._stream.write("\r" + f"checking {text}"[:LINE].ljust(LINE))
        self._stream.flush()
        self._shown = text

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        if self._shown:
            self._stream.write("\r" + " " * LINE + "\r")
            self._stream.flush()
