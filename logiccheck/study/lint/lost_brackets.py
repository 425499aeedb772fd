"""Finds an `or` without brackets whose last part alone, or first part alone, has the exception: `a or b and not c`."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import And, Expr, Guard, Not, Or, Program, Signal
from logiccheck.lang.walk import condition_of, references, subexpressions

PLAIN = len(" or ")  # characters from one part to the next where no bracket stands between


@frozen
class LostBrackets(FindingMessage):
    """The crash switch stops the pump while it runs up, and not while the engine runs.

    What it means
    `and` binds more tightly than `or`: in `a or b and not c` the `not c` is about `b` alone. Here `a` never asks for
    `c`, and another rule or output takes `not c` for an exception from all of it. Looked at is what stands on one line.

    Write
    output pump "Fuel pump" when (cranking or key_on) and not door_open
    output starter when cranking and not door_open

    Instead of
    output pump "Fuel pump" when cranking or key_on and not door_open
    output starter when cranking and not door_open

    When to accept it
    Never needed: with brackets around the part that is meant, `a or (b and not c)`, nothing is found.
    """

    exception: str
    holder: str
    others: int

    code, name, title = "W107", "lost-brackets", "An exception for one part of an `or`"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        where = "the last" if self.others > 0 else "the first"
        parts = abs(self.others)
        rest = "the other part" if parts == 1 else f"the other parts ({parts})"
        return f"In `{self.holder}` the `not {self.exception}` is about {where} part of the `or` alone, not {rest}."

    def second(self) -> str:
        return "Here it is about all of it"

    def hint(self) -> str:
        return "Put brackets around the `or` if it is meant for all of it, or around the part if for that alone."


def find(program: Program) -> Iterator[Finding]:
    """One for each such `or`, in the order of the box."""
    rules = program.box.rules if program.box is not None else ()
    tops = {rule.name: condition_of(rule) for rule in rules}
    for name, top in tops.items():
        for expr in subexpressions(top):
            if isinstance(expr, Or) and (found := _exception(expr)) is not None:
                exception, last = found
                elsewhere = [place for other, e in tops.items() if other != name for place in _of_all(e, exception)]
                if elsewhere:
                    others = len(expr.parts) - 1
                    message = LostBrackets(exception.name, name, others if last else -others)
                    yield Finding(Diagnostic(message, expr.span, elsewhere[0]), (name, exception.name))


def _of_all(expr: Expr, exception: Signal) -> Iterator[Span]:
    """Where the same is an exception from all of another rule."""
    for part in expr.parts if isinstance(expr, And) else ():
        if isinstance(part, Not) and part.x == exception:
            yield part.span


def _exception(expr: Or) -> tuple[Signal, bool] | None:
    """The name at the end of the last part, or at the begin of the first, that only this part asks not to be so."""
    *early, last = expr.parts
    first, *late = expr.parts
    for part, others, at, beside in ((last, early, -1, early[-1]), (first, late, 0, late[0])):
        if isinstance(part, And) and _gap(part, beside) == PLAIN:
            end = part.parts[at]
            if isinstance(end, Not) and isinstance(end.x, Signal) and not _asks(others, end.x.name):
                return end.x, at == -1
    return None


def _gap(part: Expr, beside: Expr) -> int:
    """Characters between two neighbours: more than `or` and two blanks where there are brackets, or a line ends."""
    left, right = sorted((part.span, beside.span), key=lambda span: span.begin)
    return right.begin - left.end


def _asks(parts: list[Expr], name: str) -> bool:
    """Some of these parts names it, or has an exception of its own."""
    negated = any(isinstance(each, Not) for part in parts for each in subexpressions(part))
    return negated or any(leaf.name == name for part in parts for leaf in references(part))
