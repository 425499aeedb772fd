"""A timer that falls due, in words: a delay is over then, any other timer ends."""

from __future__ import annotations

from logiccheck.lang.program import Program, Timer, TimerKind
from logiccheck.lang.walk import memory, program_expressions
from logiccheck.report import words_why as words


def ended(program: Program, key: str) -> str:
    """It fell due: "timer prime ended"."""
    return words.timer_ended(*_named(program, key))


def ends(program: Program, key: str) -> str:
    """It falls due: "timer prime ends"."""
    return words.timer_ends(*_named(program, key))


def _named(program: Program, key: str) -> tuple[str, bool]:
    """How it is called, and whether it is a delay; the start-up of the box has no name."""
    if program.box is not None and program.box.startup is not None and program.box.startup.key == key:
        return "", True
    nodes = (node for expr in program_expressions(program) for node in memory(expr) if node.key == key)
    return key, any(isinstance(node, Timer) and node.kind is TimerKind.ON_DELAY for node in nodes)
