"""Every kind of fact in words, in a vehicle that has them all, at the moments of one scenario."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

import pytest

from logiccheck.cli.values import instant
from logiccheck.explain.situation import Situation
from logiccheck.lang.load import Loaded, load_text
from logiccheck.lang.program import Program
from logiccheck.model.play import play_scenario
from logiccheck.model.timeline import Timeline
from logiccheck.report.why import why_report

VEHICLE = """
vehicle "Kinds"
world
    battery  connected | disconnected
    button   contact
    hand     contact
    level_in 0 .. 100 degC
    at first battery is connected, level_in is 20 degC
harness
    source plus               when battery is connected
    wire a_wire   from plus   when button
    wire b_wire   from plus   when hand
    wire feed     from plus
    wire out_wire
    relay slow    coil on_delay(a_wire, 2 s)
    relay held    coil bistable(set a_wire, reset b_wire)   supply plus
    relay self    coil (a_wire or self) and not b_wire      supply plus
    load bulb     on out_wire 1 A
controller "Box" powered by feed after 1 s
    sense a       from a_wire live    filter 500 ms
    sense b       from b_wire live
    sense heat    from level_in       filter 1 s
    rule late     = on_delay(b, 3 s)
    rule flash    = blink(b, on 1 s, off 2 s)
    rule turns    = impulse_relay(a)
    rule keeps    = bistable(set b, reset a, retained)
    rule warm     = heat above 50 degC until below 40 degC
    rule hot      = heat above 60 degC
    rule was_b    = previous(b)
    rule edge     = rises(b)
    rule shot     = one_shot(b, 2 s)
    output lamp "Lamp"  when turns or flash or edge   feeds out_wire
    output fan  "Fan"   when (late or hot) and not warm xor was_b
scenario day
    at 2 s   button is on
    at 3.2 s hand is on
    at 4 s   level_in is 70 degC
    at 7 s   button is off
    at 8 s   hand is off
    at 9 s   level_in is 30 degC
    at 12 s  battery is disconnected
    at 14 s  battery is connected
    until 20 s
"""

TOLD = tomllib.loads(Path(__file__).with_name("facts_told.toml").read_text(encoding="utf-8"))
CASES = [(name, time, sentence) for name, row in TOLD.items() for time, sentence in row.items()]


@cache
def played() -> tuple[Loaded, Timeline]:
    """The vehicle, and its scenario as played."""
    loaded = load_text(VEHICLE)
    program = loaded.program
    assert isinstance(program, Program), loaded.diagnostics
    return loaded, play_scenario(program, program.scenarios[0])


@pytest.mark.parametrize(("name", "time", "sentence"), CASES, ids=[f"{name}-{time}" for name, time, _ in CASES])
def test_the_sentence(name: str, time: str, sentence: str) -> None:
    """The first line of the report at this time."""
    loaded, timeline = played()
    assert why_report(Situation(timeline, instant(time)), name, loaded.texts, deep=False).opening == sentence


RESET = """
vehicle "Reset"
world
    button contact
    clear  contact
harness
    source plus
    wire a_wire from plus when button
    wire c_wire from plus when clear
controller powered by plus
    sense a from a_wire live
    sense c from c_wire live
    rule turns = impulse_relay(a, reset c)
    rule blips = impulse_relay(a, reset previous(a))
    output lamp when turns
scenario pressed
    at 1 s button is on
    at 2 s button is off
    at 3 s button is on, clear is on
    at 4 s button is off, clear is off
    at 5 s button is on
    at 6 s button is off
    at 7 s button is on
    until 8 s
"""


def test_an_impulse_relay_is_turned_off_or_reset() -> None:
    """Reset wins over the impulse of the same moment, and is told as it is, also where no reason is told."""
    loaded = load_text(RESET)
    assert loaded.program is not None
    timeline = play_scenario(loaded.program, loaded.program.scenarios[0])

    def told(name: str, time: str) -> str:
        opening = why_report(Situation(timeline, instant(time)), name, loaded.texts, deep=False).opening
        return opening.split(" is off ")[-1]

    assert told("lamp", "0.5 s") == "(never turned so far)."
    assert told("lamp", "3 s") == "(reset at 3 s because c is on)."
    assert told("lamp", "4 s") == "(reset at 3 s because c was on then)."
    assert told("lamp", "7 s") == "(turned at 7 s because a is on)."
    assert told("blips", "1 s") == "(reset at 1 s)."


PASSING = """
vehicle "Passing"
world
    button contact
harness
    source plus
    wire a_wire from plus when button
controller powered by plus
    sense a from a_wire live
    rule bit  = bistable(set a and not previous(a), reset previous(a))
    rule back = bistable(set a, reset a and not previous(a))
scenario pressed
    at 1 s button is on
    at 2 s button is off
    at 3 s button is on
    until 4 s
"""


def test_what_is_so_for_an_instant_counts() -> None:
    """What was set and reset within one moment was not never set; what was reset and set again is set since then."""
    loaded = load_text(PASSING)
    assert loaded.program is not None
    timeline = play_scenario(loaded.program, loaded.program.scenarios[0])

    def first(name: str, time: str) -> str:
        return why_report(Situation(timeline, instant(time)), name, loaded.texts, deep=False).opening

    bit, back = "bistable(set a and not previous(a), reset previous(a))", "bistable(set a, reset a and not previous(a))"
    assert first("bit", "0.5 s") == f"bit is off at 0.5 s because {bit} is off (never set so far)."
    assert first("bit", "2.5 s") == f"bit is off at 2.5 s because {bit} is off (reset at 1 s)."
    assert first("back", "2.5 s") == f"back is on at 2.5 s because {back} is on (set at 1 s because a was on then)."
    assert first("back", "3.5 s") == f"back is on at 3.5 s because {back} is on (set at 3 s because a was on then)."
