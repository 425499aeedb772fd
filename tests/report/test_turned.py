"""What an answer to `why` says of what would turn a signal, whole, in the examples and in small vehicles."""

from __future__ import annotations

import pytest

from logiccheck.explain.situation import Situation, signals
from logiccheck.lang.load import load_text
from logiccheck.model.play import play_scenario
from logiccheck.report.turned import as_it_reads, turned
from tests.calling import EXAMPLES
from tests.model.driven import SECOND

VAN, BOAT = EXAMPLES / "coffee-van" / "van.circuit", EXAMPLES / "relay-only" / "boat.circuit"
NOMINAL = "Timers with a tolerance run their nominal time here."
APART = "Moves one after the other, such as to let go and try again, were not tried: it may well turn by them."


def section(text: str, scenario: str, name: str, tenths: int, deep: bool = False) -> list[str]:
    """All of it: sentences, and after each that shows lines what is marked in them."""
    loaded = load_text(text)
    assert loaded.program is not None, loaded.diagnostics
    chosen = next(each for each in loaded.program.scenarios if each.name == scenario)
    place = Situation(play_scenario(loaded.program, chosen), tenths * SECOND // 10)
    told = turned(place, as_it_reads(place, signals(loaded.program)[name]), loaded.texts, deep)
    lines = list(told.sentences)
    for cause in told.causes:
        shown = cause.excerpt.lines if cause.excerpt else ()
        marked = [line.text[begin:end] for line in shown for begin, end in line.marks]
        lines.append(" | ".join([cause.sentence, *marked]))
    return lines


VAN_ANSWERS = [
    (
        ("arrival", "fuel_pump", 125),
        "It would go off at once if: battery is disconnected; or inertia is tripped.",
        "If nothing else moves, it goes off at 13 s, when timer prime ends.",
        "If any one of the marked terms were the opposite, it would go off: | prime | loads_awake | crash_stop",
    ),
    (
        ("arrival", "fuel_pump", 140),
        "It would come on at once if: key is run (past accessory), engine above 400 rpm.",
        "If nothing else moves, it stays off.",
        NOMINAL,
        "If the marked term were the opposite, it would come on: | prime",
    ),
    (
        ("arrival", "starter_motor", 50),
        "It would come on at once if: key is start (past accessory, run).",
        "If nothing else moves, it stays off.",
        "No single term, were it the opposite, would make it come on.",
    ),
    (
        ("arrival", "hold", 200),
        "It would open at once if: battery is disconnected.",
        "If nothing else moves, it opens at 3 min 51 s, when timer hold ends.",
        "If any one of the marked terms were the opposite, it would open: | off_delay(wake, 4 min +- 10 %) | plus",
    ),
    (
        ("arrival", "powered", 20),
        "It would get power at once if: key is accessory; or door is open.",
        "If nothing else moves, it stays without power.",
        "If the marked term were the opposite, it would get power: | hold",
    ),
    (
        ("starting", "starter_motor", 95),
        "It would go off at once if: key is run; or engine above 400 rpm; or lever is reverse. "
        "More that are as small: 2 (--deep shows them).",
        "If nothing else moves, it goes off at 24 s, when the delay in start_try is over.",
        "If any one of the marked terms were the opposite, it would go off: | start_try | running | started | crash_stop",
    ),
    (
        ("starting", "split", 150),
        "Nothing that is moved at this one moment makes it close at once. Moves tried together, up to: 4.",
        "If nothing else moves, it closes at 20.2 s, when the delay in split_charge is over.",
        "If the marked term were the opposite, it would close: | split_charge",
    ),
    (
        ("crash", "crash_wire", 350),
        "It would go dead at once if: inertia is closed.",
        "If nothing else moves, it stays grounded.",
        "If the marked term were the opposite, it would go dead: | inertia is tripped",
    ),
    (
        ("door_ajar", "cabin_lamp", 4000),
        "It would go off at once if: door is closed; or battery is disconnected.",
        "If nothing else moves, it goes off at 9 min 10 s, when timer hold ends.",
        NOMINAL,
        "If the marked term were the opposite, it would go off: | door_open",
    ),
    (
        ("starting", "leisure", 20),
        "No line behind it names anything that hands or physics move.",
        "If nothing else moves, it stays live.",
        "No single term, were it the opposite, would make it go dead.",
    ),
]
BOAT_ANSWERS = [
    (
        ("casting_off", "ignition", 80),
        "Nothing that is moved at this one moment makes it come on at once. Moves tried together, up to: 4.",
        "It would come on at 4 min 38 s, when the delay in aired is over, if just now: key is start, blower_switch is on.",
        "If nothing else moves, it stays off.",
        NOMINAL,
        "If the marked term were the opposite, it would come on: | engine_relay",
    ),
    (
        ("casting_off", "ignition", 2950),
        "It would go off at once if: key is off; or master is off; or stop_button is on.",
        "If nothing else moves, it stays on.",
        "If the marked term were the opposite, it would go off: | engine_relay",
    ),
    (
        ("casting_off", "aired", 200),
        "Nothing that is moved at this one moment makes it close at once. Moves tried together, up to: 4.",
        "If nothing else moves, it closes at 4 min 40 s, when the delay in aired is over.",
        NOMINAL,
        "If the marked term were the opposite, it would close: | on_delay(blower_wire, 4.5 min +- 10 %)",
    ),
    (
        ("moored", "bilge_pump", 300),
        "Nothing that is moved at this one moment makes it go off at once. Moves tried together, up to: 4.",
        "If nothing else moves, it goes off at 50 s, when timer pump_hold ends.",
        NOMINAL,
        "If the marked term were the opposite, it would go off: | pump_hold",
    ),
]


@pytest.mark.parametrize("answer", VAN_ANSWERS, ids=lambda answer: f"{answer[0][1]}-{answer[0][2]}")
def test_the_coffee_van(answer: tuple[tuple[str, str, int], *tuple[str, ...]]) -> None:
    (scenario, name, tenths), *lines = answer
    assert section(VAN.read_text(encoding="utf-8"), scenario, name, tenths) == lines


@pytest.mark.parametrize("answer", BOAT_ANSWERS, ids=lambda answer: f"{answer[0][1]}-{answer[0][2]}")
def test_the_day_boat(answer: tuple[tuple[str, str, int], *tuple[str, ...]]) -> None:
    (scenario, name, tenths), *lines = answer
    assert section(BOAT.read_text(encoding="utf-8"), scenario, name, tenths) == lines


SMALL = """vehicle "Small"
world
    a contact
    b contact
    speed 0 .. 100 rpm
harness
    source plus
    wire feed from plus
    wire a_wire from plus when a
    wire bus from plus when a, to ground when b
controller "Box" powered by feed
    sense a_on from a_wire live
    sense revs from speed
    rule slow = revs below 30 rpm or revs above 70 rpm
    rule soon = on_delay(a_on, 8 s)
    rule late = on_delay(a_on, 10 s)
    rule wild = late and not previous(wild)
given
    a lasts at most 4 s
scenario played
    at 0 s speed is 50 rpm
    at 1 s a is on, b is on
    until 3 s
scenario broken
    at 1 s a is on
    until 9 s
scenario resting
    until 9 s
"""


def test_a_wire_is_what_it_is() -> None:
    """Live and grounded at once, live, and dead are three things, and each can turn into another."""
    assert section(SMALL, "played", "bus", 20)[:1] == ["It would be both no more at once if: a is off; or b is off."]
    assert section(SMALL, "broken", "bus", 20)[:1] == ["It would be live no more at once if: a is off."]
    assert section(SMALL, "resting", "bus", 20)[:1] == ["It would be live or grounded at once if: a is on; or b is on."]


def test_numbers_are_told_as_ranges() -> None:
    """From a constant on, or up to one; the ends of the number bound nothing."""
    assert section(SMALL, "played", "slow", 20)[0] == (
        "It would come on at once if: speed below 30 rpm; or speed above 70 rpm."
    )
    assert section(SMALL, "resting", "slow", 20)[0] == (
        "It would go off at once if: speed at least 30 rpm and at most 70 rpm."
    )


CHASE = """vehicle "Chase"
world
    key contact
    door contact
harness
    source plus
    wire kw from plus when key
    relay buzz coil not buzz and kw supply plus
    relay calm coil kw supply plus
scenario played
    until 9 s
"""


def test_what_ends_in_a_chase_is_said() -> None:
    """The only move that drives the coil has another relay chase for ever."""
    told = section(CHASE, "played", "calm", 20)
    assert told[:4] == [
        "Nothing that is moved at this one moment makes it close at once. Moves tried together, up to: 4.",
        APART,
        "Moves after which rules or relays chase each other for ever were left out: key is on.",
        "If nothing else moves, it stays open.",
    ]


def test_what_is_given_is_said() -> None:
    """Where it moves something before time turns the signal, and where the scenario has broken it."""
    assert section(SMALL, "played", "late", 20)[1:3] == [
        APART,
        "By 5 s something has to move, because this is given: a lasts at most 4 s.",
    ]
    broken = section(SMALL, "broken", "soon", 60)
    assert broken[1:3] == [
        "If nothing else moves, it comes on at 9 s, when the delay in soon is over.",
        "This scenario breaks what is given before this moment; those lines are left out here.",
    ]
    assert section(SMALL, "broken", "wild", 60)[2] == (
        "If nothing else moves, rules or relays chase each other for ever at 11 s; what is on or off then, nobody can say."
    )


def test_deep_tells_all() -> None:
    """Every change that is as small, how moves count, and the lines behind the nearest ones."""
    told = section(VAN.read_text(encoding="utf-8"), "starting", "fuel_pump", 250, deep=True)
    assert told[:3] == [
        "It would go off at once if: key is accessory; or engine below 300 rpm; or battery is disconnected; "
        "or inertia is tripped.",
        "If nothing else moves, it stays on.",
        "Each thing that is moved counts as one move; a switch that goes one position at a time, as one for each "
        "position.",
    ]
    assert told[3].endswith("it would go off: | running | key_on | crash_stop")
    assert len(told) > 5
    soon = section(SMALL, "broken", "soon", 60, deep=True)
    assert soon[1:3] == [
        "If nothing else moves, it comes on at 9 s, when the delay in soon is over.",
        "None of the moves tried would make it come on sooner than that, with nothing moved after them; "
        "at most together: 3.",
    ]
    never = section(SMALL, "resting", "late", 20, deep=True)
    assert never[1] == "Nor does it come on later, if nothing is moved after that. Moves tried together, up to: 3."
    assert never[2] == APART
