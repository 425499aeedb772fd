"""What is sought beside the verdicts: an interruption ends all of it, and no memory is no mistake of ours."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Undecided
from logiccheck.explain import binding
from logiccheck.explain.aside import Beside, Sought
from logiccheck.explain.asking import Open
from logiccheck.explain.beside import beside
from tests.oracle.loading import loaded

FILE = "test.circuit"

VAN = """
vehicle "Van"
world
    key contact
    at first not key
harness
    source plus
    wire feed from plus
    wire k    from plus when key
controller "Box" powered by feed
    sense key_on from k live
    output lamp when key_on
    output dead when key_on and not key_on
requirements
    danger fails  never lamp while key
    danger empty  never lamp while dead
    danger proved never lamp while not key
"""


def sought(progress: Callable[[str], None] = lambda _: None) -> Beside:
    program = loaded(VAN)
    return beside(program, {FILE: VAN}, check_program(program), Sought(10.0, 30.0, 30.0), progress)


@pytest.mark.parametrize("at", ["what excludes empty", "why no case for empty", "edits for fails", "settling"])
def test_an_interruption_ends_all_of_it(at: str) -> None:
    """Whatever comes after it is not begun."""
    said: list[str] = []

    def stop(text: str) -> None:
        said.append(text)
        if text == at:
            raise KeyboardInterrupt

    found = sought(stop)
    assert found.interrupted
    assert not found.bugs
    assert said[-1] == at


def test_nothing_is_left_out_without_one() -> None:
    """All of it is there."""
    found = sought()
    assert (found.interrupted, found.bugs) == (False, ())
    assert found.empty.keys() == {"empty"}
    assert found.mendings.keys() == {"fails"}
    assert found.bound is not None


def test_no_memory(monkeypatch: pytest.MonkeyPatch) -> None:
    """What needs more of it is open."""

    def full(*_: object, **__: object) -> None:
        raise MemoryError

    monkeypatch.setattr(binding, "Asking", full)
    found = sought()
    assert found.bugs == ()
    assert found.bound is not None
    assert [each.answer for each in found.bound.each] == [Open(Undecided.MEMORY)]
