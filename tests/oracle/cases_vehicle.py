"""Power, harness, memory and settling of small programs, with the answers worked out by hand."""

from __future__ import annotations

from tests.oracle.written import (
    BLOCKED,
    PROVED,
    Case,
    fails,
    over_x,
    program,
    witness,
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
        "C3 C4",
        program(
            "rises(powered) calls for q lasting 3 s, excused by not powered",
            "rises(powered) calls for q lasting 3.1 s, excused by not powered",
            "r only after powered has lasted 5 s",
            "r only after powered has lasted 5.1 s",
            world=("key contact",),
            harness=("wire key_wire from plus when key",),
            box=("rule q = one_shot(true, 3 s)", "rule r = on_delay(true, 5 s)"),
            feed="key_wire",
        ),
        (PROVED, fails(3), PROVED, fails(2)),
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
