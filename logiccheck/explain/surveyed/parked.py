"""What stays on in a parked vehicle for longer than all timers together although, parked from the start, it is off.

Parked is: all hands and physics as they are at first, and nothing moves. What is on there by the hands alone, such as
a lamp that was left on, is on from the start, too, and none of this.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.explain.inside import POWERED
from logiccheck.explain.surveyed.awake import own_doing
from logiccheck.explain.surveyed.held import held_for_ever
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.explain.written_out import can_arrive
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    And,
    Compare,
    Expr,
    Load,
    Number,
    Op,
    Or,
    Output,
    Position,
    Program,
    Relay,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Window,
)
from logiccheck.lang.walk import timer_windows
from logiccheck.model.play import first_world, play, play_story
from logiccheck.model.reaction import World
from logiccheck.model.story import Story
from logiccheck.model.timeline import Timeline

MINUTE = 60_000_000  # microseconds


@frozen
class Endless:
    """These are on together `time` microseconds after all has come to rest, at the end of the story and all that time
    before it."""

    items: tuple[Relay | Output | Load, ...]
    time: int
    story: Story


def endless(program: Program, survey: Survey) -> Iterator[Endless]:
    """Groups of what can be on together for so long. May raise KeyboardInterrupt, or BugMet."""
    time = patience(program)
    world = first_world(program, {}, program.at_first)
    start = play(program, (), (), time, world)
    if not start.settles:
        return
    names, silent = Names(program), told_elsewhere(program, survey)
    left = [item for item in _items(program) if not start.settled[-1].moment.settled.holds(_on(item))]
    left = [item for item in left if not names.matter([_on(item)]).items & silent]
    parked = And(tuple(_stands(program, world)))
    while left:
        lasting = _for_so_long(Or(tuple(_on(item) for item in left)), parked, time)
        if not survey.ever(lasting) or (story := survey.story(lasting)) is None:
            return
        played = play_story(program, story)
        begin = played.played[-1].time - time
        found = [item for item in left if _on_since(played, item, begin)]
        if not found:  # now this one, now that
            yield from _alone(survey, left, parked, time)
            return
        yield Endless(tuple(found), time, story)
        left = [item for item in left if item not in found]


def patience(program: Program) -> int:
    """Longer than all timers one after the other: whole minutes, in microseconds."""
    total = sum(window.hi for window in timer_windows(program).values())
    return (total // MINUTE + 1) * MINUTE


def _alone(survey: Survey, items: list[Relay | Output | Load], parked: Expr, time: int) -> Iterator[Endless]:
    for item in items:
        lasting = _for_so_long(_on(item), parked, time)
        if survey.ever(lasting) and (story := survey.story(lasting)) is not None:
            yield Endless((item,), time, story)


def _for_so_long(on: Expr, parked: Expr, time: int) -> Expr:
    return Timer(TimerKind.ON_DELAY, And((on, parked)), Window(time, time, time), "parked and on")


def _items(program: Program) -> Iterator[Relay | Output | Load]:
    yield from program.box.outputs if program.box is not None else ()
    yield from program.relays
    yield from program.loads


def _on(item: Relay | Output | Load) -> Signal:
    match item:
        case Output(name=name):
            return Signal(SignalKind.OUTPUT, name)
        case Relay(name=name):
            return Signal(SignalKind.RELAY, name)
        case Load(wire=wire):
            return Signal(SignalKind.LIVE, wire)


def _on_since(played: Timeline, item: Relay | Output | Load, begin: Fraction | int) -> bool:
    """At every settled moment from there to the end, and at the last one before."""
    times = [each.time for each in played.settled]
    first = max((time for time in times if time <= begin), default=0)
    return all(each.moment.settled.holds(_on(item)) for each in played.settled if each.time >= first)


def told_elsewhere(program: Program, survey: Survey) -> set[tuple[str, str]]:
    """What hangs on a relay that nothing lets go, on an output that copper feeds from behind, or on a box that keeps
    itself awake, stays on for that reason."""
    found = {(SignalKind.RELAY.value, relay.name) for relay in held_for_ever(survey)}
    for output in program.box.outputs if program.box is not None else ():
        if output.feeds is not None and _fed_by_copper(program, output.feeds):
            found.add((SignalKind.OUTPUT.value, output.name))
    alone = own_doing(program, survey)
    if alone is not None and survey.ever(alone.condition):
        found.add((SignalKind.POWERED.value, POWERED.name))
    return found


def _fed_by_copper(program: Program, wire: str) -> bool:
    """A contact leads to the wire from something that copper makes live."""
    copper, sources = replace(program, box=None), {source.name for source in program.sources}
    ends = [(each.left, each.right) for each in program.contacts if wire in (each.left, each.right)]
    others = [left if right == wire else right for left, right in ends]
    return any(end in sources or can_arrive(copper, end, SignalKind.LIVE) for end in others)


def _stands(program: Program, world: World) -> Iterator[Expr]:
    """Everything is as it is in this world, as far as anything compares it."""
    for switch in program.switches:
        yield Position(switch.name, frozenset({int(world[switch.name])}))
    for number in program.numbers:
        yield from _lies(number, Fraction(world[number.name]))


def _lies(number: Number, value: Fraction) -> Iterator[Expr]:
    if value in number.bounds:
        yield Compare(number.name, False, Op.EQ, value)
        return
    for bound in number.bounds:
        yield Compare(number.name, False, Op.GT if bound < value else Op.LT, bound)
