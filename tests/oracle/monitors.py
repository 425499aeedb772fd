"""Requirements and assumptions as small finite monitors, each written from the sentence it stands for.

A monitor reads the truth of its expressions at every instant that matters (`watch.Phase` tells which) and keeps a
state of its own. Its own time t is one clock: a step may start it, `ticking` says of a state whether it runs, and
`due` tells a step that exactly t has passed. That a clock ends is silent: no moment, unless something else falls there.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import TypeAlias

from logiccheck.lang.program import (
    AfterLasting,
    CallsLasting,
    CallsWithin,
    ChangesOnlyWhile,
    Excluded,
    Expr,
    Form,
    Given,
    LastsAtLeast,
    LastsAtMost,
    Micros,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Possible,
    WaitsFor,
)
from tests.oracle.watch import Phase

State: TypeAlias = Hashable
Truths: TypeAlias = Mapping[str, bool]


class Finding(Enum):
    """What a monitor says of an instant; a story that is `CUT` is none: it does not meet what is given."""

    FINE = "fine"
    WRONG = "wrong"  # at this instant
    OVERDUE = "overdue"  # just after it
    CUT = "cut"


@dataclass(frozen=True)
class Step:
    state: State
    started: bool = False  # the own clock starts at this instant (anew, if it was running)
    finding: Finding = Finding.FINE
    seen: tuple[str, ...] = ()  # which situations that make a case occur here, beside the truths of `cases`


class Monitor:
    """One requirement or assumption; `exprs` are read at each look, and where one of `cases` holds, it occurs."""

    exprs: dict[str, Expr]
    cases: tuple[str, ...] = ()  # keys of `exprs`, or what steps report as seen: without them there is no case
    time: Micros | None = None
    begin: State = None

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        raise NotImplementedError

    def ticking(self, state: State) -> bool:
        """Whether the own clock runs in this state."""
        return False


def present(**exprs: Expr | None) -> dict[str, Expr]:
    return {key: expr for key, expr in exprs.items() if expr is not None}


# ----------------------------------------------------------------------------------------------------- requirements


class NeverMonitor(Monitor):
    """never p [while r]; `even for an instant` is looked at by the explorer in every reaction instead."""

    def __init__(self, form: Never) -> None:
        self.exprs = present(p=form.p, r=form.r)
        self.cases = ("r",) if form.r else ()

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        return Step(state, finding=Finding.WRONG if v["p"] and v.get("r", True) else Finding.FINE)


class LongerMonitor(Monitor):
    """never p [while r] for longer than t: p through no interval longer than t; instants alone are no interval.

    States: out, in (the clock runs since the interval began), full (it has lasted exactly t, this instant included).
    """

    begin = "out"

    def __init__(self, form: NeverLonger) -> None:
        self.exprs = present(p=form.p, r=form.r)
        self.cases = ("p", "r") if form.r else ("p",)
        self.time = form.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        if phase is not Phase.AFTER:
            return Step("full" if due else state)
        if not (v["p"] and v.get("r", True)):
            return Step("out")
        if state == "full":
            return Step("full", finding=Finding.OVERDUE)
        return Step("in", started=state == "out")

    def ticking(self, state: State) -> bool:
        return state == "in"


class WithinMonitor(Monitor):
    """p calls for q no later than t [excused by r]: the oldest unanswered instant counts, and must be answered by t.

    States: idle; closed (unanswered since an instant with p), open (since just after an instant); the same with
    "full" in front when exactly t has passed. Of an open wait every instant with p lies later than its begin, so an
    answer that begins just after t is still in time.
    """

    begin = "idle"

    def __init__(self, form: CallsWithin) -> None:
        self.exprs = present(p=form.p, q=form.q, r=form.r)
        self.cases = ("p", "p without r") if form.r else ("p",)
        self.time = form.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        seen = ("p without r",) if v["p"] and not v.get("r", False) else ()
        if due:
            assert phase is Phase.MOMENT
            state = f"full {state}"
        if v["q"] or v.get("r", False):
            return Step("idle", seen=seen)
        if state == "full closed" or (state == "full open" and phase is Phase.AFTER):
            return Step(state, finding=Finding.OVERDUE, seen=seen)
        if state == "idle" and v["p"]:
            return Step("open" if phase is Phase.AFTER else "closed", started=True, seen=seen)
        return Step(state, seen=seen)

    def ticking(self, state: State) -> bool:
        return state in ("closed", "open")


class LastingMonitor(Monitor):
    """p calls for q lasting t [excused by r]: from each instant with p, q holds until t has passed, or until r.

    The youngest instant with p asks for most. States: idle; held (p goes on, the clock stands at 0); asked (it runs).
    Asked for is q up to, not including, the instant t later.
    """

    begin = "idle"

    def __init__(self, form: CallsLasting) -> None:
        self.exprs = present(p=form.p, q=form.q, r=form.r)
        self.cases = ("p", "p without r") if form.r else ("p",)
        self.time = form.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        seen = ("p without r",) if v["p"] and not v.get("r", False) else ()
        started = False
        if due:
            state = "idle"
        if v.get("r", False):
            state = "idle"
        elif v["p"]:
            state = "held"
        elif state == "held":
            state, started = "asked", True
        wrong = state != "idle" and not v["q"]
        return Step(state, started, Finding.WRONG if wrong else Finding.FINE, seen)

    def ticking(self, state: State) -> bool:
        return state == "asked"


class OnlyAfterMonitor(Monitor):
    """q only after p [has lasted t] [since r].

    State: (q before, p has been so in the stretch that counts, p: "" or "runs" or "long"). The stretch begins at the
    instant at which q last fell; with `since`, at the last instant with r; else at time 0. A stretch of time in which r
    holds has no last instant: what counts begins where it ends.
    """

    begin = (False, False, "")

    def __init__(self, form: OnlyAfter) -> None:
        self.exprs = present(q=form.q, p=form.p, r=form.r)
        self.cases = ("q rises",)
        self.time = form.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        assert isinstance(state, tuple)
        q_before, had, run = state
        if self.time is None:
            has = v["p"]
        else:
            run = "" if not v["p"] else "long" if due or run == "long" else "runs"
            has = run == "long"
        started = run == "runs" and state[2] == ""
        if "r" in v:
            had = has or (had and not v["r"])
        elif not q_before:
            had = had or has
        elif not v["q"]:
            had = has
        rise = v["q"] and not q_before
        wrong = rise and not had
        if phase is Phase.AFTER and v.get("r", False):
            had = False  # after every instant so far comes a later one with r
        return Step((v["q"], had, run), started, Finding.WRONG if wrong else Finding.FINE, ("q rises",) if rise else ())

    def ticking(self, state: State) -> bool:
        assert isinstance(state, tuple)
        return self.time is not None and state[2] == "runs"


class WaitsMonitor(Monitor):
    """q waits for r [after p]; the state: waiting or not."""

    def __init__(self, form: WaitsFor) -> None:
        self.exprs = present(q=form.q, r=form.r, p=form.p)
        self.cases = ("p",) if form.p else ()
        self.begin = form.p is None

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        waiting = (bool(state) or v.get("p", False)) and not v["r"]
        return Step(waiting, finding=Finding.WRONG if waiting and v["q"] else Finding.FINE)


class PossibleMonitor(Monitor):
    """possible q: here `WRONG` is the witness."""

    def __init__(self, form: Possible) -> None:
        self.exprs = present(q=form.q)

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        return Step(state, finding=Finding.WRONG if v["q"] else Finding.FINE)


def monitor_of(form: Form) -> Monitor:
    """The monitor of a requirement."""
    match form:
        case Never():
            return NeverMonitor(form)
        case NeverLonger():
            return LongerMonitor(form)
        case CallsWithin():
            return WithinMonitor(form)
        case CallsLasting():
            return LastingMonitor(form)
        case OnlyAfter():
            return OnlyAfterMonitor(form)
        case WaitsFor():
            return WaitsMonitor(form)
        case Possible():
            return PossibleMonitor(form)


# ------------------------------------------------------------------------------------------------------ assumptions


class ExcludedMonitor(Monitor):
    """never p, of the world: it changes at moments only."""

    def __init__(self, given: Excluded) -> None:
        self.exprs = present(p=given.p)

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        return Step(state, finding=Finding.CUT if v["p"] else Finding.FINE)


class AtLeastMonitor(Monitor):
    """p lasts at least t. States: out; in (too short so far); free (long enough, or under way since time 0)."""

    begin = "out"

    def __init__(self, given: LastsAtLeast) -> None:
        self.exprs = present(p=given.p)
        self.time = given.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        if phase is Phase.START:
            return Step("free" if v["p"] else "out")
        if due:
            state = "free"
        if v["p"]:
            return Step("in", started=True) if state == "out" else Step(state)
        return Step("out", finding=Finding.CUT if state == "in" else Finding.FINE)

    def ticking(self, state: State) -> bool:
        return state == "in"


class AtMostMonitor(Monitor):
    """p lasts at most t: over at begin + t at the latest; a run at time 0 began there. The state: p."""

    begin = False

    def __init__(self, given: LastsAtMost) -> None:
        self.exprs = present(p=given.p)
        self.time = given.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        started = v["p"] and not state
        return Step(v["p"], started, Finding.CUT if due and v["p"] else Finding.FINE)

    def ticking(self, state: State) -> bool:
        return bool(state)


class ChangesMonitor(Monitor):
    """A variable changes only while y; the state: y just before the next moment. The explorer asks `allows` first."""

    def __init__(self, given: ChangesOnlyWhile) -> None:
        self.exprs = present(y=given.y)
        self.name = given.name

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        return Step(v["y"])


class AfterMonitor(Monitor):
    """c after p has lasted t. States: out, in (p goes on, not long enough yet), long (c is demanded)."""

    begin = "out"

    def __init__(self, given: AfterLasting) -> None:
        self.exprs = present(c=given.c, p=given.p)
        self.time = given.time

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        if not v["p"]:
            return Step("out")
        if due or state == "long":
            return Step("long", finding=Finding.FINE if v["c"] else Finding.CUT)
        return Step("in", started=state == "out")

    def ticking(self, state: State) -> bool:
        return state == "in"


def monitor_of_given(given: Given) -> Monitor:
    """The monitor of an assumption."""
    match given:
        case Excluded():
            return ExcludedMonitor(given)
        case LastsAtLeast():
            return AtLeastMonitor(given)
        case LastsAtMost():
            return AtMostMonitor(given)
        case ChangesOnlyWhile():
            return ChangesMonitor(given)
        case AfterLasting():
            return AfterMonitor(given)


def at_first(fact: Expr) -> Monitor:
    """A fact of the world at time 0."""
    return StartMonitor(fact)


class StartMonitor(Monitor):
    """What is so `at first`."""

    def __init__(self, fact: Expr) -> None:
        self.exprs = {"missing": Not(fact)}

    def step(self, state: State, phase: Phase, v: Truths, due: bool) -> Step:
        return Step(state, finding=Finding.CUT if phase is Phase.START and v["missing"] else Finding.FINE)
