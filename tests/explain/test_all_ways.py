"""All ways in which a signal can be on, worked out by hand."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine.decider import Decider
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.all_ways import AllWays, TooMany, all_ways
from logiccheck.explain.asking import Blocked, Open
from logiccheck.explain.primes import Term
from logiccheck.explain.situation import signals
from logiccheck.explain.written_out import TooLarge, narrowed
from logiccheck.lang.program import Program
from logiccheck.report.literals import Literals
from tests.model.driven import boxed, program


def found(vehicle: Program, name: str, seconds: float = 60.0) -> AllWays:
    return all_ways(vehicle, signals(vehicle)[name], Budget(seconds), lambda _: None)


def said(vehicle: Program, ways: AllWays, term: Term) -> str:
    """A term in the words of the language; what remembers goes by its key."""
    keys = {fact: fact.key for fact in ways.text.facts if hasattr(fact, "key")}
    return " and ".join(Literals(vehicle, {}, keys).term(term, ways.text.facts))


def ways(vehicle: Program, name: str) -> list[str]:
    """The ways that can happen, and "never: " and what excludes each other."""
    all_of_them = found(vehicle, name)
    assert all_of_them.complete
    never = [f"never: {said(vehicle, all_of_them, each.by)}" for each in all_of_them.excluded]
    return [said(vehicle, all_of_them, way.term) for way in all_of_them.ways] + never


def test_each_term_is_a_way() -> None:
    """Rules are written out; what always comes with a fact is left out, such as the power that a sense needs."""
    vehicle = boxed("rule r = a or b", "output q when r and not c", inputs="abc")
    assert ways(vehicle, "q") == ["a_on and not c_on", "b_on and not c_on"]


def test_terms_that_no_line_shows_alone() -> None:
    """All minimal terms are looked for, also those that only two lines together make."""
    vehicle = boxed("output q when a and b or not a and c", inputs="abc")
    assert ways(vehicle, "q") == ["a_on and b_on", "not a_on and c_on", "b_on and c_on"]


def test_what_cannot_happen_is_told_apart() -> None:
    """The fewest facts that exclude each other, also where that hangs on what is given."""
    vehicle = boxed("output q when a and b and c or c", "output p when a and b or c", inputs="abc")
    assert ways(vehicle, "q") == ["c_on"]
    held = boxed("output p when a and b or c", inputs="abc", more="given\n    never a and b\n")
    assert ways(held, "p") == ["c_on", "never: a_on and b_on"]


def test_a_fact_that_the_others_bring_with_them_is_left_out() -> None:
    """`b` is never without `a`, so a way needs only `b`; and a way that holds another one is none of its own."""
    vehicle = boxed("output q when a and b or b and c", inputs="abc", more="given\n    never b and not a\n")
    assert ways(vehicle, "q") == ["b_on"]
    assert found(vehicle, "q").merged == 1


def test_what_remembers_inside_a_rule() -> None:
    """It is a fact of its own, wherever it stands; an edge is never so once all has settled."""
    vehicle = boxed("output q when (on_delay(a, 3 s) or rises(b)) and not one_shot(b, 2 s)", inputs="ab")
    all_of_them = found(vehicle, "q")
    assert ways(vehicle, "q") == ["q and not q, number 3", "never: q, number 2"]
    assert all_of_them.ways[0].story.moments == 2


def test_what_remembers_inside_a_coil() -> None:
    """It has no name outside: it is shown by a story in which nothing else closes the relay, or not decided."""
    text = (
        'vehicle "T"\nworld\n    a contact\n    b contact\nharness\n    source plus\n    wire aw from plus when a\n'
        "    relay k coil b or off_delay(aw, 3 s)\n    relay m coil b and (b or off_delay(aw, 3 s) or not a)\n"
    )
    vehicle = program(text)
    assert ways(vehicle, "k") == ["b", "k"]
    assert [dict(way.story.steps[-1].world)["b"] for way in found(vehicle, "k").ways] == [1, 0]
    assert ways(vehicle, "m") == ["b"]
    both = program(text.replace("b or off_delay(aw, 3 s)\n", "on_delay(aw, 2 s) and off_delay(aw, 3 s)\n", 1))
    assert [said(both, found(both, "k"), way.term) for way in found(both, "k").ways] == ["k and k, number 2"]


def test_a_relay_that_holds_itself() -> None:
    """That it was closed is a fact; the way is left as it is written, for what is so beside it is what lets it go."""
    vehicle = program(
        'vehicle "T"\nworld\n    go contact\n    halt contact\nharness\n    source plus\n'
        "    relay k coil (go or k) and not halt supply plus\n"
    )
    all_of_them = found(vehicle, "k")
    assert ways(vehicle, "k") == ["go and not halt", "k and not halt"]
    assert [way.holds_itself for way in all_of_them.ways] == [False, True]
    assert dict(all_of_them.ways[1].story.steps[-1].world)["go"] == 0


def test_copper() -> None:
    """A wire by all ways that lead to it: contacts, diodes, relay contacts and outputs; never round in a circle."""
    vehicle = program(
        'vehicle "T"\nworld\n    a contact\n    b contact\n    sel off | one | two\nharness\n    source plus when a\n'
        "    wire x from plus when sel is one\n    wire y\n    wire z from plus when b\n    join x with y\n"
        "    join y with x when b\n    diode z -> y\n    diode y -> z\n    relay k coil y\n    wire w from plus when k\n"
    )
    assert ways(vehicle, "y") == ["a and sel is one", "a and b"]
    assert ways(vehicle, "k") == ["a and sel is one", "a and b"]
    assert ways(vehicle, "w") == ["k"]


def test_always_and_never() -> None:
    """The way of what is always on takes no fact; what nothing makes on has none."""
    vehicle = boxed("output q when a or not a", "output p when a and not a", "output r when a and b", inputs="ab")
    assert ways(vehicle, "q") == [""]
    assert ways(vehicle, "p") == []
    assert found(vehicle, "p").terms == 0
    held = boxed("output r when a and b", inputs="ab", more="given\n    never a\n")
    assert ways(held, "r") == ["never: a_on"]


def test_a_wire_that_nothing_grounds_is_live() -> None:
    """One that nothing makes live is grounded; and one that can be both is asked whether it is either."""
    vehicle = program(
        'vehicle "T"\nworld\n    a contact\nharness\n    source plus\n    wire x from plus when a\n'
        "    wire y from plus when a, to ground when not a\n    wire z to ground when a\n"
    )
    assert narrowed(vehicle, signals(vehicle)["x"]).yes == "live"
    assert narrowed(vehicle, signals(vehicle)["z"]).yes == "grounded"
    assert ways(vehicle, "z") == ["a"]
    assert narrowed(vehicle, signals(vehicle)["y"]) == signals(vehicle)["y"]


def test_a_wire_in_a_thicket_of_wires_is_narrowed() -> None:
    """Whether anything can reach it is asked of the copper, however many ways there are."""
    wires = "".join(f"    wire w{n}\n" for n in range(1, 8))
    joins = "".join(f"    join w{m} with w{n} when a\n" for n in range(8) for m in range(n))
    world = 'vehicle "T"\nworld\n    a contact\nharness\n    source plus\n    wire w0 from plus\n'
    vehicle = program(f"{world}{wires}{joins}")
    assert narrowed(vehicle, signals(vehicle)["w3"]).yes == "live"


def test_time_that_is_not_enough() -> None:
    """Nothing is claimed then."""
    vehicle = boxed("output q when a or b", inputs="ab")
    result = found(vehicle, "q", seconds=0.0)
    assert not result.ways
    assert [why for _, why in result.undecided] == [Open(Undecided.BUDGET)] * 2
    assert not result.complete


def test_an_interrupt_keeps_what_was_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The ways found so far stay; all others are open."""
    decide, calls = Decider.decide, list[int]()

    def sometimes(decider: Decider, number: int) -> object:
        calls.append(number)
        if len(calls) > 4:
            raise KeyboardInterrupt
        return decide(decider, number)

    monkeypatch.setattr(Decider, "decide", sometimes)
    vehicle = boxed("output q when a or b or c", inputs="abc")
    result = found(vehicle, "q")
    assert result.interrupted
    assert 0 < len(result.ways) < 3
    assert len(result.ways) + len(result.undecided) == 3
    assert {why for _, why in result.undecided} == {Open(Undecided.INTERRUPTED)}


def test_where_rules_chase_each_other() -> None:
    """Ways that happen are shown; that one cannot happen is not claimed, nor is anything left out of a way."""
    vehicle = boxed(
        "rule flip = c and not previous(flip)", "output q when a or b and not a and d and not d", inputs="abcd"
    )
    result = found(vehicle, "q")
    assert [(said(vehicle, result, way.term), way.short) for way in result.ways] == [("powered and a_on", False)]
    held = boxed(
        "rule flip = c and not previous(flip)", "output q when a and b", inputs="abc", more="given\n    never a and b\n"
    )
    result = found(held, "q")
    assert [why for _, why in result.undecided] == [Blocked(Obstacle.UNSETTLED)]


def test_where_what_is_given_stops_time() -> None:
    """Nothing is claimed of what rests on it."""
    more = "given\n    a lasts at least 60 s\n    a lasts at most 30 s\n"
    result = found(boxed("output q when a or b", inputs="ab", more=more), "q")
    blocked = [why for _, why in result.undecided]
    assert Blocked(Obstacle.TIME_STOPS) in blocked
    assert not result.complete


def test_more_ways_than_anybody_reads() -> None:
    """It is said, and nothing is listed."""
    names = [f"i{number}" for number in range(24)]
    pairs = " and ".join(f"({names[n]} or {names[n + 1]})" for n in range(0, 24, 2))
    with pytest.raises(TooMany):
        found(boxed(f"output q when {pairs}", inputs=names), "q")
    net = "".join(f"    join w{a} with w{b}\n" for a in range(9) for b in range(a))
    wires = "".join(f"    wire w{number}\n" for number in range(9))
    text = f'vehicle "T"\nworld\n    a contact\nharness\n    source plus\n{wires}    wire x from plus when a\n    join x with w0\n{net}'
    with pytest.raises(TooLarge):
        found(program(text), "w8")


def test_what_feeds_and_supplies() -> None:
    """Without power the box concludes nothing; a relay needs its supply, an output the wire that feeds it; and current
    passes a diode in one direction."""
    vehicle = program(
        'vehicle "T"\nworld\n    a contact\n    b contact\n    key contact\nharness\n    source plus\n'
        "    wire aw from plus when a\n    wire bw from plus when b\n    wire kw from plus when key\n    wire end\n"
        "    diode aw -> end\n    diode end -> bw\n    relay k coil aw supply bw\n"
        'controller "Box" powered by kw\n    sense s from aw live\n    rule r = not s\n    output q when s fed by bw\n'
    )
    assert ways(vehicle, "r") == ["powered and not s"]
    assert ways(vehicle, "q") == ["s"]  # the wire that feeds it lives on the same contact, through both diodes
    assert ways(vehicle, "k") == ["a"]
    assert ways(vehicle, "end") == ["a"]
    assert ways(vehicle, "bw") == ["b", "a"]
    apart = program(
        'vehicle "T"\nworld\n    a contact\n    b contact\n    key contact\nharness\n    source plus\n'
        "    wire aw from plus when a\n    wire bw from plus when b\n    wire kw from plus when key\n"
        "    relay k coil aw supply bw\n"
        'controller "Box" powered by kw\n    sense s from aw live\n    output q when s fed by bw\n'
    )
    assert ways(apart, "q") == ["s and bw is live"]
    assert ways(apart, "k") == ["b and a"]
