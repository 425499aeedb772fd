"""`parked` says what a vehicle draws for ever, how that comes, and how long its battery lasts."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from logiccheck.cli.main import main
from tests.calling import EXAMPLES, call

VAN = """vehicle "Van"
world
    key     "Key"     off | run
    door    "Door"    closed | open
    hazard  "Hazard"  contact
    at first key is off, door is closed
harness
    source plus "Starter battery"
    wire key_wire    from plus when key is run
    wire door_wire   from plus when door is open
    wire wake
    diode key_wire  -> wake
    diode door_wire -> wake
    relay hold coil off_delay(wake, 4 min) supply plus, draws 0.15 A
    wire box_supply  from plus when hold
    wire hazard_wire from plus when hazard
    relay flasher coil blink(hazard_wire, on 0.4 s, off 0.6 s) supply plus
    wire flash_wire  from plus when flasher
    load lamps on flash_wire 7 A
controller powered by box_supply
    draws 120 mA awake
    sense door_open from door_wire live
    output cabin_lamp when door_open
        load 1 A
electrics
    parked when key is off
    battery plus reserve 100 min
requirements
    danger q never cabin_lamp while door is closed
"""


@pytest.fixture
def van(tmp_path: Path) -> Path:
    file = tmp_path / "van.circuit"
    file.write_text(VAN, encoding="utf-8")
    return file


def parked(file: Path, *options: str, status: int = 0) -> list[str]:
    """The lines of the answer, up to what it is reckoned with."""
    done = call("parked", file.name, *options, cwd=file.parent)
    assert done.returncode == status, done.stdout + done.stderr
    assert done.stderr == ""
    return done.stdout.split("\nWhat this is reckoned with")[0].splitlines()


def test_the_worst_is_told_with_its_story(van: Path) -> None:
    assert parked(van) == [
        "Van, parked and left alone: Starter battery gives 4.07 A at worst; that lasts for about 5.9 hours.",
        "",
        'plus "Starter battery"',
        "  For ever 4.07 A: lamps 7 A, 40 % of the time; the coil of hold 0.15 A; the box, awake 0.12 A; cabin_lamp 1 A.",
        "  How it comes to that: at first hazard is on; at 0.1 s door goes to open; then no hand moves any more.",
        "  From 0.4 s on all goes round every 1 s.",
        "  Ways found: 3; this is the worst of them. That there is no worse one is proved for all situations, orders and "
        "timings.",
        "  Others found: 1.27 A (hold, box and cabin_lamp); 0 A. There may be further ones.",
        "  It gives 24 Ah of 60 Ah: with 60 % left it still cranks, which is usual.",
        "  What it loses by itself is not counted; it is written so: loses 4 % a month",
        "  This is more than 25 mA, which a service text allows a parked vehicle with this battery.",
        "  With 60 % left, a battery of 12 V at rest shows between 12.28 V and 12.36 V: published tables differ.",
    ]


# Each worked out by hand: Ah until it no longer cranks, over amperes drawn and lost. The coffee van: 74 Ah, 40 % of it,
# loses 4 % in 30 days at 25 degC, 2^1.5 times as much at 40: 29.6 / 0.01163 / 24; 110 Ah, half of it, 3 %: 55 / 5.01296.
# The boats: half of 90 and of 80 Ah, 4 %. First steps: 28 Ah / (0.4 + 0.011) A; the camper: 28 Ah / (0.55 + 0.00275) A.
EXAMPLE_ANSWERS = {
    "coffee-van/van": "Harbour coffee van, parked and left alone: Starter battery plus gives nothing but what it loses by "
    "itself; that lasts for about 106.1 days; Leisure battery plus gives 5 A at worst; that lasts for about 11 hours.",
    "day-boat/boat": "Launch Sandpiper, parked and left alone: Battery plus gives nothing but what it loses by itself; "
    "that lasts for about 132.6 days.",
    "relay-only/boat": "Day boat Heron, parked and left alone: Battery plus gives nothing but what it loses by itself; "
    "that lasts for about 132.6 days.",
    "first-steps/van": "Harbour coffee van, first sketch, parked and left alone: Battery plus gives 0.4 A at worst; that "
    "lasts for about 2.8 days.",
    "copper-mistakes/two-day-battery": "Camper that nobody drives, parked and left alone: Battery plus gives 0.55 A at "
    "worst; that lasts for about 2.1 days.",
}


@pytest.mark.parametrize("name", EXAMPLE_ANSWERS)
def test_examples(name: str) -> None:
    """That there is nothing worse is proved for each source."""
    done = call("parked", f"{name}.circuit", cwd=EXAMPLES)
    assert done.returncode == 0, done.stdout + done.stderr
    lines = done.stdout.splitlines()
    assert lines[0] == EXAMPLE_ANSWERS[name]
    proved = [line for line in lines if "That there is no worse one is proved" in line]
    assert len(proved) == lines[0].count("gives")


def test_stories_are_kept_and_play(van: Path) -> None:
    assert call("parked", van.name, "--save", "kept", cwd=van.parent).returncode == 0
    kept = sorted(van.parent.glob("kept/*.circuit"))
    assert [file.name for file in kept] == ["parked_plus_1.circuit", "parked_plus_2.circuit", "parked_plus_3.circuit"]
    done = call("play", "van.circuit", "--scenario-file", "kept/parked_plus_1.circuit", cwd=van.parent)
    assert done.returncode == 0, done.stdout + done.stderr


def test_whole_stories(van: Path) -> None:
    lines = parked(van, "--stories")
    assert any(line.split() == ["box", "powered", "no", "yes"] for line in lines)


def test_nothing_is_said_of_parking(van: Path) -> None:
    van.write_text(VAN.replace("    parked when key is off\n", ""), encoding="utf-8")
    assert parked(van, status=1)[0] == (
        "The file does not say when the vehicle is parked. It is written so, under electrics: parked when key is off"
    )


def test_nothing_is_said_of_currents(van: Path) -> None:
    text = VAN.replace(" 7 A", "").replace("\n        load 1 A", "").replace(", draws 0.15 A", "")
    van.write_text(text.replace("    draws 120 mA awake\n", ""), encoding="utf-8")
    assert parked(van, status=1)[0].startswith("Nothing in the file says what it draws.")


def test_without_a_battery_the_time_is_not_decided(van: Path) -> None:
    van.write_text(VAN.replace("    battery plus reserve 100 min\n", ""), encoding="utf-8")
    lines = parked(van, status=3)
    assert lines[0] == (
        "Van, parked and left alone: Starter battery gives 4.07 A at worst; for how long that lasts is not known."
    )
    assert (
        "  For how long is not known. It is written so, under electrics: battery plus 70 Ah, cranks with 60 %" in lines
    )


def test_what_says_nothing_is_named(van: Path) -> None:
    van.write_text(VAN.replace("        load 1 A\n", ""), encoding="utf-8")
    done = call("parked", van.name, cwd=van.parent)
    assert done.returncode == 3
    assert "Not counted, for they do not say what they draw, and may be on for ever: cabin_lamp." in done.stdout
    assert done.stdout.splitlines()[0].endswith(" Not all that may draw is counted: see below.")


def test_a_battery_that_nothing_drains_is_not_said_to_last_for_ever(van: Path) -> None:
    """What it loses by itself is not said."""
    van.write_text(
        VAN.replace("parked when key is off", "parked when key is off and door is closed and not hazard"), "utf-8"
    )
    assert "lasts for ever" not in parked(van)[0]
    assert parked(van)[0].endswith("gives nothing; for how long that lasts is not known.")


def test_never_parked(van: Path) -> None:
    van.write_text(VAN.replace("parked when key is off", "parked when key is off and key is run"), encoding="utf-8")
    assert parked(van, status=1)[0] == (
        "Van: NO CASE: it is never parked and at rest, proved for all situations, orders and timings. See what is said "
        "after `parked`, and what is given."
    )


def test_a_timer_that_outlasts_the_battery(van: Path) -> None:
    """What it lets through ends by itself, but too late; then no number of hours is the whole answer."""
    van.write_text(VAN.replace("off_delay(wake, 4 min)", "off_delay(wake, 100 h)"), encoding="utf-8")
    done = call("parked", van.name, cwd=van.parent)
    assert done.returncode == 3
    assert "long enough to drain the battery before they end: hold." in done.stdout
    assert done.stdout.splitlines()[0].endswith(" Not all that may draw is counted: see below.")


def test_what_two_sources_feed(van: Path) -> None:
    """Each is said to give all of it."""
    text = (
        VAN.replace("    wire key_wire ", '    source second "Second battery"\n    wire key_wire ')
        .replace(
            "    wire hazard_wire from plus when hazard",
            "    wire hazard_wire from plus when hazard, from second when hazard",
        )
        .replace("    load lamps", "    load horn on hazard_wire 2 A\n    load lamps")
    )
    van.write_text(text + "", encoding="utf-8")
    done = call("parked", van.name, cwd=van.parent)
    assert "Counted in full for each source that can feed it: horn." in done.stdout


def test_a_mistake(van: Path) -> None:
    van.write_text(VAN.replace("parked when key", "parked when kay"), encoding="utf-8")
    assert call("parked", van.name, cwd=van.parent).returncode == 2


def test_as_json(van: Path) -> None:
    done = call("parked", van.name, "--json", cwd=van.parent)
    assert json.loads(done.stdout)["report"]["why"]["sections"][0]["title"] == 'plus "Starter battery"'


def test_interrupted(van: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """What was found until then is told, and that it is not all."""
    from logiccheck.copper.draws.worst import Search

    def stop(_: Search) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(Search, "run", stop)
    assert main(["parked", str(van)]) == 3
    said = capsys.readouterr().out
    assert said.startswith("Van, parked and left alone: Starter battery gives at least 0 A, at most 8.27 A, at worst;")
    assert "The run was interrupted: what is not said here was not decided." in said


@pytest.mark.our_bug
def test_a_bug_of_ours(van: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """What was found until then is told, and that it ended with a bug."""
    from logiccheck.base.bug import bug_of
    from logiccheck.copper.draws.worst import Search
    from logiccheck.explain.asking import BugMet

    def stop(_: Search) -> None:
        raise BugMet(bug_of(ValueError("tested"), "q"))

    monkeypatch.setattr(Search, "run", stop)
    assert main(["parked", str(van)]) == 4
    assert capsys.readouterr().out.startswith("Van, parked and left alone: Starter battery gives at least 0 A,")
