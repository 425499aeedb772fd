"""One sentence for what became of a requirement: how it went wrong, or why there is no plain yes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import TypeAlias, assert_never

from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.lang.program import (
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Guard,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Possible,
    WaitsFor,
)
from logiccheck.report.durations import said

Say: TypeAlias = Callable[[Expr], str]  # a part of a requirement in the user's own words

GUARDS = {
    Guard.DANGER: "guards against danger to people",
    Guard.DAMAGE: "guards against damage",
    Guard.FUNCTION: "guards a function",
}

OBSTACLES = {
    Obstacle.CONTRADICTION: "No verdict: what is given contradicts itself, so it would hold for any rules at all.",
    Obstacle.TIME_STOPS: "No verdict: what is given brings time to a stop, so what comes later was never looked at.",
    Obstacle.UNSETTLED: "No verdict: the rules or relays can chase each other for ever, as shown above.",
    Obstacle.UNSETTLED_UNKNOWN: "No verdict: whether the rules and relays always come to rest was not decided.",
}

UNDECIDED = {
    Undecided.TIMER_ARITHMETIC: "Not decided: the answer hangs on how long several timers take together.",
    Undecided.BUDGET: "Not decided: the time for it ran out. More time: --budget SECONDS.",
    Undecided.TIME_MAY_STOP: "Not decided: whether what is given always lets time go on was not decided.",
    Undecided.INTERRUPTED: "Not decided: the run was interrupted.",
}

PROVED = "Proved for all situations, orders and timings."
WITNESS = "It can happen, and this is how:"


def no_case(empty: str) -> str:
    """Proved, but of nothing."""
    return f"Holds, but says nothing: this can never be so: {empty}"


def covered(moments: int) -> str:
    """How far an undecided requirement was searched."""
    return f"Covered so far: no story of {moments} or fewer moments breaks it."


def went_wrong(form: Form, say: Say, end: Fraction | int) -> str:
    """What the story that ends at `end` (microseconds) comes to, in one sentence."""
    match form:
        case Never():
            return _never(form, say, end)
        case NeverLonger(p=p, r=r, time=time):
            since = said(end - time)
            return f"Unbroken since {since}, and so for longer than {said(time)}: {say(p)}{_while(r, say)}."
        case CallsWithin(p=p, q=q, time=time, r=r):
            excuse = f", nor is it excused by: {say(r)}" if r is not None else ""
            return f"At {said(end - time)} there is {say(p)}. Within {said(time)} of it there is no {say(q)}{excuse}."
        case CallsLasting(p=p, q=q, time=time):
            return f"At {said(end)} there is no {say(q)}, less than {said(time)} after: {say(p)}."
        case OnlyAfter(q=q, p=p, time=lasting, r=r):
            unbroken = f" for {said(lasting)} unbroken" if lasting is not None else ""
            since_r = f" since {say(r)}" if r is not None else ""
            return f"At {said(end)} comes {say(q)}. Before it there was no {say(p)}{unbroken}{since_r}."
        case WaitsFor(q=q, r=r, p=p):
            after = f" since {say(p)}" if p is not None else ""
            return f"At {said(end)} there is {say(q)}. There was no {say(r)} yet{after}."
        case Possible(q=q):
            return f"This can never happen: {say(q)}. That is proved for all situations, orders and timings."
        case _:
            assert_never(form)


def short_circuit(wires: Sequence[str], end: Fraction | int) -> str:
    """The built-in requirement, broken."""
    return f"At {said(end)} these wires are live and grounded at once: {', '.join(wires)}."


def _never(form: Never, say: Say, end: Fraction | int) -> str:
    instant = ", if only for an instant" if form.instant else ""
    if form.always and isinstance(form.p, Not):
        return f"At {said(end)} this does not hold{instant}: {say(form.p.x)}{_while(form.r, say)}."
    return f"At {said(end)} this happens{instant}: {say(form.p)}{_while(form.r, say)}."


def _while(r: Expr | None, say: Say) -> str:
    return f", while {say(r)}" if r is not None else ""
