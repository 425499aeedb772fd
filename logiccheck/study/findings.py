"""Everything worth saying about a program although nothing of it is a mistake: all findings, in a fixed order."""

from __future__ import annotations

from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.lang.program import Program
from logiccheck.study.lint import unasked, unused

FINDERS = (unused.find, unasked.find)
MESSAGES: tuple[type[Message], ...] = (unused.Unused, unasked.Unasked)


def findings(program: Program) -> tuple[Diagnostic, ...]:
    """What every finder finds, one after the other."""
    return tuple(finding for find in FINDERS for finding in find(program))
