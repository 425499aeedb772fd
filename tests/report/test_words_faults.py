"""The sentences about single faults, whole."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.copper.faults.answers import Blocked, Open
from logiccheck.copper.faults.parts import Fault, Mode, PartKind, When
from logiccheck.engine.verdict import Kind, Obstacle, Undecided
from logiccheck.report import words_faults as words
from logiccheck.report.faults_part import Severity

NONE = dict.fromkeys(Severity, 0)
BAD = words.Tally(
    by={**NONE, Severity.DANGER: 3, Severity.SHORT: 4, Severity.FUNCTION: 60, Severity.NONE: 145},
    hidden=150,
    hidden_dangers=2,
    open=0,
    dangers=7,
)
GOOD = replace(BAD, by={**NONE, Severity.NONE: 12}, hidden=12, hidden_dangers=0)


def test_first_line() -> None:
    """How many things are enough for danger, and how many of them nobody notices; what is not known."""
    assert words.opening("Van", BAD) == (
        "Van: Single faults that can let something dangerous happen: 3 of 212. Hidden of these: 2."
    )
    assert words.opening("Van", GOOD) == "Van: Single faults that can let something dangerous happen: 0 of 12."
    assert words.opening("Van", replace(GOOD, dangers=0)) == (
        "Van: Single faults that can let something dangerous happen: 0 of 12. "
        "But no requirement of yours that guards against danger to people was asked."
    )
    assert words.opening("Van", replace(GOOD, open=5, interrupted=True)) == (
        "Van: Single faults that can let something dangerous happen: 0 of 12. Not all decided: 5. "
        "This run was interrupted."
    )
    assert words.opening("Van", replace(GOOD, unasked=2, without_any=2)) == (
        "Van: Single faults that can let something dangerous happen: 0 of 12. "
        "Requirements against danger that fail when nothing is broken: 2."
    )
    assert words.opening("Van", replace(GOOD, by=NONE)) == "Van: nothing that could break is declared."


def test_last_line() -> None:
    """All counts, then what they come to."""
    assert words.closing(BAD) == (
        "faults 212, danger 3, short circuit 4, damage 0, function 60, nothing fails 145, not all decided 0, "
        "hidden of all 150: one fault is enough for danger"
    )
    assert words.closing(GOOD).endswith("hidden of all 12: no single fault of these is enough for danger")
    assert words.closing(replace(GOOD, open=1)).endswith("not all decided 1, hidden of all 12: not all decided")
    assert words.closing(replace(GOOD, open=1, interrupted=True)).endswith(": interrupted")
    assert words.closing(replace(GOOD, dangers=0)).endswith(": danger was not asked about")
    assert words.closing(replace(GOOD, unasked=1)).endswith(": not all asked")
    assert words.closing(replace(BAD, unasked=1, without_any=1)).endswith(": there is danger without any fault")


def test_when() -> None:
    """A loose contact can do all that a break can, and is told only where the break does not fail."""
    assert words.whens(start=True, later=True, loose=True, only=False) == "from the start or later"
    assert words.whens(start=False, later=True, loose=True, only=False) == "if it breaks later"
    assert words.whens(start=False, later=False, loose=True, only=True) == "only if it comes and goes"
    assert words.whens(start=True, later=False, loose=True, only=False) == "from the start and if it comes and goes"
    assert words.whens(start=True, later=False, loose=False, only=False) == "from the start"


def test_no_answer() -> None:
    """Why it is not known whether a requirement fails."""
    assert words.why_open(Open()) == "not decided"
    assert words.why_open(Open(Undecided.BUDGET)) == "not decided: the time ran out (more: --budget SECONDS)"
    assert words.why_open(Open(Undecided.LOST)) == "not decided: the process that looked at it ended"
    assert words.why_open(Blocked(Obstacle.UNSETTLED)) == (
        "no answer: with this fault the rules or relays can chase each other for ever"
    )
    assert all(words.blocked(obstacle) for obstacle in Obstacle)
    assert words.unanswered(["a open", "b live"], "not decided") == "not decided: a open, b live"
    many = words.unanswered([f"r{number}" for number in range(20)], "not decided")
    assert many.endswith(", r11, and 8 more")


def test_ends() -> None:
    """What becomes of requirements, and who notices."""
    assert words.end("starts", "from the start") == "starts fails from the start"
    assert words.noticed("Charge lamp", "5 s") == "noticed: Charge lamp within 5 s"
    assert words.noticed("Horn", "1 s", "key is run") == "noticed while key is run: Horn within 1 s"
    assert words.hiding_title(3, "a open", "if it breaks later", "Charge lamp") == (
        "Story 3: a open is hidden, if it breaks later: Charge lamp does not show it in time"
    )
    assert words.in_story(3) == ", story 3"
    assert words.manner(Fault("a open", PartKind.WIRE, Mode.OPEN, ""), When.START) == "from the start"
    assert words.manner(Fault("a dip", PartKind.SOURCE, Mode.DIPPED, ""), When.LOOSE) == "if it dips"
    assert words.manner(Fault("a tripped", PartKind.OUTPUT, Mode.TRIPPED, ""), When.LATER) == "if it trips"


def test_what_is_no_part() -> None:
    """Switches in coils; ways of failing where parts are asked for."""
    at_a_wire = "At a wire (`wire NAME from plus when ...`), and the wire in the coil, such a switch is a part."
    assert words.in_coils({"stop": ["kp", "kg"], "up": ["kp"]}) == (
        "Not tried, that these stick where the coil of a relay names them: stop (coil of kp, kg); up (coil of kp). "
        + at_a_wire
    )
    assert words.only_in_a_coil("stop", ["kp", "kg"]) == (
        f"No fault of stop can be tried: it stands in the coil of kp, kg. {at_a_wire}"
    )
    assert words.way_without_sets("open") == (
        "open is a way of failing: --only takes that together with --sets alone. Name a part, or a fault of it."
    )


def test_requirements() -> None:
    """How many faults are enough for a requirement; which requirements none breaks, and which were not asked."""
    assert words.hits(3, 1) == "Single faults with which it fails: 3. Hidden: 1."
    assert words.held(["a", "b"]) == "Proved with each single fault that was tried: a, b."
    assert words.unproved([("a", Kind.FAILS), ("b", Kind.NO_CASE)]) == (
        "Not proved when nothing is broken, and so not asked here: a (fails), b (no case)."
    )
    assert words.shorts(8) == (
        "Shorts of a wire to ground or to supply that end in a short circuit, and in no other danger: 8. "
        "A fuse on the way has to end that, and whether there is one is not looked at; such a fault does not count as "
        "dangerous here."
    )
    assert words.nothing_asked("my van.circuit") == (
        "No requirement was proved when nothing is broken, so there is nothing to ask. "
        'See: logiccheck check "my van.circuit"'
    )
    assert words.how_to_see("van.circuit") == (
        "More: logiccheck faults van.circuit --requirement NAME, --stories; "
        "the whole table of parts: --html OUT or --csv OUT"
    )
    assert (
        words.story_title(2, "starts", "a open", "from the start")
        == "Story 2: starts fails with a open, from the start"
    )


@pytest.mark.parametrize(
    ("kind", "mode", "reads", "told"),
    [
        (PartKind.SENSE, Mode.DEAD, "off", "it reads off"),
        (PartKind.NUMBER, Mode.HIGH, "7000 rpm", "it reads 7000 rpm"),
        (PartKind.NUMBER, Mode.HOLDING, "", "it goes on reading what it read just before"),
        (PartKind.DIODE, Mode.SHORTED, "", "it passes both ways"),
        (PartKind.OUTPUT, Mode.TRIPPED, "", "it goes off, and can come back only after the box was without power"),
    ],
)
def test_local_effect(kind: PartKind, mode: Mode, reads: str, told: str) -> None:
    """What becomes of the part itself."""
    assert words.local(Fault("x", kind, mode, ""), reads) == told
