"""Findings about what never changes, what is alike and what has no end: when they speak, as often when they are silent."""

from __future__ import annotations

import pytest

from logiccheck.explain.finding import Finding
from tests.study.golden_lines import MINE, written
from tests.study.golden_time import said
from tests.study.linting import all_found, completed, findings, sentences

ALWAYS = 'controller "Box" powered by feed\n'
KEY = 'controller "Box" powered by key_wire\n'
HELD = """\
relay hold "Hold relay" coil off_delay(wake, 4 min +- 10 %)
wire wake
diode key_wire -> wake
diode door_wire -> wake
wire held from plus when hold
controller "Box" powered by held
"""
NEVER_BOTH = "given\n    never door is open and key in {run, start}\n"
STEP = 'world\n    step "Step" in | out\n'
MOVED = "given\n    step changes only while step_down or step_up\n"
BATTERY = """\
world
    battery connected | disconnected
    key off | run
harness
    source plus when battery is connected
    wire feed from plus
    wire key_wire from plus when key is run
"""


def out(text: str) -> str:
    return f"    output horn when {text}\n"


SPEAKS = {
    "never-powered": [
        "relay hold coil lamp\nwire held from plus when hold\n" + 'controller "Box" powered by held\n' + out("key_on"),
        'wire held from start_wire when key is off\ncontroller "Box" powered by held\n' + out("key_on"),
    ],
    "never-on": [
        ALWAYS + out("cranking and not key_on"),
        KEY + out("not key_on"),
        ALWAYS + out("key_on and door_open") + NEVER_BOTH,
        ALWAYS + out("key_on") + "    output siren when horn and not key_on\n",
        "relay k coil key_wire and not start_wire and key is start\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        "load fan on fan_wire 1 A\nwire fan_wire from start_wire when key is off\n",
    ],
    "always-on": [
        ALWAYS + out("key_on or not cranking"),
        ALWAYS + out("not door_open or not key_on") + NEVER_BOTH,
        HELD + out("key_on or not cranking"),
        KEY + out("key_on or door_open"),
        "relay k coil key_wire or key is off\nload fan on fan_wire 1 A\nwire fan_wire from plus when k and door is open\n",
    ],
    "on-for-an-instant": [
        ALWAYS + out("rises(door_open)"),
        ALWAYS + out("door_open and falls(key_on)"),
        ALWAYS + out("door_open and not previous(door_open)"),
        "relay k coil rises(door_wire)\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
    ],
    "never-true": [
        ALWAYS + "    rule both = cranking and not key_on\n" + out("both or door_open"),
        KEY + "    rule asleep = not key_on\n" + out("asleep or door_open"),
        "wire off_wire from key_wire when key is off\n"
        + ALWAYS
        + "    sense parked from off_wire live\n"
        + out("parked"),
        ALWAYS
        + "    rule fast = key_on and revs above 6000 rpm\n"
        + out("fast")
        + "given\n    never engine above 5000 rpm\n",
    ],
    "always-true": [
        ALWAYS + "    rule any = key_on or not cranking\n" + out("any and door_open"),
        HELD + "    rule any = key_on or not cranking\n" + out("any and door_open"),
        "wire live_wire from key_wire when key in {run, start}, from plus when key is off\n"
        + ALWAYS
        + "    sense there from live_wire live\n"
        + out("there and door_open"),
    ],
    "idle-term": [
        ALWAYS + out("key_on or cranking and not door_open"),
        ALWAYS + out("key_on and not (cranking and not key_on and door_open)"),
        ALWAYS + "    rule wanted = key_on or cranking and door_open\n" + out("wanted and not door_open"),
        ALWAYS + out("on_delay(key_on or cranking and door_open, 3 s)"),
        ALWAYS + out("key_on and not (cranking and door_open)") + NEVER_BOTH,
        "relay k coil key_wire or start_wire and door_wire\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
    ],
    "same-meaning": [
        ALWAYS
        + "    rule a = key_on or cranking\n    rule b = not (not key_on)\n"
        + out("a and door_open or b and not door_open"),
        ALWAYS
        + "    sense ignition_on from key_wire live\n"
        + out("key_on and door_open or ignition_on and not door_open"),
        ALWAYS
        + "    rule a = on_delay(key_on, 3 s)\n    rule b = on_delay(key_on or cranking, 3 s)\n"
        + out("a and door_open or b and not door_open"),
    ],
    "twin-output": [
        ALWAYS + out("cranking and key_on") + "    output siren when cranking\n",
        ALWAYS + out("door_open and not key_on") + "    output siren when door_open\n" + NEVER_BOTH,
    ],
    "flicker": [
        ALWAYS + out("blink(door_open, on 30 ms, off 30 ms)"),
        ALWAYS + out("blink(door_open, on 99 ms, off 99 ms)"),
        "relay k coil blink(door_wire, on 50 ms, off 60 ms)\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        ALWAYS + out("door_open and not blink(key_on, on 80 ms, off 20 ms)"),
    ],
    "endless-run-on": [
        "relay k coil (door_wire or k) and not key_wire\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        ALWAYS + out("bistable(set door_open, reset key_on)"),
        ALWAYS + out("impulse_relay(door_open)"),
    ],
    "both-directions": [
        STEP + ALWAYS + "    output step_down when door_open\n    output step_up when key_on\n" + MOVED,
        STEP + ALWAYS + "    output step_down when door_open\n    output step_up when off_delay(key_on, 2 s)\n" + MOVED,
    ],
    "joined-outputs": [
        "wire w\nload fan on w 1 A\n"
        + ALWAYS
        + "    output day when door_open feeds w\n    output night when key_on feeds w\n",
        "wire w\nwire v\njoin w with v when key is run\nload fan on w 1 A\n"
        + ALWAYS
        + "    output day when door_open feeds w\n    output night when key_on feeds v\n",
    ],
    "never-let-go": [
        "relay k coil door_wire or k\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        "relay k coil (door_wire or k) and not (key_wire and start_wire and key is off)\n"
        "load fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        BATTERY + "    relay k coil key_wire or k_wire\n    wire k_wire from plus when k\n    load fan on k_wire 1 A\n",
    ],
}

SILENT = {
    "never-powered": [
        HELD + out("key_on"),
        'wire held from key_wire when key is start\ncontroller "Box" powered by held\n' + out("key_on"),
    ],
    "never-on": [
        ALWAYS + out("cranking and not door_open"),
        ALWAYS + out("false"),
        ALWAYS + out("key_on and door_open") + "given\n    never door is open and key is run\n",
        "wire free\nload fan on free 1 A\n",
        ALWAYS + out("bistable(set cranking and not key_on, reset door_open)"),
        ALWAYS + "    rule both = cranking and not key_on\n" + out("both"),
    ],
    "always-on": [
        ALWAYS + out("true"),
        ALWAYS + out("key_on or not door_open"),
        KEY + out("key_on"),
        KEY + "    rule go = key_on\n    sense again from key_wire live\n" + out("go and again"),
        KEY + out("off_delay(key_on, 1 min)"),  # its off-delay speaks
        "relay k coil key_wire\nwire box_wire from plus when k\n"
        + 'controller "Box" powered by box_wire\n'
        + out("key_on"),
        "load fan on feed 1 A\n",
        "wire wake\nwire keep\ndiode door_wire -> wake\ndiode keep -> wake\n"
        + 'controller "Box" powered by wake\n    output stay when off_delay(door_open, 1 min) feeds keep\n',
    ],
    "on-for-an-instant": [
        ALWAYS + out("one_shot(door_open, 1 s)"),
        ALWAYS + out("bistable(set rises(door_open), reset key_on)"),
        ALWAYS + "    rule edge = rises(door_open)\n" + out("impulse_relay(edge)"),
        ALWAYS + out("rises(door_open) or key_on"),
    ],
    "never-true": [
        ALWAYS + "    rule edge = rises(door_open)\n" + out("impulse_relay(edge)"),
        ALWAYS + "    rule spare = false\n" + out("spare or door_open"),
        ALWAYS
        + "    rule fast = key_on and revs above 4000 rpm\n"
        + out("fast")
        + "given\n    never engine above 5000 rpm\n",
    ],
    "always-true": [
        KEY + "    rule go = key_on\n" + out("go and door_open"),
        ALWAYS + "    rule any = key_on or not door_open\n" + out("any and cranking"),
        ALWAYS + "    rule any = not rises(door_open)\n" + out("impulse_relay(any)"),
    ],
    "idle-term": [
        ALWAYS + out("(key_on or cranking) and not door_open"),
        ALWAYS + out("cranking and key_on"),
        ALWAYS + out("impulse_relay(door_open, reset not key_on) and key_on"),
        ALWAYS + out("bistable(set rises(door_open) and key_on, reset cranking)"),
        ALWAYS + "    rule both = cranking and not key_on\n" + out("both and door_open or key_on"),
        ALWAYS + out("door_open and on_delay(key_on, 3 s)"),
        KEY + out("key_on or door_open"),
        ALWAYS
        + out("key_on and (not rises(key_on) or door_open)")  # only for an instant, and that is asked about
        + "requirements\n    danger flash never horn and door is closed even for an instant\n",
        ALWAYS
        + "    rule wanted = key_on or door_open\n"
        + out("wanted and door_open")
        + "scenario s\n    at first key is run, door is closed\n    at 1 s expect wanted\n",
        ALWAYS
        + "    rule wanted = key_on or door_open\n"
        + out("wanted and door_open")
        + "given\n    door is open after wanted has lasted 9 s\n",
    ],
    "same-meaning": [
        ALWAYS + "    rule a = key_on\n    rule b = a\n" + out("a and door_open or b and not door_open"),
        ALWAYS + "    rule a = on_delay(key_on, 3 s)\n    rule b = on_delay(key_on, 4 s)\n" + out("a and not b"),
        ALWAYS + "    sense late from key_wire live filter 100 ms\n" + out("key_on and not late"),
    ],
    "twin-output": [
        ALWAYS + out("key_on") + "    output siren when key_on\n",
        ALWAYS + out("on_delay(key_on, 3 s)") + "    output siren when on_delay(key_on, 3 s)\n",
        ALWAYS + out("key_on") + "    output siren when horn\n",
        ALWAYS + out("door_open and not key_on") + "    output siren when door_open\n",
    ],
    "flicker": [
        ALWAYS + out("blink(door_open, on 100 ms, off 100 ms)"),
        ALWAYS + out("blink(door_open, on 30 ms, off 200 ms)"),
        ALWAYS + out("door_open and not key_on"),
        "wire slow from plus when door is open\n"
        + ALWAYS
        + "    sense s from slow live filter 50 ms\n"
        + out("s and not one_shot(s, 60 ms)"),
    ],
    "endless-run-on": [
        "relay k coil off_delay(door_wire, 5 min +- 10 %)\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        ALWAYS + out("door_open"),
        ALWAYS + out("not key_on"),
        ALWAYS + out("bistable(set door_open, reset on_delay(not door_open, 10 s))"),
        HELD + out("bistable(set door_open)"),
    ],
    "both-directions": [
        STEP + ALWAYS + "    output step_down when door_open\n    output step_up when not door_open\n" + MOVED,
        STEP
        + ALWAYS
        + "    output step_down when door_open\n    output step_up when key_on\n"
        + MOVED
        + NEVER_BOTH[6:],
    ],
    "joined-outputs": [
        "wire w\nload fan on w 1 A\n"
        + ALWAYS
        + "    output day when door_open feeds w\n    output night when key_on and not door_open feeds w\n",
        "wire w\nwire v\njoin w with v when key is off\nload fan on w 1 A\n"
        + ALWAYS
        + "    output day when door_open feeds w\n    output night when key_on feeds v\n",
        "wire w\nwire v\ndiode w -> v\nload fan on v 1 A\n"
        + ALWAYS
        + "    output day when door_open feeds w\n    output night when key_on feeds v\n",
    ],
    "never-let-go": [
        "relay k coil (door_wire or k) and not key_wire\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        "relay k coil off_delay(door_wire, 5 min +- 10 %)\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n",
        "relay k coil (door_wire or k) supply key_wire\nload fan on fan_wire 1 A\nwire fan_wire from plus when k\n"
        "world\n    key off | run | start one by one\n    door closed | open\n    at first key is off\n",
    ],
}


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in SPEAKS.items() for text in texts])
def test_it_speaks(name: str, text: str) -> None:
    """Once for each cause."""
    assert len(findings(text, name)) == 1, completed(text)


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in SILENT.items() for text in texts])
def test_it_is_silent(name: str, text: str) -> None:
    """What is meant, what cannot happen, and what another finding tells."""
    assert sentences(text, name) == [], completed(text)


def test_each_is_silent_as_often_as_it_speaks() -> None:
    """And all of them are here."""
    assert {kind.name for kind in MINE} == SPEAKS.keys() == SILENT.keys()
    assert all(len(SILENT[name]) >= min(3, len(SPEAKS[name])) for name in SPEAKS)


def test_one_cause_is_told_once() -> None:
    """What a sense that is never true leads to stands beside it."""
    text = (
        "wire off_wire from key_wire when key is off\n"
        + ALWAYS
        + "    sense parked from off_wire live\n    rule rest = parked and not key_on\n"
        + out("rest and door_open")
        + "    output siren when not rest\n"
    )
    found = [each for each in all_found(completed(text)).findings if "W120" <= each.message.code <= "W139"]
    assert [each.diagnostic.sentence for each in found] == [
        "The sense `parked` is never true. For this reason these are never on: `rest`, `horn`. "
        "For this reason these are always on: `siren`."
    ]
    assert found[0].signals == ("parked", "rest", "horn", "siren")


def story(text: str, name: str) -> Finding:
    (found,) = findings(text, name)
    assert found.story is not None
    return found


def test_stories_are_the_shortest() -> None:
    """As many moments as it takes."""
    assert story(SPEAKS["flicker"][0], "flicker").story.moments == 4  # type: ignore[union-attr]
    assert story(SPEAKS["endless-run-on"][0], "endless-run-on").story.moments == 3  # type: ignore[union-attr]
    assert story(SPEAKS["both-directions"][0], "both-directions").story.moments == 1  # type: ignore[union-attr]
    assert story(SPEAKS["on-for-an-instant"][0], "on-for-an-instant").story.moments == 1  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("kind", "text"), list(zip(MINE, written(), strict=True)), ids=lambda each: getattr(each, "name", "")
)
def test_what_is_said_in_full(kind: type, text: str) -> None:
    """Of the faulty example on its page."""
    assert f"{kind.code} {kind.name}\n\n{said(kind)}" == text.strip("\n")  # type: ignore[attr-defined]


def test_rules_that_differ_in_passing_are_not_alike() -> None:
    """Each ends what it looks at within the moment in which it comes true; once all has settled both are off."""
    text = """\
    rule too_long = on_delay(previous(engaged), 5 s)
    rule engaged = bistable(set rises(key_on), reset not key_on or too_long)
    rule late = on_delay(previous(up), 9 s)
    rule up = bistable(set rises(door_open), reset not door_open or late)
    output lamp when engaged
    output horn when up
"""
    assert sentences("\n".join(line.strip() for line in text.splitlines()) + "\n", "same-meaning") == []
