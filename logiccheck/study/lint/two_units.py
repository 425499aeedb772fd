"""Finds two rules of one pattern whose times are as far apart as two units are: 5 s here, 5 min there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Compare, Expr, Guard, Output, Position, Program, Rule, Signal, Timer
from logiccheck.lang.walk import children, condition_of, subexpressions

APART = (60, 1000, 3600)  # s and min, ms and s, s and h
FEWEST = 2  # names in a rule before its pattern says anything


@frozen
class TwoUnits(FindingMessage):
    """The step is pulled in for five seconds, and let down for five minutes.

    What it means
    Two rules have one pattern with other names, and a time of the one is 60, 1000 or 3600 times that of the other, as
    it is when the number is the same and the unit is not.

    Write
    output up   when key_on    and not on_delay(key_on, 5 s)
    output down when door_open and not on_delay(door_open, 5 s)

    Instead of
    output up   when key_on    and not on_delay(key_on, 5 s)
    output down when door_open and not on_delay(door_open, 5 min)

    When to accept it
    Where the two are meant to take so different times.
    """

    word: str
    other: str

    code, name, title = "W118", "two-units", "One number, two units"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"`{self.word}` and `{self.other}` have one pattern, and times as far apart as two units are."

    def second(self) -> str:
        return "The other time"

    def hint(self) -> str:
        return "Is one of the two units mistyped?"


def find(program: Program) -> Iterator[Finding]:
    """One for each rule of a pattern that an earlier one has, with such times."""
    earlier: dict[Pattern, list[Rule | Output]] = {}
    for rule in program.box.rules if program.box is not None else ():
        if len([leaf for leaf in subexpressions(condition_of(rule)) if isinstance(leaf, _LEAVES)]) < FEWEST:
            continue
        others = earlier.setdefault(_pattern(condition_of(rule), {}), [])
        pairs = ((other, times) for other in others for times in _far_apart(rule, other))
        for other, (here, there) in list(pairs)[:1]:
            message = TwoUnits(rule.name, other.name)
            yield Finding(Diagnostic(message, here.span, there.span), (rule.name, other.name))
        others.append(rule)


def _far_apart(rule: Rule | Output, other: Rule | Output) -> Iterator[tuple[Timer, Timer]]:
    for here, there in zip(_timers(condition_of(rule)), _timers(condition_of(other)), strict=True):
        less, more = sorted((here.window.nominal, there.window.nominal))
        if more in [less * times for times in APART]:
            yield here, there


Pattern: TypeAlias = tuple[object, ...]
_LEAVES = (Signal, Position, Compare)


def _timers(expr: Expr) -> list[Timer]:
    return [node for node in subexpressions(expr) if isinstance(node, Timer)]


def _pattern(expr: Expr, names: dict[str, int]) -> Pattern:
    """The same for expressions that differ only in names, numbers and times; equal names have to be equal, too."""
    if isinstance(expr, _LEAVES):
        return (type(expr).__name__, names.setdefault(expr.name, len(names)))
    kind = (expr.kind.value,) if isinstance(expr, Timer) else ()
    return (type(expr).__name__, *kind, *(_pattern(each, names) for each in children(expr)))
