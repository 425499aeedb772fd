"""`currents` on a small vehicle: the whole text, its exit status, its JSON, and what there is to say in other cases."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.calling import call

SMALL = """language 1
vehicle "Small"
world
    battery connected | disconnected
    key off | run
    brake contact
    at first battery is connected, key is off, not brake
harness
    source plus "Battery" when battery is connected
    wire key_wire from plus when key is run
    wire stop_wire from plus when brake
    wire box_supply from plus, fuse 30 A, wire 4 mm2 over 1.5 m
    load stop_lamps "Stop lamps" on stop_wire 3.5 A, fuse 5 A, wire 1 mm2 over 6 m
controller "Box" powered by box_supply
    draws 120 mA awake
    sense key_on from key_wire live
    output pump "Pump" when key_on load 8 A, inrush 22 A for 80 ms, fuse {fuse}, wire 1.5 mm2 over 4 m
    output fan when on_delay(key_on, {later}) load 14 A, inrush 45 A for 300 ms
    output heater when not key_on load 9 A
electrics
    nominal 12 V
    apart 250 ms
"""


def currents(folder: Path, text: str, *options: str, status: int) -> str:
    """What it says up to what was taken as given."""
    (folder / "small.circuit").write_text(text, encoding="utf-8")
    done = call("currents", "small.circuit", *options, cwd=folder)
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout.split("\nWhat was taken as given")[0]


def test_all_of_it(tmp_path: Path) -> None:
    """What fails comes first; then each feed, the pairs, and what was held against tables."""
    text = currents(tmp_path, SMALL.format(fuse="8 A", later="80 ms"), status=1)
    before, tables = text.split("\nHeld against published tables\n")
    assert before.splitlines() == [
        "The most that plus ever gives at once: 25.62 A (not 34.62 A, which all loads together would be). Checks that fail: 2.",
        "",
        "What fails",
        '  pump "Pump"',
        "    - continuous current against fuse: 8 A; a fuse of 8 A carries 6.4 A for long: does not fit; the next fuse "
        "that is made and carries it: 10 A. A fuse carries 80 % of its rating for long: 6.4 A. [1] [9] [10]",
        "  pump and fan: both come on within less than 250 ms: at 10 ms key goes to run; at 90 ms the delay in fan is "
        "over",
        "",
        'plus "Battery", source',
        "  gives        the most at once: 25.62 A; if all were on at once: 34.62 A",
        "  on then      fan 14 A, pump 8 A, stop_lamps 3.5 A, box awake 0.12 A",
        "  story        at 10 ms brake goes to on and key goes to run; at 90 ms the delay in fan is over",
        "  with inrush  the most at an instant: 56.62 A; if all inrush came at once: 79.62 A; just come on: fan; also "
        "on: stop_lamps, box awake, pump",
        "  story        at 10 ms brake goes to on and key goes to run; at 90 ms the delay in fan is over",
        "",
        "box_supply, wire",
        "  carries      the most at once: 22.12 A; if all were on at once: 31.12 A",
        "  fuse         30 A; that is about 74 % of it",
        "  on then      fan 14 A, pump 8 A, box awake 0.12 A",
        "  story        at 10 ms key goes to run; at 90 ms the delay in fan is over",
        "  with inrush  the most at an instant: 53.12 A; if all inrush came at once: 76.12 A; just come on: fan; also "
        "on: box awake, pump",
        "  story        at 10 ms key goes to run; at 90 ms the delay in fan is over",
        "",
        "Inrush apart from each other",
        "  Wanted: at least 250 ms between the moments in which two come on that share a source, a fused wire or the "
        "box, while both are on; exactly 250 ms is far enough. Pairs: 1.",
    ]
    assert "  box_supply\n    - continuous current against fuse: 22.12 A; a fuse of 30 A carries 24 A" in tables
    assert "\n  [1] Share of its rating that a fuse carries for long:" in tables


def test_staged_it_is_fine(tmp_path: Path) -> None:
    """Exactly the time is far enough, and that is proved."""
    text = currents(tmp_path, SMALL.format(fuse="15 A", later="250 ms"), status=0)
    assert "What fails" not in text
    assert (
        "  pump and fan: never within less than 250 ms while both are on: proved for all situations, orders and timings\n"
        in text
    )


def test_stories_as_tables(tmp_path: Path) -> None:
    """Each with all that draws, and nothing of what the question remembers."""
    text = currents(tmp_path, SMALL.format(fuse="15 A", later="250 ms"), "--stories", status=0)
    assert "\nplus\n  gives        25.62 A\n  with inrush  " in text
    assert "timers  fan" in text
    assert "come" not in text.split("\nplus\n  gives")[1].split("All along")[0]


def test_numbers_are_exact_in_json(tmp_path: Path) -> None:
    text = currents(tmp_path, SMALL.format(fuse="15 A", later="250 ms"), "--json", status=0)
    part = json.loads(text)["report"]["currents"]
    assert [(each["name"], each["least"], each["most"], each["together"]) for each in part["feeds"]] == [
        ("plus", "25.62", "25.62", "34.62"),
        ("box_supply", "22.12", "22.12", "31.12"),
    ]
    others = [(each["name"], each["word"], each["sentence"]) for each in part["fits"] if each["word"] != "fits"]
    assert [(name, word) for name, word, _ in others] == [("box_supply", "not known")]
    assert others[0][2].startswith("inrush against fuse: 45 A of fan for ")


def test_no_time(tmp_path: Path) -> None:
    """What is not reached is no answer: never more than all that may be on at once."""
    text = currents(tmp_path, SMALL.format(fuse="15 A", later="250 ms"), "--budget", "0.001", status=3)
    assert text.startswith("The most that plus ever gives at once: at least 0 A, at most 34.62 A (")


@pytest.mark.parametrize("with_box", [True, False])
def test_nothing_says_what_it_draws(tmp_path: Path, with_box: bool) -> None:
    """Then it is said what can be written."""
    text = 'vehicle "x"\nharness\n    source plus\n    wire w from plus\n    load lamp on w\n'
    text += 'controller "Box" powered by w\n    output o when true\n' if with_box else ""
    said = currents(tmp_path, text, status=1)
    assert said.startswith("Nothing here says what it draws, so there is nothing to add up.\n")
    assert "A load and an output say it so: load 8 A, inrush 22 A for 80 ms, fuse 15 A" in said
