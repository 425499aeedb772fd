"""When a proved requirement decides something: at the end of the story one thing, read otherwise, would break it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.explain import binding
from logiccheck.explain.aside import Bindings, Binds, Bound
from logiccheck.explain.asking import Never, Seen
from logiccheck.explain.binding import bindings
from logiccheck.explain.freed import freed
from logiccheck.explain.situations import end_of
from logiccheck.lang import program as p
from logiccheck.lang.program import And, Not, Program
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.resolve.bounds import with_bounds
from logiccheck.lang.walk import subexpressions
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.oracle import Kind as Explored
from tests.oracle.oracle import decide
from tests.oracle.programs import random_program

VAN = """
vehicle "Van"
world
    key   off | run
    crash contact
    at first key is off, not crash
harness
    source plus
    wire feed      from plus
    wire key_wire  from plus when key is run
    wire crash_wire from plus when crash
controller "Box" powered by feed
    sense key_on  from key_wire live
    sense crashed from crash_wire live
    rule prime = one_shot(key_on, 3 s)
    output pump when prime and not crashed
    output lamp when key_on
requirements
"""


def bound(*requirements: str) -> tuple[Program, list[Bound]]:
    """What came of these requirements, all of them proved."""
    program = loaded(VAN + "".join(f"    danger r{n} {text}\n" for n, text in enumerate(requirements)))
    found = check_program(program)
    proved = [verdict for verdict in found.verdicts if verdict.kind is Kind.PROVED]
    assert len(proved) == len(requirements), [v.kind for v in found.verdicts]
    return program, list(bindings(program, proved, Budget(60.0), lambda _: None).each)


@pytest.mark.parametrize(
    ("requirement", "binds", "moments", "signal", "at_will"),
    [
        ("never pump while crash", Binds.OTHERWISE, 2, "pump", False),
        ("always lamp while key is run", Binds.OTHERWISE, 2, "lamp", False),
        ("always key_wire while key is run", Binds.OTHERWISE, 2, "key_wire", True),
        ("never pump for longer than 3 s", Binds.ENDS, 3, None, False),
        ("key becomes run calls for lamp no later than 1 s", Binds.FOLLOWS, 2, None, False),
        ("key becomes run calls for lamp lasting 3 s, excused by key is off", Binds.LASTS, 2, None, False),
        ("lamp only after key is run", Binds.BEGINS, 2, None, False),
        ("pump waits for key is run", Binds.WAITS, 1, None, False),
        ("possible pump and lamp", Binds.HAPPENS, 2, None, None),
    ],
)
def test_each_form(requirement: str, binds: Binds, moments: int, signal: str | None, at_will: bool | None) -> None:
    """What is shown, the fewest moments it takes, and whether it holds with every output switched at will."""
    _, (found,) = bound(requirement)
    assert found.binds is binds
    assert isinstance(found.answer, Seen)
    assert found.answer.story.moments == moments
    assert (found.signal.name if found.signal else None, found.at_will) == (signal, at_will)


def test_nothing_by_itself_could_break_it() -> None:
    """Where two things would have to be otherwise at once, it is said that no single one does."""
    _, (found,) = bound("never pump and lamp and crash and key is off")
    assert found.answer == Never()


def test_interrupted(monkeypatch: pytest.MonkeyPatch) -> None:
    """What was found stays, the rest is open."""
    program = loaded(VAN + "    danger a never pump while crash\n    danger b never lamp while key is off\n")
    proved = [v for v in check_program(program).verdicts if v.kind is Kind.PROVED]

    def stop(name: str) -> None:
        if name == "b":
            raise KeyboardInterrupt

    found = bindings(program, proved, Budget(60.0), stop)
    assert found.interrupted
    assert [type(each.answer).__name__ for each in found.each] == ["Seen", "Open"]


def test_nothing_was_proved() -> None:
    """Nothing is asked."""
    assert bindings(loaded(VAN + "    danger a never lamp\n"), [], Budget(1.0), lambda _: None) == Bindings(())


@pytest.mark.parametrize("seed", range(8000, 8040))
def test_explored(seed: int) -> None:
    """On random vehicles the end of each story breaks the requirement with that one thing otherwise; and exploring all
    of a vehicle that does as it likes finds the same of what asks nothing of the rules."""
    program = loaded(random_program(seed).text)
    verdicts = check_program(program).verdicts
    proved = [each for each in verdicts if each.kind is Kind.PROVED and not each.builtin]
    for found in bindings(program, proved, Budget(60.0), lambda _: None).each:
        form = found.verdict.requirement.form
        if isinstance(form, p.Never) and isinstance(found.answer, Seen):
            breach = form.p if form.r is None else And((form.p, form.r))
            signal = found.signal
            assert signal is not None
            end = end_of(program, found.answer.story)
            if not any(binding._remembers(node) for node in subexpressions(breach)):
                assert not end.holds(breach)
                assert end.holds(replace_leaves(breach, lambda leaf, s=signal: Not(leaf) if leaf == s else leaf))
        if found.at_will is not None:
            asked = found.verdict.requirement
            free = with_bounds(replace(freed(program), requirements=(asked,)))
            try:
                answer = decide(free, asked, 3_000)
            except TooBig:
                continue
            if answer.kind in (Explored.PROVED, Explored.FAILS):
                assert found.at_will == (answer.kind is not Explored.FAILS)


@pytest.mark.parametrize(
    ("requirement", "signal"),
    [
        ("never lamp while key is off for longer than 1 s", "lamp"),
        ("never pump while crash for longer than 2 s", "pump"),
    ],
)
def test_what_never_even_begins(requirement: str, signal: str) -> None:
    """What may not last and never comes is decided where it would last, were one thing otherwise all along."""
    program, (found,) = bound(requirement)
    assert isinstance(found.answer, Seen)
    assert found.signal is not None
    assert (found.binds, found.signal.name) == (Binds.ENDS, signal)
    form = found.verdict.requirement.form
    assert isinstance(form, p.NeverLonger)
    assert found.answer.story.steps[-1].time >= form.time
    assert not end_of(program, found.answer.story).holds(found.signal)
