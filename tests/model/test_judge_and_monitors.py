"""Two definitions of requirements and assumptions, one with quantifiers over a timeline and one as small monitors that
step from instant to instant, say the same of random timelines, and at the same instant."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from logiccheck.lang.program import (
    AfterLasting,
    CallsLasting,
    CallsWithin,
    Edge,
    Excluded,
    Expr,
    Form,
    Given,
    LastsAtLeast,
    LastsAtMost,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Or,
    Position,
    WaitsFor,
    WorldSet,
)
from logiccheck.model.judge import given_violated, violated
from logiccheck.model.memory import Time
from logiccheck.model.observed import signal
from logiccheck.model.play import play
from logiccheck.model.signals import Instant
from logiccheck.model.timeline import Timeline
from tests.model.driven import program
from tests.oracle.monitors import Finding, Monitor, monitor_of, monitor_of_given
from tests.oracle.watch import Phase

WORLD = program('vehicle "Test"\nworld\n    p contact\n    q contact\n    r contact\n')


def plain(name: str) -> Expr:
    return Position(name, frozenset({1}))


def wording(name: str) -> st.SearchStrategy[Expr]:
    """The contact itself, more often than an edge of it, all but an edge, or the contact and the instant it falls."""
    rise, fall = Edge(True, plain(name), f"{name}.rise"), Edge(False, plain(name), f"{name}.fall")
    return st.sampled_from([plain(name), plain(name), plain(name), rise, Not(rise), Or((plain(name), fall))])


@st.composite
def timelines(draw: st.DrawFn) -> Timeline:
    """Changes of p, q and r, often several at one instant, at whole times so small that much coincides."""
    flips = draw(st.lists(st.tuples(st.integers(0, 3), st.sampled_from("pqr"), st.integers(0, 1)), max_size=9))
    time, changes = 0, []
    for pause, name, value in flips:
        time += pause
        changes.append(WorldSet(time, name, value))
    first = {name: draw(st.integers(0, 1)) for name in "pqr"}
    return play(WORLD, changes, [], time + draw(st.integers(0, 4)), first)


@st.composite
def forms(draw: st.DrawFn) -> Form:
    p, q, time = draw(wording("p")), draw(wording("q")), draw(st.integers(1, 5))
    r = draw(st.none() | wording("r"))
    makers: list[Callable[[], Form]] = [
        lambda: Never(p, r, always=False, instant=False),
        lambda: NeverLonger(p, r, time),
        lambda: CallsWithin(p, q, time, r),
        lambda: CallsLasting(p, q, time, r),
        lambda: OnlyAfter(q, p, None, r),
        lambda: OnlyAfter(q, plain("p"), time, r),
        lambda: WaitsFor(q, r or plain("r"), draw(st.none() | st.just(p))),
    ]
    return draw(st.sampled_from(makers))()


@st.composite
def assumptions(draw: st.DrawFn) -> Given:
    p, q, time = plain("p"), plain("q"), draw(st.integers(1, 5))
    found: list[Given] = [
        LastsAtLeast(p, time, ""),
        LastsAtMost(p, time, ""),
        AfterLasting(q, p, time, ""),
        Excluded(p, ""),
    ]
    return draw(st.sampled_from(found))


def first_finding(timeline: Timeline, monitor: Monitor) -> Instant | None:
    """What the monitor finds first when it is led along the timeline, its clock ended in between."""
    read = {key: signal(timeline, expr) for key, expr in monitor.exprs.items()}
    marks = {mark for each in read.values() for mark in each.marks} | {each.time for each in timeline.played}
    state = monitor.begin
    started: Time | None = None
    time: Time = 0
    while True:
        ends = None if started is None or not monitor.ticking(state) else started + (monitor.time or 0)
        for phase in (Phase.MOMENT if time else Phase.START, Phase.AFTER):
            after = phase is Phase.AFTER
            truths = {key: each.value(Instant(time, after)) for key, each in read.items()}
            step = monitor.step(state, phase, truths, time == ends and not after)
            state, started = step.state, time if step.started else started
            if step.finding is not Finding.FINE:
                return Instant(time, after or step.finding is Finding.OVERDUE)
        later = [*marks, started + (monitor.time or 0)] if started is not None and monitor.ticking(state) else [*marks]
        coming = [mark for mark in later if time < mark <= timeline.end]
        if not coming:
            return None
        time = min(coming)


def fall_together(timeline: Timeline, form: OnlyAfter) -> bool:
    """At some moment both p and the r of `since` end, having held up to it."""
    if form.r is None:
        return False
    p, r = signal(timeline, form.p), signal(timeline, form.r)
    return any(p.before(mark) and r.before(mark) and not r.value(Instant(mark)) for mark in r.marks)


@settings(max_examples=600, deadline=None)
@given(timeline=timelines(), form=forms())
def test_requirements(timeline: Timeline, form: Form) -> None:
    """`q only after p since r` is left out where p held up to the very instant at which r ends: there is no last
    instant with r then, and the two read the sentence differently."""
    assume(not isinstance(form, OnlyAfter) or not fall_together(timeline, form))
    assert violated(timeline, form) == first_finding(timeline, monitor_of(form))


@settings(max_examples=200, deadline=None)
@given(timeline=timelines(), assumption=assumptions())
def test_assumptions(timeline: Timeline, assumption: Given) -> None:
    """A timeline is cut off where the judge says the assumption is not met any more."""
    assert given_violated(timeline, assumption) == first_finding(timeline, monitor_of_given(assumption))
