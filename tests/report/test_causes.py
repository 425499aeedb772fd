"""Why a signal is as it is: the user's own line behind it, and never one that has nothing to do with it."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from logiccheck.engine.check import check_program
from logiccheck.lang.load import load_text
from logiccheck.report.checked import check_report
from logiccheck.report.report import Report

VEHICLE = """\
vehicle "Bench"
world
    battery connected | disconnected
    a contact
    b contact
    c contact
    at first battery is connected, a is off, b is off, c is off
harness
    source plus when battery is connected
    ground strap when not c
    wire main from plus when a
    wire mid from main
    wire far from mid when b
    wire branch from mid when pull
    wire floor to strap when b
    wire low
    diode low -> floor
    relay pull coil a supply mid
    wire run_wire
    wire onward from run_wire when a
controller "Box" powered by far after 2 s
    sense pressed from floor grounded
    sense slow from floor grounded filter 1 s
    output stage when pressed fed by mid feeds run_wire
    output second when stage
    output always_on when true
requirements
"""


def report(requirement: str, more: str = "") -> Report:
    """The vehicle, checked for this one requirement."""
    loaded = load_text(f"{VEHICLE}    danger asked {requirement}\n{more}", "bench.circuit")
    assert loaded.program is not None, [diagnostic.sentence for diagnostic in loaded.diagnostics]
    return check_report(loaded.program, loaded.files, check_program(loaded.program))


def told(requirement: str) -> list[tuple[str, list[str]]]:
    """The causes: each sentence with what is marked, or with the whole lines where nothing is."""
    shown = report(requirement).verdicts[0].shown
    assert shown is not None
    found = []
    for cause in shown.causes:
        lines = cause.excerpt.lines if cause.excerpt is not None else ()
        marks = [line.text[begin:end] for line in lines for begin, end in line.marks]
        found.append((cause.sentence, marks or [line.text.strip() for line in lines]))
    return found


@pytest.mark.parametrize(
    ("requirement", "causes"),
    [
        (
            "never far while not c",
            [
                ("far is live because b is on, a is on and battery is connected.", ["b"]),
                ("mid is live because a is on and battery is connected.", ["a", "from main"]),
            ],
        ),
        (
            "never run_wire",
            [
                ("run_wire is live because stage is on.", ["output stage when pressed fed by mid feeds run_wire"]),
                ("floor is grounded because b is on and c is off.", ["b"]),
            ],
        ),
        (
            "always mid",
            [("mid is not live because a is off.", ["a"])],
        ),
        (
            "always far while a and b",
            [("far is not live because battery is disconnected.", ["battery is connected"])],
        ),
        (
            "never low is grounded",
            [
                ("low is grounded because b is on and c is off.", ["c", "b"]),
                ("What low hangs on is marked here:", ["diode low -> floor"]),
            ],
        ),
        (
            "always low is grounded while b",
            [("low is not grounded because c is on.", ["c"])],
        ),
        (
            "never pull while not a even for an instant",
            [("pull is still closed: a contact follows its coil one reaction later:", ["a"])],
        ),
        (
            "always pull while b",
            [("pull is open because mid is not live.", ["mid"]), ("mid is not live because a is off.", ["a"])],
        ),
        (
            "always powered while far",
            [
                (
                    "powered is off because the start-up delay is not over (its time runs since 1 h, 2 s left).",
                    ['controller "Box" powered by far after 2 s'],
                )
            ],
        ),
        (
            "always stage while mid",
            [("stage is off because the box has no power.", []), ("far is not live because b is off.", ["b"])],
        ),
        (
            "never pull",
            [("pull is closed because mid is live and a is on.", ["a", "mid"])],
        ),
        (
            "never slow is on",
            [
                (
                    "slow is on because what its filter lets through is on (from 4 s on).",
                    ["sense slow from floor grounded filter 1 s"],
                ),
                ("floor is grounded because b is on and c is off.", ["b"]),
            ],
        ),
        (
            "never second",
            [
                ("second is on because pressed is on.", ["pressed", "stage"]),
                ("floor is grounded because b is on and c is off.", ["b"]),
            ],
        ),
        (
            "never always_on",
            [("always_on is on because the box has power.", ["output always_on when true"])],
        ),
    ],
)
def test_causes(requirement: str, causes: Sequence[tuple[str, list[str]]]) -> None:
    """What stands under the story, word for word."""
    assert told(requirement) == causes


def test_only_what_decides_the_requirement_is_explained() -> None:
    """Of several that must not be on together, those that are."""
    sentences = [sentence.split(" is ")[0] for sentence, _ in told("always at most one of (run_wire, pull, slow)")]
    assert "slow" not in sentences


def test_a_short_circuit_names_the_wires_and_both_ways() -> None:
    """The built-in requirement: which wires, what makes them live, and what grounds them."""
    more = "harness\n    wire hot from plus when a, to strap when b\n"
    part = next(part for part in report("never a and b and c", more).verdicts if part.name == "no_short_circuit")
    assert part.sentence.endswith("these wires are live and grounded at once: hot.")
    assert part.shown is not None
    assert [cause.sentence for cause in part.shown.causes] == [
        "hot is live because a is on and battery is connected.",
        "hot is grounded because b is on and c is off.",
        "What hot hangs on is marked here:",
        "What hot hangs on is marked here:",
    ]
