"""`paths` lists all ways to a wire, finds what reaches what unmeant, and draws the harness: whole parts of answers."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from logiccheck.report.words_through import BESIDE, MEND, NO_NEW_WAY, NO_WAY
from tests.calling import EXAMPLES, call
from tests.copper.harnesses import HEAD, JOINED, KEPT_APART

VAN = EXAMPLES / "coffee-van" / "van.circuit"
PLANTED = EXAMPLES / "planted-mistakes"


def paths(folder: Path, text: str, *options: str, status: int) -> list[str]:
    """The lines of the answer about a vehicle, up to what was taken as given."""
    (folder / "van.circuit").write_text(text, encoding="utf-8")
    done = call("paths", "van.circuit", *options, cwd=folder)
    assert done.returncode == status, done.stdout + done.stderr
    return done.stdout.split("\nWhat was taken as given")[0].splitlines()


def section(lines: list[str], title: str) -> list[str]:
    """The lines under a title."""
    at = lines.index(title) + 1
    rest = [*lines[at:], ""]
    return rest[: rest.index("")]


def test_a_plain_wire_in_the_place_of_a_diode(tmp_path: Path) -> None:
    """The wire of the key is live with the door, and the sense on it takes that for the key."""
    lines = paths(tmp_path, JOINED, status=1)
    assert lines[0] == "Small: FOUND WRONG IN THE HARNESS: 1."
    assert section(lines, "key_wire is live while nothing feeds it by its own line") == [
        "  It gets there over: Battery plus (battery is connected) -> door_wire (door is open) -> diode -> wake -> key_wire.",
        "  Shortest story: at 1 h door goes to open.",
        "  What hangs on it: sense key_on.",
        f"  {MEND}",
        "  Here it gets in",
        "    van.circuit:12:5",
        "    12 │     join key_wire with wake",
    ]


def test_diodes_keep_apart(tmp_path: Path) -> None:
    """Nothing is found, and that is proved."""
    lines = paths(tmp_path, KEPT_APART, status=0)
    assert lines[0] == "Small: NOTHING FOUND."
    proved = "Nothing that counts as wrong ever reaches one: proved for all situations, orders and timings."
    assert f"Wires looked at: 3. {proved}" in lines


def test_all_ways_to_a_wire(tmp_path: Path) -> None:
    """Each with its parts in order, what it needs, and how it comes to that."""
    lines = paths(tmp_path, KEPT_APART, "wake", status=0)
    assert lines[0] == "wake: ways by which it can be live: 2; ways by which it can be grounded: 0."
    assert section(
        lines, "Way 2, live: Battery plus (battery is connected) -> door_wire (door is open) -> diode -> wake"
    ) == [
        "  Needs: battery is connected and door is open.",
        "  Shortest story: at 1 h door goes to open.",
    ]
    proved = "Proved for all situations, orders and timings."
    assert f"Whenever it is live or grounded, all that one of these ways needs is so. {proved}" in lines


def test_ways_that_a_fault_opens(tmp_path: Path) -> None:
    """Which fault opens which way, its place, and how it comes to that; what opens none is said, too."""
    lines = paths(tmp_path, KEPT_APART, "key_wire", status=0)
    told = section(lines, "Ways that are there only with one fault")
    at = told.index(
        "  - Diode key_wire -> wake shorted: live over Battery plus (battery is connected) -> door_wire (door is open) "
        "-> diode -> wake -> diode, shorted -> key_wire  [van.circuit:12]"
    )
    assert told[at + 1] == "    - Shortest story: at 1 h door goes to open."
    assert any(
        "Switch of key_wire stuck closed: live over" in line and "(key is run, stuck closed)" in line for line in told
    )
    assert (
        "  - Wire wake shorted to ground: grounded over ground -> wake -> diode -> key_wire  [van.circuit:11]" in told
    )
    assert "Faults by which something more might reach it: 5; that do open a way: 5." in lines


def test_faults_that_open_nothing(tmp_path: Path) -> None:
    """The diode of the door, shorted, lets nothing more to the wire that all lead to."""
    lines = paths(tmp_path, KEPT_APART, "wake", status=0)
    assert section(lines, NO_WAY) == [
        "  Diode key_wire -> wake shorted: live",
        "  Diode door_wire -> wake shorted: live",
    ]


def test_a_fault_by_which_a_relay_holds_itself(tmp_path: Path) -> None:
    """The way of its own contact then conducts, too; that is no proof of anything."""
    text = """vehicle "Mill"
world
    button contact
    stop   contact
harness
    source plus "Battery plus"
    wire feed from plus when not stop
    wire run  from feed when button, from feed when hold
    relay hold coil run supply plus
"""
    lines = paths(tmp_path, text, "run", status=0)
    told = section(lines, BESIDE)
    assert told[1::2] == [
        "  - Switch of run stuck closed: live over Battery plus -> feed (not stop) -> run (button, stuck closed)  "
        "[van.circuit:8]",
        "  - Relay hold welded: live over Battery plus -> feed (not stop) -> run (hold, hold welded)  [van.circuit:9]",
    ]
    assert section(lines, NO_WAY) == ["  Relay hold dead: live"]


def test_a_fault_that_may_close_what_is_there_without_it(tmp_path: Path) -> None:
    """It opens no new way, and that is all that is proved."""
    text = """vehicle "Mill"
world
    s contact
harness
    source plus
    wire a from plus when s
    wire b
    diode a -> b
    relay r coil b or a supply plus
    wire c from b when r, from plus when r
    diode c -> b
"""
    lines = paths(tmp_path, text, "b", status=0)
    assert "  Diode a -> b shorted: live" in section(lines, NO_NEW_WAY)


def test_what_can_never_conduct(tmp_path: Path) -> None:
    """A way whose two contacts never close together."""
    text = KEPT_APART.replace("wire wake\n", "wire wake from key_wire when key is off\n").replace(
        "    diode key_wire -> wake\n", ""
    )
    lines = paths(tmp_path, text, "wake", status=0)
    assert lines[0] == "wake: ways by which it can be live: 1; ways by which it can be grounded: 0."
    assert section(lines, "Ways that can never conduct") == [
        "  Battery plus (battery is connected) -> key_wire (key is run) -> wake (key is off). "
        "Never so: battery is connected, key is run and key is off."
    ]


def test_two_wires_that_diodes_were_to_keep_apart(tmp_path: Path) -> None:
    """Neither says what feeds it; each leads into a third through a diode, and one reaches the other."""
    text = (
        HEAD
        + """harness
    source plus when battery is connected
    wire seat_wire
    wire hood_wire
    wire wake
    diode seat_wire -> wake
    diode hood_wire -> wake
    join plus with hood_wire when door is open
    join hood_wire with seat_wire when key is run
"""
    )
    lines = paths(tmp_path, text, status=1)
    title = "seat_wire is live from hood_wire, though each leads into wake through a diode of its own"
    assert section(lines, title)[0] == (
        "  It gets there over: plus (battery is connected) -> hood_wire (door is open) -> seat_wire (key is run)."
    )


def test_a_sense_that_reads_its_own_output(tmp_path: Path) -> None:
    """Copper can make the wire live, too: the sense cannot tell one from the other. Where only outputs feed it, that
    may be meant."""
    text = KEPT_APART.replace(
        "    diode key_wire", "    wire keep_wire\n    diode keep_wire -> wake\n    diode key_wire"
    )
    text = text.replace("sense key_on from key_wire", "sense key_on from wake").replace(
        "when key_on", "when key_on feeds keep_wire"
    )
    lines = paths(tmp_path, text, status=1)
    told = section(
        lines, "The sense key_on reads wake, and there it can see nothing but an output of the same box: radio"
    )
    assert "  Copper can make that wire live, too. The sense cannot tell the one from the other." in told
    assert "  What the output radio says names the sense key_on, so it can hold itself on." in told
    lines = call("paths", EXAMPLES / "day-boat" / "boat.circuit", cwd=tmp_path).stdout.splitlines()
    assert lines[0] == "Launch Sandpiper: NOTHING FOUND."
    assert (
        "  Nothing but outputs feeds that wire, so the sense may be meant to watch them. It does not count as wrong."
        in lines
    )


def test_an_output_behind_a_switch(tmp_path: Path) -> None:
    """It gets into the wire of the key, and what it reads there holds it on."""
    text = KEPT_APART.replace("    wire wake\n", "    wire wake\n    wire feed from plus\n").replace(
        "powered by wake", "powered by feed"
    )
    lines = paths(tmp_path, text.replace("when key_on", "when key_on feeds key_wire"), status=1)
    told = section(lines, "key_wire is live while nothing feeds it by its own line")
    assert "  It gets there over: output radio -> key_wire." in told
    assert "  What the output radio says names the sense key_on, so it can hold itself on." in told
    assert not any(line.startswith("warning: The output") for line in lines)


def test_what_may_be_meant(tmp_path: Path) -> None:
    """A lamp with two feeds, one through a diode: that is told, and does not count."""
    more = "    wire lamp_wire from plus when key is run\n    diode door_wire -> lamp_wire\n    load lamp on lamp_wire 1 A\n"
    lines = paths(tmp_path, KEPT_APART.replace("    wire wake\n", f"    wire wake\n{more}"), status=0)
    assert lines[0] == "Small: NOTHING FOUND."
    told = section(lines, "lamp_wire is live while nothing feeds it by its own line")
    meant = "It comes through a diode, and no sense and no coil reads the wire: that may be meant. It does not count as wrong."
    assert f"  {meant}" in told
    assert "  What hangs on it: load lamp." in told


def test_a_short(tmp_path: Path) -> None:
    """Live and grounded at once."""
    text = KEPT_APART.replace("    wire wake\n", "    wire wake to ground when door is open\n")
    lines = paths(tmp_path, text, status=1)
    assert section(lines, "wake is live and grounded at once: a short") == [
        "  Shortest story: at 1 h door goes to open."
    ]


@pytest.mark.parametrize(
    ("name", "titles"),
    [
        ("missing-diode", ["key_wire is live while nothing feeds it by its own line"]),
        ("fed-backwards", ["acc_wire is live while nothing feeds it by its own line"]),
    ],
)
def test_planted_mistakes(name: str, titles: list[str], tmp_path: Path) -> None:
    """What was planted in the coffee van is found; in the van itself nothing is."""
    done = call("paths", PLANTED / f"{name}.circuit", cwd=tmp_path)
    assert done.returncode == 1
    assert [line for line in done.stdout.splitlines() if line.endswith("by its own line")] == titles


def test_examples_are_clean(tmp_path: Path) -> None:
    """Nothing is wrong with the harness of any other example."""
    for name in ("coffee-van/van", "relay-only/boat", "first-steps/van"):
        done = call("paths", EXAMPLES / f"{name}.circuit", cwd=tmp_path)
        assert done.returncode == 0, done.stdout
        assert "NOTHING FOUND." in done.stdout.splitlines()[0]


def test_names(tmp_path: Path) -> None:
    """A load stands for its wire; what is no wire is asked back."""
    boat = EXAMPLES / "relay-only" / "boat.circuit"
    done = call("paths", boat, "bilge_pump", cwd=tmp_path)
    assert done.stdout.startswith("pump_wire: ways by which it can be live: 2;")
    done = call("paths", boat, "pump_wir", cwd=tmp_path)
    assert done.returncode == 2
    assert "pump_wire" in done.stdout


def test_a_bare_wire(tmp_path: Path) -> None:
    """Nothing leads there."""
    text = KEPT_APART.replace("    wire wake\n", "    wire wake\n    wire spare\n")
    assert paths(tmp_path, text, "spare", status=0)[0] == (
        "spare: nothing leads there: no source, no output and no ground, whatever is closed."
    )


def test_the_picture(tmp_path: Path) -> None:
    """It goes into a new file, or to standard output in place of the report; nothing is overwritten."""
    done = call("paths", VAN, "--svg", "van.svg", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stderr == "written: van.svg\n"
    text = (tmp_path / "van.svg").read_text(encoding="utf-8")
    assert ElementTree.fromstring(text).tag == "{http://www.w3.org/2000/svg}svg"
    assert call("paths", VAN, "wake", "--svg", "-", cwd=tmp_path).stdout == text
    done = call("paths", VAN, "--svg", "van.svg", cwd=tmp_path)
    assert done.returncode == 2
    assert "is there already" in done.stderr


def test_what_contradicts_itself_is_no_clean_harness(tmp_path: Path) -> None:
    """Nothing is proved of a vehicle in which nothing can ever be."""
    text = JOINED + "given\n    never battery is connected\n"
    lines = paths(tmp_path, text, status=1)
    assert lines[0] == "Small: NOTHING FOUND SO FAR. Not everything was decided."
    assert "What stands in the way is shown by: logiccheck check van.circuit" in lines
