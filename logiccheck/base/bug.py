"""A mistake in this program itself, as a value: what went wrong, and where."""

from __future__ import annotations

import traceback

from logiccheck.base.frozen import frozen

MOST_PLACES = 6


@frozen
class Bug:
    """`what` went wrong, as Python says it in one line; `places` ("engine/check.py:12") in which it did, the innermost
    first; `met_at`: the name of the requirement that was looked at, which has no verdict because of it; empty where it
    was met beside the verdicts."""

    what: str
    places: tuple[str, ...]
    met_at: str = ""


def bug_of(error: Exception, met_at: str = "") -> Bug:
    """The exception as a value that can be sent to another process."""
    frames = traceback.extract_tb(error.__traceback__)[-MOST_PLACES:]
    places = (f"{frame.filename.replace(chr(92), '/').split('/logiccheck/')[-1]}:{frame.lineno}" for frame in frames)
    return Bug(f"{type(error).__name__}: {error}", tuple(places)[::-1], met_at)
