"""What reaches a wire unmeant: held against every set of closed contacts, worked out from the wires around it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.asking import Never, Seen
from logiccheck.lang.program import Contact, Program, SignalKind
from logiccheck.model.play import play_story
from logiccheck.study.harness import whole
from tests.campaign import seeds
from tests.copper.harnesses import HEAD, JOINED, KEPT_APART, random_harness, random_harness_text
from tests.copper.test_ways import LIVE, live_by_hand, so
from tests.oracle.loading import loaded


def wrong(text: str) -> dict[str, str]:
    """The wires of which something is wrong, each with the way that conducts."""
    found = whole(loaded(text), Budget(60), lambda _: None)
    assert not found.questions.bugs
    return {each.suspect.wire: " ".join(each.way.wires) for each in found.sneaks if each.way is not None}


def test_a_diode_or_a_plain_wire() -> None:
    """With diodes nothing is wrong."""
    assert wrong(KEPT_APART) == {}
    assert wrong(JOINED) == {"key_wire": "door_wire wake key_wire"}


def test_what_goes_on_from_there_is_told_with_it() -> None:
    """The lock feeds two wires by one; what comes in behind them reaches both, and that is one cause."""
    text = JOINED.replace(
        "    wire key_wire from plus when key is run\n",
        "    wire lock from plus when key is run\n    wire key_wire from lock\n",
    )
    found = whole(loaded(text), Budget(60), lambda _: None)
    assert [(each.suspect.wire, each.further) for each in found.sneaks] == [("key_wire", ("lock",))]


def test_a_diode_the_wrong_way_round() -> None:
    """The door reaches the wire of the key, which a sense reads."""
    text = KEPT_APART.replace("diode key_wire -> wake", "diode wake -> key_wire")
    assert wrong(text) == {"key_wire": "door_wire wake key_wire"}


def test_a_diode_that_points_there_may_be_meant() -> None:
    """Somebody drew it so that it feeds the wire, and nothing takes the wire for its switch."""
    text = KEPT_APART.replace(
        "    wire wake\n",
        "    wire wake\n    diode door_wire -> lamp_wire\n    wire lamp_wire from plus when key is run\n",
    )
    found = whole(loaded(text), Budget(60), lambda _: None)
    assert [(each.suspect.wire, each.suspect.meant) for each in found.sneaks] == [("lamp_wire", True)]
    text = text.replace("    sense key_on", "    sense lamp_on from lamp_wire live\n    sense key_on")
    found = whole(loaded(text), Budget(60), lambda _: None)
    assert [(each.suspect.wire, each.suspect.meant) for each in found.sneaks] == [("lamp_wire", False)]


def test_what_cannot_happen_is_not_wrong() -> None:
    """The door can only be open while the key is on."""
    text = JOINED + "given\n    never door is open and key is off\n"
    assert wrong(text) == {}


def test_an_output_on_a_wire_that_a_switch_feeds() -> None:
    """It makes the wire live while its own line does not."""
    text = KEPT_APART.replace("when key_on", "when not key_on feeds door_wire").replace(
        "powered by wake", "powered by feed"
    )
    assert wrong(text.replace("    wire wake\n", "    wire wake\n    wire feed from plus\n")) == {
        "door_wire": "door_wire"
    }


def test_ground_comes_in_behind_too() -> None:
    """A wire that its own switch grounds is grounded from elsewhere."""
    text = (
        HEAD
        + """harness
    wire horn_wire to ground when key is run
    wire door_wire to ground when door is open
    join horn_wire with door_wire
"""
    )
    assert wrong(text) == {"horn_wire": "door_wire horn_wire", "door_wire": "horn_wire door_wire"}


def worlds(program: Program) -> Iterator[dict[str, bool]]:
    names = [switch.name for switch in program.switches]
    for values in product((False, True), repeat=len(names)):
        yield dict(zip(names, values, strict=True))


def stands_in(text: str, contact: Contact, wire: str) -> bool:
    """The line in which the contact is written begins with the wire."""
    line = text[text.rfind("\n", 0, contact.span.begin) + 1 :].split("\n")[0]
    return line.split()[:2] == ["wire", wire]


def unmeant(program: Program, text: str, name: str, world: dict[str, bool]) -> bool:
    """Something live comes in at the wire over a contact or diode that is not its own, and nothing over what is."""
    closed = [c for c in program.contacts if so(c.condition, world, frozenset())]
    sources = frozenset(s.name for s in program.sources if so(s.condition, world, frozenset()))
    others = tuple(wire for wire in program.wires if wire.name != name)
    live = sources | live_by_hand(replace(program, wires=others), LIVE, sources, closed)
    at = [(c, c.left if c.right == name else c.right) for c in closed if name in (c.left, c.right)]
    own = any(stands_in(text, c, name) and other in live for c, other in at)
    over = any(not stands_in(text, c, name) and other in live for c, other in at)
    return not own and (over or any(d.anode in live for d in program.diodes if d.cathode == name))


@pytest.mark.parametrize("seed", seeds(25, 5_000))
def test_every_wire_against_all_situations(seed: int) -> None:
    """Of each wire whose line says `from`: it is told exactly if there is such a situation, alone or with its cause."""
    text = random_harness_text(Random(seed))
    program = replace(loaded(text), box=None)
    found = whole(program, Budget(60), lambda _: None)
    assert not found.questions.bugs
    told = {each.suspect.wire for each in found.sneaks if each.suspect.kind is LIVE and each.suspect.together is None}
    told |= {wire for each in found.sneaks if each.suspect.kind is LIVE for wire in each.further}
    grounds = {ground.name for ground in program.grounds}
    for wire in program.wires:
        says = any(stands_in(text, c, wire.name) and c.left not in grounds for c in program.contacts)
        if says:
            expected = any(unmeant(program, text, wire.name, world) for world in worlds(program))
            assert (wire.name in told) == expected, (wire.name, text)


@pytest.mark.parametrize("seed", seeds(25, 6_000))
def test_stories_end_in_what_they_show(seed: int) -> None:
    """At the end the way conducts, no own way does, and shorts are shorts; what is not told is not so by hand."""
    program = random_harness(Random(seed))
    found = whole(program, Budget(60), lambda _: None)
    for each in found.sneaks:
        if isinstance(each.answer, Seen):
            values = found.questions.end(each.answer)
            assert each.way is not None
            assert values.holds(each.way.condition)
            assert not any(values.holds(way.condition) for way in each.suspect.own)
            assert (each.suspect.kind, each.suspect.wire) in values.true
    for wire, answer in found.shorts:
        assert not isinstance(answer, Never)
        if isinstance(answer, Seen):
            end = play_story(program, found.questions.story(answer)).settled[-1].moment.settled.values
            assert {(LIVE, wire), (SignalKind.GROUNDED, wire)} <= end.true
