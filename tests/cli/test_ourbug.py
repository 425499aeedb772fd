"""A bug of ours is named as ours, with what to send, and never as a traceback."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug
from logiccheck.cli import check
from logiccheck.cli.main import main
from logiccheck.cli.ourbug import met
from logiccheck.engine.certify import ProofRefused
from logiccheck.engine.check import check_program
from logiccheck.engine.decider import Asked, Decider
from logiccheck.engine.engines import BOTH
from logiccheck.engine.question import Question
from logiccheck.engine.unroll import Unrolling
from logiccheck.engine.verdict import Kind, Undecided, Verdict
from logiccheck.session import checking
from tests.calling import EXAMPLES
from tests.oracle.loading import loaded

pytestmark = pytest.mark.our_bug

SECONDS = 20.0

VAN = str(EXAMPLES / "first-steps" / "van.circuit")


def test_our_bug(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit status 4, version and place, and no verdict."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError("oh")

    monkeypatch.setattr(checking, "load", broken)
    assert main(["check", VAN]) == 4
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "This is our bug, not a mistake in your file. Nothing was decided." in captured.err
    assert "ZeroDivisionError: oh" in captured.err
    assert "Traceback" not in captured.err


THREE = """vehicle "Three"

world
    a contact
    at first a is off

requirements
    danger near  never a
    danger far   never a for longer than 2 s
    danger ever  possible a
"""


LAMP = """vehicle "Lamp"

world
    a contact
    at first a is off

harness
    source plus
    wire lit from plus when a
    load lamp on lit

requirements
    danger   near  never lamp while not a
    function far   always lamp while a
"""


def stumbling(monkeypatch: pytest.MonkeyPatch, over: str) -> None:
    """A proof about the requirement of this name is refused."""
    decide = Decider._decide

    def refused(self: Decider, question: Question, budget: Budget) -> Verdict:
        if question.requirement.name == over:
            raise ProofRefused("it does not hold")
        return decide(self, question, budget)

    monkeypatch.setattr(Decider, "_decide", refused)


def test_our_bug_in_one_requirement_costs_no_other_its_verdict(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The report has the others; the one is named as our bug, with what to send, and the exit status is 4 all the
    same."""
    stumbling(monkeypatch, "far")
    file = tmp_path / "three.circuit"
    file.write_text(THREE, encoding="utf-8")
    assert main(["check", str(file)]) == 4
    captured = capsys.readouterr()
    assert "Not decided: here logiccheck itself broke off. This is our bug, not a mistake in your file." in captured.out
    assert "proved 1, fails 1, not decided 1" in captured.out
    assert "Not decided because of it: far. All else stands." in captured.err
    assert "ProofRefused: it does not hold" in captured.err
    assert f"called as: logiccheck check {file}" in captured.err
    assert "Traceback" not in captured.err


def test_our_bug_in_one_requirement_leaves_the_edits_to_the_others(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """The one is named as not proved; nothing is said to block anything."""
    stumbling(monkeypatch, "far")
    file = tmp_path / "lamp.circuit"
    file.write_text(LAMP, encoding="utf-8")
    assert main(["unguarded", str(file)]) == 4
    captured = capsys.readouterr()
    assert "Not proved as it is, and so not asked whether they would notice: far" in captured.out
    assert "tried 2, noticed 2" in captured.out
    assert "Not decided because of it: far. All else stands." in captured.err


def test_our_bug_is_found_again_in_what_was_decided(monkeypatch: pytest.MonkeyPatch) -> None:
    """It says where; it is no proof of anything; and it can be sent by the process that met it."""
    stumbling(monkeypatch, "ever")
    program = loaded(THREE)
    check = check_program(program)
    assert [verdict.kind for verdict in check.verdicts] == [Kind.FAILS, Kind.FAILS, Kind.NOT_DECIDED]
    assert check.verdicts[2].undecided is Undecided.OUR_BUG
    decided = Decider(Asked(program, 10, None, frozenset())).decide(2)
    assert decided.found == ()
    assert decided.bug is not None
    assert decided.bug.places[1].startswith("engine/decider.py:")
    assert pickle.loads(pickle.dumps(decided)) == decided


NEVER_SO = """vehicle "Never so"

world
    a contact
    b contact
    c contact
    at first a is off, b is off, c is off

given
    never a and b
    never a and c

requirements
    danger   d1 never a and b and c
    function d2 a calls for a no later than 1 s
    danger   d3 never (a and b and c) while a and b
    danger   d4 never (a and b and not b) while a and c
"""


@pytest.mark.parametrize("moment", [1, 2, 3])
@pytest.mark.parametrize("error", [ValueError, MemoryError])
def test_what_was_left_in_the_middle_is_not_used_again(
    monkeypatch: pytest.MonkeyPatch, error: type[Exception], moment: int
) -> None:
    """A moment that has lost what is given, because adding it broke off, shows no case of a later requirement."""
    decider = Decider(Asked(loaded(NEVER_SO), SECONDS, None, frozenset(BOTH)))
    extend, begun = Unrolling.extend, 0

    def broken_off(unrolling: Unrolling) -> None:
        nonlocal begun
        shared = decider._occurrences
        begun += shared is not None and unrolling is shared.unrolling
        if shared is None or unrolling is not shared.unrolling or begun != moment:
            return extend(unrolling)

        def add(clause: list[int]) -> None:
            if len(unrolling.moments) == moment:  # it is there; what is given is not said of it yet
                raise error("oh")
            was(clause)

        was = unrolling.sat.add
        with monkeypatch.context() as patched:
            patched.setattr(unrolling.sat, "add", add)
            return extend(unrolling)

    monkeypatch.setattr(Unrolling, "extend", broken_off)
    verdicts = [decider.decide(number).verdict for number in range(4)]
    assert [verdict.kind for verdict in verdicts].count(Kind.NOT_DECIDED) == 1
    assert Kind.NO_CASE in [verdict.kind for verdict in verdicts]
    assert verdicts[3].kind in (Kind.NO_CASE, Kind.NOT_DECIDED)
    assert verdicts[2].kind in (Kind.NO_CASE, Kind.NOT_DECIDED)


def test_our_bug_beside_the_verdicts(capsys: pytest.CaptureFixture[str]) -> None:
    """All of them stand, and that is what is said."""
    assert met([Bug("ValueError: oh", ("explain/edits.py:3",))], ["check", "x.circuit"]) == 4
    said = capsys.readouterr().err
    assert "All verdicts stand; something that is said beside them is missing." in said
    assert "  at explain/edits.py:3" in said


def test_an_interrupt_before_anything(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Ctrl-C while the file is read: nothing decided, status 3."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(check, "check", stopped)
    assert main(["check", VAN]) == 3
    assert "Interrupted; nothing is reported." in capsys.readouterr().err
