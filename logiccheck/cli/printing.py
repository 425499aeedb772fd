"""A report printed to standard output, and the exit status it comes to."""

from __future__ import annotations

import sys

from logiccheck.cli.status import FAILS, GOOD, INTERRUPTED, MISTAKE
from logiccheck.cli.streams import look
from logiccheck.render.terminal import show
from logiccheck.report.report import Outcome, Report

STATUS = {
    Outcome.MISTAKE: MISTAKE,
    Outcome.FAILS: FAILS,
    Outcome.OPEN: INTERRUPTED,
    Outcome.GOOD: GOOD,
}


def printed(report: Report) -> int:
    """Print the report; returns the exit status."""
    show(report, look(sys.stdout), sys.stdout)
    return STATUS[report.outcome]
