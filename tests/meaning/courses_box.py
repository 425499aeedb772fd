"""What the box does in one course of the world: timers, memory and power, put together as nobody does on purpose."""

from __future__ import annotations

from tests.meaning.sentences import Course, contacts, fed, sensed

# The wire w is live while x is on; when m turns on it is dead for one reaction, until the relay has followed.
DIP = """
relay k coil m
wire w from plus when x and not m, from plus when x and k
"""


def dip(rules: str, copper: str = "", feed: str = "plus", names: str = "x m") -> str:
    """A box that senses the wire w as s."""
    return fed(f"sense s from w live\n{rules}", DIP + copper, contacts(names), feed=feed)


def sensing(rules: str, names: str, feed: str = "plus", copper: str = "", world: str = "") -> str:
    """A box that senses a wire for each of these contacts, as sx and so on; `key_wire` is live while key is on."""
    wires, senses = sensed(names)
    all_names = contacts(f"{names} key" if feed.startswith("key_wire") else names)
    key = "wire key_wire from plus when key\n" if feed.startswith("key_wire") else ""
    return fed(f"{senses}\n{rules}", f"{wires}\n{key}{copper}", f"{all_names}\n{world}", feed=feed)


DIPPED = "0 x on, m off; 10 m on; 14 x off"

DIPS = (
    Course(
        "dip-breaks-an-on-delay",
        "in the box a break of one reaction is a break; a timer of a requirement sees settled values only",
        dip("rule q = on_delay(s, 5 s)"),
        "0 x on, m off; 10 m on; 18 x off",
        {"q": "[5,10) [15,18)", "on_delay(w, 5 s)": "[5,18)", "s": "[0,18)"},
    ),
    Course(
        "dip-starts-a-one-shot-anew",
        "one_shot starts when x rises while it is not running, in a repeat too; requirements see no edge at time 0",
        dip("rule q = one_shot(s, 3 s)"),
        DIPPED,
        {"q": "[0,3) [10,13)", "one_shot(w, 3 s)": ""},
    ),
    Course(
        "dip-within-a-one-shot",
        "one_shot: true for t whatever x does meanwhile",
        dip("rule q = one_shot(s, 3 s)"),
        "0 x on, m off; 1 m on; 14 x off",
        {"q": "[0,3)"},
    ),
    Course(
        "dip-when-a-one-shot-ends",
        "a rise in the first reaction of its last moment is lost, one in a repeat is not",
        dip("rule q = one_shot(s, 3 s)\nrule gap = not q"),
        "0 x on, m off; 3 m on; 14 x off",
        {"q": "[0,6)"},
        blips={"gap": "3"},
    ),
    Course(
        "dip-turns-an-impulse-relay",
        "edges look at the reaction before, repeats included",
        dip("rule q = impulse_relay(s)"),
        DIPPED,
        {"q": "[0,10)", "impulse_relay(w)": ""},
    ),
    Course(
        "dip-restarts-a-blinker",
        "blink starts afresh when x rises, in a repeat too",
        dip("rule q = blink(s, on 2 s, off 1 s)"),
        "0 x on, m off; 4 m on; 6.5 x off",
        {"q": "[0,2) [3,6)"},
    ),
    Course(
        "dip-restarts-a-blinker-in-its-pause",
        "blink: the on-phase is first",
        dip("rule q = blink(s, on 2 s, off 1 s)"),
        "0 x on, m off; 2.5 m on; 5 x off",
        {"q": "[0,2) [2.5,4.5)"},
    ),
    Course(
        "dip-when-a-blinker-turns",
        "a change and a due timer are one moment; the rise in a repeat starts afresh",
        dip("rule q = blink(s, on 2 s, off 1 s)"),
        "0 x on, m off; 2 m on; 6 x off",
        {"q": "[0,4) [5,6)"},
    ),
    Course(
        "dip-of-an-off-delay",
        "off_delay is true while x is, and until t after it fell for good",
        dip("rule q = off_delay(s, 2 s)"),
        "0 x on, m off; 1 m on; 4 x off",
        {"q": "[0,6)"},
    ),
    Course(
        "dip-of-a-bistable-by-its-reset",
        "a bistable is cleared by a reset of one reaction",
        dip("rule q = bistable(set falls(s), reset not s)\nrule p = bistable(set on_delay(s, 1 s), reset not s)"),
        "0 x on, m off; 4 m on; 9 x off",
        {"q": "", "p": "[1,4) [5,9)"},
    ),
    Course(
        "dip-delays-a-filter",
        "a sense follows once its input has been different for the filter time, without a break",
        dip("sense f from w live filter 1 s"),
        "0 x on, m off; 0.5 m on; 14 x off",
        {"f": "[1.5,15)"},
    ),
    Course(
        "dip-is-filtered",
        "an input that differs for an instant only is not followed",
        dip("sense f from w live filter 1 s\nrule n = impulse_relay(f)"),
        "0 x on, m off; 4 m on; 14 x off",
        {"f": "[1,15)", "n": "[1,..)"},
    ),
    Course(
        "dip-of-the-feed-and-start-up",
        "powered once the feed has been live for the start-up delay; an instant without supply is enough",
        dip("rule r = true", feed="w after 1 s"),
        DIPPED,
        {"powered": "[1,10) [11,14)", "r": "[1,10) [11,14)", "w": "[0,14)"},
    ),
    Course(
        "dip-during-start-up",
        "the start-up delay too wants a feed without a break",
        dip("rule r = true", feed="w after 3 s"),
        "0 x on, m off; 2 m on; 8 x off",
        {"powered": "[5,8)"},
    ),
    Course(
        "dip-of-the-feed-and-what-is-retained",
        "an instant without supply clears all but what is retained, and rises of that fires at every waking",
        dip(
            "sense sa from a_wire live\nrule q = bistable(set sa, retained)\nrule n = bistable(set sa)\n"
            "rule t = one_shot(q, 3 s)\nrule i = impulse_relay(q, retained)",
            "wire a_wire from plus when a",
            "w",
            "x m a",
        ),
        "0 x on, m off, a on; 1 a off; 10 m on; 14 x off",
        {"q": "[0,14)", "n": "[0,10)", "t": "[0,3) [10,13)", "i": "[0,10)"},
    ),
    Course(
        "dip-of-a-relay-supply",
        "a relay without supply for an instant forgets; one that has no supply named keeps all",
        dip(
            "rule nothing = true",
            "relay r coil bistable(set a) supply w\nrelay f coil bistable(set a)\n"
            "relay o coil off_delay(a, 12 s) supply w\nrelay p coil x supply w",
            names="x m a",
        ),
        "0 x on, m off, a on; 1 a off; 10 m on; 14 x off",
        {"r": "[0,10)", "f": "[0,..)", "o": "[0,10)", "p": "[0,14)"},
    ),
)

MEMORY = (
    Course(
        "impulse-relay-reset-held",
        "impulse_relay: reset wins, and a rise under it is spent",
        sensing("rule q = impulse_relay(sx, reset sr)", "x r"),
        "0 x off, r off; 1 x on; 2 x off; 2.5 r on; 3 x on; 4 r off; 6 x off; 7 x on; 8 x off",
        {"q": "[1,2.5) [7,..)"},
    ),
    Course(
        "impulse-relay-reset-ends-with-a-rise",
        "a rise at the moment in which reset ends turns it",
        sensing("rule q = impulse_relay(sx, reset sr)", "x r"),
        "0 x off, r off; 1 x on; 2 r on; 3 x off; 4 r off, x on",
        {"q": "[1,2) [4,..)"},
    ),
    Course(
        "impulse-relay-once-a-moment",
        "a repeat is no new rise: however many repeats there are it turns once",
        sensing(
            "rule p1 = previous(sx)\nrule p2 = previous(p1)\nrule p3 = previous(p2)\nrule q = impulse_relay(sx)\n"
            "rule e = impulse_relay(rises(p2))",
            "x",
        ),
        "0 x off; 1 x on; 3 x off; 5 x on; 6 x off",
        {"p3": "[1,3) [5,6)", "q": "[1,5)", "e": "[1,5)"},
    ),
    Course(
        "pulse-of-one-reaction",
        "edges see what is true for one reaction only, both ways",
        sensing(
            "rule blip = sx and not previous(sx)\nrule up = impulse_relay(blip)\n"
            "rule down = bistable(set falls(blip), reset not sx)",
            "x",
        ),
        "0 x off; 1 x on; 3 x off; 5 x on; 6 x off",
        {"up": "[1,5)", "down": "[1,3) [5,6)", "blip": ""},
        blips={"blip": "1 5"},
    ),
    Course(
        "edges-remember-the-whole-operand",
        "rises remembers its whole operand, not the names in it",
        sensing("rule q = impulse_relay(sa or sb)", "a b"),
        "0 a on, b off; 2 b on; 4 a off; 6 b off; 7 a on",
        {"q": "[0,7)"},
    ),
    Course(
        "previous-starts-false-whatever-it-holds",
        "previous(not x) is false at the first reaction after waking",
        sensing("rule q = bistable(set not previous(not sx))\nrule p = bistable(set previous(sx))", "x"),
        "0 x off",
        {"q": "[0,..)", "p": ""},
    ),
    Course(
        "thresholds-at-sleep",
        "two thresholds start false and are cleared; both ends are strict",
        sensing(
            "sense revs from engine\nrule q = revs above 400 rpm until below 300 rpm\n"
            "rule low = revs below 400 rpm until above 500 rpm\nrule e = bistable(set rises(revs below 400 rpm))",
            "x",
            "key_wire",
            world="engine 0 .. 7000 rpm",
        ),
        "0 x off, key on, engine 450 rpm; 1 engine 350 rpm; 2 key off; 3 key on; 4 engine 450 rpm; 5 engine 300 rpm;"
        "6 engine 299 rpm; 7 engine 500 rpm; 8 engine 501 rpm",
        {"q": "[0,2) [4,6) [7,..)", "low": "[1,2) [3,8)", "e": "[1,2) [3,..)"},
    ),
    Course(
        "retained-impulse-relay",
        "retained keeps its own bit only: what it looks at is forgotten, so it turns at each waking",
        sensing("rule q = impulse_relay(sx, retained)\nrule w = bistable(set sx, retained)", "x", "key_wire"),
        "0 x on, key on; 2 key off; 3 key on; 4 key off; 5 key on; 6 key off",
        {"q": "[0,2) [5,6)", "w": "[0,2) [3,4) [5,6)"},
    ),
    Course(
        "retained-and-reset-at-waking",
        "what is retained is reset in the first reaction after waking, and never set asleep",
        sensing(
            "rule q = bistable(set sa, reset sb, retained)\nrule n = bistable(set sc, retained)",
            "a b c",
            "key_wire",
        ),
        "0 a on, b off, c off, key on; 1 a off; 2 key off, c on; 2.5 c off; 2.7 b on; 3 key on; 3.5 b off",
        {"q": "[0,2)", "n": ""},
    ),
)
