"""Parked vehicles with the answer worked out by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from logiccheck.base.budget import Budget, memory_bound
from logiccheck.copper.resting.charge import at_rest, charge
from logiccheck.copper.resting.resting import Drained, Resting, resting
from logiccheck.copper.resting.still import Still, still
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.asking import Never, Open, Seen
from logiccheck.lang.program import Battery
from logiccheck.model.story import Step, Story
from tests.oracle.loading import loaded


def parked(text: str) -> Resting:
    return resting(loaded('vehicle "tested"\n' + text), Budget(30), lambda _: None)


def only(found: Resting) -> Drained:
    (drained,) = found.drained
    return drained


def names(drained: Drained) -> list[tuple[str, F]]:
    return [(draw.name, share) for draw, share in drained.ways[0].drawn]


VAN = """
world
    key     "Key"     off | run
    door    "Door"    closed | open
    hazard  "Hazard"  contact
harness
    source plus
    wire key_wire    from plus when key is run
    wire door_wire   from plus when door is open
    wire wake
    diode key_wire  -> wake
    diode door_wire -> wake
    relay hold coil off_delay(wake, 4 min +- 10 %) supply plus, draws 0.15 A
    wire box_supply  from plus when hold
    wire hazard_wire from plus when hazard
    relay flasher coil blink(hazard_wire, on 0.4 s, off 0.6 s) supply plus
    wire flash_wire  from plus when flasher
    wire clock_wire  from plus
    load lamps on flash_wire 7 A
    load clock on clock_wire 5 mA
controller powered by box_supply
    draws 120 mA awake, 1.5 mA asleep
    sense door_open from door_wire live
    output cabin_lamp when door_open
        load 1 A
electrics
    parked when key is off PARKED
    battery plus 60 Ah, cranks with 60 %
GIVEN
requirements
    danger q never cabin_lamp while door is closed
"""


def van(parked_when: str = "", given: str = "") -> Drained:
    return only(parked(VAN.replace("PARKED", parked_when).replace("GIVEN", given)))


def test_door_left_open_and_hazards_on() -> None:
    """0.15 A coil, 0.12 A box, 1 A lamp, 5 mA clock, and 7 A for 0.4 s of each second: 4.075 A."""
    found = van()
    assert found.worst == found.most == F("4.075")
    assert names(found) == [
        ("lamps", F(2, 5)),
        ("clock", F(1)),
        ("hold", F(1)),
        ("box", F(1)),
        ("cabin_lamp", F(1)),
    ]
    assert found.ways[0].period == 1_000_000
    assert [way.average for way in found.ways] == sorted((way.average for way in found.ways), reverse=True)
    assert found.ways[-1].average == F("0.005")


def test_locked_up_it_sleeps() -> None:
    """With the door closed and the hazards off only the clock is left once the hold time is over."""
    found = van("and door is closed and not hazard")
    assert [way.average for way in found.ways] == [F("0.005")]
    assert found.exact
    assert found.charge is not None
    assert found.charge.days(found.worst) == 200  # 24 Ah at 5 mA


def test_what_is_given_may_not_let_it_last() -> None:
    """A door that is never open for longer than an hour cannot stay open for ever."""
    found = van("and not hazard", "given\n    door is open lasts at most 1 h")
    assert found.worst == found.most == F("0.005")


def test_what_follows_from_something_that_lasts() -> None:
    """Hazards that somebody turns off an hour after the door was closed cannot stay on with a closed door."""
    given = "given\n    not hazard after door is closed has lasted 1 h"
    assert van("and door is closed", given).worst == F("0.005")
    assert van("", given).worst == F("4.075")


def left_open(given: str) -> Still | None:
    """The van with its door opened after a second, played on."""
    program = loaded('vehicle "tested"\n' + VAN.replace("PARKED", "").replace("GIVEN", given))
    world = {"key": 0, "door": 0, "hazard": 0}
    steps = (Step(F(0), tuple(world.items()), ()), Step(F(1_000_000), tuple((world | {"door": 1}).items()), ()))
    return still(program, Story(steps, (), overdue=False, involved=frozenset(world)), Budget(30))


def test_what_is_given_is_held_against_what_lasts() -> None:
    """Also where it allows it for longer than the story and what follows take."""
    lasts = left_open("")
    assert lasts is not None
    assert (lasts.begin, lasts.period) == (1_000_000, None)
    assert left_open("given\n    door is open lasts at most 1000 h") is None
    assert left_open("given\n    hazard after door is open has lasted 1000 h") is None
    assert left_open("given\n    hazard after door is closed has lasted 1000 h") is not None


def test_two_sources() -> None:
    """The fridge hangs on the house battery, and on the starter battery only while the key lets them be joined."""
    found = parked("""
world
    key off | run
    lamp contact
harness
    source starter
    source house
    relay split coil key_wire supply starter
    wire key_wire from starter when key is run
    wire bus from house, from starter when split
    load fridge on bus 5 A
    wire lamp_wire from starter when lamp
    load reading_lamp on lamp_wire 1 A
electrics
    parked when key is off
requirements
    danger q never reading_lamp while not lamp
""")
    assert [(each.tap.feed.name, each.worst, each.most) for each in found.drained] == [
        ("starter", 1, 1),
        ("house", 5, 5),
    ]


def test_relays_that_flash_by_themselves() -> None:
    """Two delay relays that release each other: 2 s on, 1 s off. It is found; that there is no worse is not known."""
    found = only(
        parked("""
world
    switch_on contact
harness
    source plus
    relay left  coil on_delay(not second_wire, 1 s) supply plus
    wire first_wire from plus when left
    relay second coil on_delay(first_wire, 2 s)      supply plus
    wire second_wire from plus when second
    load lamp on first_wire 3 A
electrics
    parked when not switch_on
requirements
    danger q possible lamp
""")
    )
    assert found.ways[0].period == 3_000_000
    assert found.worst == 2
    assert found.most == 3
    assert not found.exact


def test_a_box_that_keeps_itself_awake_for_ever() -> None:
    """Its own output feeds it: once the key was on, it never sleeps again."""
    found = only(
        parked("""
world
    key off | run
    at first key is off
harness
    source plus
    wire key_wire from plus when key is run
    wire keep
    wire feed
    wire constant from plus
    diode key_wire -> feed
    diode keep -> feed
controller powered by feed
    draws 100 mA awake
    output keep_alive when true fed by constant feeds keep
electrics
    parked when key is off
requirements
    danger q possible keep_alive
""")
    )
    assert [way.average for way in found.ways] == [F("0.1"), 0]
    assert found.exact


def test_never_parked() -> None:
    found = parked("""
world
    key off | run
harness
    source plus
    wire key_wire from plus when key is run
    load lamp on key_wire 1 A
electrics
    parked when key is off
given
    always key is run
requirements
    danger q never lamp while key is off
""")
    assert isinstance(found.stays, Never)
    assert only(found).ways == ()
    assert only(found).most == 0


def test_no_memory_is_no_answer() -> None:
    """What is left is an upper bound, and why."""
    with memory_bound(lambda: True):
        found = parked(VAN.replace("PARKED", "").replace("GIVEN", ""))
    assert found.stays == Open(Undecided.MEMORY)
    assert Open(Undecided.MEMORY) in found.left
    drained = only(found)
    assert not drained.exact
    assert drained.most == F("8.2765")  # all at once, awake and asleep


def test_what_says_nothing() -> None:
    found = parked("""
world
    key off | run
harness
    source plus
    wire key_wire from plus when key is run
    load lamp on key_wire
    load horn on key_wire 1 A
    wire clock_wire from plus
    load clock on clock_wire
    relay k coil key_wire, draws 0.1 A
electrics
    parked when key is off
requirements
    danger q never lamp while key is off
""")
    assert isinstance(found.stays, Seen)
    assert found.silent == ("clock",)  # the lamp is never on while it is parked
    assert found.unfed == ("k",)


# ------------------------------------------------------------------------------------------------- charge and days


def battery(**said: F | int) -> Battery:
    whole = {"capacity": None, "reserve": None, "to_crank": None, "loses": None}
    return Battery("plus", **(whole | {name: F(value) for name, value in said.items()}))


def test_days_by_reserve_minutes() -> None:
    """GM practice text, quoted at solsticeforum.com/threads/28382: 0.6 Ah for each reserve minute, some 40 % of it until
    it no longer cranks: 100 min come to 24 Ah; at 25 mA, the limit for such a battery in the service text at
    gm.saturn.team/Oldsmobile/Aurora/2001/13/1/1436/37588, that is 40.0 days, at 50 mA 20.0."""
    found = charge(battery(reserve=100), None)
    assert found is not None
    assert (found.full, found.usable, found.kept, found.usual) == (60, 24, 60, True)
    assert found.limit == F("0.025")
    assert (found.days(F("0.025")), found.days(F("0.05"))) == (40, 20)
    assert found.days(F(0)) is None
    other = charge(battery(reserve=120), None)
    assert other is not None
    assert other.limit == F("0.03")


def test_reserve_minutes_are_minutes_at_25_amperes() -> None:
    """myvehicle.help: 100 min at 25 A are 41.67 Ah, less than what is drawn slowly gives."""
    quick = F(25 * 100, 60)
    assert abs(quick - F("41.67")) < F("0.005")
    found = charge(battery(reserve=100), None)
    assert found is not None
    assert quick < found.full


def test_loss_by_itself() -> None:
    """4 % of 60 Ah in 30 days are 3.33 mA at 25 degC, twice as much at 35, four times at 45 (from memory, as common)."""
    cold, warm, hot = (charge(battery(capacity=60, loses=4), ambient and F(ambient)) for ambient in (None, 35, 45))
    assert cold is not None
    assert warm is not None
    assert hot is not None
    assert cold.lost == F(60 * 4, 100 * 720)
    assert (warm.lost, hot.lost) == (2 * F(60 * 4, 100 * 720), 4 * F(60 * 4, 100 * 720))
    assert cold.days(F(0)) == F(24 * 720 * 100, 60 * 4 * 24)


def test_between_the_degrees() -> None:
    """2^(1/2) more at 30 degC, rounded up."""
    found = charge(battery(capacity=60, loses=4), F(30))
    assert found is not None
    assert found.lost is not None
    ratio = found.lost / F(60 * 4, 100 * 720)
    assert 0 < ratio**2 - 2 < F(1, 10**11)


def test_an_odd_temperature_takes_no_time() -> None:
    """It is rounded up to the next tenth of a degree."""
    odd, even = (charge(battery(capacity=60, loses=4), F(celsius)) for celsius in ("36.8710203", "36.9"))
    assert odd is not None
    assert even is not None
    assert odd.lost == even.lost


def test_nothing_is_known_of_the_battery() -> None:
    assert charge(battery(), None) is None


@pytest.mark.parametrize(
    ("percent", "low", "high"),
    [(100, "12.6", "12.66"), (75, "12.4", "12.45"), (50, "12.2", "12.30"), (25, "12", "12.15"), (60, "12.28", "12.36")],
)
def test_voltage_at_rest(percent: int, low: str, high: str) -> None:
    """motorhome.com: 12.66, 12.45, 12.30, 12.15 V for 100, 75, 50, 25 %; a list of ettus.com: 12.6, 12.4, 12.2, 12.0 V."""
    assert at_rest(F(percent)) == (F(low), F(high))
