"""Ctrl-C: the first one ends the search and lets what was decided be reported, the second one quits at once."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

from logiccheck.cli.status import INTERRUPTED


@contextmanager
def first_interrupt_reports() -> Iterator[None]:
    """Inside, the first Ctrl-C raises KeyboardInterrupt, which the engines turn into an incomplete answer."""
    seen = 0

    def handle(number: int, frame: FrameType | None) -> None:
        nonlocal seen
        seen += 1
        if seen > 1:
            os._exit(INTERRUPTED)
        sys.stderr.write("\nStopping; what was decided so far is reported. Ctrl-C again quits at once.\n")
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGINT, handle)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
