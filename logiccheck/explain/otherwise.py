"""Which single terms, had they read the other way, would have turned a signal: the nearest lines that hold such terms.

A term reads the other way from just after the situation on, in the one place where it is marked; all else is as it is.
What then settles is asked of the reference interpreter. What nothing that is written can make otherwise is no such
term. A line is the nearer, the fewer lines lie between.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.facts import fixed
from logiccheck.explain.lines import levels
from logiccheck.explain.onward import Onward
from logiccheck.explain.part import part_of
from logiccheck.explain.situation import Asked, Situation
from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Or,
    Position,
    Previous,
    Program,
    Signal,
    Timer,
    TimerKind,
    Xor,
)
from logiccheck.model.interpreter import Machine


@frozen
class Otherwise:
    """Terms of the line of `name`, each of which alone would have turned the signal; `far`: lines between, from 0."""

    name: str
    terms: tuple[Expr, ...]  # all written somewhere, in one file
    far: int

    @property
    def spans(self) -> tuple[Span, ...]:
        return tuple(term.span for term in self.terms)

    @property
    def file(self) -> str:
        return self.terms[0].span.file


def otherwise(situation: Situation, asked: Asked, every: bool) -> tuple[Otherwise, ...]:
    """The lines nearest to the signal that hold such terms, or `every` line that does, the nearest first."""
    part = part_of(situation.program, asked.on).program
    whole = {id(line.expr): line for lines in levels(situation.program, asked.on) for line in lines}
    found: list[Otherwise] = []
    for far, lines in enumerate(levels(part, asked.on)):
        for line in lines:
            terms = [
                term
                for term, turned in _each_turned(line.expr)
                if term.span != NOWHERE
                and not fixed(situation.program, situation.values, term)
                and _turns(line.put(turned), situation, asked)
                and _turns(whole[id(line.expr)].put(turned), situation, asked)  # where all else has to settle, too
            ]
            found += [Otherwise(line.name, tuple(terms), far)] if terms else []
        if found and not every:
            break
    return tuple(found)


def _turns(program: Program, situation: Situation, asked: Asked) -> bool:
    """Whether in this program the signal is otherwise just after the situation, when all has settled."""
    done, point = Onward(Machine(program), situation).hands([situation.played.world])
    return point is not None and done[-1].moment.settled.holds(asked.on) != situation.values.holds(asked.on)


def _each_turned(expr: Expr) -> Iterator[tuple[Expr, Expr]]:
    """Each term, also inside what remembers, and the expression with it turned in this one place."""
    match expr:
        case Const():
            return
        case Signal() | Position() | Compare() | Timer(kind=TimerKind.FILTER):
            yield expr, Not(expr)
        case Not(x=x):
            yield from ((term, replace(expr, x=turned)) for term, turned in _each_turned(x))
        case And(parts=parts) | Or(parts=parts) | AtMostOne(parts=parts):
            for at, part in enumerate(parts):
                for term, turned in _each_turned(part):
                    yield term, replace(expr, parts=(*parts[:at], turned, *parts[at + 1 :]))
        case Xor(left=left, right=right):
            yield from ((term, replace(expr, left=turned)) for term, turned in _each_turned(left))
            yield from ((term, replace(expr, right=turned)) for term, turned in _each_turned(right))
        case Timer(x=x) | Blink(x=x) | Edge(x=x) | Previous(x=x):
            yield expr, Not(expr)
            yield from ((term, replace(expr, x=turned)) for term, turned in _each_turned(x))
        case Bistable(set=set_, reset=reset):
            yield expr, Not(expr)
            yield from ((term, replace(expr, set=turned)) for term, turned in _each_turned(set_))
            yield from ((term, replace(expr, reset=turned)) for term, turned in _each_turned(reset))
        case Impulse(x=x, reset=reset):
            yield expr, Not(expr)
            yield from ((term, replace(expr, x=turned)) for term, turned in _each_turned(x))
            yield from ((term, replace(expr, reset=turned)) for term, turned in _each_turned(reset))
        case _:
            assert_never(expr)
