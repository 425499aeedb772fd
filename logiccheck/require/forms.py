"""What makes each form of requirement fail, as a circuit: an observer with a literal that is true when it is broken.

The own time of a form is a silent watch: it makes no moment of its own. What has become overdue shows in the moment
just after, whatever that moment brings.
"""

from __future__ import annotations

from typing import assert_never

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import (
    And,
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Micros,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Possible,
    WaitsFor,
)
from logiccheck.model.circuit.aig import FALSE, TRUE, Lit
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.reaction import Evaluator
from logiccheck.model.circuit.store import Store
from logiccheck.require.observe import Observer, Seen


@frozen
class Case:
    """A situation that must be able to occur, or a proof of the requirement says nothing."""

    part: Expr
    occurs: Lit


@frozen
class Breach:
    """`now`: broken at this moment. `overdue`: broken since before this moment, by something that was due by then."""

    now: Lit
    overdue: Lit = FALSE
    cases: tuple[Case, ...] = ()


def breach(moment: Moment, name: str, form: Form) -> Breach:
    """The observer of one requirement; for `possible` the breach is that it happens."""
    o = Observer(moment, name)
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
            return Breach(o.sometime(o.see(form.q)))
        case _:
            assert_never(form)


def _case(o: Observer, part: Expr, seen: Seen) -> Case:
    return Case(part, o.sometime(seen))


def _unexcused(o: Observer, form: CallsWithin | CallsLasting, p: Seen, r: Seen) -> tuple[Case, ...]:
    """p must be able to occur, and also without what excuses it."""
    whole = _case(o, form.p, p)
    if form.r is None:
        return (whole,)
    alone = Seen(o.aig.both(p.at, r.at ^ 1), o.aig.both(p.after, r.after ^ 1))
    return (whole, _case(o, And((form.p, Not(form.r))), alone))


def _never(o: Observer, form: Never) -> Breach:
    if form.instant:
        return _never_even_for_an_instant(o, form)
    p = o.see(form.p)
    if form.r is None:
        return Breach(o.sometime(p))
    r = o.see(form.r)
    return Breach(o.sometime(o.both(p, r)), cases=(_case(o, form.r, r),))


def _never_even_for_an_instant(o: Observer, form: Never) -> Breach:
    moment = o.moment
    broken = occurs = FALSE
    for reaction in moment.reactions:
        here = Evaluator(moment.forms, Store(moment.system), reaction.signals, TRUE, moment.program)
        r = TRUE if form.r is None else here.value(form.r)
        broken = o.aig.either(broken, o.aig.both(here.value(form.p), r))
        occurs = o.aig.either(occurs, r)
    return Breach(broken, cases=() if form.r is None else (Case(form.r, occurs),))


def _never_longer(o: Observer, form: NeverLonger) -> Breach:
    """A gap that lasts no time does not end the run, so only what is so after a moment counts."""
    p = o.see(form.p)
    cases = [_case(o, form.p, p)]
    if form.r is not None:
        r = o.see(form.r)
        cases.append(_case(o, form.r, r))
        p = o.both(p, r)
    watch = o.watch("run", form.time)
    o.system.run_watch(watch, start=watch.run ^ 1, run_next=p.after)
    return Breach(FALSE, overdue=o.aig.both(watch.run, watch.gt), cases=tuple(cases))


def _calls_within(o: Observer, form: CallsWithin) -> Breach:
    """The watch runs since the oldest instant that has no answer yet, or that only what comes just after the last
    instant it leaves would answer: that is overdue then, too."""
    aig = o.aig
    p, r = o.see(form.p), o.see(form.r)
    answer = o.either(o.see(form.q), r)
    watch = o.watch("open", form.time)
    unanswered_at = aig.both(aig.either(watch.run, p.at), answer.at ^ 1)
    unanswered_after = aig.both(aig.either(unanswered_at, p.after), answer.after ^ 1)
    # the oldest open instant is the moment at which the watch began, or only those just after it
    goes_on = aig.both(watch.run, unanswered_at)
    from_moment = o.bit("from the moment")
    o.keep("from the moment", aig.choose(goes_on, from_moment, unanswered_at))
    too_late = aig.all_of([goes_on, from_moment, watch.ge])
    o.system.run_watch(watch, start=goes_on ^ 1, run_next=aig.either(unanswered_after, too_late))
    return Breach(FALSE, aig.both(watch.run, watch.gt), _unexcused(o, form, p, r))


def _calls_lasting(o: Observer, form: CallsLasting) -> Breach:
    """q is needed while p holds (unless excused) and then for the time since p was last so."""
    aig = o.aig
    p, q, r = o.see(form.p), o.see(form.q), o.see(form.r)
    watch = o.watch("rest", form.time)
    holding = o.remember("holding", aig.both(p.after, r.after ^ 1))
    going_on = aig.both(watch.run, watch.ge ^ 1)
    needed_at = aig.both(aig.any_of([holding, going_on, p.at]), r.at ^ 1)
    needed_after = aig.both(aig.either(needed_at, p.after), r.after ^ 1)
    anew = aig.either(holding, p.at)
    o.system.run_watch(watch, start=anew, run_next=aig.both(needed_after, p.after ^ 1))
    broken = aig.either(aig.both(needed_at, q.at ^ 1), aig.both(needed_after, q.after ^ 1))
    return Breach(broken, cases=_unexcused(o, form, p, r))


def _lasted(o: Observer, p: Seen, time: Micros | None) -> tuple[Seen, Lit]:
    """Whether p (unbroken for `time`) is so, and whether it was so at some instant just before this moment."""
    if time is None:
        return p, FALSE
    aig = o.aig
    watch = o.watch("lasted", time)
    o.system.run_watch(watch, start=aig.both(watch.run, p.at) ^ 1, run_next=p.after)
    so = aig.all_of([p.at, watch.run, watch.ge])
    return Seen(so, aig.both(so, p.after)), aig.both(watch.run, watch.gt)


def _only_after(o: Observer, form: OnlyAfter) -> Breach:
    aig = o.aig
    q, r = o.see(form.q), o.see(form.r)
    plain = o.see(form.p)
    p, before = _lasted(o, plain, form.time)
    q_before = o.remember("was", q.after)
    if form.r is None:
        seen = aig.either(o.bit("seen"), before)
        anew_at, anew_after = aig.both(q_before, q.at ^ 1), aig.both(q.at, q.after ^ 1)
    else:
        seen = aig.either(o.bit("seen"), aig.both(before, o.remember("since", r.after) ^ 1))
        anew_at, anew_after = r.at, r.after
    seen_at = aig.either(p.at, aig.both(seen, anew_at ^ 1))
    seen_after = aig.either(p.after, aig.both(seen_at, anew_after ^ 1))
    # while r holds there is an instant with r after every instant with p: none of them is seen once r is over
    o.keep("seen", seen_after if form.r is None else aig.both(seen_after, r.after ^ 1))
    rises_at, rises_after = aig.both(q.at, q_before ^ 1), aig.both(q.after, q.at ^ 1)
    cases = [Case(form.q, aig.either(rises_at, rises_after))]
    if form.time is not None:
        cases.append(_case(o, form.p, plain))
    broken = aig.either(aig.both(rises_at, seen_at ^ 1), aig.both(rises_after, seen_after ^ 1))
    return Breach(broken, cases=tuple(cases))


def _waits_for(o: Observer, form: WaitsFor) -> Breach:
    aig = o.aig
    q, r, p = o.see(form.q), o.see(form.r), o.see(form.p)
    waiting = o.bit("waiting")
    if form.p is None:
        waiting = aig.either(waiting, o.first)
    waits_at = aig.both(aig.either(waiting, p.at), r.at ^ 1)
    waits_after = aig.both(aig.either(waits_at, p.after), r.after ^ 1)
    o.keep("waiting", waits_after)
    cases = () if form.p is None else (_case(o, form.p, p),)
    return Breach(aig.either(aig.both(waits_at, q.at), aig.both(waits_after, q.after)), cases=cases)
