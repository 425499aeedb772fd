"""`tour` shows a vehicle at work: whole parts of two examples, its stories as files that play, what is never on."""

from __future__ import annotations

from pathlib import Path

import pytest

from logiccheck.cli import tour as cli_tour
from logiccheck.cli.main import main
from logiccheck.cli.status import MISTAKE
from tests.calling import EXAMPLES, ROOT, call

VAN = EXAMPLES / "coffee-van" / "van.circuit"
BOAT = EXAMPLES / "relay-only" / "boat.circuit"
CHASE = EXAMPLES / "planted-mistakes" / "after-you.circuit"

LAMPS = """vehicle "Lamps"
world
    key contact
    at first not key
harness
    source plus
    wire key_wire from plus when key
controller "Box" powered by plus_wire
    sense k from key_wire live
    output lamp "Lamp" when k
    output dark when k and not k
harness
    wire plus_wire from plus
"""


def tour(file: Path, *options: str, status: int = 0) -> list[str]:
    """The lines of the answer, up to what was taken as given."""
    done = call("tour", file.name, *options, cwd=file.parent)
    assert done.returncode == status, done.stdout + done.stderr
    assert done.stderr == ""
    return done.stdout.split("\nWhat was taken as given")[0].splitlines()


def part(lines: list[str], title: str) -> list[str]:
    """The lines under a title."""
    at = lines.index(title) + 1
    return lines[at : lines.index("", at)]


def test_of_the_coffee_van() -> None:
    """How it wakes and sleeps, an output, a relay, and a load that is never without power."""
    lines = tour(VAN)
    assert lines[0] == "Harbour coffee van: shown coming on: 31 of 31; going off again: 30 of 31."
    assert part(lines, 'powered "Main power box"') == [
        "  start-up   at 1 h door goes to open",
        "  shut-down  at 1 min door goes to open; at 6 min the delay in door_limit is over; at 10 min timer hold ends",
    ]
    assert part(lines, 'fuel_pump "Fuel pump"') == [
        "  on         at 1 h door goes to open",
        "  off again  at 1 s door goes to open; at 4 s timer prime ends",
    ]
    assert part(lines, 'door_limit "Door time limit relay"') == [
        "  closed      at 1 min door goes to open; at 6 min the delay in door_limit is over",
        "  open again  then at 7 min door goes to closed",
    ]
    assert part(lines, 'fridge "Counter fridge"') == [
        "  on         it is so at first",
        "  off again  never, once it is on: proved for all situations, orders and timings",
    ]
    assert lines[-2:] == [
        "Each is a shortest story; of those in which something goes off, the shortest at whose end every source that "
        "can matter to it is live, if one was found.",
        "The whole stories: logiccheck tour van.circuit --deep; to keep and play them: --save FOLDER",
    ]


def test_without_a_controller() -> None:
    """Of a vehicle that has only relays the first part is about anything being on."""
    lines = tour(BOAT)
    assert part(lines, "anything") == [
        "  start-up   at 1 h float_switch goes to on",
        "  shut-down  at first master is on and pump_switch is on; at 1 h master goes to off",
    ]
    assert part(lines, 'bilge_pump "Bilge pump"') == [
        "  on         at first master is on and pump_switch is on",
        "  off again  then at 1 h master goes to off",
    ]


def test_what_is_never_on(tmp_path: Path) -> None:
    """It is proved, and the count says that it was not shown; that nothing is switched is said."""
    (tmp_path / "lamps.circuit").write_text(LAMPS, encoding="utf-8")
    lines = tour(tmp_path / "lamps.circuit")
    assert lines[0] == "Lamps: shown coming on: 1 of 2; going off again: 1 of 2."
    assert part(lines, "dark") == ["  on  never on: proved for all situations, orders and timings"]
    assert part(lines, 'powered "Box"') == [
        "  start-up   it never comes on after it was off: proved for all situations, orders and timings",
        "  shut-down  it never falls asleep: proved for all situations, orders and timings",
    ]
    (tmp_path / "bare.circuit").write_text('vehicle "Bare"\nworld\n    key contact\n', encoding="utf-8")
    nothing = "Nothing is switched here: there is no output, no relay and no load."
    assert tour(tmp_path / "bare.circuit", status=1)[0] == nothing


def test_whole_stories() -> None:
    """Each is a table under what it shows."""
    lines = tour(BOAT, "--deep")
    assert lines.count("  on") == 7
    assert lines.count("  closed") == 3
    assert sum("at first" in line and "moments" not in line for line in lines) >= 20


def test_kept_stories_play(tmp_path: Path) -> None:
    """Each file plays on the vehicle, and ends as it says."""
    done = call("tour", BOAT, "--save", tmp_path / "kept", cwd=ROOT)
    assert done.returncode == 0
    kept = sorted((tmp_path / "kept").iterdir())
    assert len(kept) == 2 + 2 * 10
    for path in kept:
        played = call("play", BOAT, "--scenario-file", path, cwd=ROOT)
        assert played.returncode == 0, path.read_text(encoding="utf-8") + played.stdout
    text = (tmp_path / "kept" / "bilge_pump_off.circuit").read_text(encoding="utf-8")
    assert "# Bilge pump: off again\n" in text
    assert "  expect not bilge_pump\n" in text


def test_stories_that_cannot_be_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Exit status 2, also where not all was decided."""
    monkeypatch.setattr(cli_tour, "keep", lambda *_: MISTAKE)
    assert main(["tour", str(VAN), "--budget", "0.001", "--save", str(tmp_path)]) == MISTAKE


def test_nothing_is_claimed_that_is_not_decided() -> None:
    """Too little time: exit status 3, and it is said."""
    lines = tour(VAN, "--budget", "0.001", status=3)
    assert lines[0] == "Harbour coffee van: shown coming on: 0 of 31; going off again: 0 of 31."
    assert not any("proved" in line for line in lines)


def test_what_never_comes_to_rest() -> None:
    """Stories are shown, nothing is proved, and the way to what stands in the way is told."""
    lines = tour(CHASE, status=1)
    assert "The rules or relays can chase each other for ever. This is said of what comes to rest." in lines or (
        "No proof: the rules or relays can chase each other for ever." in lines
    )
    assert "What stands in the way is shown by: logiccheck check after-you.circuit" in lines


def test_a_green_check_names_the_call() -> None:
    """One line, so that even a green run has something to show."""
    done = call("check", BOAT, cwd=ROOT)
    assert done.returncode == 0
    said = "To see it at work, each thing coming on and going off: logiccheck tour"
    assert sum(line.startswith(said) for line in done.stdout.splitlines()) == 1
