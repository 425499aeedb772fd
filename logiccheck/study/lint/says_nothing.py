"""Finds requirements that any vehicle meets, because they excuse themselves or ask for what is so anyway."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import (
    And,
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Guard,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Or,
    Possible,
    Program,
    WaitsFor,
)
from logiccheck.lang.walk import form_expressions, references
from logiccheck.study.alike import shape
from logiccheck.study.contradicting import cannot_be


@frozen
class SaysNothing(FindingMessage):
    """Whatever is changed in the rules, this line of the sheet stays green.

    What it means
    The requirement excuses itself, or asks for what is so by its own words: any vehicle meets it.

    Write
    requirements
        function answers key is run calls for lamp no later than 0.2 s, excused by door is open
        function lamp_at_all possible lamp and door is open

    Instead of
    requirements
        function answers key is run calls for lamp no later than 0.2 s, excused by key is run
        function lamp_at_all possible lamp

    When to accept it
    There is no reason to keep it.
    """

    word: str
    why: str

    code, name, title = "W112", "says-nothing", "A requirement that any vehicle meets"
    guards = Guard.FUNCTION

    def sentence(self) -> str:
        return f"`{self.word}` holds for any rules at all: {self.why}."

    def hint(self) -> str:
        return "Say what is really meant."


def find(program: Program) -> Iterator[Finding]:
    """One for each such requirement, in the order written."""
    for each in program.requirements:
        if (why := _why(program, each.form)) is not None:
            names = dict.fromkeys(leaf.name for expr in form_expressions(each.form) for leaf in references(expr))
            said = Diagnostic(SaysNothing(each.name, why), each.span)
            yield Finding(said, (each.name, *names), guarding=each.guard)


def _why(program: Program, form: Form) -> str | None:
    """Why it holds for any rules, where its own words say so."""
    match form:
        case Never(p=p, r=r) | NeverLonger(p=p, r=r) if r is not None and _alike(p, Not(r)):
            return "what must never be cannot be while the rest is so"
        case CallsWithin(p=p, r=r) | CallsLasting(p=p, r=r) if r is not None and _alike(p, r):
            return "what calls is excused by itself"
        case CallsWithin(q=q, r=r) | CallsLasting(q=q, r=r) if r is not None and _alike(Not(q), r):
            return "what is called for is excused by its own absence"
        case CallsWithin(p=p, q=q) if _alike(p, q):
            return "what calls is called for itself"
        case OnlyAfter(q=q, p=p, time=None) if _alike(q, p):
            return "it waits for itself"
        case WaitsFor(q=q, r=r) if _alike(q, r):
            return "it waits for itself"
        case WaitsFor(r=r, p=p) if p is not None and _alike(p, r):
            return "the wait ends as it begins"
        case _:
            return _by_logic(program, form)


def _by_logic(program: Program, form: Form) -> str | None:
    """Why it holds whatever its parts are."""
    match form:
        case Never(p=p, r=r) | NeverLonger(p=p, r=r) if cannot_be(program, p if r is None else And((p, r))):
            if r is not None and cannot_be(program, r):
                return None  # a situation that never occurs is told with the verdict
            return "what must never be contradicts itself"
        case CallsWithin(q=q, r=r) | CallsLasting(q=q, r=r) if cannot_be(program, Not(q if r is None else Or((q, r)))):
            return "what is called for, or excuses it, is always so"
        case Possible(q=q) if cannot_be(program, Not(q)):
            return "what shall be possible is always so"
        case _:
            return None


def _alike(one: Expr, other: Expr) -> bool:
    return shape(one) == shape(other)
