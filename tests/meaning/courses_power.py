"""What sleeps, wakes and is held awake in one course of the world."""

from __future__ import annotations

from tests.meaning.courses_box import sensing
from tests.meaning.sentences import Course, contacts, fed

# A door wakes a hold relay of 10 s, whose contact feeds a box that needs 2 s to start.
HELD = fed(
    "rule prime = one_shot(true, 3 s)",
    "wire wake from plus when door\nrelay hold coil off_delay(wake, 10 s)\nwire feed from plus when hold",
    contacts("door"),
    feed="feed after 2 s",
)


def keeping(keeper: str, after: str = "") -> str:
    """A box that is fed through diodes by its key and by what its own output feeds."""
    copper = "wire key_wire from plus when key\nwire keep\nwire feed\ndiode key_wire -> feed\ndiode keep -> feed"
    box = f"sense key_on from key_wire live\noutput keeper when {keeper} feeds keep"
    return fed(box, copper, contacts("key"), feed=f"feed {after}".strip())


AWAKE = (
    Course(
        "start-up-behind-a-hold-relay",
        "powered once the feed has been live for the delay; a rise as the hold falls due leaves no gap",
        HELD,
        "0 door on; 1 door off; 11 door on; 12 door off",
        {"hold": "[0,22)", "powered": "[2,22)", "prime": "[2,5)"},
        until="30",
    ),
    Course(
        "start-up-again-after-a-gap",
        "the start-up delay begins afresh when the feed comes back",
        HELD,
        "0 door on; 1 door off; 11.5 door on; 12 door off",
        {"feed": "[0,11) [11.5,22)", "powered": "[2,11) [13.5,22)", "prime": "[2,5) [13.5,16.5)"},
        until="30",
    ),
    Course(
        "keeps-its-feed-until-finished",
        "true outputs of the reaction before feed the wires: a box can hold itself awake, and let go",
        keeping("(key_on or off_delay(key_on, 5 s))"),
        "0 key on; 2 key off",
        {"powered": "[0,7)", "keep": "[0,7)", "key_wire": "[0,2)", "keeper": "[0,7)"},
    ),
    Course(
        "keeps-its-feed-through-its-own-stage",
        "the wire that feeds an output may be one that it feeds itself",
        keeping("(key_on or off_delay(key_on, 5 s)) fed by feed"),
        "0 key on; 2 key off; 7 key on; 8 key off",
        {"powered": "[0,13)", "keeper": "[0,13)"},
    ),
    Course(
        "keeps-its-feed-with-start-up",
        "a key that is too short wakes nothing; one that ends as the start-up does neither",
        keeping("(key_on or off_delay(key_on, 5 s))", "after 1 s"),
        "0 key on; 0.5 key off; 2 key on; 4 key off; 10 key on; 11 key off",
        {"powered": "[3,9)", "feed": "[0,0.5) [2,9) [10,11)"},
    ),
    Course(
        "lets-go-in-one-moment",
        "when the last reason ends the box is still powered in the first reaction, and off when settled",
        keeping("(key_on or off_delay(key_on, 5 s))") + "",
        "0 key on; 2 key off",
        {"powered and not keeper": "", "keep and not keeper": ""},
    ),
    Course(
        "sleeping-box-and-not",
        "of a box without power every sense, rule and comparison reads false, not and below alike",
        sensing(
            "sense revs from engine\nsense lost from x_wire live substitute on\n"
            "sense slow from engine substitute 0 rpm\nrule n = not sx\nrule e = sx xor true\n"
            "rule cmp = revs below 400 rpm",
            "x",
            "key_wire",
            world="engine 0 .. 7000 rpm",
        ),
        "0 x off, engine 350 rpm, key on; 2 key off",
        {
            "n": "[0,2)",
            "e": "[0,2)",
            "cmp": "[0,2)",
            "not n": "[2,..)",
            "not revs above 300 rpm": "[2,..)",
            "on_delay(not revs above 300 rpm, 1 s)": "[3,..)",
            "revs at most 300 rpm": "",
            "revs is not 300 rpm": "[0,2)",
            "not revs is 300 rpm": "[0,..)",
            "revs below 400 rpm": "[0,2)",
            "lost": "",
            "slow is 0 rpm": "",
            "engine above 300 rpm": "[0,..)",
        },
    ),
    Course(
        "requirement-memory-over-a-sleeping-box",
        "what is written in a requirement is nobody's memory: it counts on over a box that sleeps",
        sensing("rule r = sx", "x", "key_wire"),
        "0 x on, key on; 1 key off; 6 key on",
        {
            "r": "[0,1) [6,..)",
            "on_delay(not sx, 2 s)": "[3,6)",
            "off_delay(r, 2 s)": "[0,3) [6,..)",
            "one_shot(not r, 2 s)": "[1,3)",
            "bistable(set r)": "[0,..)",
            "impulse_relay(r)": "[6,..)",
        },
    ),
    Course(
        "requirement-memory-at-time-0",
        "at time 0 a requirement sees no edge: one_shot and impulse_relay wait for the next; the others begin",
        "world\n    x contact\n",
        "0 x on; 4 x off; 6 x on",
        {
            "one_shot(x, 3 s)": "[6,9)",
            "impulse_relay(x)": "[6,..)",
            "off_delay(x, 1 s)": "[0,5) [6,..)",
            "on_delay(x, 1 s)": "[1,4) [7,..)",
            "bistable(set x)": "[0,..)",
            "one_shot(not x, 1 s)": "[4,5)",
        },
    ),
    Course(
        "requirement-blinker-at-time-0",
        "a blinker of a requirement begins with what is true at time 0",
        "world\n    x contact\n",
        "0 x on; 4 x off",
        {"blink(x, on 1 s, off 1 s)": "[0,1) [2,3)"},
        until="6",
    ),
    Course(
        "requirement-thresholds-at-time-0",
        "two thresholds begin false, in a requirement too, and are stored by settled values",
        "world\n    engine 0 .. 7000 rpm\n",
        "0 engine 350 rpm; 1 engine 400 rpm; 2 engine 401 rpm; 3 engine 350 rpm; 4 engine 300 rpm; 5 engine 299 rpm",
        {"engine above 400 rpm until below 300 rpm": "[2,5)", "engine below 300 rpm until above 400 rpm": "[5,..)"},
    ),
    Course(
        "box-memory-at-time-0",
        "memory starts false: in the box an edge fires at time 0 and at each waking, a falling one does not",
        sensing(
            "rule up = one_shot(rises(sx), 1 s)\nrule down = bistable(set falls(sx))\nrule out = one_shot(not sx, 1 s)",
            "x",
            "key_wire",
        ),
        "0 x on, key on; 2 key off; 3 key on; 5 x off; 6 key off; 7 key on",
        {"up": "[0,1) [3,4)", "down": "[5,6)", "out": "[5,6) [7,8)"},
    ),
    Course(
        "run-on-dies-with-the-box",
        "all timers are cleared without power, and what has ended does not come back",
        sensing("rule q = off_delay(sx, 10 s)\nrule d = on_delay(sx, 2 s)", "x", "key_wire"),
        "0 x on, key on; 1 x off; 2 key off; 3 key on; 4 x on; 5 key off; 5.5 key on",
        {"q": "[0,2) [4,5) [5.5,..)", "d": "[7.5,..)"},
    ),
    Course(
        "blinker-and-power",
        "a blinker starts its on-phase at waking",
        sensing("rule q = blink(true, on 1 s, off 1 s)", "x", "key_wire"),
        "0 key on, x off; 2.5 key off; 3 key on; 5.5 key off",
        {"q": "[0,1) [2,2.5) [3,4) [5,5.5)"},
        until="6",
    ),
    Course(
        "blinker-stops-as-it-turns",
        "blink is false while x is, also when its phase ends at that moment",
        sensing("rule q = blink(sx, on 1 s, off 1 s)", "x"),
        "0 x on; 2 x off; 3 x on; 4 x off; 4.5 x on; 5 x off",
        {"q": "[0,1) [3,4) [4.5,5)"},
        until="6",
    ),
    Course(
        "filter-and-power",
        "a filter is cleared with the box: what is live at waking is seen one filter time later",
        sensing("sense f from x_wire live filter 1 s", "x", "key_wire"),
        "0 x on, key on; 3 key off; 4 key on; 10 x off; 12 key off",
        {"f": "[1,3) [5,11)"},
    ),
    Course(
        "filter-exactly-its-time",
        "an input that comes back exactly at the filter time was not followed",
        sensing("sense f from x_wire live filter 1 s", "x"),
        "0 x off; 1 x on; 2 x off; 3 x on; 5 x off; 6 x on; 8 x off",
        {"f": "[4,9)"},
    ),
    Course(
        "filter-of-a-number",
        "each comparison of a filtered number follows in its own time",
        sensing(
            "sense revs from engine filter 1 s\nrule lo = revs below 300 rpm\nrule hi = revs above 400 rpm\n"
            "rule run = revs above 480 rpm until below 250 rpm",
            "x",
            world="engine 0 .. 7000 rpm",
        ),
        "0 x off, engine 200 rpm; 2 engine 500 rpm; 2.5 engine 350 rpm; 3 engine 500 rpm",
        {"lo": "[1,3)", "hi": "[4,..)", "run": "[4,..)", "revs above 340 rpm": "[3,..)"},
    ),
    Course(
        "outputs-sleep-in-copper",
        "a stage is off with the box, and copper sees its true state",
        sensing("output o when sx feeds w", "x", "key_wire", copper="wire w\nrelay k coil not o"),
        "0 x on, key on; 2 key off",
        {"o": "[0,2)", "w": "[0,2)", "k": "[2,..)"},
    ),
)
