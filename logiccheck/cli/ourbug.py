"""What is printed when the fault is ours: a few plain lines, and what to send so that it can be mended."""

from __future__ import annotations

import platform
import traceback

from logiccheck.base.version import VERSION
from logiccheck.cli.status import OUR_BUG
from logiccheck.cli.streams import tell


def report(error: Exception, argv: list[str]) -> int:
    """Say that this is our bug, on standard error; returns the exit status."""
    frames = traceback.extract_tb(error.__traceback__)
    places = [f"{frame.filename.replace(chr(92), '/').split('/logiccheck/')[-1]}:{frame.lineno}" for frame in frames]
    lines = [
        "",
        "This is our bug, not a mistake in your file. Nothing was decided.",
        "Please send these lines, and the file if you may:",
        f"  logiccheck {VERSION}, Python {platform.python_version()}, {platform.system()} {platform.machine()}",
        f"  called as: logiccheck {' '.join(argv)}",
        f"  {type(error).__name__}: {error}",
        f"  at {' < '.join(reversed(places[-6:]))}",
    ]
    tell("\n".join(lines))
    return OUR_BUG
