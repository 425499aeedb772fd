"""Published fault trees, written as vehicles: their minimal cut sets, one by one or by order, and that there are no
more."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from itertools import combinations
from pathlib import Path

import pytest

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.parts import Mode, PartKind, faults_of
from logiccheck.copper.sets.breaking import Cuts
from logiccheck.copper.sets.of_faults import Faulty, faulty
from logiccheck.copper.sets.search import Hunt
from logiccheck.lang.program import And, Expr, Not, Or, Output, Program, Signal, SignalKind
from logiccheck.lang.walk import condition_of
from tests.copper.sets.hunting import cuts_of
from tests.oracle.loading import loaded

TREES = Path(__file__).resolve().parents[2] / "published" / "trees"

# As published with each tree; `tests/published/table.toml` says where, and what of it is from memory.
SETS = {
    "pressure-tank": "T, K2, S S1, S K1, S R",
    "theatre": "Gen_Fail Mains_Fail, Mains_Fail Relay_Fail",
    "ne574": "C, D F, D G, D B, H I F, H I G, H I B",
    "two-trains": "ValveOne ValveTwo, ValveOne PumpTwo, ValveTwo PumpOne, PumpOne PumpTwo",
    "lift": "CP_1, D_1, DM_1, DMS_1, DMS_2, DOD_1, DOD_2, DPD_1, LMD_1, LMD_2, LPD_1, PS_1",
    "hipps": "PSHCCF, LogicSolverFailure, SV1Failure, SDV1Failure, SV2Failure, SDV2Failure, "
    "PSH1Failure PSH2Failure, PSH1Failure PSH3Failure, PSH2Failure PSH3Failure",
}
COUNTS = {
    "chinese": {2: 12, 4: 24, 5: 188, 6: 168},
    "baobab1": {2: 1, 3: 1, 4: 70, 5: 400},
    "baobab2": {2: 6, 3: 121, 4: 268, 5: 630, 6: 3780},
}


def tree(name: str) -> Program:
    return loaded((TREES / f"{name}.circuit").read_text(encoding="utf-8"))


def opening(program: Program) -> Faulty:
    """Only the wires of basic events break, and only by an opening."""
    faults = faults_of(program)
    return faulty(program, tuple(f for f in faults if f.kind is PartKind.WIRE and f.mode is Mode.OPEN))


def cuts(vehicle: Faulty, order: int, seconds: float = 60) -> Cuts:
    return cuts_of(Hunt(vehicle.breaking, vehicle.requirements, Budget(seconds)), vehicle.requirements[0], order)


def named(vehicle: Faulty, found: Cuts) -> set[frozenset[str]]:
    return {frozenset(vehicle.faults[number].part for number in each.faults) for each in found.sets}


def expanded(program: Program, order: int) -> set[frozenset[str]]:
    """The minimal cut sets up to this order, by writing out each gate: nothing of the search is in it."""
    assert program.box is not None
    lines = {rule.name: condition_of(rule) for rule in program.box.rules}
    wires = {sense.name: sense.wire for sense in program.box.senses if hasattr(sense, "wire")}
    known: dict[str, set[frozenset[str]]] = {}

    def sets(expr: Expr) -> set[frozenset[str]]:
        match expr:
            case Not(Signal(SignalKind.SENSE, name)):
                return {frozenset({wires[name]})}
            case Signal(SignalKind.RULE, name):
                if name not in known:
                    known[name] = sets(lines[name])
                return known[name]
            case Or(parts):
                return minimal((each for part in parts for each in sets(part)), order)
            case And(parts):
                found = {frozenset[str]()}
                for part in parts:
                    found = minimal((one | other for one in found for other in sets(part)), order)
                return found
            case _:
                raise AssertionError(expr)

    return sets(lines[next(rule.name for rule in program.box.rules if isinstance(rule, Output))])


def minimal(sets: Iterator[frozenset[str]], order: int) -> set[frozenset[str]]:
    """Those up to this order that hold no other of them."""
    found: set[frozenset[str]] = set()
    for each in sorted({each for each in sets if len(each) <= order}, key=len):
        if not any(frozenset(some) in found for size in range(len(each)) for some in combinations(each, size)):
            found.add(each)
    return found


@pytest.mark.parametrize("name", SETS)
def test_cut_sets_as_published(name: str) -> None:
    """Asked up to one order more than the largest has: there are just these."""
    vehicle = opening(tree(name))
    expected = {frozenset(each.split()) for each in SETS[name].split(", ")}
    order = max(map(len, expected)) + 1
    found = cuts(vehicle, order)
    assert named(vehicle, found) == expected
    assert (found.complete, found.why, found.barred) == (order, None, ())
    assert expanded(tree(name), order) == expected


def held(name: str, order: int, expected: Mapping[int, int], seconds: float) -> None:
    vehicle = opening(tree(name))
    found = cuts(vehicle, order, seconds)
    assert found.complete == order
    assert Counter(len(each.faults) for each in found.sets) == {n: c for n, c in expected.items() if n <= order}
    assert named(vehicle, found) == expanded(tree(name), order)


@pytest.mark.parametrize(("name", "order"), [("chinese", 4), ("baobab1", 3), ("baobab2", 3)])
def test_counts_by_order_as_published(name: str, order: int) -> None:
    """Larger trees up to some order."""
    held(name, order, COUNTS[name], 60)


@pytest.mark.long
@pytest.mark.parametrize(("name", "order"), [("chinese", 7), ("baobab1", 5), ("baobab2", 7)])
def test_more_orders_of_larger_trees(name: str, order: int) -> None:
    """Of two of them all that are published, and that there is none of one order more."""
    held(name, order, COUNTS[name], 900)


def test_each_set_has_its_story() -> None:
    """A story ends with just the faults of its set."""
    vehicle = opening(tree("ne574"))
    for each in cuts(vehicle, 3).sets:
        world = dict(each.story.steps[-1].world)
        assert {name for name, position in world.items() if position} == {
            vehicle.breaking.names[number] for number in each.faults
        }


def test_what_is_not_reached_is_not_promised() -> None:
    """With no time at all nothing is said to be complete."""
    found = cuts(opening(tree("pressure-tank")), 2, 0)
    assert (found.sets, found.complete) == ((), None)
    assert found.why is not None
