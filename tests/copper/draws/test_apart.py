"""Whether two that draw more at first come on far enough apart: three answers around the limit, and feeds they share."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.asking import Never, Seen
from logiccheck.explain.bare import bare
from logiccheck.model.play import play_story
from logiccheck.study.currents import Pair, currents
from tests.oracle.loading import loaded

STAGED = """vehicle "Staged"
world
    key contact
    at first not key
harness
    source plus
    wire key_wire from plus when key
    wire box_supply from plus
controller "Box" powered by box_supply
    sense key_on from key_wire live
    output pump when key_on load 8 A, inrush 22 A for 80 ms
    output fan when on_delay(key_on, {later}) load 14 A, inrush 45 A for 300 ms
electrics
    apart {apart}
"""


def pairs(text: str) -> tuple[Pair, ...]:
    return currents(loaded(text), Budget(60.0), lambda _: None).pairs


@pytest.mark.parametrize(
    ("later", "apart", "meet"),
    [
        ("80 ms", "250 ms", True),
        ("250 ms", "250 ms", False),
        ("251 ms", "250 ms", False),
        ("249999 us", "250 ms", True),
    ],
)
def test_exactly_the_time_is_far_enough(later: str, apart: str, meet: bool) -> None:
    """80 ms apart is too close under a rule of 250 ms; 250 ms and 251 ms are proved to be far enough."""
    (pair,) = pairs(STAGED.format(later=later, apart=apart))
    assert (pair.meet.first.name, pair.meet.second.name) == ("pump", "fan")
    assert isinstance(pair.answer, Seen if meet else Never)


def test_the_story_is_that_of_the_second_coming_on() -> None:
    """It ends just when the second comes on, and plays on the vehicle without anything of ours."""
    program = loaded(STAGED.format(later="80 ms", apart="250 ms"))
    found = currents(program, Budget(60.0), lambda _: None)
    answer = found.pairs[0].answer
    assert isinstance(answer, Seen)
    story = bare(answer.story, {"fan"})
    timeline = play_story(program, story)
    assert timeline.end - story.steps[-2].time == 80_000
    assert story.steps[-1].due == ("fan",)


def test_a_tolerance_counts_at_its_shortest() -> None:
    """A delay of 240 ms to 300 ms does not keep 250 ms."""
    (pair,) = pairs(STAGED.format(later="from 240 ms to 300 ms", apart="250 ms"))
    assert isinstance(pair.answer, Seen)


def test_both_live_from_the_start_meet_at_time_0() -> None:
    """When the battery is connected everything on it comes on at once."""
    (pair,) = pairs(
        'vehicle "x"\nharness\n    source plus\n    wire a from plus\n    wire b from plus\n'
        "    load lamp on a 2 A, inrush 9 A for 80 ms\n    load pump on b 2 A, inrush 9 A for 80 ms\n"
        "electrics\n    apart 250 ms\n"
    )
    assert isinstance(pair.answer, Seen)
    assert len(pair.answer.story.steps) == 1


TWO_BATTERIES = """vehicle "Two batteries"
world
    a contact
    b contact
    link contact
    at first not a, not b, not link
harness
    source plus
    source leisure
    wire bus from leisure
    wire lamp_wire from plus when a
    wire pump_wire from bus when b
    load lamp on lamp_wire 2 A, inrush 9 A for 80 ms
    load pump on pump_wire 3 A, inrush 9 A for 80 ms
{link}electrics
    apart 250 ms
given
    never a and link
"""


def test_without_a_common_feed_nothing_is_asked() -> None:
    assert pairs(TWO_BATTERIES.format(link="")) == ()


def test_a_common_feed_counts_while_it_feeds_both() -> None:
    """The link that lets plus feed both is never closed while the lamp is on; without that line it is."""
    linked = TWO_BATTERIES.format(link="    join plus with pump_wire when link\n")
    assert [type(pair.answer) for pair in pairs(linked)] == [Never]
    free = linked.replace("never a and link", "never a and not b and link")
    assert [type(pair.answer) for pair in pairs(free)] == [Seen]
