"""Requirements judged on played timelines: the answer, and the instant at which it is certain."""

from __future__ import annotations

import pytest

from logiccheck.lang.program import Edge, NeverLonger, Not, Possible
from logiccheck.model.interpreter import Impossible
from logiccheck.model.judge import violated, witnessed
from logiccheck.model.truth import all_nodes, expressions_of
from tests.model.driven import SECOND, boxed, drive, named, program, told, verdict

# case, requirement, p, q, r, verdict ("holds", "at t", "after t")
CASES = [
    ("F1", "never p for longer than 3 s", "[0,3)", "", "", "holds"),
    ("F1-longer", "never p for longer than 3 s", "[0,3.1)", "", "", "after 3"),
    ("F1-later", "never p for longer than 3 s", "[1,2) [5,9)", "", "", "after 8"),
    ("F1-while", "never p while r for longer than 3 s", "[0,9)", "", "[2,5.5)", "after 5"),
    ("F4", "p calls for q no later than 2 s", "[0,10)", "[0,1)", "", "after 3"),
    ("F5", "p calls for q no later than 2 s", "[0,1)", "[2,3)", "", "holds"),
    ("F6", "p calls for q no later than 2 s", "[0,1)", "[2.5,3)", "", "after 2"),
    ("F6-at-once", "p calls for q no later than 2 s", "[0,1)", "[0,1)", "", "holds"),
    ("F6-edge", "p becomes on calls for q no later than 2 s", "[1,9)", "[3,4)", "", "holds"),
    ("F6-edge-late", "p becomes on calls for q no later than 2 s", "[1,9)", "[3.1,4)", "", "after 3"),
    ("F7", "p calls for q no later than 2 s, excused by r", "[0,1)", "", "[1.5,1.6)", "holds"),
    ("F7-early", "p calls for q no later than 2 s, excused by r", "[0,1)", "", "[0.5,0.6)", "after 2.6"),
    ("F8", "p calls for q lasting 3 s", "[0,0.1)", "[0,3.1)", "", "holds"),
    ("F8-short", "p calls for q lasting 3 s", "[0,0.1)", "[0,3)", "", "at 3"),
    ("F8-edge", "p becomes on calls for q lasting 3 s", "[1,9)", "[1,4)", "", "holds"),
    ("F8-edge-short", "p becomes on calls for q lasting 3 s", "[1,9)", "[1,3.9)", "", "at 3.9"),
    ("F8-all-of-p", "p calls for q lasting 3 s", "[0,10)", "[0,12)", "", "at 12"),
    ("F8-closed", "p calls for q or q becomes off lasting 3 s", "[0,0.1)", "[0,3)", "", "after 3"),
    ("F8-excused", "p calls for q lasting 3 s, excused by r", "[0,0.1)", "[0,2)", "[2,2.1)", "holds"),
    ("F8-too-late", "p calls for q lasting 3 s, excused by r", "[0,0.1)", "[0,2)", "[2.1,2.2)", "at 2"),
    ("F9", "q only after p", "[1,2)", "[3,4) [5,6)", "", "at 5"),
    ("F9-again", "q only after p", "[1,2) [4,4.5)", "[3,4) [5,6)", "", "holds"),  # the instant of the fall counts
    ("F9-again-edge", "q only after p becomes on", "[1,2) [4,4.5)", "[3,4) [5,6)", "", "holds"),
    ("F9-together", "q only after p", "[3,4)", "[3,4)", "", "holds"),  # the rise counts
    ("F9-since", "q only after p since r", "[1,2)", "[3,4) [5,6)", "", "holds"),  # from the start
    ("F9-since-r", "q only after p since r", "[1,2)", "[3,4) [5,6)", "[4,4.5)", "at 5"),
    ("F9-since-r-holds", "q only after p since r", "[1,2) [4.2,4.6)", "[3,4) [5,6)", "[4,4.5)", "holds"),
    ("F9-since-r-over", "q only after p since r", "[1,4.5)", "[5,6)", "[4,4.5)", "at 5"),
    ("F10", "q only after p has lasted 240 s", "[0,300)", "[240,241)", "", "holds"),
    ("F10-short", "q only after p has lasted 240 s", "[0,300)", "[239,240)", "", "at 239"),
    ("F10-since", "q only after p has lasted 4 s since r", "[0,9)", "[6,7)", "[5,5.5)", "holds"),  # reaches back
    ("F11", "q waits for r after p", "[1,2)", "[1,3)", "[2,..)", "at 1"),
    ("F11-same", "q waits for r after p", "[1,2)", "[1,3)", "[1,..)", "holds"),
    ("F11-again", "q waits for r after p", "[1,2)", "[1,3)", "[1,1.5)", "at 1.5"),  # p still calls after r
    ("F11-start", "q waits for r", "", "[3,4)", "[4,5)", "at 3"),
    ("F11-start-holds", "q waits for r", "", "[3,4) [6,7)", "[3,3.5)", "holds"),
    ("F13", "never p while r", "[0,9)", "", "", "holds"),
    ("F14", "never p", "", "", "", "holds"),
    ("F14-fails", "never p", "[4,5)", "", "", "at 4"),
    ("F16", "q only after p", "", "[0,..)", "", "at 0"),
    ("always", "always p while r", "[0,5)", "", "[2,..)", "at 5"),
    ("edge-at-first", "never rises(p)", "[0,1)", "", "", "holds"),  # no edge at time 0
    ("edge", "never rises(p)", "[0,1) [2,3)", "", "", "at 2"),
    ("becomes", "never p becomes off while q", "[0,2)", "[1,3)", "", "at 2"),
    ("bistable", "never bistable(set p, reset q) while r", "[1,2)", "[4,5)", "[3,..)", "at 3"),
    ("bistable-edge", "always bistable(set rises(p), reset q) while r", "[0,9)", "", "[3,..)", "at 3"),
    ("one-shot-at-first", "never one_shot(p, 3 s)", "[0,9)", "", "", "holds"),
    ("one-shot", "never one_shot(p, 3 s) while r", "[1,2)", "", "[4,5)", "holds"),
    ("impulse", "never impulse_relay(p) while r", "[0,1) [2,3)", "", "[2,2.1)", "at 2"),
    ("off-delay", "never off_delay(p, 2 s) while r", "[0,1)", "", "[3,4)", "holds"),
    ("previous", "never previous(p) and not p", "[1,2)", "", "", "at 2"),
    ("previous-lasts", "never p xor previous(p) for longer than 0.5 s", "[1,2)", "", "", "holds"),
    ("blink", "never blink(p, on 1 s, off 1 s) while r", "[1,9)", "", "[2,2.5) [4,4.5) [5.5,6)", "at 5.5"),
]


@pytest.mark.parametrize(("case", "form", "p", "q", "r", "expected"), CASES, ids=[row[0] for row in CASES])
def test_a_requirement_on_three_signals(case: str, form: str, p: str, q: str, r: str, expected: str) -> None:
    """The first instant at which it is certain that the requirement does not hold."""
    vehicle = program(f"""
vehicle "Test"
world
    p contact
    q contact
    r contact
requirements
    danger d {form}
""")
    assert verdict(drive(vehicle, "320", p=p, q=q, r=r), "d") == expected


@pytest.mark.parametrize("x", ["[0,1)", "[1,2)", "[0,5)", "[1,2) [2.5,9)", "[0,3) [3.5,3.6)"])
def test_F2_an_observed_one_shot_is_never_longer(x: str) -> None:
    """F2, on several inputs."""
    more = (
        "requirements\n    danger d never one_shot(x, 3 s) for longer than 3 s\n"
        "    danger e never q for longer than 3 s"
    )
    timeline = drive(boxed("output q when one_shot(x, 3 s)", more=more), "20", x=x)
    assert (verdict(timeline, "d"), verdict(timeline, "e")) == ("holds", "holds")


def test_F3_run_on_after_release() -> None:
    """F3: an off-delay of 2 s is never on for longer than 2 s after its input, and is for longer than 1.9 s."""
    more = (
        "requirements\n    danger d never q while not x for longer than 2 s\n"
        "    danger e never q while not x for longer than 1.9 s"
    )
    timeline = drive(boxed("output q when off_delay(x, 2 s)", more=more), "20", x="[1,2) [3,4)")
    assert (verdict(timeline, "d"), verdict(timeline, "e")) == ("holds", "after 5.9")


def test_F12_possible() -> None:
    """F12: what two rules exclude is never witnessed; what happens is, at its first instant."""
    vehicle = boxed("rule p = a", "rule r = not a", "output q when p and r", "output k when p", inputs="a")
    timeline = drive(vehicle, "9", a="[3,4)")
    assert told(witnessed(timeline, named(vehicle, "q"))) == "holds"
    assert told(witnessed(timeline, named(vehicle, "k"))) == "at 3"
    assert violated(timeline, Possible(named(vehicle, "q"))) is None


def test_overdue_exactly_at_the_end_of_the_timeline() -> None:
    """What is on at the last instant is on just after it: so a story may end where something becomes overdue."""
    more = "requirements\n    danger d never q for longer than 3 s"
    vehicle = boxed("output q when x", more=more)
    assert verdict(drive(vehicle, "4", x="[1,..)"), "d") == "after 4"
    assert verdict(drive(vehicle, "3.999", x="[1,..)"), "d") == "holds"
    assert verdict(drive(vehicle, "4", x="[1,4)"), "d") == "holds"


def test_a_gap_of_no_time_ends_no_interval() -> None:
    """What is false at a moment, and true just before and just after it, holds through the whole interval."""
    vehicle = boxed("output q when x")
    calm = Not(Edge(True, named(vehicle, "q"), "observed"))
    form = NeverLonger(calm, None, 3 * SECOND)
    assert told(violated(drive(vehicle, "9", x="[2,9)"), form)) == "after 3"


def test_an_answer_may_still_come() -> None:
    """Before the time is over nothing is certain."""
    more = "requirements\n    danger d p calls for q no later than 2 s\n    danger e p calls for q lasting 3 s"
    vehicle = boxed("rule z = p", inputs=("p", "q"), more=more)
    assert verdict(drive(vehicle, "2.9", p="[1,2)"), "d") == "holds"
    assert verdict(drive(vehicle, "3", p="[1,2)"), "d") == "after 3"
    assert verdict(drive(vehicle, "3", p="[1,2)", q="[1,..)"), "e") == "holds"


def test_a_timer_in_a_requirement_lasts_as_chosen() -> None:
    """With a tolerance the run of an observed timer may be chosen, by its start, inside its window."""
    vehicle = boxed("output q when x", more="requirements\n    danger d never on_delay(x, 5 s +- 1 s)")
    (timer,) = all_nodes(expressions_of(vehicle.requirements[0].form))
    assert verdict(drive(vehicle, "20", x="[1,9)"), "d") == "at 6"
    assert verdict(drive(vehicle, "20", [(timer.key, "1", "4.5")], x="[1,9)"), "d") == "at 5.5"
    with pytest.raises(Impossible, match="cannot last 7000000 us"):
        verdict(drive(vehicle, "20", [(timer.key, "1", "7")], x="[1,9)"), "d")


def test_what_never_settles_breaks_nothing() -> None:
    """At that instant there are no settled values: what would be overdue just then is not."""
    vehicle = program("""
vehicle "Test"
world
    p contact
    x contact
harness
    relay k1 coil x and not k2
    relay k2 coil x and not k1
requirements
    danger d never p for longer than 2 s
""")
    assert verdict(drive(vehicle, "9", p="[0,9)", x="[2,9)"), "d") == "holds"
    assert verdict(drive(vehicle, "9", p="[0,9)", x="[2.1,9)"), "d") == "after 2"
