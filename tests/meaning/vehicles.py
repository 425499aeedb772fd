"""Requirements on vehicles whose world is free: what all stories together show of time and reactions."""

from __future__ import annotations

from tests.meaning.courses_box import sensing
from tests.meaning.sentences import Asked, block, contacts


def asking(text: str, asked: str, given: str = "") -> str:
    """The vehicle with assumptions and requirements; each is written "name form", and called q_name in the program."""
    lines = "\n".join(f"danger q_{line.strip()}" for line in asked.strip().splitlines())
    return text + block("given", given) + block("requirements", lines)


def world(names: str, asked: str, given: str = "", first: str = "", more: str = "") -> str:
    """Nothing but contacts and requirements, and other lines of the world."""
    return asking(block("world", f"{contacts(names)}\n{more}" + (f"\nat first {first}" if first else "")), asked, given)


def wired(copper: str, names: str, asked: str, given: str = "", first: str = "") -> str:
    """A vehicle of relays and fuses only."""
    return asking(block("world", contacts(names, first)) + block("harness", f"source plus\n{copper}"), asked, given)


REACTIONS = (
    Asked(
        "order-of-a-reaction",
        "a reaction does the harness, the power, senses, then rules: what the world does is seen in the same one",
        asking(
            sensing("output o when c\nrule c = b\nrule b = a\nrule a = sx", "x"),
            """
            on_at_once never x and not o even for an instant
            off_at_once never o and not x even for an instant
            all_along never c xor sx even for an instant
            """,
        ),
        {"on_at_once": "proved", "off_at_once": "proved", "all_along": "proved"},
    ),
    Asked(
        "copper-sees-outputs-late",
        "the harness sees true outputs as they were in the reaction before",
        asking(
            sensing("output o when sx feeds w", "x", copper="wire w", world="at first x is off"),
            """
            late_on never o and not w even for an instant
            late_off never w and not o even for an instant
            settled never w xor o
            """,
        ),
        {"late_on": "fails 2", "late_off": "fails 3", "settled": "proved"},
    ),
    Asked(
        "stage-fed-by-a-stage-for-an-instant",
        "a stage is fed as copper is in this reaction, and copper shows the other stage as it was before",
        asking(
            sensing(
                "output o1 when sx feeds w\noutput o2 when true fed by w",
                "x",
                copper="wire w",
                world="at first x is off",
            ),
            """
            settled never o2 xor o1
            hangs_on never o2 and not o1 even for an instant
            comes_late never o1 and not o2 even for an instant
            """,
        ),
        {"settled": "proved", "hangs_on": "fails 3", "comes_late": "fails 2"},
    ),
    Asked(
        "a-chain-of-relays-for-an-instant",
        "each contact shows its coil of the reaction before",
        wired(
            "relay k1 coil x\nrelay k2 coil k1\nrelay k3 coil k2",
            "x",
            """
            settled never k3 xor x
            first_late never x and not k1 even for an instant
            last_late never x and k2 and not k3 even for an instant
            in_order never k3 and x and not k1 even for an instant
            back never k3 and not k2 even for an instant
            """,
            first="x is off",
        ),
        {"settled": "proved", "first_late": "fails 2", "last_late": "fails 2", "in_order": "proved", "back": "fails 3"},
    ),
    Asked(
        "for-an-instant-while",
        "even for an instant: never p while r is never (p and r), in each reaction",
        wired(
            "relay k coil x\nwire w from plus when k",
            "x y",
            """
            slow always w while x and not y even for an instant
            idle never w while not x and not k even for an instant
            """,
            first="x is off",
        ),
        {"slow": "fails 2", "idle": "proved"},
    ),
    Asked(
        "a-change-over-has-no-gap",
        "a change-over contact connects in each reaction with exactly one of the two",
        wired(
            "source house\nrelay k coil x\nwire w from plus when k, otherwise from house\nwire a from plus\nwire b\n"
            "wire v from a when k, otherwise from b",
            "x",
            """
            gap always w even for an instant
            sneak never b even for an instant
            follows always v while x
            """,
        ),
        {"gap": "proved", "sneak": "proved", "follows": "proved"},
    ),
    Asked(
        "a-buzzer",
        "stored values recur at one instant: nothing is green while that can happen; a failure that settles stays",
        wired(
            "relay k coil x and not k",
            "x y",
            """
            itself never k
            beside never y
            together never x and y
            only_there never x
            wish possible y
            """,
        ),
        {
            "itself": "blocked unsettled",
            "beside": "fails 1",
            "together": "blocked unsettled",
            "only_there": "blocked unsettled",
            "wish": "blocked unsettled",
        },
    ),
    Asked(
        "a-buzzer-excluded",
        "what the assumptions exclude does not count as possible",
        wired("relay k coil x and not k", "x y", "itself never k\nwish possible y", given="never x"),
        {"itself": "proved", "wish": "possible 1"},
    ),
    Asked(
        "a-stage-that-buzzes-through-copper",
        "a circle through copper is no circle of rules, and may never settle",
        asking(
            sensing("output o when sx and not sw feeds w\nsense sw from w live", "x y", copper="wire w"),
            "itself never o for longer than 1 s\nbeside never y",
        ),
        {"itself": "blocked unsettled", "beside": "fails 1"},
    ),
    Asked(
        "a-race-that-settles",
        "reactions move all relays together: a race that settles so is not seen",
        wired(
            "relay k1 coil x\nrelay k2 coil x and not k1\nrelay k3 coil k2 or k3",
            "x",
            """
            caught always k3 while x
            gone never k2
            flash never k2 even for an instant
            """,
        ),
        {"caught": "proved", "gone": "proved", "flash": "fails 1"},
    ),
    Asked(
        "a-ring-of-three",
        "a ring that no order of following settles chases itself for ever",
        wired(
            "relay k1 coil not k3 and x\nrelay k2 coil k1\nrelay k3 coil k2", "x y", "itself never k1\nbeside never y"
        ),
        {"itself": "blocked unsettled", "beside": "fails 1"},
    ),
    Asked(
        "copper-outlives-the-box",
        "the wire of a stage sees the box one reaction after it lost its power",
        asking(
            sensing("output o when sx feeds w", "x", "key_wire", copper="wire w"),
            "settled never w and not key\nlate never w and not powered even for an instant",
        ),
        {"settled": "proved", "late": "fails 2"},
    ),
)

START = (
    Asked(
        "any-world-at-time-0",
        "time 0: any world that `at first` and the assumptions allow",
        world(
            "x y",
            """
            fixed never not x
            there possible x and y
            else possible x and not y
            later possible not x
            kept never x and y and z
            """,
            "never y and z",
            "x is on",
            "z contact",
        ),
        {"fixed": "fails 2", "there": "possible 1", "else": "possible 1", "later": "possible 2", "kept": "proved"},
    ),
    Asked(
        "relays-dropped-at-time-0",
        "relays are dropped and outputs off before time 0",
        wired(
            "relay k coil true\nwire w from plus when k",
            "x",
            "settled always k and w\nat_once always k even for an instant",
        ),
        {"settled": "proved", "at_once": "fails 1"},
    ),
    Asked(
        "no-edge-at-time-0",
        "requirements see no edge at time 0",
        world(
            "x y",
            """
            held never y becomes on
            wish possible y becomes on or y becomes off
            fresh never x becomes on
            before always previous(x)
            shot never one_shot(y, 3 s) or impulse_relay(y)
            """,
            "always y",
            "x is on",
        ),
        {"held": "proved", "wish": "impossible", "fresh": "fails 3", "before": "fails 2", "shot": "proved"},
    ),
    Asked(
        "under-way-at-time-0",
        "a run under way at time 0 began at 0 for every upper bound and for `has lasted`, and is free of a lower one",
        world(
            "x y",
            """
            most never x for longer than 5 s
            less never x for longer than 4.9 s
            over possible on_delay(x, 5 s)
            near possible on_delay(x, 4.9 s)
            least never y becomes off and not on_delay(true, 60 s)
            late y only after x has lasted 4 s
            """,
            "x lasts at most 5 s\ny lasts at least 60 s",
            "x is on, y is on",
        ),
        {
            "most": "proved",
            "less": "fails 2",
            "over": "impossible",
            "near": "possible 2",
            "least": "fails 2",
            "late": "fails 1",
        },
    ),
    Asked(
        "however-little-time",
        "between two moments some time passes, however little",
        world("x", "possible_soon possible x becomes off and not on_delay(true, 1 us)", first="x is on"),
        {"possible_soon": "possible 2"},
    ),
    Asked(
        "one-by-one-at-time-0",
        "one by one binds moments, not time 0, and both ways",
        world(
            "x",
            """
            anywhere possible key is run
            in_turn never key becomes start and not previous(key is run)
            no_skip possible key becomes off and previous(key is run)
            back possible key is off and bistable(set key is start)
            """,
            more="key off | accessory | run | start one by one",
        ),
        {"anywhere": "possible 1", "in_turn": "proved", "no_skip": "impossible", "back": "possible 4"},
    ),
)

TIMERS = (
    Asked(
        "all-timers-of-one-instant",
        "timers that fall due at one instant belong to one moment",
        asking(
            sensing(
                "rule a = on_delay(sx, 2 s)\nrule b = on_delay(a, 3 s)\nrule c = on_delay(sx, 5 s)\n"
                "rule d = off_delay(sx, 4 s)\nrule e = off_delay(sx, 4 s)",
                "x",
            ),
            "chain never b xor c even for an instant\ntwins never d xor e even for an instant",
        ),
        {"chain": "proved", "twins": "proved"},
    ),
    Asked(
        "a-timer-where-it-is-written",
        "each place where a timer with tolerance is written is a timer of its own; a name of it is the same one",
        asking(
            sensing(
                "rule r = off_delay(sx, 10 s +- 10 %)\nrule a = r\nrule b = r\nrule c = off_delay(sx, 10 s +- 10 %)",
                "x",
            ),
            """
            same never a xor b
            other never r xor c
            apart never r xor c for longer than 2 s
            less never r xor c for longer than 1.9 s
            """,
        ),
        {"same": "proved", "other": "fails 3", "apart": "proved", "less": "fails 4"},
    ),
    Asked(
        "exact-ends-of-a-tolerance",
        "any value of the closed window",
        asking(
            sensing("rule r = on_delay(sx, from 3 s to 5 s)", "x", world="at first x is on"),
            """
            early possible r and not on_delay(true, 3.5 s)
            too_early possible r and not on_delay(true, 3 s)
            late possible not r and on_delay(x, 4.5 s)
            too_late possible not r and on_delay(x, 5 s)
            """,
        ),
        {"early": "possible 2", "too_early": "impossible", "late": "possible 2", "too_late": "impossible"},
    ),
)

COUNTED = (
    Asked(
        "only-what-can-arrive-counts",
        "moments are counted of what matters by name, through a diode only of what can arrive",
        wired(
            "relay flash coil blink(true, on 0.5 s, off 0.5 s)\nwire b from plus when flash\n"
            "wire before from plus when x\ndiode before -> b\nwire behind from plus when x\ndiode b -> behind",
            "x",
            "cannot_arrive never before for longer than 1.2 s\ncan_arrive never behind for longer than 1.2 s",
        ),
        {"cannot_arrive": "fails 2", "can_arrive": "fails 4"},
    ),
    Asked(
        "silent-ends",
        "timers written inside a requirement are counted, the end of a form's or an assumption's own t is not",
        world(
            "x y",
            """
            form never x for longer than 9 s
            inside never on_delay(x, 3 s) for longer than 2 s
            preparing y only after x has lasted 4 s
            """,
            "y is on after x has lasted 5 s",
            "x is on, y is off",
        ),
        {"form": "fails 3", "inside": "fails 3", "preparing": "fails 2"},
    ),
)
