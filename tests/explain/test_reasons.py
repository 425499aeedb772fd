"""The fewest facts: by hand, and against brute force on random programs."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from random import Random

import pytest

from logiccheck.explain import reasons
from logiccheck.explain.facts import function
from logiccheck.explain.reasons import Reason, reason
from logiccheck.explain.situation import Asked, Situation, signals
from logiccheck.lang.program import Compare, Expr, Position, Program, Signal, SignalKind
from logiccheck.model.play import first_world, play
from logiccheck.model.reaction import Values
from tests.campaign import seeds
from tests.explain.brute import Guess, Meaning, Name, TooMany, fewest, situations
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.oracle.walks import Walker

IN_BOX = {SignalKind.RULE, SignalKind.OUTPUT}


def name_of(expr: Expr) -> Name:
    """How brute force calls a fact."""
    match expr:
        case Position(name=name):
            return ("switch", name)
        case Compare(name=name, op=op, bound=bound):
            return ("compare", name, op.value, str(bound))
        case Signal(kind=kind, name=name):
            return (kind.value, name)
        case _:
            return ("memory", expr.key)  # type: ignore[union-attr]


class Brute:
    """What brute force says of one signal at one moment."""

    def __init__(self, program: Program, values: Values, asked: Asked) -> None:
        signal = asked.on if isinstance(asked.on, Signal) else None
        relay = next((r for r in program.relays if signal == Signal(SignalKind.RELAY, r.name)), None)
        copper = signal is None or signal.kind not in IN_BOX
        self.meaning = Meaning(program, copper, relay.supply if relay is not None else None)
        parts = [signal] if signal is not None else list(asked.on.parts)  # type: ignore[union-attr]

        def on(guess: Guess) -> bool:
            values = [self.meaning.asked(guess, part) for part in parts if isinstance(part, Signal)]
            return any(values)

        guess = Guess()
        on(guess)
        self.facts = guess.asked
        now = {name for name, e in self.facts.items() if name[0] not in ("switch", "compare") and values.holds(e)}
        self.now = Guess(frozenset(now), dict(values.world))
        self.value = on(self.now)
        self.turned = [self.differs(each) for each in situations(program, self.meaning, on) if on(each) != self.value]

    def differs(self, other: Guess) -> frozenset[Name]:
        """The facts that are otherwise there."""
        return frozenset(name for name, e in self.facts.items() if self.read(other, e) != self.read(self.now, e))

    def read(self, guess: Guess, expr: Expr) -> object:
        if isinstance(expr, Position):
            return guess.world[expr.name]
        if isinstance(expr, Compare):
            return self.meaning.compare(Guess(guess.true, guess.world), expr)
        return name_of(expr) in guess.true


def wrong(program: Program, values: Values, asked: Asked, found: Reason, value: bool) -> str:
    """What brute force has to say against a reason; nothing if it agrees."""
    brute = Brute(program, values, asked)
    if brute.value != value or value != values.holds(asked.on):
        return f"reads {value}, by brute force {brute.value}"
    chosen = {name_of(fact.leaf) for fact in found.facts}
    if any(not each & chosen for each in brute.turned):
        return f"is no reason: {chosen}"
    size, count = fewest(brute.turned, list(brute.facts))
    if size != len(chosen) or not found.fewest:
        return f"{len(chosen)} facts, {size} would do"
    if count != found.others + 1 or not found.all_found:
        return f"{found.others} others, by brute force {count - 1}"
    return ""


def looked_at(seed: int) -> tuple[int, int, list[str]]:
    """Reasons compared, left out as too large, and complaints, for the moments of a random walk."""
    program = loaded(random_program(seed).text)
    random = Random(seed)
    walk = Walker(program, program.requirements[0].form, random).go(8)
    chosen = {each.name: each.value for each in walk.changes if each.time == 0}
    timeline = play(program, walk.changes, walk.runs, walk.end, first_world(program, chosen, program.at_first))
    compared, large, complaints = 0, 0, []
    for played in timeline.settled:
        situation = Situation(timeline, played.time)
        for asked in signals(program).values():
            try:
                f = function(program, situation.values, asked.on)
                said = wrong(program, situation.values, asked, reason(f), f.value)
            except TooMany:
                large += 1
                continue
            compared += 1
            if said:
                complaints.append(f"program {seed}, {asked.name} at {Fraction(played.time)} us: {said}")
    return compared, large, complaints


def agree(some: range) -> str:
    """Raises AssertionError where brute force does not agree; what was compared, in words."""
    found = [looked_at(seed) for seed in some]
    complaints = [each for _, _, some_complaints in found for each in some_complaints]
    assert not complaints, "\n".join(complaints[:20])
    compared = sum(each for each, _, _ in found)
    assert compared > 20 * len(some)
    return f"programs: {len(found)}, reasons compared: {compared}, too large: {sum(each for _, each, _ in found)}"


def test_brute_force_agrees(capsys: pytest.CaptureFixture[str]) -> None:
    """Each reason is one, has the fewest facts, and there are as many others as said."""
    summary = agree(range(40))
    with capsys.disabled():
        print("", summary, sep="\n")


DENSE = """
vehicle "Facts that hang together"
world
    key    off | low | high | full
    door   contact
    volts  0 .. 9 V
    heat   2 .. 7 degC
    at first volts is 4 V
harness
    source plus
    source aux                when key is not full
    ground strap              when door
    wire near   from plus     when volts above 3 V and not volts above 5 V
    wire exact  from plus     when volts is 4 V or volts is not 6 V and volts at least 6 V
    wire ends   from plus     when volts at least 0 V and heat at most 7 degC and (heat above 2 degC or heat is 2 degC)
    wire spread from plus     when volts above 2 V or volts below 3 V or volts is 2.5 V
    wire all    from plus     when key is off or key is low or key in {high, full}
    wire some   from plus     when key is not off and key is not low
    wire back   to strap
    wire rust   to strap      when key is not low
    wire far
    diode far -> back
    wire ring
    join near with ring       when key is low
    join ring with far        when key is high
    join aux with plus        when key is full
    join ring with aux        when door
    join near with back       when key is full
    wire feed   from aux
    relay pull  coil near xor far   supply feed
controller powered by feed
    sense seen    from volts
    sense hot     from heat
    sense open    from back grounded
    rule between  = seen above 3 V and seen at most 6 V
    rule outside  = seen at most 3 V or seen above 6 V or seen is 5 V
    rule strange  = seen is not 5 V and not seen at least 6 V xor hot above 4 degC
    rule few      = at most one of (seen above 3 V, seen above 6 V, hot above 4 degC, open)
    output lamp   when (between or outside) and (few or strange)
"""


def test_facts_that_hang_together() -> None:
    """Several comparisons of one number, several positions of one switch, wires joined in a ring: one world in nine."""
    program = loaded(DENSE)
    for key, door, volts, heat in list(product(range(4), range(2), (0, 2, 4, 5, 6, 9), (2, 4, 7)))[::9]:
        world: dict[str, int | Fraction] = {"key": key, "door": door, "volts": Fraction(volts), "heat": Fraction(heat)}
        timeline = play(program, [], [], 0, world)
        values = Situation(timeline, 0).values
        for asked in signals(program).values():
            f = function(program, values, asked.on)
            assert wrong(program, values, asked, reason(f), f.value) == "", (asked.name, world)


FIXED = """
vehicle "What cannot be otherwise"
world
    key  off | run
    door contact
harness
    source plus
    source each             when key is off or key is run
    source some             when key is run
    ground strap
    relay plain   coil door   supply plus
    relay covered coil door   supply each
    relay at_will coil door   supply some
    relay far     coil door   supply hung
    wire hung    from plus
    wire loose
    wire seen    from plus    when door
    relay dead   coil door    supply loose
controller powered by hung
    sense open   from seen live
    output keep  when open    fed by hung
    output none  when open    fed by loose
    output part  when open    fed by seen
    sense blind  from loose live
    sense awake  from hung live
    rule both    = open or blind
    rule either  = open and awake
    rule nothing = blind and open
"""


@pytest.mark.parametrize(
    ("name", "facts"),
    [
        ("plain", {("switch", "door")}),
        ("covered", {("switch", "door")}),
        ("at_will", {("switch", "door"), ("source", "some")}),
        ("far", {("switch", "door")}),
        ("dead", set()),
        ("open", {("switch", "door")}),
        ("keep", {("sense", "open")}),
        ("none", set()),
        ("part", {("sense", "open"), ("live", "seen")}),
        ("powered", set()),
        ("both", {("sense", "open")}),
        ("either", {("sense", "open")}),
        ("nothing", set()),
        ("blind", set()),
        ("awake", set()),
    ],
)
def test_what_cannot_be_otherwise_is_no_fact(name: str, facts: set[Name]) -> None:
    """Not in the reason, and not by brute force."""
    program = loaded(FIXED)
    values = Situation(play(program, [], [], 0, {"key": 1, "door": 1}), 0).values
    asked = signals(program)[name]
    f = function(program, values, asked.on)
    found = reason(f)
    assert {name_of(fact.leaf) for fact in found.facts} == facts
    assert wrong(program, values, asked, found, f.value) == ""


def test_what_is_not_proved_to_be_fewest(monkeypatch: pytest.MonkeyPatch) -> None:
    """With too few tries it is still a reason of which nothing can be left out, and it says that it may not be fewest."""
    program = loaded(DENSE)
    timeline = play(program, [], [], 0, {"key": 1, "door": 1, "volts": Fraction(5), "heat": Fraction(7)})
    values = Situation(timeline, 0).values
    lamp = signals(program)["lamp"]
    f = function(program, values, lamp.on)
    whole = reason(f)
    monkeypatch.setattr(reasons, "MOST_TRIED", 1)
    found = reason(f)
    assert (whole.fewest, found.fewest, found.others, found.all_found) == (True, False, 0, False)
    chosen = [{name_of(fact.leaf) for fact in found.facts if fact is not left_out} for left_out in (None, *found.facts)]
    turned = Brute(program, values, lamp).turned
    kept = [all(each & names for each in turned) for names in chosen]
    assert kept == [True, *[False] * len(found.facts)]


@pytest.mark.campaign
def test_brute_force_agrees_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """As many programs as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on."""
    summary = agree(seeds(300))
    with capsys.disabled():
        print("", summary, sep="\n")
