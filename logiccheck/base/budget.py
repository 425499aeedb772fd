"""How long a search may take, and how much memory: asked often, answered without fail."""

from __future__ import annotations

import gc
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager

LOOK_SECONDS = 0.1  # between two looks at the memory


class OutOfTime(Exception):
    """The search did not finish within its budget; what it has found so far stays true."""


class OutOfMemory(MemoryError):
    """The process holds all the memory that it may."""


class _Memory:
    """What every budget of this process looks at; `full` is None where nobody set a bound."""

    full: Callable[[], bool] | None = None
    next_look = 0.0

    def look(self, now: float) -> None:
        if self.full is None or now < self.next_look:
            return
        if self.full():
            gc.collect()  # what a search that has ended left behind is no reason
            if self.full():
                raise OutOfMemory
        self.next_look = now + LOOK_SECONDS


_memory = _Memory()


@contextmanager
def memory_bound(full: Callable[[], bool]) -> Iterator[None]:
    """Inside, every budget also ends when `full` says that the process holds all the memory that it may."""
    before, _memory.full = _memory.full, full
    try:
        yield
    finally:
        _memory.full = before


class Budget:
    """A number of seconds from now on; `check` raises `OutOfTime` once they are over, or `OutOfMemory`."""

    def __init__(self, seconds: float) -> None:
        self.begin = time.monotonic()
        self.end = self.begin + seconds

    @property
    def left(self) -> float:
        """Seconds left, never negative."""
        return max(0.0, self.end - time.monotonic())

    @property
    def used(self) -> float:
        return time.monotonic() - self.begin

    def check(self) -> None:
        now = time.monotonic()
        if now > self.end:
            raise OutOfTime
        _memory.look(now)

    @staticmethod
    def memory_is_full() -> bool:
        """Whether the process holds all the memory that it may."""
        return _memory.full is not None and _memory.full()

    def part(self, share: float) -> Budget:
        """A budget of this share of what is left."""
        return Budget(self.left * share)
