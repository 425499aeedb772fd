"""One sentence for what became of a requirement: how it went wrong, or why there is no plain yes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
from logiccheck.model.signals import Instant
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
    Undecided.MEMORY: "Not decided: the memory for it ran out. More memory: --memory MB.",
    Undecided.TIME_MAY_STOP: (
        "Not decided: whether what is given can bring time to a stop could not be found out, and more time does not "
        "help. Give less: see `logiccheck about not-decided`."
    ),
    Undecided.TIME_MAY_STOP_BUDGET: (
        "Not decided: the time to find out whether what is given can bring time to a stop ran out. "
        "More time: --budget SECONDS."
    ),
    Undecided.LOST: "Not decided: the process that looked at it ended without an answer. Try again with fewer --jobs.",
    Undecided.INTERRUPTED: "Not decided: the run was interrupted.",
    Undecided.OUR_BUG: "Not decided: here logiccheck itself broke off. This is our bug, not a mistake in your file.",
}

PROVED = "Proved for all situations, orders and timings."
WITNESS = "It can happen, and this is how:"


def no_case(empty: str) -> str:
    """Proved, but of nothing."""
    return f"Holds, but says nothing: this can never be so: {empty}"


def in_doubt(lines: Sequence[str]) -> str:
    """The lines of what is given that may bring time to a stop."""
    return f"In doubt: {', '.join(f'`{line}`' for line in lines)}."


def time_used(name: str, seconds: float, engines: Sequence[str]) -> str:
    """How long a requirement took, and which engines decided it; none where a look was enough, or none did."""
    decided = f" Decided by: {', '.join(engines)}." if engines else ""
    return f"Time for {name}: {seconds:.1f} s.{decided}"


def covered(moments: int) -> str:
    """How far an undecided requirement was searched."""
    return f"Covered so far: no story of {moments} or fewer moments breaks it."


def believed(names: Sequence[str]) -> str:
    """Senses and rules that a requirement names."""
    return f"What counts here is what the box believes, whether it is so or not: {', '.join(names)}."


def went_wrong(form: Form, say: Say, end: Instant) -> str:
    """What the story that ends at `end` comes to, in one sentence."""
    match form:
        case Never():
            return _never(form, say, end)
        case NeverLonger(p=p, r=r, time=time):
            since = said(end.time - time)
            return f"Unbroken since {since}, and so for longer than {said(time)}: {say(p)}{_while(r, say)}."
        case CallsWithin(p=p, q=q, time=time, r=r):
            begin = f"At {said(end.time - time)} this happens: {say(p)}."
            return f"{begin} Within {said(time)} of it this does not follow: {say(q)}.{_no_excuse(r, say)}"
        case CallsLasting(p=p, q=q, time=time, r=r):
            asked = f"It has to last {said(time)} from every instant with: {say(p)}."
            return f"{_at(end)} this is not so: {say(q)}. {asked}{_no_excuse(r, say)}"
        case OnlyAfter(q=q, p=p, time=lasting, r=r):
            unbroken = f", unbroken for {said(lasting)}" if lasting is not None else ""
            since = "since it last ended" if r is None else f"since the last instant with: {say(r)}"
            needed = f"It needs before it{unbroken}: {say(p)}."
            return f"{_at(end)} this begins: {say(q)}. {needed} There was none since the start, or {since}."
        case WaitsFor(q=q, r=r, p=p):
            wait = "It has to wait" if p is None else f"Since this: {say(p)}, it has to wait"
            return f"{_at(end)} this is so: {say(q)}. {wait} for this, which has not come: {say(r)}."
        case Possible(q=q):
            return f"This can never happen: {say(q)}. That is proved for all situations, orders and timings."
        case _:
            assert_never(form)


def _at(end: Instant) -> str:
    return f"{'Just after' if end.after else 'At'} {said(end.time)}"


def _no_excuse(r: Expr | None, say: Say) -> str:
    return f" Nor does this excuse it: {say(r)}." if r is not None else ""


def short_circuit(wires: Sequence[str], end: Instant) -> str:
    """The built-in requirement, broken."""
    return f"{_at(end)} these wires are live and grounded at once: {', '.join(wires)}."


def _never(form: Never, say: Say, end: Instant) -> str:
    instant = ", if only for an instant" if form.instant else ""
    if form.always and isinstance(form.p, Not):
        return f"{_at(end)} this does not hold{instant}: {say(form.p.x)}{_while(form.r, say)}."
    return f"{_at(end)} this happens{instant}: {say(form.p)}{_while(form.r, say)}."


def _while(r: Expr | None, say: Say) -> str:
    return f", while {say(r)}" if r is not None else ""
