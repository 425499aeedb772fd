"""Which single terms, had they read the other way, would have turned a signal: the nearest lines that hold such terms.

A term reads the other way from just after the situation on, in the one place where it is marked; all else is as it is.
What then settles is asked of the reference interpreter. What nothing that is written can make otherwise is no such
term. A line is the nearer, the fewer lines lie between.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.facts import fixed
from logiccheck.explain.lines import Line, levels
from logiccheck.explain.onward import Onward
from logiccheck.explain.part import part_of
from logiccheck.explain.situation import Asked, Situation
from logiccheck.explain.spots import with_another
from logiccheck.lang.program import And, AtMostOne, Const, Expr, Not, Or, Program, Xor
from logiccheck.model.interpreter import Machine
from logiccheck.model.truth import is_filter, operands


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
                for term in _terms(line.expr)
                if term.span != NOWHERE
                and not fixed(situation.program, situation.values, term)
                and _turned_in((line, whole[id(line.expr)]), term, situation, asked)
            ]
            found += [Otherwise(line.name, tuple(terms), far)] if terms else []
        if found and not every:
            break
    return tuple(found)


def _turned_in(lines: Iterable[Line], term: Expr, situation: Situation, asked: Asked) -> bool:
    """Whether the term, turned, turns the signal in the part that can matter, and where all else has to settle, too."""
    return all(_turns(line.put(with_another(line.expr, term, Not(term))), situation, asked) for line in lines)


def _turns(program: Program, situation: Situation, asked: Asked) -> bool:
    """Whether in this program the signal is otherwise just after the situation, when all has settled."""
    done, point = Onward(Machine(program), situation).hands([situation.played.world])
    return point is not None and done[-1].moment.settled.holds(asked.on) != situation.values.holds(asked.on)


def _terms(expr: Expr) -> Iterator[Expr]:
    """Each term, also inside what remembers; of a filter not what is inside."""
    if not isinstance(expr, Const | Not | And | Or | Xor | AtMostOne):
        yield expr
    if not is_filter(expr):
        for part in operands(expr):
            yield from _terms(part)
