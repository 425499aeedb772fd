"""How long a search may take: asked often, answered without fail, and it can be told to stop."""

from __future__ import annotations

import time


class OutOfTime(Exception):
    """The search did not finish within its budget; what it has found so far stays true."""


class Budget:
    """A number of seconds from now on; `check` raises `OutOfTime` once they are over."""

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
        if time.monotonic() > self.end:
            raise OutOfTime

    def part(self, share: float) -> Budget:
        """A budget of this share of what is left."""
        return Budget(self.left * share)
