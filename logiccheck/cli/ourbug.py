"""What is printed when the fault is ours: a few plain lines, and what to send so that it can be mended."""

from __future__ import annotations

import platform
from collections.abc import Sequence

from logiccheck.base.bug import Bug, bug_of
from logiccheck.base.version import VERSION
from logiccheck.cli.status import OUR_BUG
from logiccheck.cli.streams import tell
from logiccheck.report.words_bug import ALL_LOST, left_alone, others_stand


def report(error: Exception, argv: list[str]) -> int:
    """Say that this is our bug, on standard error; returns the exit status."""
    return _report(ALL_LOST, [bug_of(error)], argv)


def met(bugs: Sequence[Bug], argv: list[str]) -> int:
    """Say that each of these is our bug, on standard error, and that all else stands; returns the exit status."""
    return _report(others_stand([bug.met_at for bug in bugs]), bugs, argv)


def kept(bugs: Sequence[Bug], argv: list[str]) -> int:
    """Say that the files these were met at are left alone, on standard error; returns the exit status."""
    return _report(left_alone([bug.met_at for bug in bugs]), bugs, argv)


def _report(sentence: str, bugs: Sequence[Bug], argv: list[str]) -> int:
    lines = [
        "",
        sentence,
        "Please send these lines, and the file if you may:",
        f"  logiccheck {VERSION}, Python {platform.python_version()}, {platform.system()} {platform.machine()}",
        f"  called as: logiccheck {' '.join(argv)}",
    ]
    for bug in bugs:
        lines += [f"  {bug.what}", f"  at {' < '.join(bug.places)}"]
    tell("\n".join(lines))
    return OUR_BUG
