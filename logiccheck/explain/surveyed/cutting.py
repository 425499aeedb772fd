"""Timers of the box that are cut off because it loses its power by itself while they keep an output on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from logiccheck.base.frozen import frozen
from logiccheck.explain.surveyed.probed import Watched
from logiccheck.explain.surveyed.waking import POWERED, hands, moves
from logiccheck.lang.matters import Item, Names
from logiccheck.lang.program import (
    And,
    Const,
    Edge,
    Expr,
    Not,
    Output,
    Previous,
    Program,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Window,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import Memory, memory
from logiccheck.model.play import play_story
from logiccheck.model.story import Story

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey

ENDS = (TimerKind.OFF_DELAY, TimerKind.ONE_SHOT)


@frozen
class Cut:
    """In the story, at its end, the box loses its power and no hand has a part in that; just before, only the timer
    kept the output on, and it would have gone on running."""

    watched: Watched
    output: str
    story: Story


def cuts(program: Program, survey: Survey) -> Iterator[Cut]:
    """Of each timer and each output that it keeps on; none where the box holds itself awake by an output, which is how
    it goes to sleep when it is through."""
    matter = Names(program).matter([POWERED]).items
    if program.box is None or not _goes_out_by_itself(program, matter):
        return
    for watched in survey.watched:
        node = watched.node
        if not isinstance(node, Timer) or node.kind not in ENDS:
            continue
        for output in program.box.outputs:
            story = _cut(program, survey, watched, output)
            if story is not None:
                yield Cut(watched, output.name, story)


def _goes_out_by_itself(program: Program, matter: frozenset[Item]) -> bool:
    """Some relay with a timer can take the power of the box away, and no output of the box can."""
    kinds = {kind for kind, _ in matter}
    timed = any(
        (SignalKind.RELAY.value, relay.name) in matter and any(isinstance(n, Timer) for n in memory(relay.coil))
        for relay in program.relays
    )
    return timed and not kinds & {SignalKind.OUTPUT.value, SignalKind.COMMAND.value}


def _cut(program: Program, survey: Survey, watched: Watched, output: Output) -> Story | None:
    node = watched.node
    assert isinstance(node, Timer)
    lines = survey.probed.lines
    without = _without(lines, Signal(SignalKind.COMMAND, output.name), watched.value)
    if without is None:
        return None
    only_timer: list[Expr] = [Signal(SignalKind.OUTPUT, output.name), watched.value, Not(without)]
    if node.kind is TimerKind.OFF_DELAY:
        only_timer.append(Not(watched.inside))
    asleep = Edge(False, POWERED, "the box falls asleep")
    still = Not(moves(program, hands(program, POWERED), "power"))
    lost = (Previous(And(tuple(only_timer)), "kept on so far"), asleep, still)
    if not survey.ever(And(lost)):
        return None
    for shortest in dict.fromkeys((node.window.lo, node.window.hi)):
        # a copy that the box cannot clear still runs: so the timer was not over yet, whatever falls on one instant
        window = Window(shortest, shortest, shortest)
        inside = And((POWERED, watched.inside))
        copy = replace(node, x=inside, window=window, key="a copy outside the box")
        asked = And((*lost, copy))
        if survey.ever(asked):
            story = survey.story(asked)
            if story is not None and _shown(survey, story, node):
                return story
    return None


def _shown(survey: Survey, story: Story, node: Timer) -> bool:
    """Played, the timer runs until the last moment, and does not fall due in it."""
    *_, before, last = play_story(survey.written, story).settled
    return any(key == node.key for key, _ in before.moment.memory.clocks) and node.key not in last.due


def _without(lines: Mapping[str, Expr], expr: Expr, timer: Signal) -> Expr | None:
    """The expression if the timer were off, through rules that remember nothing; None where it is not named in it."""
    named = False

    def change(leaf: Expr) -> Expr:
        nonlocal named
        if leaf == timer:
            named = True
            return Const(False)
        if isinstance(leaf, Signal) and leaf.kind in (SignalKind.RULE, SignalKind.COMMAND):
            inner = lines[leaf.name]
            turned = None if isinstance(inner, Memory) else _without(lines, inner, timer)
            named = named or turned is not None
            return leaf if turned is None else turned
        return leaf

    turned = replace_leaves(expr, change)
    return turned if named else None
