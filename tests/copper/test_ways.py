"""All ways to a wire: by hand, and against the least fixpoint under every set of closed contacts."""

from __future__ import annotations

from itertools import product
from random import Random

import pytest

from logiccheck.copper.ways.paths import Step, Way, Ways, ways_to
from logiccheck.lang.program import And, Const, Contact, Expr, Not, Position, Program, Signal, SignalKind
from tests.campaign import seeds
from tests.copper.harnesses import JOINED, KEPT_APART, random_harness
from tests.oracle.loading import loaded

LIVE, GROUNDED = SignalKind.LIVE, SignalKind.GROUNDED


def parts(way: Way) -> str:
    """The way as a line: "plus key_wire > wake", with ">" for a diode."""
    words = [way.origin.name, *([way.begin] if way.begin != way.origin.name else [])]
    for step in way.steps:
        words += [step.head] if isinstance(step.part, Contact) else [">", step.head]
    return " ".join(words)


def lines(text: str, wire: str, kind: SignalKind = LIVE) -> list[str]:
    """All ways to a wire of a vehicle."""
    found = ways_to(loaded(text), wire, kind)
    assert found.whole
    return [parts(way) for way in found.found]


def test_diodes_keep_two_wires_apart() -> None:
    """Each is fed by its own line only."""
    assert lines(KEPT_APART, "wake") == ["plus key_wire > wake", "plus door_wire > wake"]
    assert lines(KEPT_APART, "key_wire") == ["plus key_wire"]


def test_a_plain_wire_lets_it_back() -> None:
    """The door reaches the wire of the key."""
    assert lines(JOINED, "key_wire") == ["plus key_wire", "plus door_wire > wake key_wire"]
    assert lines(JOINED, "door_wire") == ["plus door_wire"]


def test_ground_goes_against_diodes() -> None:
    """What is grounded pulls down what leads into it, not what it leads into; a source is an end."""
    text = KEPT_APART.replace("wire wake", "wire wake to ground when door is open")
    assert lines(text, "key_wire", GROUNDED) == ["ground wake > key_wire"]
    assert lines(text, "wake", GROUNDED) == ["ground wake"]
    assert lines(KEPT_APART, "wake", GROUNDED) == []


def test_outputs_are_origins() -> None:
    """A true output makes the wire live that it feeds."""
    text = KEPT_APART.replace("when key_on", "when key_on feeds door_wire")
    assert lines(text, "wake") == ["radio door_wire > wake", "plus key_wire > wake", "plus door_wire > wake"]
    assert lines(text, "wake", GROUNDED) == []


def test_conditions_stand_once() -> None:
    """A source without a condition of its own counts, what is always closed does not."""
    found = ways_to(loaded(JOINED), "key_wire", LIVE).found[1]
    plus, door = Signal(SignalKind.SOURCE, "plus"), Position("door", frozenset({1}))
    assert found.conditions == (plus, door)
    assert found.wires == ("door_wire", "wake", "key_wire")


def test_too_many_ways_are_said() -> None:
    """A ladder of twenty rungs has more ways than anybody reads: the shortest are there."""
    rungs = range(20)
    wires = "".join(f"    wire a{n}\n    wire b{n}\n" for n in rungs)
    joins = "".join(f"    join a{n} with b{n}\n" for n in rungs)
    rails = "".join(f"    join {rail}{n} with {rail}{n + 1}\n" for rail in "ab" for n in rungs[:-1])
    text = f'vehicle "Ladder"\nharness\n    source plus\n{wires}{joins}{rails}    join plus with a0\n'
    found = ways_to(loaded(text), "a19", LIVE)
    assert not found.whole
    assert len(found.found) > 100
    assert parts(found.found[0]) == "plus " + " ".join(f"a{n}" for n in rungs)


def live_by_hand(program: Program, kind: SignalKind, on: frozenset[str], closed: list[Contact]) -> set[str]:
    """The wires that are so, worked out once more; `on`: sources or grounds that are, wires that outputs feed."""
    wires = {wire.name for wire in program.wires}
    reached = set(on)
    while True:
        pairs = [(c.left, c.right) for c in closed] + [(c.right, c.left) for c in closed]
        pairs += [(d.anode, d.cathode) if kind is LIVE else (d.cathode, d.anode) for d in program.diodes]
        new = {head for tail, head in pairs if tail in reached and head in wires} - reached
        if not new:
            return reached & wires
        reached |= new


def so(expr: Expr, world: dict[str, bool], on: frozenset[Signal]) -> bool:
    match expr:
        case Const(value=value):
            return value
        case Not(x=x):
            return not so(x, world, on)
        case And(parts=parts):
            return all(so(part, world, on) for part in parts)
        case Position(name=name, indices=indices):
            return int(world[name]) in indices
        case Signal():
            return expr in on
        case _:
            raise AssertionError(expr)


def conducts(found: Ways, world: dict[str, bool], on: frozenset[Signal]) -> bool:
    return any(so(way.condition, world, on) for way in found.found)


@pytest.mark.parametrize("seed", seeds(60, 2_000))
def test_live_exactly_when_a_way_conducts(seed: int) -> None:
    """Under every set of closed contacts and every set of true outputs, of every wire, live and grounded."""
    program = random_harness(Random(seed))
    names = [switch.name for switch in program.switches]
    fed = [(o.name, o.feeds) for o in (program.box.outputs if program.box else ()) if o.feeds is not None]
    ways = {(w.name, kind): ways_to(program, w.name, kind) for w in program.wires for kind in (LIVE, GROUNDED)}
    assert all(found.whole for found in ways.values())
    for values in product((False, True), repeat=len(names) + len(fed)):
        world = dict(zip(names, values, strict=False))
        true = [pair for pair, value in zip(fed, values[len(names) :], strict=True) if value]
        closed = [c for c in program.contacts if so(c.condition, world, frozenset())]
        sources = {s.name for s in program.sources if so(s.condition, world, frozenset())}
        grounds = {g.name for g in program.grounds if so(g.condition, world, frozenset())}
        on = {Signal(SignalKind.SOURCE, name) for name in sources} | {Signal(SignalKind.GROUND, g) for g in grounds}
        on |= {Signal(SignalKind.OUTPUT, name) for name, _ in true}
        live = live_by_hand(program, LIVE, frozenset(sources | {wire for _, wire in true}), closed)
        grounded = live_by_hand(program, GROUNDED, frozenset(grounds), closed)
        for wire in program.wires:
            assert (wire.name in live) == conducts(ways[wire.name, LIVE], world, frozenset(on)), wire.name
            assert (wire.name in grounded) == conducts(ways[wire.name, GROUNDED], world, frozenset(on)), wire.name


@pytest.mark.parametrize("seed", seeds(60, 2_000))
def test_no_wire_is_visited_twice(seed: int) -> None:
    """Each step begins where the one before it ended, at no end again, and no two ways are the same."""
    program = random_harness(Random(seed))
    ends = {end.name for end in (*program.sources, *program.grounds)}
    for wire in program.wires:
        for kind in (LIVE, GROUNDED):
            found = ways_to(program, wire.name, kind).found
            assert len(set(map(key, found))) == len(found)
            for way in found:
                assert len(set(way.wires)) == len(way.wires)
                assert not ends & set(way.wires)
                assert way.wires[-1] == wire.name
                assert [step.tail for step in way.steps] == [way.begin, *(step.head for step in way.steps)][:-1]


def key(way: Way) -> tuple[object, ...]:
    """The way with its parts as they stand in the file: two contacts that look alike are two."""
    return (way.origin, way.begin, *((step.tail, step.head, id(step.part)) for step in way.steps))


def test_a_step_is_a_step() -> None:
    """What a way is made of can be read from it."""
    (way,) = ways_to(loaded(KEPT_APART), "key_wire", LIVE).found
    (contact,) = (c for c in loaded(KEPT_APART).contacts if c.right == "key_wire")
    assert way.steps == (Step("plus", "key_wire", contact),)
