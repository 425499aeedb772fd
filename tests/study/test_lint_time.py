"""Findings about time and memory: when they speak, as often when they are silent, and what they say in full."""

from __future__ import annotations

import pytest

from logiccheck.explain.finding import Finding
from tests.study.golden_time import MINE, said, written
from tests.study.linting import findings, sentences

ALWAYS = 'controller "Box" powered by feed\n'
KEY = 'controller "Box" powered by key_wire\n'
SLOW = "    sense slow from door_wire live filter 50 ms\n"
HELD = """\
relay hold "Hold relay" coil off_delay(key_wire, {}) supply plus
wire held from plus when hold
controller "Box" powered by held
"""
DOOR = """\
relay hold "Hold relay" coil off_delay(door_wire, 2 min) supply plus
wire held from plus when hold
wire shut_wire from plus when door is closed
wire key_off_wire from plus when key is off
controller "Box" powered by held
    sense shut from shut_wire live
    sense key_off from key_off_wire live
"""
WOKEN = """\
wire wake
wire keep
diode door_wire -> wake
diode keep -> wake
controller "Box" powered by wake
"""
CUT = """\
relay cut coil kill or cut
wire held from plus when not cut
controller "Box" powered by held
"""  # a box that takes its own power away for good
HATCH = """\
wire wake
wire keep
wire hatch_wire from keep when door is open
diode key_wire -> wake
diode keep -> wake
controller "Box" powered by wake
    sense hatch from hatch_wire live
    output keep_up when key_on or hatch feeds keep
"""
NEVER_BOTH = "given\n    never door is open and key in {run, start}\n"


def rule(text: str) -> str:
    return f"    output lamp when {text}\n"


SPEAKS = {
    "timer-never-starts": [
        ALWAYS + rule("off_delay(cranking and not key_on, 10 s)"),
        ALWAYS + rule("blink(cranking and not key_on, on 1 s, off 1 s)"),
        ALWAYS + rule("one_shot(key_on and door_open, 1 s)") + NEVER_BOTH,
        KEY + rule("key_on or on_delay(not key_on and door_open, 1 s)"),
        ALWAYS + rule("off_delay(revs above 6000 rpm, 1 s)") + "given\n    never engine above 5000 rpm\n",
    ],
    "delay-never-over": [
        ALWAYS + rule("on_delay(one_shot(key_on, 3 s), 3 s)"),
        ALWAYS + rule("on_delay(blink(key_on, on 1 s, off 1 s), 2 s)"),
        ALWAYS
        + rule("on_delay(door_open, 40 s)")
        + "given\n    door is open lasts at most 30 s\n    door is closed lasts at least 1 s\n",
        ALWAYS + rule("key_on and not on_delay(cranking, 20 s)") + "given\n    key is start lasts at most 20 s\n",
    ],
    "time-cut-short": [
        ALWAYS + rule("off_delay(blink(true, on 1 s, off 2 s), 3 s)"),
        KEY + rule("one_shot(cranking, 40 s)") + "given\n    key in {run, start} lasts at most 30 s\n",
        HELD.format("2 min") + rule("off_delay(key_on, 121 s)"),
    ],
    "blink-cut-short": [
        ALWAYS + rule("blink(one_shot(key_on, 2 s), on 2 s, off 1 s)"),
        KEY + rule("blink(cranking, on 40 s, off 1 s)") + "given\n    key in {run, start} lasts at most 30 s\n",
    ],
    "fall-never-seen": [
        KEY + rule("key_on and one_shot(falls(on_delay(key_on, 2 s)), 1 s)"),
        ALWAYS + rule("off_delay(on_delay(true, 5 s), 1 s)"),
        KEY + rule("off_delay(key_on, 1 min)"),
        KEY + "    rule go = key_on\n" + rule("one_shot(falls(go), 30 s)"),
    ],
    "acts-on-waking": [
        KEY + rule("bistable(set rises(door_open), reset cranking, set wins)"),
        KEY + rule("impulse_relay(not door_open)"),
        KEY + SLOW + rule("one_shot(slow, 2 s)"),
        KEY + "    sense turns from engine filter 50 ms\n" + rule("impulse_relay(turns above 300 rpm)"),
        HELD.format("2 min") + rule("one_shot(revs above 300 rpm, 2 s)"),
    ],
    "fall-lost-at-waking": [
        DOOR + rule("one_shot(falls(shut), 3 s)"),
        DOOR + "    rule closed_now = shut\n" + rule("bistable(set falls(closed_now), reset key_on)"),
        DOOR + rule("bistable(set falls(not door_open), reset key_on)"),
    ],
    "never-set": [
        ALWAYS + rule("bistable(set door_open and not key_on, reset not key_on)"),
        ALWAYS + rule("bistable(set cranking, reset key_on)"),
        ALWAYS + rule("impulse_relay(cranking and not key_on)"),
        ALWAYS + rule("revs above 6000 rpm until below 300 rpm") + "given\n    never engine above 6000 rpm\n",
    ],
    "never-reset": [
        ALWAYS + rule("bistable(set door_open or not key_on, reset not key_on and not door_open, set wins)"),
        ALWAYS + rule("bistable(set key_on, reset cranking, set wins)"),
        HELD.format("2 min") + rule("bistable(set cranking, reset on_delay(not key_on, 3 min) and door_open)"),
        ALWAYS + rule("impulse_relay(on_delay(true, 5 s))"),
    ],
    "kept-for-ever": [
        ALWAYS + rule("bistable(set door_open, retained)"),
        KEY + rule("key_on and bistable(set cranking, retained)"),
    ],
    "set-meets-reset": [
        ALWAYS + rule("bistable(set door_open, reset not key_on)"),
        ALWAYS + rule("bistable(set key_on, reset cranking)"),
        ALWAYS + rule("bistable(set rises(door_open) or cranking, reset not key_on or door_open)"),
        ALWAYS + rule("bistable(set door_open, reset not key_on)") + "requirements\n    function shows possible lamp\n",
    ],
    "hold-too-short": [
        HELD.format("from 2 s to 10 s") + rule("off_delay(key_on, from 2 s to 10 s)"),
        HELD.format("10 s +- 1 s") + "    rule late = off_delay(cranking, 10 s)\n" + rule("late and not key_on"),
    ],
    "keeps-itself-awake": [
        WOKEN + "    output keep_up when not key_on feeds keep\n",
        WOKEN + "    output keep_up when off_delay(door_open, 5 s) or key_on feeds keep\n",
        WOKEN + "    output keep_up when bistable(set door_open, reset key_on, set wins) feeds keep\n",
        HATCH,
        HATCH + "given\n    engine is 0 rpm after door is open has lasted 1 s\n",
    ],
}
"""Texts in which a finding speaks, most of them right at a glance: what can be reached makes them wrong."""

SILENT = {
    "timer-never-starts": [
        ALWAYS + rule("off_delay(cranking and key_on, 10 s)"),
        ALWAYS + rule("one_shot(key_on and door_open, 1 s)"),
        'controller "Box" powered by held\n    sense never_on from held grounded\n'
        + rule("on_delay(key_on, 1 s)")
        + "harness\n    wire held from plus when key is run and key is off\n",  # it never wakes at all
        ALWAYS + rule("off_delay(revs above 6000 rpm, 1 s)"),
    ],
    "delay-never-over": [
        ALWAYS + rule("on_delay(one_shot(key_on, 3 s), 2.9 s)"),
        ALWAYS + rule("on_delay(blink(key_on, on 1 s, off 1 s) or door_open, 2 s)"),
        ALWAYS
        + rule("on_delay(door_open, 30 s)")
        + "given\n    door is open lasts at most 40 s\n    door is closed lasts at least 1 s\n",
        ALWAYS  # it comes for an instant, as a clock does
        + "    rule tick = on_delay(not previous(tock), 1 s)\n    rule tock = on_delay(tick, 2 s)\n    output lamp when tick\n",
        CUT + "    output kill when on_delay(key_on, 5 s)\n",
    ],
    "time-cut-short": [
        WOKEN
        + "    output keep_up when off_delay(door_open, 5 s) feeds keep\n",  # its end is what puts the box to sleep
        ALWAYS + rule("off_delay(blink(key_on, on 1 s, off 2 s), 3 s)"),
        KEY + rule("one_shot(cranking, 40 s)"),
        CUT + "    rule late = off_delay(key_on, 5 s)\n    output kill when falls(late)\n",
        HELD.format("2 min") + rule("off_delay(key_on, 119 s)"),
    ],
    "blink-cut-short": [
        ALWAYS + rule("blink(one_shot(key_on, 2 s), on 1.9 s, off 1 s)"),
        KEY + rule("blink(cranking, on 40 s, off 1 s)"),
    ],
    "fall-never-seen": [
        KEY + rule("off_delay(cranking, 1 min)"),
        KEY + "    rule any = key_on or door_open\n" + rule("off_delay(any, 1 min)"),  # its rule is always on
        ALWAYS + "    rule there = true\n" + rule("off_delay(there, 1 min)"),
        ALWAYS + rule("off_delay(key_on, 1 min) or one_shot(falls(door_open), 2 s)"),
    ],
    "acts-on-waking": [
        HELD.format("2 min") + rule("impulse_relay(door_open, reset key_on)"),  # it acts, but not on waking
        KEY + rule("one_shot(door_open and not on_delay(door_open, 5 s), 2 s)"),  # nobody could tell what it was before
        ALWAYS + rule("one_shot(door_open, 2 s)"),
        KEY + rule("one_shot(key_on, 2 s)"),  # nothing was on before
        ALWAYS + SLOW + rule("one_shot(slow, 2 s)"),
        KEY + SLOW + rule("one_shot(slow, 2 s)") + "given\n    never door is open and key is off\n",
        KEY + "    rule seen_shut = bistable(set not door_open)\n" + rule("one_shot(door_open and seen_shut, 2 s)"),
        KEY + rule("one_shot(door_open, 2 s)") + "given\n    never door is open and key is off\n",
    ],
    "fall-lost-at-waking": [
        DOOR + "    sense slow from shut_wire live filter 1 s\n" + rule("one_shot(falls(slow), 3 s)"),
        DOOR + rule("one_shot(falls(key_off and (shut or door_open)), 3 s)"),  # the door alone ends nothing
        DOOR + rule("one_shot(rises(not shut), 3 s)"),
        DOOR + rule("one_shot(falls(key_off), 3 s)"),  # another hand: that both move at once is chance
        ALWAYS + rule("one_shot(falls(key_on), 3 s)"),
    ],
    "never-set": [
        ALWAYS + rule("bistable(set door_open and not key_on, reset not key_on, set wins)"),
        ALWAYS + rule("bistable(set key_on, reset cranking)"),
        ALWAYS + rule("impulse_relay(cranking and key_on)"),
        ALWAYS + rule("revs above 6000 rpm until below 300 rpm"),
    ],
    "never-reset": [
        ALWAYS + rule("bistable(set door_open, reset not key_on and not door_open)"),
        ALWAYS + rule("bistable(set door_open)"),  # forgotten with the power, and meant so
        HELD.format("2 min") + rule("bistable(set key_on, reset on_delay(not key_on, 1 min))"),
        HELD.format("2 min") + rule("bistable(set key_on, reset on_delay(not key_on, 3 min))"),  # its on-delay speaks
        ALWAYS + rule("impulse_relay(door_open)"),
        CUT + "    rule seen = bistable(set door_open, reset key_on)\n    output kill when falls(seen)\n",
    ],
    "kept-for-ever": [
        ALWAYS + rule("bistable(set door_open, reset cranking, retained)"),
        ALWAYS + rule("bistable(set door_open and key_on, retained)") + NEVER_BOTH,
    ],
    "set-meets-reset": [
        ALWAYS + rule("bistable(set door_open, reset not key_on, set wins)"),
        ALWAYS + rule("bistable(set door_open, reset key_on)") + NEVER_BOTH,
        ALWAYS
        + rule("bistable(set door_open, reset not key_on)")
        + "requirements\n    function shows always lamp while key is run and door is open\n",
    ],
    "hold-too-short": [
        HELD.format("2 min +- 30 %") + rule("off_delay(key_on, 2 min) or not key_on"),  # it is on anyway
        HELD.format("2 min").replace("when hold", "when hold and door is closed") + rule("off_delay(key_on, 1 min)"),
        HELD.format("2 min +- 30 %") + rule("off_delay(key_on, 80 s)"),
        HELD.format("2 min") + rule("off_delay(key_on, 2 min)"),  # both end at the same instant
        KEY + rule("off_delay(cranking, 10 s)"),  # a hand takes the power away, and may
        HELD.format("2 min +- 30 %") + rule("off_delay(key_on, 2 min) and not on_delay(not key_on, 80 s)"),
    ],
    "keeps-itself-awake": [
        WOKEN + "    output keep_up when off_delay(door_open, 5 s) feeds keep\n",
        WOKEN + "    output keep_up when key_on and not on_delay(key_on, 5 s) feeds keep\n",
        WOKEN
        + "    output keep_up when not key_on feeds keep\n    output lamp when door_open\n"
        + "given\n    always door is open\n",
        HATCH + "given\n    door is open lasts at most 30 s\n",  # the door has to be shut
        HATCH + "given\n    door is closed after keep_up has lasted 30 s\n",
    ],
}
"""Texts in which it is silent, most of them wrong at a glance: what makes them so cannot happen."""


def numbered(texts: dict[str, list[str]]) -> list[object]:
    """Each text by itself, with the name of its finding and its number as an identity."""
    return [pytest.param(k, text, id=f"{k}-{n}") for k, those in texts.items() for n, text in enumerate(those, 1)]


@pytest.mark.parametrize(("name", "text"), numbered(SPEAKS))
def test_it_speaks(name: str, text: str) -> None:
    """Once, at the one place that is to blame."""
    assert len(sentences(text, name)) == 1, text


@pytest.mark.parametrize(("name", "text"), numbered(SILENT))
def test_it_is_silent(name: str, text: str) -> None:
    """Everything is decided, and nothing found."""
    assert sentences(text, name) == [], text


def test_it_is_silent_as_often_as_it_speaks() -> None:
    """Of each finding there are at least two texts of either kind."""
    assert SPEAKS.keys() == SILENT.keys() == {kind.name for kind in MINE}
    assert all(len(SPEAKS[name]) >= 2 <= len(SILENT[name]) for name in SPEAKS)
    assert sum(map(len, SILENT.values())) >= sum(map(len, SPEAKS.values())) - 3


@pytest.mark.parametrize("kind", MINE, ids=lambda kind: kind.name)
def test_what_it_says_in_full(kind: type) -> None:
    """The faulty example of its page, as lint prints it."""
    golden = next(piece for piece in written() if piece.startswith(f"{kind.code} "))  # type: ignore[attr-defined]
    assert golden.split("\n", 1)[1].strip("\n") == said(kind)


def first(text: str, name: str) -> Finding:
    """The one finding."""
    (found,) = findings(text, name)
    return found


def test_a_story_says_when() -> None:
    """What a story shows is the shortest that there is: the hold relay in its shortest time, no hand at its end."""
    story = first(SPEAKS["hold-too-short"][0], "hold-too-short").story
    assert story is not None
    assert [len(step.world) > 0 for step in story.steps] == [True] * story.moments
    assert story.steps[-1].due == ("hold",)
    lost = first(SPEAKS["fall-lost-at-waking"][0], "fall-lost-at-waking").story
    assert lost is not None
    assert lost.moments == 2


def test_what_feeds_the_box_is_named_and_no_output_beside_it() -> None:
    """One of which only something given speaks has no part in it."""
    text = WOKEN + "    output keep_up when not key_on feeds keep\n    output lamp when not key_on\n"
    text += "given\n    door is closed after lamp has lasted 9 s\n"
    assert first(text, "keeps-itself-awake").signals == ("keep_up",)


def test_what_it_rests_on_is_named() -> None:
    """The line of the timer, and the outputs that it keeps on."""
    assert first(SPEAKS["hold-too-short"][-1], "hold-too-short").signals == ("late", "lamp")
    assert first(SPEAKS["keeps-itself-awake"][1], "keeps-itself-awake").signals == ("keep_up",)


def test_what_a_filter_hides_is_seen_off_for_longer() -> None:
    """Behind a filter time `bistable(set not x)` is set at each waking, since the sense reads off first."""
    plain, slow = (first(KEY + SLOW + rule(f"one_shot({x}, 2 s)"), "acts-on-waking") for x in ("door_open", "slow"))
    assert "`bistable(set not x)`" in plain.diagnostic.hint
    assert "`bistable(set on_delay(not x, 1 s))`" in slow.diagnostic.hint
    assert slow.story is not None
