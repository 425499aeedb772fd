"""Small programs with the answer worked out by hand: the meaning of the language, pinned down case by case.

A truth that has a given course over time is made of timers of a box that is always powered: `wave` writes it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

Expected: TypeAlias = tuple[str, int | None]

PROVED: Expected = ("proved", None)
NO_CASE: Expected = ("no case", None)
BLOCKED: Expected = ("blocked", None)
NEVER_POSSIBLE: Expected = ("fails", None)


def fails(moments: int) -> Expected:
    """It fails, and the shortest story has so many moments."""
    return ("fails", moments)


def witness(moments: int) -> Expected:
    """It is possible, and the shortest witness has so many moments."""
    return ("proved", moments)


@dataclass(frozen=True)
class Case:
    """A program and what is so of its requirements, in their order."""

    name: str
    text: str
    expected: tuple[Expected, ...]


def wave(name: str, *stretches: tuple[float, float | None]) -> str:
    """A rule that is true from, up to and not including, each stretch (seconds; None: for ever)."""
    parts = []
    for begin, end in stretches:
        start = f"on_delay(true, {begin:g} s)" if begin else ""
        stop = f"not on_delay(true, {end:g} s)" if end else ""
        parts.append("(" + (" and ".join(x for x in (start, stop) if x) or "true") + ")")
    return f"rule {name} = {' or '.join(parts) or 'false'}"


def program(
    *requirements: str,
    world: tuple[str, ...] = (),
    harness: tuple[str, ...] = (),
    box: tuple[str, ...] = (),
    feed: str = "always_on",
    given: tuple[str, ...] = (),
) -> str:
    """A whole program; without `feed` the box is powered by a wire that is always live."""
    copper = (*(("source plus",) if box or harness else ()), *harness)
    if box and feed == "always_on":
        copper = (*copper, "wire always_on from plus")
    asked = tuple(f"danger q{index} {text}" for index, text in enumerate(requirements))
    blocks = {
        "world": world,
        "harness": copper,
        f"controller powered by {feed}": box,
        "given": given,
        "requirements": asked,
    }
    parts = ['vehicle "case"']
    parts += ["\n".join([head, *("    " + line for line in lines)]) for head, lines in blocks.items() if lines]
    return "\n\n".join(parts) + "\n"


def waves(requirement: str, **stretches: tuple[tuple[float, float | None], ...]) -> str:
    """A program with these courses over time, and one requirement."""
    return program(requirement, box=tuple(wave(name, *each) for name, each in stretches.items()))


FREE_X = {
    "world": ("x contact",),
    "harness": ("wire x_wire from plus when x",),
    "box": ("sense s from x_wire live",),
}


def over_x(*requirements: str, rule: str, first: str = "", given: tuple[str, ...] = ()) -> str:
    """A program with one free contact x, sensed as s, and a rule over it."""
    world = (*FREE_X["world"], *((f"at first {first}",) if first else ()))
    return program(*requirements, world=world, harness=FREE_X["harness"], box=(*FREE_X["box"], rule), given=given)


FORMS = (
    Case("F1 holds", waves("never p for longer than 3 s", p=((0, 3),)), (PROVED,)),
    Case("F1 fails", waves("never p for longer than 3 s", p=((0, 3.1),)), (fails(2),)),
    Case("F2", over_x("never p for longer than 3 s", rule="rule p = one_shot(s, 3 s)"), (PROVED,)),
    Case(
        "F3",
        over_x(
            "never p while not x for longer than 2 s",
            "never p while not x for longer than 1.9 s",
            rule="rule p = off_delay(s, 2 s)",
        ),
        (PROVED, fails(3)),
    ),
    Case(
        "H3",
        over_x("never p while not x for longer than 1.5 s", rule="rule p = off_delay(s, 2 s)", first="x is off"),
        (fails(4),),
    ),
    Case("F4", waves("p calls for q no later than 2 s", p=((0, 10),), q=((0, 1),)), (fails(3),)),
    Case("F5", waves("p calls for q no later than 2 s", p=((0, 1),), q=((2, 3),)), (PROVED,)),
    Case("F6", waves("p calls for q no later than 2 s", p=((0, 1),), q=((2.5, 3),)), (fails(3),)),
    Case("F7", waves("p calls for q no later than 2 s, excused by r", p=((0, 1),), q=(), r=((1.5, 1.6),)), (PROVED,)),
    Case("F8 holds", waves("p calls for q lasting 3 s", p=((0, 0.1),), q=((0, 3.1),)), (PROVED,)),
    Case("F8 fails", waves("p calls for q lasting 3 s", p=((0, 0.1),), q=((0, 3),)), (fails(3),)),
    Case("F9", waves("q only after p", p=((1, 2),), q=((3, 4), (5, 6))), (fails(6),)),
    Case("F10 holds", waves("q only after p has lasted 240 s", p=((0, 300),), q=((240, 241),)), (PROVED,)),
    Case("F10 fails", waves("q only after p has lasted 240 s", p=((0, 300),), q=((239, 240),)), (fails(2),)),
    Case("F11 fails", waves("q waits for r after p", p=((1, 2),), q=((1, 3),), r=((2, None),)), (fails(2),)),
    Case("F11 holds", waves("q waits for r after p", p=((1, 2),), q=((1, 3),), r=((1, None),)), (PROVED,)),
    Case(
        "F12",
        program("possible q", box=("rule a = on_delay(true, 1 s)", "rule b = not a", "rule q = a and b")),
        (NEVER_POSSIBLE,),
    ),
    Case("F13", over_x("never x while r", rule="rule r = s and not s"), (NO_CASE,)),
    Case(
        "F14",
        over_x("never p", "never p and not o", rule="rule p = s and not s", first="x is off").replace(
            "rule p", "output o when s\n    rule p"
        ),
        (PROVED, PROVED),
    ),
    Case(
        "F14 output never on", program("never o and x", world=("x contact",), box=("output o when false",)), (NO_CASE,)
    ),
    Case(
        "F15",
        program(
            "never on_delay(x_wire, 5 s) while y",
            world=("x contact", "y contact", "at first x is off, y is off"),
            harness=("wire x_wire from plus when x",),
        ),
        (fails(3),),
    ),
    Case("F16", waves("q only after p", p=(), q=((0, None),)), (fails(1),)),
)

GIVEN = (
    Case(
        "G1",
        program(
            "possible engine above 0 rpm and not ignition",
            "never engine above 0 rpm and not ignition for longer than 3 s",
            "never engine above 0 rpm and not ignition for longer than 2.9 s",
            world=("key off | run", "engine 0 .. 7000 rpm"),
            harness=("wire key_wire from plus when key is run",),
            box=("sense key_on from key_wire live", "output ignition when key_on"),
            given=("engine is 0 rpm after not ignition has lasted 3 s",),
        ),
        (witness(1), PROVED, fails(2)),
    ),
    Case(
        "G2",
        program(
            "never door is open for longer than 60 s",
            world=("door closed | open", "at first door is closed"),
            given=("door is open lasts at least 60 s", "door is open lasts at most 30 s"),
        ),
        (BLOCKED,),
    ),
    Case(
        "G2 at 60 s each",
        program(
            "never door is open for longer than 60 s",
            "never door is open for longer than 59 s",
            "door becomes open calls for door is open lasting 60 s",
            world=("door closed | open", "at first door is closed"),
            given=("door is open lasts at least 60 s", "door is open lasts at most 60 s"),
        ),
        (PROVED, fails(3), PROVED),
    ),
    Case(
        "G3",
        program("possible key is start", world=("key off | accessory | run | start one by one", "at first key is off")),
        (witness(4),),
    ),
    Case(
        "G4",
        program(
            "step is out only after step_out or step_in",
            world=("step in | out", "step_out contact", "step_in contact", "at first step is in"),
            given=("step changes only while step_out or step_in",),
        ),
        (PROVED,),
    ),
    Case(
        "G4 free",
        program(
            "step is out only after step_out or step_in",
            world=(
                "step in | out",
                "step_out contact",
                "step_in contact",
                "at first step is in, step_out is off, step_in is off",
            ),
        ),
        (fails(2),),
    ),
    Case(
        "G5",
        program("never a", world=("a contact", "b contact", "at first a is on, b is on"), given=("never a and b",)),
        (BLOCKED,),
    ),
    Case(
        "G7",
        program(
            "never rises(door is closed) and not on_delay(door is open, 60 s)",
            world=("door closed | open", "at first door is open"),
            given=("door is open lasts at least 60 s",),
        ),
        (fails(2),),
    ),
    Case(
        "G7 opened",
        program(
            "door becomes open calls for door is open lasting 60 s",
            "door becomes open calls for door is open lasting 61 s",
            world=("door closed | open", "at first door is closed"),
            given=("door is open lasts at least 60 s",),
        ),
        (PROVED, fails(3)),
    ),
    Case(
        "G8",
        program(
            "possible engine above 400 rpm and not engine is 300 rpm",
            "possible engine above 400 rpm",
            world=("engine 0 .. 7000 rpm", "at first engine below 300 rpm"),
            given=("engine without jumps",),
        ),
        (witness(5), witness(5)),
    ),
)

POWER = (
    Case(
        "C1 C5",
        program(
            "never q while not key",
            "never r while not key",
            "possible q",
            world=("x contact", "key contact"),
            harness=("wire x_wire from plus when x", "wire key_wire from plus when key"),
            box=("sense s from x_wire live", "output q when s", "rule r = not s"),
            feed="key_wire",
        ),
        (PROVED, PROVED, witness(1)),
    ),
    Case(
        "C2",
        program(
            "q only after a since not powered",
            "p only after a since not powered",
            world=("a contact", "b contact", "key contact"),
            harness=(
                "wire a_wire from plus when a",
                "wire b_wire from plus when b",
                "wire key_wire from plus when key",
            ),
            box=(
                "sense sa from a_wire live",
                "sense sb from b_wire live",
                "rule q = bistable(set sa, reset sb)",
                "rule p = bistable(set sa, reset sb, retained)",
            ),
            feed="key_wire",
        ),
        (PROVED, fails(3)),
    ),
    Case(
        "C6 C8",
        program(
            "never feed while not door for longer than 240 s",
            "never feed while not door for longer than 239 s",
            "door calls for feed lasting 240 s",
            "door calls for feed lasting 241 s",
            world=("door contact",),
            harness=(
                "wire wake from plus when door",
                "relay hold coil off_delay(wake, 240 s)",
                "wire feed from plus when hold",
            ),
        ),
        (PROVED, fails(3), PROVED, fails(3)),
    ),
    Case(
        "C7",
        program(
            "never prime becomes on and not feed becomes live",
            "always feed while on_delay(door, 1 ms)",
            world=("door contact",),
            harness=(
                "wire wake from plus when door",
                "relay hold coil off_delay(wake, 240 s)",
                "wire feed from plus when hold",
            ),
            box=("rule prime = one_shot(true, 3 s)",),
            feed="feed",
        ),
        (PROVED, PROVED),
    ),
    Case(
        "C9",
        program(
            "feed only after door since not plus",
            "other_feed only after door since not plus",
            world=("door contact", "battery contact"),
            harness=(
                "wire wake from plus when door",
                "source always_plus",
                "wire hand from always_plus when door",
                "relay hold coil off_delay(hand, 240 s) supply plus",
                "relay other coil off_delay(hand, 240 s)",
                "wire feed from plus when hold",
                "wire other_feed from plus when other",
            ),
        ).replace("source plus\n", "source plus when battery\n"),
        (PROVED, fails(2)),
    ),
    Case(
        "C10",
        program(
            "never not r for longer than 1 s",
            world=("key contact",),
            harness=("wire key_wire from plus when key",),
            box=("rule r = true",),
            feed="key_wire",
        ),
        (fails(2),),
    ),
    Case(
        "C11",
        program(
            "always powered",
            "always powered even for an instant",
            "never falls(seen)",
            "never prime while on_delay(powered, 3 s)",
            world=("sw contact", "x contact", "at first sw is off"),
            harness=(
                "wire near_side from plus when not sw",
                "wire far_side from plus when sw",
                "relay k coil sw",
                "wire feed from far_side when k, otherwise from near_side",
                "wire x_wire from plus when x",
            ),
            box=("sense s from x_wire live", "rule seen = bistable(set s)", "rule prime = one_shot(true, 3 s)"),
            feed="feed",
        ),
        (PROVED, fails(2), fails(2), fails(2)),
    ),
    Case(
        "C12",
        program(
            "powered only after plus has lasted 0.3 s",
            "powered only after plus has lasted 0.4 s",
            "plus calls for powered no later than 0.3 s",
            box=("rule r = true",),
            feed="always_on after 0.3 s",
            harness=("wire always_on from plus",),
        ),
        (PROVED, fails(2), PROVED),
    ),
    Case(
        "C13",
        program(
            "s only after x has lasted 0.1 s",
            "s only after x has lasted 0.11 s",
            "never x while not s for longer than 0.1 s",
            world=("x contact", "at first x is off"),
            harness=("wire x_wire from plus when x",),
            box=("sense s from x_wire live filter 100 ms",),
        ),
        (PROVED, fails(3), PROVED),
    ),
)

WAKES = ("wire key_wire from plus when key", "wire door_wire from plus when door", "wire wake")
HELD = ("wire key_wire from plus when key", "wire keep", "wire feed", "diode key_wire -> feed", "diode keep -> feed")
HOLDER = ("sense key_on from key_wire live", "output keeper when key_on or off_delay(key_on, 120 s) feeds keep")

HARNESS = (
    Case(
        "D1",
        program(
            "never key_wire while not key",
            "door calls for wake no later than 1 ms",
            world=("key contact", "door contact"),
            harness=(*WAKES, "diode key_wire -> wake", "diode door_wire -> wake"),
        ),
        (PROVED, PROVED),
    ),
    Case(
        "D2",
        program(
            "never key_wire while not key",
            world=("key contact", "door contact"),
            harness=(*WAKES, "join key_wire with wake", "diode door_wire -> wake"),
        ),
        (fails(1),),
    ),
    Case(
        "D3",
        program(
            "never powered while not key for longer than 120 s",
            "never powered while not key for longer than 119 s",
            "key calls for powered lasting 120 s",
            world=("key contact",),
            harness=HELD,
            box=HOLDER,
            feed="feed",
        ),
        (PROVED, fails(3), PROVED),
    ),
    Case(
        "D4",
        program(
            "always powered",
            world=("key contact", "at first key is on"),
            harness=HELD,
            box=HOLDER,
            feed="feed",
            given=("not key lasts at most 120 s",),
        ),
        (PROVED,),
    ),
    Case(
        "D4 too late",
        program(
            "always powered",
            world=("key contact", "at first key is on"),
            harness=HELD,
            box=HOLDER,
            feed="feed",
            given=("not key lasts at most 121 s",),
        ),
        (fails(3),),
    ),
    Case(
        "D5",
        program(
            "never k1 and not sw for longer than 1 s",
            world=("sw contact",),
            harness=("relay k1 coil sw and not k2", "relay k2 coil sw and not k1"),
        ),
        (BLOCKED,),
    ),
    Case(
        "D6",
        program(
            "never lamp_wire while not sw",
            "never lamp_wire while not sw even for an instant",
            "never sw while not lamp_wire even for an instant",
            world=("sw contact", "at first sw is off"),
            harness=("relay k1 coil sw", "wire lamp_wire from plus when k1"),
        ),
        (PROVED, fails(3), fails(2)),
    ),
    Case(
        "D7",
        program(
            "never bus is live and bus is grounded",
            world=("a contact", "b contact"),
            harness=("wire bus from plus when a, to ground when b",),
        ),
        (fails(1),),
    ),
    Case(
        "D7 excluded",
        program(
            "never bus is live and bus is grounded",
            world=("a contact", "b contact"),
            harness=("wire bus from plus when a, to ground when b",),
            given=("never a and b",),
        ),
        (PROVED,),
    ),
    Case(
        "D8",
        program(
            "always a and b and c while x or y",
            world=("x contact", "y contact"),
            harness=(
                "wire a from plus when x",
                "wire b",
                "wire c from plus when y",
                "diode a -> b",
                "diode b -> c",
                "diode c -> a",
            ),
        ),
        (PROVED,),
    ),
    Case(
        "D9",
        program(
            "never c while x and not y",
            "always b while x",
            world=("x contact", "y contact"),
            harness=("wire a from plus when x", "wire b", "wire c from plus when y", "diode a -> b", "diode c -> b"),
        ),
        (PROVED, PROVED),
    ),
    Case(
        "D10",
        program(
            "always a is grounded while x",
            "always b is grounded while y",
            "never b is live and b is grounded",
            world=("x contact", "y contact"),
            harness=("wire a to ground when y", "wire b to ground when x", "diode a -> b"),
        ),
        (PROVED, fails(1), PROVED),
    ),
    Case(
        "D11",
        program(
            "never house while not shore",
            world=("shore contact", "tie contact"),
            harness=(
                "source house when shore",
                "source starter",
                "wire bus from starter",
                "join bus with house when tie",
            ),
        ),
        (PROVED,),
    ),
)

SETTLING = (
    Case(
        "E3",
        program("always a", "always a even for an instant", box=("rule a = off_delay(not previous(a), 1 s)",)),
        (PROVED, fails(2)),
    ),
    Case(
        "E4",
        program("never x and not x", world=("x contact",), box=("rule flip = not previous(flip)",)),
        (BLOCKED,),
    ),
    Case(
        "E5",
        program(
            "never t2",
            "never t2 even for an instant",
            "never t1 for longer than 2 s",
            "never t1 for longer than 1.9 s",
            box=("rule t1 = on_delay(not previous(t2), 1 s)", "rule t2 = on_delay(t1, 2 s)"),
        ),
        (PROVED, fails(3), PROVED, fails(3)),
    ),
    Case(
        "B5",
        over_x("never p", "never p even for an instant", rule="rule p = s and not previous(s)", first="x is off"),
        (PROVED, fails(2)),
    ),
    Case(
        "A8",
        over_x(
            "p becomes on calls for p lasting 3 s",
            "p becomes on calls for p lasting 3.1 s",
            rule="rule p = one_shot(s, 3 s)",
            first="x is off",
        ),
        (PROVED, fails(3)),
    ),
    Case(
        "A11",
        over_x(
            "never p while not x for longer than 11 s",
            "never p while not x for longer than 10.9 s",
            "x calls for p lasting 9 s",
            "x calls for p lasting 9.1 s",
            rule="rule p = off_delay(s, 10 s +- 10 %)",
        ),
        (PROVED, fails(3), PROVED, fails(3)),
    ),
    Case(
        "H2",
        program(
            "never falls(p) and rises(r)",
            world=("x contact", "y contact", "at first x is off, y is off"),
            harness=("wire x_wire from plus when x", "wire y_wire from plus when y"),
            box=(
                "sense sx from x_wire live",
                "sense sy from y_wire live",
                "rule p = one_shot(sx, 3 s)",
                "rule r = one_shot(sy, 3 s)",
            ),
        ),
        (fails(3),),
    ),
    Case(
        "H1",
        program(
            "never p while not x for longer than 1.5 s",
            world=("x contact", "at first x is off"),
            harness=("wire x_wire from plus when x",),
            box=(
                "sense sx from x_wire live",
                "rule p = off_delay(sx, 2 s)",
                "output lamp when blink(true, on 0.3 s, off 0.3 s)",
            ),
        ),
        (fails(4),),
    ),
)

CASES = FORMS + GIVEN + POWER + HARNESS + SETTLING
