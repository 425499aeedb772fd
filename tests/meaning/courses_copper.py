"""What copper does in one course of the world: wires, grounds, diodes, relays and stages that feed one another."""

from __future__ import annotations

from tests.meaning.courses_box import sensing
from tests.meaning.sentences import Course, block, contacts


def copper(lines: str, names: str) -> str:
    """A vehicle of relays and fuses only, and a contact for each name."""
    return block("world", contacts(names)) + block("harness", lines)


STAGES = (
    Course(
        "stage-fed-by-what-a-stage-feeds",
        "copper sees outputs of the reaction before: a chain of stages follows in one moment, and ends so",
        sensing(
            "output o1 when sx feeds w1\noutput o2 when true fed by w1 feeds w2\noutput o3 when true fed by w2",
            "x",
            copper="wire w1\nwire w2",
        ),
        "0 x off; 1 x on; 3 x off",
        {"o1": "[1,3)", "o2": "[1,3)", "o3": "[1,3)", "w2": "[1,3)"},
    ),
    Course(
        "stages-that-feed-each-other",
        "outputs are off before time 0: a circle of stages is dead until something feeds it, and then holds itself",
        sensing(
            "output o1 when true fed by w2 feeds w1\noutput o2 when true fed by w1 feeds w2",
            "y",
            copper="wire w1 from plus when x\nwire w2",
            world="x contact",
        ),
        "0 x off, y off; 1 x on; 3 x off",
        {"o1": "[1,..)", "o2": "[1,..)", "w1": "[1,..)"},
    ),
    Course(
        "command-and-true-state",
        "in a rule an output's name is its command, everywhere else its true state",
        sensing(
            "output o when sx fed by w\nrule r = o\nrule p = previous(o)",
            "x y",
            copper="wire w from plus when y\nrelay k coil o",
        ),
        "0 x off, y off; 1 x on; 2 y on; 3 x off",
        {"r": "[1,3)", "p": "[1,3)", "o": "[2,3)", "k": "[2,3)"},
    ),
    Course(
        "a-stage-lets-nothing-back",
        "a stage makes live what it feeds and lets nothing back in",
        sensing(
            "output o when sx fed by f feeds w",
            "x y",
            copper="wire f from plus when y\nwire w from plus when z",
            world="z contact",
        ),
        "0 x on, y off, z on; 2 y on; 4 y off; 6 z off; 7 y on",
        {"o": "[2,4) [7,..)", "f": "[2,4) [7,..)", "w": "[0,6) [7,..)"},
    ),
    Course(
        "a-stage-onto-ground",
        "a wire both live and grounded is read as both",
        sensing(
            "output o when sx feeds w\nsense live_w from w live\nsense ground_w from w grounded",
            "x",
            copper="wire w to ground when y",
            world="y contact",
        ),
        "0 x off, y off; 1 x on; 2 y on; 3 x off; 4 y off",
        {"live_w": "[1,3)", "ground_w": "[2,4)", "w is live and w is grounded": "[2,3)"},
    ),
)

RELAYS = (
    Course(
        "self-holding-relay-with-stop",
        "a contact shows its coil of the reaction before: a relay holds itself, and stop wins",
        copper("relay k coil (start or k) and not stop", "start stop"),
        "0 start off, stop off; 1 start on; 2 start off; 3 stop on; 4 stop off; 5 start on; 7 stop on; 8 start off",
        {"k": "[1,3) [5,7)"},
    ),
    Course(
        "self-holding-relay-over-its-wire",
        "a relay that feeds its own coil is lost with its source and does not come back",
        copper(
            "source main when batt\nwire coil_w from main when start, from main when k\nrelay k coil coil_w",
            "start batt",
        ),
        "0 start off, batt on; 1 start on; 2 start off; 4 batt off; 5 batt on",
        {"k": "[1,4)", "coil_w": "[1,4)"},
    ),
    Course(
        "relay-supplied-by-a-source",
        "relays keep theirs while their supply is live; a source will do, and a coil may name it",
        copper(
            "source main when batt\nrelay r coil off_delay(x, 5 s) supply main\n"
            "relay s coil one_shot(x, 3 s) supply main\nrelay m coil main",
            "x batt",
        ),
        "0 x on, batt on; 1 batt off; 2 batt on; 3 x off; 6 batt off; 7 batt on",
        {"r": "[0,1) [2,6)", "s": "[0,1) [2,5)", "m": "[0,1) [2,6) [7,..)"},
    ),
    Course(
        "memory-of-a-coil",
        "relays have edges and memory of their own, which begin false",
        copper(
            "relay up coil bistable(set rises(x), reset y)\nrelay step coil impulse_relay(x)\n"
            "relay down coil bistable(set falls(x))",
            "x y",
        ),
        "0 x on, y off; 2 y on; 3 y off; 4 x off; 5 x on",
        {"up": "[0,2) [5,..)", "step": "[0,5)", "down": "[4,..)"},
    ),
    Course(
        "a-chain-of-relays",
        "each relay is one reaction late, and all are settled at their moment",
        copper("relay k3 coil k2\nrelay k2 coil k1\nrelay k1 coil x\nwire w from plus when k3\nsource plus", "x"),
        "0 x off; 1 x on; 3 x off",
        {"k1": "[1,3)", "k3": "[1,3)", "w": "[1,3)"},
    ),
    Course(
        "a-tolerance-each-time-anew",
        "any value of the closed window, each time anew; each place is a timer of its own",
        copper("relay r1 coil off_delay(x, 10 s +- 10 %)\nrelay r2 coil off_delay(x, 10 s +- 10 %)", "x"),
        "0 x on; 1 x off; 20 x on; 21 x off",
        {"r1": "[0,10) [20,32)", "r2": "[0,12) [20,30)"},
        lasts="r1 1 9; r1 21 11; r2 1 11; r2 21 9",
        until="40",
    ),
    Course(
        "change-over",
        "a change-over contact connects its wire with the one or with the other",
        copper(
            "source first_one\nsource two when y\nrelay k coil x\nwire a from first_one\nwire b from two\n"
            "wire w from a when k, otherwise from b",
            "x y",
        ),
        "0 x off, y on; 1 x on; 2 y off; 3 x off",
        {"w": "[0,3)", "b": "[0,2)", "a": "[0,..)"},
    ),
)

WIRES = (
    Course(
        "sources-are-ends",
        "a source is an end: what arrives at it goes no further, and its name reads as its condition",
        copper(
            "source first_one when x\nsource two when y\nwire near_one from first_one\nwire near_two from two\n"
            "wire bus from first_one when z, from two when z",
            "x y z",
        ),
        "0 x on, y off, z on; 1 y on; 2 x off; 3 z off",
        {
            "bus": "[0,3)",
            "near_one": "[0,2)",
            "near_two": "[1,..)",
            "first_one": "[0,2)",
            "two": "[1,..)",
        },
    ),
    Course(
        "a-contact-between-two-sources",
        "a closed contact between two ends joins nothing",
        copper(
            "source first_one when x\nsource two when y\nwire near_one from first_one\nwire near_two from two\n"
            "join first_one with two when z",
            "x y z",
        ),
        "0 x on, y off, z on; 1 y on; 2 x off",
        {"near_one": "[0,2)", "near_two": "[1,..)"},
    ),
    Course(
        "ground-is-an-end",
        "what is live goes no further through ground, and ground no further through a source",
        copper("source plus\nwire a from plus when x, to ground when y\nwire b to ground\nwire c from plus", "x y"),
        "0 x on, y on; 1 x off",
        {"a": "[0,1)", "a is grounded": "[0,..)", "b is live": "", "c is grounded": "", "c": "[0,..)"},
    ),
    Course(
        "grounded-through-diodes",
        "grounded passes through diodes against their direction, live along it, both through contacts",
        copper(
            "source plus\nwire a from plus when p\nwire b to ground when y\nwire c to ground when x\n"
            "diode a -> b\ndiode b -> c\nwire d\njoin a with d when z",
            "x y z p",
        ),
        "0 x on, y off, z off, p off; 1 x off; 2 y on; 3 z on; 4 y off; 5 p on",
        {
            "c is grounded": "[0,1)",
            "b is grounded": "[0,1) [2,4)",
            "a is grounded": "[0,1) [2,4)",
            "d is grounded": "[3,4)",
            "c": "[5,..)",
            "d": "[5,..)",
        },
    ),
    Course(
        "a-ring-holds-nothing",
        "the least solution: a ring of contacts and diodes does not keep itself live or grounded",
        copper(
            "source plus\nwire a from plus when x, to ground when y\nwire b\nwire c\njoin a with b\njoin b with c\n"
            "diode c -> a\ndiode a -> c",
            "x y",
        ),
        "0 x on, y off; 1 x off; 2 y on; 3 y off",
        {"c": "[0,1)", "c is grounded": "[2,3)"},
    ),
    Course(
        "a-named-ground",
        "a named ground grounds while its condition holds",
        copper(
            "ground strap when fit\nwire w to strap when x\nwire v to strap",
            "x fit",
        ),
        "0 x off, fit on; 1 x on; 2 fit off; 4 fit on",
        {"w is grounded": "[1,2) [4,..)", "v is grounded": "[0,2) [4,..)", "strap": "[0,2) [4,..)", "w is live": ""},
    ),
    Course(
        "switch-to-ground",
        "a wire is live, grounded or neither; an open switch to ground is neither",
        sensing(
            "sense shut from d_wire grounded\nsense fed_d from d_wire live\nsense late from d_wire grounded filter 1 s",
            "x",
            copper="wire d_wire to ground when d",
            world="d contact",
        ),
        "0 d off, x off; 1 d on; 3 d off",
        {"shut": "[1,3)", "fed_d": "", "late": "[2,4)", "d_wire is grounded": "[1,3)"},
    ),
    Course(
        "loads-without-a-box",
        "a vehicle may have no controller; a load reads as its wire",
        copper(
            "source plus\nwire w from plus when x\nload pump on w 4 A\nrelay k coil off_delay(w, 2 s)\n"
            "wire v from plus when k\nload lamp on v",
            "x",
        ),
        "0 x off; 1 x on; 3 x off",
        {"pump": "[1,3)", "lamp": "[1,5)", "k": "[1,5)"},
    ),
    Course(
        "a-contact-passes-both-ways",
        "live passes closed contacts both ways: that is the sneak path",
        copper(
            "source plus\nwire key from plus when x\nwire door from plus when y\nwire wake from key, from door",
            "x y",
        ),
        "0 x off, y off; 1 y on; 2 y off; 3 x on",
        {"key": "[1,2) [3,..)", "door": "[1,2) [3,..)"},
    ),
)
