"""What counts as drawing, from where, and through what: worked out by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.base.budget import Budget, memory_bound
from logiccheck.copper.draws import moment, worst
from logiccheck.copper.draws.draws import Draw, differing, draws, silent
from logiccheck.copper.draws.fitting import Between, fitted, unknown
from logiccheck.copper.draws.moment import OneMoment
from logiccheck.copper.draws.together import Together
from logiccheck.copper.draws.worst import Search
from logiccheck.copper.sizing.sized import Kind, Lack
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.asking import Asking, Open
from logiccheck.lang.program import Program, Signal, SignalKind
from logiccheck.study.currents import Currents, Given, currents
from tests.oracle.loading import loaded

VAN = """vehicle "Small van"
world
    key off | run | start
    brake contact
    hatch contact
    at first key is off, not brake, not hatch
harness
    source plus
    source leisure
    wire main from plus, fuse 40 A, wire 6 mm2 over 1 m
    wire key_wire from main when key in {run, start}
    wire stop_wire from main when brake
    wire start_wire
    wire hatch_wire from leisure when hatch
    wire box_supply from main
    relay link "Link relay" coil key is run supply plus, draws 0.15 A
    join plus with hatch_wire when link
    load stop_lamps on stop_wire 3.5 A
    load solenoid on start_wire 12 A
    load hatch_lamp on hatch_wire 2 A
    load clock on stop_wire
controller "Box" powered by box_supply
    draws 120 mA awake, 1.5 mA asleep
    sense key_on from key_wire live
    output starter when key_on feeds start_wire load 11 A, fuse 15 A, wire 1 mm2 over 2 m
    output fan when not key_on load 9 A
    output radio when key_on load 3 A
    output lamp when key_on
"""


def found(text: str = VAN) -> Currents:
    return currents(loaded(text), Budget(60.0), lambda _: None)


def by_name(text: str = VAN) -> dict[str, Given]:
    return {given.supply.feed.name: given for given in found(text).given}


def of(program: Program, name: str) -> Draw:
    return next(draw for draw in draws(program) if draw.name == name)


def test_what_draws() -> None:
    """The load on a wire that an output feeds counts, and the output does not; what says nothing does not."""
    program = loaded(VAN)
    assert [(draw.what.value, draw.name, draw.at) for draw in draws(program)] == [
        ("load", "stop_lamps", "stop_wire"),
        ("load", "solenoid", "start_wire"),
        ("load", "hatch_lamp", "hatch_wire"),
        ("coil", "link", "plus"),
        ("box awake", "box", "the box"),
        ("box asleep", "box", "the box"),
        ("output", "fan", "the box"),
        ("output", "radio", "the box"),
    ]
    assert [(each.output.name, each.wire) for each in differing(program)] == [("starter", "start_wire")]
    assert silent(program) == {"clock": "stop_wire", "lamp": "the box"}
    assert of(program, "stop_lamps").amperes == Fraction("3.5")


def test_the_most_of_each_feed() -> None:
    """The fan never runs together with what the key switches on; the box is never asleep; the link feeds the lamp."""
    given = by_name()
    assert [*given] == ["plus", "leisure", "main", "the box", "starter"]
    most = {name: (each.worst.least, each.worst.most, each.supply.together) for name, each in given.items()}
    assert most == {
        "plus": tuple(map(Fraction, ("20.77", "20.77", "29.77"))),
        "leisure": (2, 2, 2),
        "main": tuple(map(Fraction, ("18.62", "18.62", "27.62"))),
        "the box": tuple(map(Fraction, ("15.12", "15.12", "24.12"))),
        "starter": (12, 12, 12),
    }
    names = {draw.name for draw in given["plus"].on}
    assert names == {"stop_lamps", "solenoid", "hatch_lamp", "link", "box", "radio"}


def test_the_hatch_lamp_has_two_ways() -> None:
    given = by_name()
    for name in ("plus", "leisure"):
        shared = [fed.passing.draw.name for fed in given[name].supply.fed if fed.passing.shared]
        assert shared == ["hatch_lamp"]


def test_a_load_counts_for_a_feed_only_while_that_feeds_it() -> None:
    """With a link that is never closed the hatch lamp counts for the leisure battery alone."""
    given = by_name(VAN.replace("coil key is run supply", "coil key is run and key is off supply"))
    assert given["plus"].worst.most == Fraction("20.77") - 2 - Fraction("0.15")
    assert given["leisure"].worst.most == 2


def test_nothing_flows_through_a_fuse_backward() -> None:
    """What feeds a wire from behind its own fuse takes nothing through it."""
    text = """vehicle "x"
world
    k contact
    j contact
    at first not k, not j
harness
    source plus
    wire main from plus when k, fuse 10 A
    wire bus from main
    join plus with bus when j
    load lamp on bus 2 A
given
    never k and j
"""
    given = by_name(text)
    assert given["main"].worst.most == 2
    assert given["plus"].worst.most == 2
    never = by_name(text.replace("from plus when k,", "from plus when k and not k,"))
    assert never["main"].worst.most == 0


def test_an_output_that_feeds_the_box_itself_takes_nothing_from_nowhere() -> None:
    """A box that keeps itself alive after the battery is gone draws from no source."""
    text = """vehicle "x"
world
    battery contact
    at first battery
harness
    source plus when battery
    wire feed
    wire kept
    diode plus -> feed
    diode kept -> feed
    wire w from feed, fuse 5 A
    load lamp on w 2 A
controller "Box" powered by feed
    draws 1 A awake
    output keep when true feeds kept
"""
    given = by_name(text)
    assert given["plus"].worst.most == 3
    plus = given["plus"]
    story = plus.worst.story
    assert story is not None
    assert dict(story.steps[-1].world)["battery"] == 1


def checks(text: str) -> dict[str, list[tuple[str, str]]]:
    return {each.item.name: [(c.kind.value, c.fit.value) for c in each.checks] for each in found(text).fitted}


FUSED = """vehicle "Fused"
world
    k contact
    at first not k
harness
    source plus
    wire a from plus, fuse 10 A, wire 2.5 mm2 over 2 m
    wire b from a when k
    wire c from plus
    wire sensed from plus when k, fuse 5 A, wire 1 mm2 over 1 m
    load lamp on a {lamp} A, fuse 5 A
    load pump on b 5 A
    load dark on c fuse 3 A
electrics
    nominal 12 V
"""


def test_what_is_held_against_tables() -> None:
    """A wire with the most that it ever carries; a wire that carries nothing known only with its own fuse."""
    said = checks(FUSED.format(lamp=3))
    continuous, protects, drop = "continuous current against fuse", "fuse against wire", "voltage lost on the wire"
    assert said == {
        "a": [(continuous, "fits"), (protects, "fits"), (drop, "fits")],
        "sensed": [(protects, "fits")],
        "lamp": [(continuous, "fits")],
        "dark": [],
    }
    assert checks(FUSED.format(lamp=4))["a"][0] == (continuous, "does not fit")


THIN = """vehicle "x"
world
    s contact
harness
    source plus
    wire main from plus, fuse {fuse} A, wire 16 mm2 over 1 m
    wire thin from main when s{more}, wire 0.75 mm2 over 0.5 m
    load heater on thin {heater} A, wire 0.75 mm2 over 1 m
"""


def held(text: str, name: str) -> list[tuple[str, str]]:
    """What is not about the voltage that is lost."""
    return [check for check in checks(text)[name] if "voltage" not in check[0]]


def test_a_wire_without_a_fuse_is_held_against_what_flows_and_the_fuse_before_it() -> None:
    """0.75 mm2 carries 16 A alone in air of 30 degC, so neither 17 A nor a fuse of 60 A; a load has a wire as well."""
    flows, fuse = "continuous current against wire", "fuse against wire"
    for rated, heater, first, second in (
        (15, 12, "fits", "fits"),
        (60, 12, "fits", "does not fit"),
        (60, 17, "does not fit", "does not fit"),
    ):
        text = THIN.format(fuse=rated, heater=heater, more="")
        assert held(text, "thin") == held(text, "heater") == [(flows, first), (fuse, second)]


def test_a_wire_that_no_fuse_protects_is_not_decided() -> None:
    """There is another way to it than through the fuse: what the fuse carries says nothing."""
    two = fitted(loaded(THIN.format(fuse=15, heater=12, more=", from plus when not s")), {})
    (check,) = (each for one in two if one.item.name == "thin" for each in one.checks if each.kind is Kind.PROTECTS)
    assert check.lacks == (Lack.PROTECTOR,)
    assert unknown(check)
    (load,) = (each for one in two if one.item.name == "heater" for each in one.checks if each.kind is Kind.PROTECTS)
    assert load.lacks == (Lack.FUSE,)
    assert not unknown(load)


def test_the_smallest_fuse_in_the_way_counts() -> None:
    text = THIN.format(fuse=60, heater=12, more="").replace("thin from main", "thin from between")
    text = text.replace("    wire thin", "    wire between from main, fuse 15 A\n    wire thin")
    assert held(text, "thin") == [("continuous current against wire", "fits"), ("fuse against wire", "fits")]


def test_what_says_nothing_may_be_too_much() -> None:
    """Where something draws that does not say how much, a fuse may be too small, but is not known to be enough."""
    dark, known = FUSED.replace("dark on c", "dark on b"), "fuse against wire"
    continuous, drop = "continuous current against fuse", "voltage lost on the wire"
    said = checks(dark.format(lamp=3))
    assert said["a"] == [(continuous, "not decided"), (known, "fits"), (drop, "not decided")]
    assert said["lamp"] == [(continuous, "fits")]
    assert checks(dark.format(lamp=4))["a"][0] == (continuous, "does not fit")


def test_an_output_carries_all_that_it_feeds() -> None:
    """Also what hangs behind a diode on another wire; its own line says less, or more, or nothing."""
    text = """vehicle "x"
world
    k contact
harness
    source plus
    wire key_wire from plus when k
    wire feed from plus
    wire a
    wire b
    diode a -> b
    load lamp on b 10 A
controller "Box" powered by feed
    sense s from key_wire live
    output pump when s feeds a load {load}fuse 15 A
"""
    for load, fit in (("", "fits"), ("2 A, ", "fits"), ("3 A, ", "does not fit")):
        assert checks(text.format(load=load))["pump"] == [("continuous current against fuse", fit)]
    never = text.replace("when s feeds", "when s and not s feeds").format(load="13 A, ")
    assert checks(never)["pump"] == [("continuous current against fuse", "does not fit")]


def test_inrush_is_held_against_the_fuses_before_it() -> None:
    """A fuse of 10 A opens at 350 % within 0.5 s: 80 A for 500 ms are too much, 12 A are not."""
    text = """vehicle "x"
world
    s contact
harness
    source plus
    wire main from plus, fuse 10 A
    wire thin from main when s
    load pump on thin 2 A, inrush {inrush} A for 500 ms
    load lamp on thin 1 A, inrush 3 A for 20 ms
"""
    for amperes, fit in ((80, "does not fit"), (11, "fits")):
        assert checks(text.format(inrush=amperes))["main"][1:] == [("inrush against fuse", fit)]
    assert checks(text.format(inrush=10))["main"][1:] == []  # not above the rating


def test_what_is_always_joined_is_one_wire() -> None:
    """Its own load counts not beside what hangs there; beside what hangs behind a contact it does."""
    text = """vehicle "x"
world
    b contact
    k contact
harness
    source plus
    wire key_wire from plus when k
    wire feed from plus
    wire a
    wire c from a{when}
    load winch on c 20 A
controller "Box" powered by feed
    sense s from key_wire live
    output pump when s feeds a load 1 A, fuse 5 A
"""
    for when, most in (("", 20), (" when b", 21)):
        given = by_name(text.format(when=when))
        assert (given["pump"].worst.most, given["plus"].worst.most) == (most, most)
        assert checks(text.format(when=when))["pump"] == [("continuous current against fuse", "does not fit")]


def test_bounds_decide_where_both_ends_agree() -> None:
    """Between 3 A and 8 A a fuse of 10 A fits, for it carries 8 A; with 9 A at the upper end that is not known."""
    program = loaded(FUSED.format(lamp=3))
    for least, most, fit in ((3, 8, "fits"), (3, 9, "not decided"), (9, 12, "does not fit")):
        (wire, *_) = fitted(program, {"a": Between(Fraction(least), Fraction(most))})
        assert wire.checks[0].fit.value == fit
        assert unknown(wire.checks[0]) == (fit == "not decided")


def test_a_wire_that_is_fed_from_behind_feeds_nothing_through_its_fuse() -> None:
    """`main` is live only through `sub` and its fuse, backward: nothing comes from it."""
    text = """vehicle "x"
world
    j contact
    at first not j
harness
    source plus
    wire main from plus when j and not j
    wire sub from main, fuse 10 A
    join plus with sub when j
    load lamp on sub 2 A
    load pump on main 3 A
"""
    given = by_name(text)
    assert given["sub"].worst.most == 0
    assert given["plus"].worst.most == 5


def test_no_memory_is_no_answer() -> None:
    """All at once is still an upper bound."""
    with memory_bound(lambda: True):
        answer = found()
    assert Open(Undecided.MEMORY) in answer.left
    plus = next(given for given in answer.given if given.supply.feed.name == "plus")
    assert (plus.worst.least, plus.worst.most) == (0, plus.supply.together)


def test_what_is_not_known_lowers_no_bound() -> None:
    """Two conditions of which nobody knows whether they can be so together count as if they could; proved apart, they
    do not."""
    live = tuple(Signal(SignalKind.LIVE, name) for name in ("a", "b"))
    asking = Asking(loaded(FUSED.format(lamp=3)), live, Budget(60.0))
    together, both = Together(asking, live), frozenset({0, 1})
    weights = {0: Fraction(2), 1: Fraction(3)}
    together.left[both] = Open(Undecided.BUDGET)
    assert Search(together, OneMoment(asking), weights, Budget(0.0)).found().most == 5
    together.never.append(both)
    assert Search(together, OneMoment(asking), weights, Budget(0.0)).found().most == 3


def test_what_there_is_no_time_to_work_out_lowers_no_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where it cannot be said at the end how much is left of all together, all together is said."""
    live = tuple(Signal(SignalKind.LIVE, name) for name in ("a", "b"))
    asking = Asking(loaded(FUSED.format(lamp=3)), live, Budget(60.0))
    together = Together(asking, live)
    together.never.append(frozenset({0, 1}))
    monkeypatch.setattr(worst, "BOUND_SECONDS", 0.0)
    search = Search(together, OneMoment(asking), {0: Fraction(2), 1: Fraction(3)}, Budget(0.0))
    search.run()
    assert (search.found().least, search.found().most) == (0, 5)


STAGED = """vehicle "Staged"
world
    key off | run
    full contact
    at first key is off, not full
harness
    source plus
    wire key_wire from plus when key is run
    wire full_wire from plus when full
controller "Box" powered by plus
    sense key_on from key_wire live
    sense is_full from full_wire live
    rule early = one_shot(key_on, 2 s)
    rule late = on_delay(key_on, 3 s)
    output a when early load 5 A
    output b when late load 4 A
    output c when is_full load 1 A
    output d when key_on load 2 A
given
    key is off after full has lasted 1 s
"""


def test_what_time_keeps_apart_is_found_among_much_else() -> None:
    """One moment allows all; the first two are never on together, which is proved of these two alone."""
    (given,) = (each for each in found(STAGED).given if each.supply.feed.name == "plus")
    assert (given.worst.least, given.worst.most) == (8, 8)
    assert given.supply.together == 12
    names = {draw.name for draw in given.on}
    assert names == {"a", "c", "d"}


def test_an_interrupt_in_the_optimiser_leaves_what_was_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first feed was done; of the next the bound is still what all together would be, and no more is said."""
    calls = []

    def interrupted(*_: object) -> frozenset[int]:
        raise KeyboardInterrupt

    def progress(what: str) -> None:
        calls.append(what)
        if what == "currents of leisure":
            monkeypatch.setattr(moment, "heaviest", interrupted)

    answer = currents(loaded(VAN), Budget(60.0), progress)
    given = {each.supply.feed.name: each.worst for each in answer.given}
    assert answer.interrupted
    assert "currents of main" not in calls
    assert given["plus"].least == given["plus"].most == Fraction("20.77")
    assert (given["main"].least, given["main"].most) == (0, Fraction("27.62"))
