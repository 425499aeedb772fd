"""What is live and what is grounded, as a circuit, against a search for paths."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.lang.program import Const, Contact, Diode, Program, SignalKind
from logiccheck.model.circuit.aig import Aig, Lit
from logiccheck.model.circuit.wires import Way, contact_ways, groups, spread
from tests.engine.walking import Follower
from tests.oracle.loading import loaded

WIRES = ["u", "v", "w", "x", "y"]
ENDS = ["plus", "aux", "earth"]
EMPTY = loaded('vehicle "T"\nworld\n    a contact\n')

Pair = tuple[str, str]


def harness(contacts: list[Pair], diodes: list[Pair]) -> Program:
    return replace(
        EMPTY,
        contacts=tuple(Contact(left, right, Const(True)) for left, right in contacts),
        diodes=tuple(Diode(anode, cathode) for anode, cathode in diodes),
    )


def paths(begin: str, ways: set[Pair]) -> set[str]:
    """All wires at the end of some path from here; what arrives at an end goes no further."""
    found: set[str] = set()

    def walk(path: list[str]) -> None:
        for tail, head in ways:
            if tail == path[-1] and head in WIRES and head not in path:
                found.add(head)
                walk([*path, head])

    walk([begin])
    return found


def expected(contacts: list[Pair], closed: int, diodes: list[Pair], true: set[str], forward: bool) -> set[str]:
    """The wires that something true reaches."""
    ways = set(diodes) if forward else {(cathode, anode) for anode, cathode in diodes}
    for i, (left, right) in enumerate(contacts):
        if closed >> i & 1:
            ways |= {(left, right), (right, left)}
    reached = {wire for begin in true for wire in paths(begin, ways)}
    return reached | (true & set(WIRES))


def pairs(most: int) -> st.SearchStrategy[list[Pair]]:
    ends = st.sampled_from([*WIRES, *WIRES, *ENDS])
    return st.lists(st.tuples(ends, ends).filter(lambda pair: pair[0] != pair[1]), max_size=most)


@settings(max_examples=150, deadline=None)
@given(pairs(5), pairs(4), st.sampled_from(WIRES), st.booleans())
def test_the_least_solution(contacts: list[Pair], diodes: list[Pair], fed: str, forward: bool) -> None:
    """For every set of closed contacts and every set of seeds: two sources (or grounds), and an output that feeds."""
    aig = Aig()
    closed = {i: aig.new_input(f"closed {i}") for i in range(len(contacts))}
    seeds: dict[str, Lit] = {name: aig.new_input(name) for name in ("plus", "earth", fed)}
    found = spread(aig, WIRES, contact_ways(harness(contacts, diodes), closed, forward), seeds)
    assert set(found) == set(WIRES)
    lits = [found[wire] for wire in WIRES]
    for mask in range(1 << len(contacts)):
        for true in ({"plus"}, {"earth", fed}, {fed}, {"plus", "earth"}, set[str]()):
            inputs = {lit >> 1: bool(mask >> i & 1) for i, lit in closed.items()}
            inputs |= {lit >> 1: name in true for name, lit in seeds.items()}
            values = aig.evaluate(lits, inputs)
            reached = {wire for wire, value in zip(WIRES, values, strict=True) if value}
            assert reached == expected(contacts, mask, diodes, true, forward)


@settings(max_examples=150, deadline=None)
@given(pairs(4), pairs(4))
def test_groups(contacts: list[Pair], diodes: list[Pair]) -> None:
    """Each wire is in one group, with all wires that it reaches and that reach it; no later group reaches an earlier
    one."""
    ways = {*contacts, *((right, left) for left, right in contacts), *diodes}
    found = groups(WIRES, [Way(tail, head, 1) for tail, head in sorted(ways)])
    assert sorted(wire for group in found for wire in group) == WIRES
    reach = {wire: paths(wire, ways) | {wire} for wire in WIRES}
    for i, group in enumerate(found):
        for wire in group:
            assert {other for other in WIRES if other in reach[wire] and wire in reach[other]} == set(group)
        for later in found[i + 1 :]:
            assert not any(wire in reach[other] for wire in group for other in later)


CHAIN = "\n".join(["wire n0 from plus when a", *(f"wire n{i}\ndiode n{i - 1} -> n{i}" for i in range(1, 12))])
RING = "\n".join(
    ["wire n0 from plus when a", *(f"wire n{i}" for i in range(1, 9))]
    + [f"join n{i} with n{(i + 1) % 9}{' when b' if i == 8 else ''}" for i in range(9)]
)
DIODE_RING = "\n".join(
    ["wire n0 from plus when a", *(f"wire n{i}" for i in range(1, 9))]
    + [f"diode n{i} -> n{(i + 1) % 9}" for i in range(9)]
    + ["wire out", "diode n8 -> out"]
)
OVER = "source aux when b\nwire n0 from plus when a, otherwise from aux\nwire n1\njoin n0 with n1"
EDGE = "source aux when b\nwire n0 from plus when a, from aux\nwire n1 from aux"
GROUND = "wire n0 to ground when a\nwire n1\nwire n2\ndiode n1 -> n0\ndiode n0 -> n2"
BACK = "wire n0 from plus when a\nwire n1 from plus when b\nwire n2\ndiode n0 -> n2\ndiode n1 -> n2"

CASES = [
    ("a chain of diodes", CHAIN, "a", {f"n{i}" for i in range(12)}),
    ("a chain of diodes without feed", CHAIN, "b", set()),
    ("an open ring is fed from one side", RING, "a", {f"n{i}" for i in range(9)}),
    ("a closed ring", RING, "a b", {f"n{i}" for i in range(9)}),
    ("a ring of itself is dead", RING, "b", set()),
    ("a ring of diodes", DIODE_RING, "a", {*(f"n{i}" for i in range(9)), "out"}),
    ("a change-over at rest", OVER, "b", {"n0", "n1"}),
    ("a change-over worked", OVER, "a", {"n0", "n1"}),
    ("a change-over at rest, dead", OVER, "", set()),
    ("a source is an end", EDGE, "a", {"n0"}),
    ("a source that is live", EDGE, "b", {"n0", "n1"}),
    ("two feeds stay apart behind diodes", BACK, "b", {"n1", "n2"}),
    ("ground passes a diode backwards", GROUND, "a", {"n0", "n1"}),
]


@pytest.mark.parametrize(("name", "lines", "closed", "reached"), CASES, ids=[row[0] for row in CASES])
def test_harnesses(name: str, lines: str, closed: str, reached: set[str]) -> None:
    """The wires that are live, or grounded where nothing is live."""
    text = "\n".join(f"    {line}" for line in lines.split("\n"))
    program = loaded(f'vehicle "T"\nworld\n    a contact\n    b contact\nharness\n    source plus\n{text}\n')
    world = {"a": int("a" in closed), "b": int("b" in closed)}
    signals = Follower(program).moment(world, frozenset()).reactions[-1]
    kind = SignalKind.GROUNDED if lines is GROUND else SignalKind.LIVE
    assert {wire for (k, wire), value in signals.items() if k is kind and value} == reached
