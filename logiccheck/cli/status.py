"""The exit statuses, in the order in which the first that applies is taken."""

from __future__ import annotations

MISTAKE = 2
FAILS = 1
INTERRUPTED = 3  # or not decided
GOOD = 0
OUR_BUG = 4
