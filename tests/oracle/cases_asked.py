"""Requirements and assumptions on small programs, with the answers worked out by hand."""

from __future__ import annotations

from tests.oracle.written import (
    BLOCKED,
    NEVER_POSSIBLE,
    NO_CASE,
    PROVED,
    Case,
    fails,
    over_x,
    program,
    waves,
    witness,
)

FORMS = (
    Case("F1 holds", waves("never p for longer than 3 s", p=((0, 3),)), (PROVED,)),
    Case("F1 fails", waves("never p for longer than 3 s", p=((0, 3.1),)), (fails(2),)),
    Case(
        "F1 gaps without length",
        program("never not b or previous(b) for longer than 3 s", box=("rule b = blink(true, on 1 s, off 1 s)",)),
        (fails(5),),
    ),
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
    Case(
        "F7 always excused",
        waves("p calls for q no later than 2 s, excused by r", p=((0, 1),), q=(), r=((0, 1),)),
        (NO_CASE,),
    ),
    Case(
        "F8 always excused",
        waves("p calls for q lasting 2 s, excused by r", p=((0, 1),), q=(), r=((0, 2),)),
        (NO_CASE,),
    ),
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
    Case(
        "an edge needs p anew each time",
        program(
            "a becomes on only after b",
            "a becomes on only after b since c",
            world=("a contact", "b contact", "c contact", "at first a is off, b is on, c is off"),
        ),
        (fails(4), fails(2)),
    ),
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
    Case(
        "a moment that must come",
        program(
            "never key is off for longer than 4 s",
            world=("key off | run", "engine 0 .. 7000 rpm", "at first key is off, engine above 0 rpm"),
            given=("engine is 0 rpm after key is off has lasted 3 s",),
        ),
        (fails(3),),
    ),
    Case(
        "the ends of a range",
        program(
            "possible engine below 0 rpm",
            "possible engine above 100 rpm",
            "always engine at least 0 rpm",
            "possible engine is 100 rpm",
            world=("engine 0 .. 100 rpm",),
        ),
        (NEVER_POSSIBLE, NEVER_POSSIBLE, PROVED, witness(1)),
    ),
)

TIMERS = (
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
        "A11 just as long as nominal",
        over_x("never p and on_delay(not x, 10 s)", rule="rule p = off_delay(s, 10 s +- 10 %)"),
        (fails(3),),
    ),
)
