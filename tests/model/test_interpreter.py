"""What the interpreter refuses, what it imports, and that the order of a file does not matter."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from fractions import Fraction

import pytest

from logiccheck.lang.program import Edge, Signal, SignalKind
from logiccheck.model.interpreter import Impossible, Machine, Moment
from tests.model.driven import SECOND, boxed, named

MACHINE = Machine(boxed("output q when on_delay(x, 5 s +- 1 s)", "output k when rises(x)"))


def at_first(x: int = 1) -> Moment:
    return MACHINE.moment(MACHINE.initial(), 0, {"x": x})


def test_a_timer_falls_due_inside_its_window() -> None:
    """Both ends of the window are inside; the running time adds up over moments."""
    for after in (4 * SECOND, 5 * SECOND, 6 * SECOND, Fraction(9 * SECOND + 1, 2)):
        moment = MACHINE.moment(at_first().memory, after, {"x": 1}, frozenset({"q"}))
        assert moment.settled.holds(named(MACHINE.program, "q"))
    again = MACHINE.moment(at_first().memory, 3 * SECOND, {"x": 1})
    assert MACHINE.running(again.memory) == {"q": (3 * SECOND, MACHINE.windows["q"])}
    assert again.started == frozenset()
    assert MACHINE.moment(again.memory, SECOND, {"x": 1}, frozenset({"q"})).settled.holds(named(MACHINE.program, "q"))


REFUSED = [
    (4 * SECOND - 1, {"x": 1}, {"q"}, "q falls due after 3999999 us, not within 4000000 .. 6000000 us"),
    (6 * SECOND + 1, {"x": 1}, {"q"}, "q falls due after 6000001 us"),
    (6 * SECOND, {"x": 1}, set(), "q has run for 6000000 us and must fall due within 6000000 us"),
    (7 * SECOND, {"x": 0}, set(), "q has run for 7000000 us"),
    (5 * SECOND, {"x": 1}, {"q", "other"}, "other cannot fall due: not running"),
    (0, {"x": 1}, set(), "a moment 0 us after the one before"),
    (1, {"x": 2}, set(), "x has no position 2"),
    (1, {}, set(), "x has no position None"),
]


@pytest.mark.parametrize(("elapsed", "world", "due", "message"), REFUSED)
def test_what_cannot_happen_is_refused(elapsed: int, world: dict[str, int], due: set[str], message: str) -> None:
    """The error says which timer or name, and why."""
    with pytest.raises(Impossible, match=message.replace(".", r"\.")):
        MACHINE.moment(at_first().memory, elapsed, world, frozenset(due))


def test_reactions_are_distinct_and_the_last_one_is_settled() -> None:
    """An edge is true in the first reaction only; the second differs by it; a third would change nothing."""
    moment = at_first()
    assert [each.is_true(SignalKind.OUTPUT, "k") for each in moment.reactions] == [True, False]
    assert moment.started == {"q"}
    assert MACHINE.repeat(moment.memory, {"x": 1}) == moment.settled
    assert len(at_first(x=0).reactions) == 1


def test_memory_written_elsewhere_is_refused() -> None:
    """A node that neither box nor relays know has no value in a reaction."""
    with pytest.raises(LookupError, match="elsewhere"):
        at_first().settled.holds(Edge(True, Signal(SignalKind.SENSE, "x_on"), "elsewhere"))


def test_the_order_of_copper_does_not_matter() -> None:
    """Reversed lists of wires, contacts and relays give the same moments."""
    program = MACHINE.program
    turned = replace(program, wires=program.wires[::-1], contacts=program.contacts[::-1], sources=program.sources[::-1])
    assert Machine(turned).moment(MACHINE.initial(), 0, {"x": 1}) == at_first()


def test_it_stands_alone() -> None:
    """The judge shares no code with forms, observers and engines, and needs no library."""
    code = "import sys, logiccheck.study.simulate, logiccheck.model.race; print(*sorted(sys.modules))"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert "logiccheck.model.judge" in loaded
    forbidden = (
        "sympy",
        "lark",
        "pysat",
        "rich",
        "z3",
        "dd",
        "logiccheck.logic",
        "logiccheck.require",
        "logiccheck.engine",
    )
    assert [
        name for name in loaded if name in forbidden or name.startswith(tuple(f"{each}." for each in forbidden))
    ] == []
    circuits = [name for name in loaded if name.startswith("logiccheck.model.circuit")]
    assert circuits == []
