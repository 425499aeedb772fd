"""`check --cases`, and what `check` says about a requirement that has no case: whole parts of the report."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.calling import EXAMPLES, call

BOAT = EXAMPLES / "relay-only" / "boat.circuit"

VAN = """vehicle "Van"
world
    key    off | run
    engine 0 .. 7000 rpm
    at first key is off, engine is 0 rpm
harness
    source plus
    wire feed     from plus
    wire key_wire from plus when key is run
    wire spare
controller "Box" powered by feed
    sense key_on from key_wire live
    sense revs   from engine
    output pump when key_on and revs above 400 rpm
    output dead when key_on and not key_on
given
    never engine above 5000 rpm and key is off
    always engine below 6000 rpm
requirements
"""


def check(folder: Path, requirement: str, *options: str) -> list[str]:
    """The lines of the report."""
    (folder / "van.circuit").write_text(f"{VAN}    danger r {requirement}\n", encoding="utf-8")
    return call("check", "van.circuit", *options, cwd=folder).stdout.splitlines()


@pytest.mark.parametrize(
    ("requirement", "sentence"),
    [
        (
            "never dead while key is run",
            "  These rules keep it away: with every output switched at will it could be so.",
        ),
        (
            "never pump while spare",
            "  This could not be so with every output switched at will, nor if nothing were given.",
        ),
        (
            "never pump while engine above 5500 rpm and key is off",
            "  What is given excludes it, even with every output switched at will. This line does it alone:",
        ),
    ],
)
def test_no_case(tmp_path: Path, requirement: str, sentence: str) -> None:
    """In three kinds; what is given is named."""
    lines = check(tmp_path, requirement)
    assert lines[0] == "Van: NOT SHOWN SAFE. Requirements that can never matter: 1 of 1."
    assert sentence in lines
    if "given excludes" in sentence:
        at = lines.index(sentence)
        assert lines[at + 1 : at + 3] == [
            "    van.circuit:17:5",
            "    17 │     never engine above 5000 rpm and key is off",
        ]


def test_no_case_without_a_box(tmp_path: Path) -> None:
    """There are no rules to blame."""
    text = 'vehicle "Relays"\nworld\n    key contact\nharness\n    source plus\n    wire a from plus when key\n'
    (tmp_path / "a.circuit").write_text(
        f"{text}    wire b\nrequirements\n    danger r never a while b\n", encoding="utf-8"
    )
    lines = call("check", "a.circuit", cwd=tmp_path).stdout.splitlines()
    assert "  As it is wired this cannot happen, whatever is given." in lines


def test_when_it_decides(tmp_path: Path) -> None:
    """One part for each requirement that is proved; one that asks nothing of the rules says so."""
    title = "When each proved requirement decides something"
    lines = check(tmp_path, "never pump while key is off", "--cases")
    at = lines.index(title)
    assert lines[at + 2 : at + 4] == ["r", "  decides  it is so at first. Were pump on here, it would be broken."]
    lines = check(tmp_path, "always key_wire while key is run", "--cases")
    at = lines.index(title)
    assert lines[at + 3 : at + 5] == [
        "  decides  at 1 h key goes to run. Were key_wire dead here, it would be broken.",
        "  but      It asks nothing of the rules: it holds even with every output switched at will.",
    ]
    assert title not in check(tmp_path, "never pump while key is off")


def test_where_nothing_was_found_to_show(tmp_path: Path) -> None:
    """A proof is claimed only of what was asked."""
    lines = check(tmp_path, "never pump and key_wire while key is off for longer than 3 s", "--cases")
    assert "  decides  No situation was found in which it decides something." in lines


def test_what_is_given_in_two_files(tmp_path: Path) -> None:
    """The lines of both are shown."""
    (tmp_path / "more.circuit").write_text("given\n    never engine above 5000 rpm and key is run\n", encoding="utf-8")
    text = VAN.replace("    always engine below 6000 rpm\n", "").replace("world\n", 'use "more.circuit"\nworld\n', 1)
    text += "    danger r never pump while engine above 5500 rpm\n"
    (tmp_path / "van.circuit").write_text(text, encoding="utf-8")
    lines = call("check", "van.circuit", cwd=tmp_path).stdout.splitlines()
    at = lines.index(
        "  What is given excludes it, even with every output switched at will. It takes all of these lines: 2."
    )
    assert lines[at + 1 : at + 6] == [
        "    van.circuit:18:5",
        "    18 │     never engine above 5000 rpm and key is off",
        "  And these, of another file:",
        "    more.circuit:2:5",
        "    2 │     never engine above 5000 rpm and key is run",
    ]


def test_of_a_vehicle_without_a_controller() -> None:
    """All of its requirements are shown deciding something, and the call is named where it was not made."""
    lines = call("check", BOAT.name, "--cases", cwd=BOAT.parent).stdout.splitlines()
    assert sum(line.startswith("  decides  ") for line in lines) == 13
    assert "  decides  it is so at first. Were main live here, it would be broken." in lines
    plain = call("check", BOAT.name, cwd=BOAT.parent).stdout.splitlines()
    assert "To see when each requirement decides something: logiccheck check boat.circuit --cases" in plain


def test_no_case_for_what_is_always_excused(tmp_path: Path) -> None:
    """It is said of the situation, and not of the requirement; no line of the rules is to blame for it."""
    lines = check(tmp_path, "key is run calls for pump no later than 1 s, excused by key is run")
    assert "  Holds, but says nothing: this can never be so: key is run and (not key is run)" in lines
    assert not any("all be so at once" in line for line in lines)
