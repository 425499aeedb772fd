"""Small timed automata whose answers are published: a gate that is down in time, and a location that can be reached."""

from __future__ import annotations

from itertools import product

import pytest

from tests.published.written import answered, read

# -------------------------------------------------------------------------------------------------- 5.07 Train1PTA

GATE = """
vehicle "A train and a gate"
constants
    approach   = {approach} s
    start_down = {start} s
    get_down   = {get} s
world
    train far | near | crossing one by one
    at first train is far
harness
    source plus
    wire seen from plus when train is not far
    relay starting "The gate starts to go down" coil on_delay(seen, start_down)
    relay down     "The gate is down"           coil on_delay(starting, get_down)
given
    train is near lasts at least approach
    train is near lasts at most approach
requirements
    danger crash         never train is crossing and not down even for an instant
    danger settled_crash never train is crossing and not down
    function arrives     possible train is crossing
"""


@pytest.mark.parametrize("times", list(product([1, 2, 4], [1, 2], [1, 2])), ids=str)
def test_gate_and_train(times: tuple[int, int, int]) -> None:
    """imitator, tests, Train1PTA: a crash is unreachable iff dApproach > dStartDown + dGetDown.

    How it was brought into the language: the train takes just dApproach from where it is seen to the crossing; the gate is
    a chain of two delay relays. With both at one instant the published system may let the train go first; here a relay's
    contact follows in the next reaction of that instant, which only `even for an instant` sees. Settled, the gate is down
    in time when it is so at that very instant.
    """
    approach, start, get = times
    found = answered(read(GATE.format(approach=approach, start=start, get=get)))
    assert found == {
        "crash": "proved" if approach > start + get else "fails",
        "settled_crash": "proved" if approach >= start + get else "fails",
        "arrives": "proved",
    }


# ------------------------------------------------------------------------------------------------------- 5.11 AD94

AD94 = """
vehicle "Four locations"
world
    a contact
    b contact
    c contact
    at first a is off, b is off, c is off
harness
    source plus
    wire a_wire from plus when a
    wire b_wire from plus when b
    wire c_wire from plus when c
controller "Automaton" powered by plus
    sense press_a from a_wire live
    sense press_b from b_wire live
    sense press_c from c_wire live
    rule x_is_1   = on_delay(true, 1 s)
    rule y_below_1 = off_delay(previous(go_1), 1 s)
    rule y_is_1   = falls(y_below_1)
    rule go_1     = rises(press_a) and (previous(l0) or previous(l3) and y_below_1)
    rule go_2     = rises(press_b) and previous(l1) and y_is_1
    rule go_3     = rises(press_c) and (previous(l1) or previous(l2)) and not x_is_1
    rule l0       = not bistable(set go_1)
    rule l1       = bistable(set go_1, reset go_2 or go_3)
    rule l2       = bistable(set go_2, reset go_3)
    rule l3       = bistable(set go_3, reset go_1)
requirements
    function green          possible l3
    function green_again    possible l3 and bistable(set l1 and bistable(set l3))
    function l2_reached     possible l2
    function stays_green    possible l3 and on_delay(true, 5 s)
    danger   through_l2     never l3 and bistable(set l2)
    danger   one_location   never not at most one of (l0, l1, l2, l3)
    danger   some_location  always l0 or l1 or l2 or l3
"""


def test_green_is_reached() -> None:
    """R. Alur, D. L. Dill, "A theory of timed automata", TCS 126, 1994, figure 10, as in tchecker, examples/ad94: from l0
    by a to l1 (y := 0); l1 by b to l2 if y = 1; l1 and l2 by c to l3 if x < 1; l3 by a to l1 if y < 1 (y := 0). Published:
    the green location l3 is reachable. By hand: never after l2, for there y = 1, so x is at least 1, and x is never reset.

    How it was brought into the language: a hand gives the letters, the box goes; y < 1 is an off-delay of 1 s from the
    last reset, y = 1 the instant at which it ends. Both ends are exact. A letter takes a press, so two follow each other
    after some time, however little. The loop d of l3 changes nothing; `stays_green` shows a time at which it is open.
    """
    assert answered(read(AD94)) == {
        "green": "proved",
        "green_again": "proved",
        "l2_reached": "proved",
        "stays_green": "proved",
        "through_l2": "proved",
        "one_location": "proved",
        "some_location": "proved",
    }
