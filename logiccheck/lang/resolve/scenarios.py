"""Scenarios: what hands and timers do, and what is expected of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from logiccheck.base.span import Span
from logiccheck.base.suggest import near
from logiccheck.base.units import show_time
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.scenes import NegativeTime, NotASetting, OutsideTolerance, SetTwice, UnknownTimer
from logiccheck.lang.resolve import values
from logiccheck.lang.resolve.amounts import time_of_scenario
from logiccheck.lang.resolve.expressions import Site, resolve
from logiccheck.lang.resolve.given import TextOf
from logiccheck.lang.resolve.places import Place
from logiccheck.lang.resolve.scope import WORLD, Keys, Kind, Scope
from logiccheck.lang.resolve.values import bounded, position_index
from logiccheck.lang.resolve.world import label


@dataclass(slots=True)
class _Play:
    """A scenario while it is read; `now` is the last time named."""

    scope: Scope
    timers: Mapping[str, p.Window]
    text_of: TextOf
    keys: Keys
    sets: list[p.WorldSet] = field(default_factory=list)
    runs: list[p.TimerLasts] = field(default_factory=list)
    expectations: list[p.Expectation] = field(default_factory=list)
    placed: dict[tuple[Fraction, str], Span] = field(default_factory=dict)
    now: Fraction = Fraction(0)
    end: Fraction | None = None


def scenario(
    scope: Scope, head: w.ScenarioHead, items: Iterable[w.Item], timers: Mapping[str, p.Window], text_of: TextOf
) -> p.Scenario:
    """One scenario; `timers` are the timers of the program by key, with the times they may last."""
    play = _Play(scope, timers, text_of, Keys(head.name.text))
    for item in items:
        if isinstance(item, w.Scene):
            _scene(play, item)
        elif isinstance(item, w.Until):
            time = time_of_scenario(scope, item.time)
            play.end = time if time is not None else play.end
    end = play.end if play.end is not None else play.now
    sets = tuple(sorted(play.sets, key=lambda s: s.time))
    name = head.name.text
    return p.Scenario(
        name, label(head.name, head.label), sets, tuple(play.runs), tuple(play.expectations), end, head.span
    )


def _scene(play: _Play, scene: w.Scene) -> None:
    begin = time_of_scenario(play.scope, scene.begin) if scene.begin else Fraction(0)
    until = time_of_scenario(play.scope, scene.end) if scene.end else None
    if begin is None or (scene.end and until is None):
        return
    if until is not None and until < begin:
        play.scope.tell(NegativeTime(), scene.span)
        return
    play.now = max(play.now, begin, until or Fraction(0))
    for fact in scene.facts:
        if isinstance(fact, w.FactLasts):
            _lasts(play, begin, fact)
        else:
            _set(play, begin, fact.fact)
    for expected in scene.expected:
        expr = resolve(Site(play.scope, Place.EXPECTED, play.keys), expected)
        if expr is not None:
            text = play.text_of(expected.span)
            play.expectations.append(p.Expectation(begin, until, expr, text, expected.span))


def _set(play: _Play, time: Fraction, fact: w.Expr) -> None:
    """One thing of the world is set to one definite state."""
    found: tuple[str, int | Fraction] | None = None
    match fact:
        case w.Is(name, value, False) if _of_the_world(play, name, fact):
            found = _state(play.scope, name.text, value)
        case w.Bare(name) | w.Negation(w.Bare(name)) if _of_the_world(play, name, fact):
            bare = values.bare(play.scope, name, Place.FIRST, fact.span)
            found = (name.text, int(isinstance(fact, w.Bare))) if bare is not None else None
        case w.Is(negated=False) | w.Bare() | w.Negation(w.Bare()):
            return
        case _:
            play.scope.tell(NotASetting(play.text_of(fact.span)), fact.span)
    if found is None:
        return
    world, state = found
    earlier = play.placed.setdefault((time, world), fact.span)
    if earlier != fact.span:
        play.scope.tell(SetTwice(world), fact.span, earlier)
    play.sets.append(p.WorldSet(time, world, state, fact.span))


def _of_the_world(play: _Play, name: w.Name, fact: w.Expr) -> bool:
    """Whether hands or physics can set it; told if not."""
    entry = play.scope.find(name)
    if entry is not None and entry.kind not in WORLD:
        play.scope.tell(NotASetting(play.text_of(fact.span)), fact.span)
    return entry is not None and entry.kind in WORLD


def _state(scope: Scope, name: str, value: w.Amount) -> tuple[str, int | Fraction] | None:
    """The switch or number and the state it is put into."""
    switch = scope.switches.get(name)
    state = bounded(scope, name, value) if switch is None else position_index(scope, switch, value)
    return None if state is None else (name, state)


def _lasts(play: _Play, time: Fraction, fact: w.FactLasts) -> None:
    """The run of a timer that starts now lasts a given time."""
    match fact.timer:
        case w.Quoted(key, span) | w.Bare(w.Name(key), span):
            window = play.timers.get(key)
        case other:
            play.scope.tell(NotASetting(play.text_of(other.span)), other.span)
            return
    if window is None:
        if not _lost(play.scope, key):
            play.scope.tell(UnknownTimer(key, () if play.scope.full else near(key, play.timers)), span)
        return
    lasts = time_of_scenario(play.scope, fact.time)
    if lasts is None:
        return
    if not window.lo <= lasts <= window.hi:
        _tell_window(play.scope, key, window, fact.time.span)
    play.runs.append(p.TimerLasts(time, key, lasts, fact.span))


def _lost(scope: Scope, key: str) -> bool:
    """Whether the timer may stand in a line that could not be read."""
    return bool(scope.found) or (key in scope.declared and scope.declared[key].kind is Kind.LOST)


def _tell_window(scope: Scope, key: str, window: p.Window, span: Span) -> None:
    scope.tell(OutsideTolerance(key, show_time(window.lo), show_time(window.hi)), span)
