"""When a requirement is broken, and in which cases it says something: written from the sentence it stands for."""

from __future__ import annotations

from typing import assert_never

from logiccheck.audit.conditions import Conditions
from logiccheck.audit.gates import NO, YES, Lit
from logiccheck.audit.moment import Moment
from logiccheck.audit.observe import Observer, Seen
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import (
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Never,
    NeverLonger,
    OnlyAfter,
    Possible,
    Requirement,
    SignalKind,
    WaitsFor,
)


@frozen
class Asked:
    """`broken`: at this moment, or just after it, it is certain that the requirement does not hold (for `possible`:
    that it happens). `cases`: the situations of its form without which a proof says nothing: the `while` part; p, and
    p without what excuses it; q rising, then the p that has to last. (That an output can be on: see `ever_on`.)"""

    broken: Lit
    cases: tuple[Lit, ...] = ()


def asked(moment: Moment, requirement: Requirement) -> Asked:
    o, form = Observer(moment, requirement.name), requirement.form
    return _at_any_instant(moment, form) if isinstance(form, Never) and form.instant else _asked(o, form)


def _asked(o: Observer, form: Form) -> Asked:
    match form:
        case Never():
            return _never(o, form)
        case NeverLonger():
            return _never_longer(o, form)
        case CallsWithin():
            return _calls_within(o, form)
        case CallsLasting():
            return _calls_lasting(o, form)
        case OnlyAfter():
            return _only_after(o, form)
        case WaitsFor():
            return _waits_for(o, form)
        case Possible():
            return Asked(o.ever(o.see(form.q)))
        case _:
            assert_never(form)


def shorted(moment: Moment) -> Lit:
    """Some wire is both live and grounded."""
    values, gates = moment.settled.values, moment.gates
    wires = [wire.name for wire in moment.program.wires]
    return gates.any(gates.both(values[SignalKind.LIVE, w], values[SignalKind.GROUNDED, w]) for w in wires)


def ever_on(moment: Moment, requirement: Requirement, output: str) -> Lit:
    """An output that the requirement names is on when settled, or where every instant counts at some instant."""
    form = requirement.form
    instant = isinstance(form, Never) and form.instant
    reactions = moment.reactions if instant else [moment.settled]
    return moment.gates.any(reaction.values[SignalKind.OUTPUT, output] for reaction in reactions)


# ------------------------------------------------------------------------------------------------------------ never


def _never(o: Observer, form: Never) -> Asked:
    p = o.see(form.p)
    if form.r is None:
        return Asked(o.ever(p))
    r = o.see(form.r)
    return Asked(o.ever(o.both(p, r)), (o.ever(r),))


def _at_any_instant(moment: Moment, form: Never) -> Asked:
    """Every reaction counts."""
    gates = moment.gates
    broken, situation = [], []
    for reaction in moment.reactions:
        here = Conditions(moment.program, moment.world, reaction.values, reaction.filtered)
        r = YES if form.r is None else here.holds(form.r)
        situation.append(r)
        broken.append(gates.both(here.holds(form.p), r))
    return Asked(gates.any(broken), () if form.r is None else (gates.any(situation),))


def _never_longer(o: Observer, form: NeverLonger) -> Asked:
    """p through an interval longer than t: what is so just after moments counts, a gap of no time does not."""
    p = o.see(form.p)
    r = Seen(YES, YES) if form.r is None else o.see(form.r)
    cases = (o.ever(p),) if form.r is None else (o.ever(p), o.ever(r))
    both = o.both(p, r)
    run = o.since("run", form.time)
    o.follow(run, both.after, anew=-run.goes)
    return Asked(o.gates.either(run.passed, o.gates.both(run.reached, both.after)), cases)


# ------------------------------------------------------------------------------------------------------------ calls


def _calling(o: Observer, p_expr: Expr, r_expr: Expr | None) -> tuple[Seen, Seen, tuple[Lit, ...]]:
    """p, what excuses it, and the cases: p, and where something may excuse it, p without that."""
    p, r = o.see(p_expr), o.see(r_expr)
    if r_expr is None:
        return p, r, (o.ever(p),)
    return p, r, (o.ever(p), o.ever(o.both(p, o.denied(r))))


def _calls_within(o: Observer, form: CallsWithin) -> Asked:
    """The oldest instant with p that has no answer yet: answered at most t after it.

    It is a moment itself, or only the instants just after one are open: then an answer just after t is in time. Where
    it is not in time, the wait goes on.
    """
    gates = o.gates
    p, r, cases = _calling(o, form.p, form.r)
    answer = o.either(o.see(form.q), r)
    wait = o.since("open", form.time)
    open_at = gates.both(gates.either(wait.goes, p.at), -answer.at)
    open_after = gates.both(gates.either(open_at, p.after), -answer.after)
    goes_on = gates.both(wait.goes, open_at)
    closed = o.bit("from the moment")
    o.keep("from the moment", gates.choose(goes_on, closed, open_at))
    late_at = gates.all([wait.goes, closed, wait.reached, -answer.at])
    o.follow(wait, gates.either(open_after, late_at), anew=-goes_on)
    late_after = gates.all([wait.goes, wait.reached, -answer.at, -answer.after])
    return Asked(gates.any([wait.passed, late_at, late_after]), cases)


def _calls_lasting(o: Observer, form: CallsLasting) -> Asked:
    """The youngest instant with p asks for most: q from it on, up to but not including t later, or until r."""
    gates = o.gates
    p, r, cases = _calling(o, form.p, form.r)
    q = o.see(form.q)
    rest = o.since("rest", form.time)
    holding = o.kept("holding", gates.both(p.after, -r.after))
    lasts = gates.both(rest.goes, -rest.reached)
    needed_at = gates.both(gates.any([holding, lasts, p.at]), -r.at)
    needed_after = gates.both(gates.either(needed_at, p.after), -r.after)
    o.follow(rest, gates.both(needed_after, -p.after), anew=gates.either(holding, p.at))
    broken = gates.either(gates.both(needed_at, -q.at), gates.both(needed_after, -q.after))
    return Asked(broken, cases)


# ------------------------------------------------------------------------------------------------------------ order


def _only_after(o: Observer, form: OnlyAfter) -> Asked:
    """Each rise of q needs p (unbroken for t) in the stretch since q last fell, or since the last instant with r."""
    gates = o.gates
    q, r, p = o.see(form.q), o.see(form.r), o.see(form.p)
    had, just_before = p, NO
    if form.time is not None:
        run = o.since("lasted", form.time)
        o.follow(run, p.after, anew=-gates.both(run.goes, p.at))
        at = gates.both(p.at, run.reached)
        had, just_before = Seen(at, gates.both(at, p.after)), run.passed
    was = o.kept("was", q.after)
    seen = o.bit("seen")
    if form.r is None:
        anew = Seen(gates.both(was, -q.at), gates.both(q.at, -q.after))
        known = gates.either(seen, just_before)
    else:
        anew = r
        known = gates.either(seen, gates.both(just_before, -o.kept("since", r.after)))
    seen_at = gates.either(had.at, gates.both(known, -anew.at))
    seen_after = gates.either(had.after, gates.both(seen_at, -anew.after))
    # while r lasts, each instant has one with r after it: the stretch that counts begins where r ends
    o.keep("seen", seen_after if form.r is None else gates.both(seen_after, -r.after))
    rises = Seen(gates.both(q.at, -was), gates.both(q.after, -q.at))
    cases = (o.ever(rises),) if form.time is None else (o.ever(rises), o.ever(p))
    return Asked(gates.either(gates.both(rises.at, -seen_at), gates.both(rises.after, -seen_after)), cases)


def _waits_for(o: Observer, form: WaitsFor) -> Asked:
    """From each instant with p (from the start) to the first r, which may fall on it, no q."""
    gates = o.gates
    q, r, p = o.see(form.q), o.see(form.r), o.see(form.p)
    waiting = o.bit("waiting")
    if form.p is None:
        waiting = gates.either(waiting, o.first)
    at = gates.both(gates.either(waiting, p.at), -r.at)
    after = gates.both(gates.either(at, p.after), -r.after)
    o.keep("waiting", after)
    cases = () if form.p is None else (o.ever(p),)
    return Asked(gates.either(gates.both(at, q.at), gates.both(after, q.after)), cases)
