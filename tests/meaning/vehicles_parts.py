"""Requirements on vehicles whose world is free: what all stories together show of power, copper and numbers."""

from __future__ import annotations

from tests.meaning.courses_box import sensing
from tests.meaning.sentences import Asked, contacts, fed
from tests.meaning.vehicles import asking, wired, world

POWER = (
    Asked(
        "asleep-nothing-is-believed",
        "a comparison of a number sense of a sleeping box is false, above and below alike",
        asking(
            sensing(
                "sense revs from engine\nrule idle = not revs above 300 rpm",
                "x",
                "key_wire",
                world="engine 0 .. 7000 rpm",
            ),
            """
            neither possible not revs above 300 rpm and not revs at most 300 rpm
            awake never not revs above 300 rpm and not revs at most 300 rpm while powered
            belief never idle while not key
            at_all possible idle and key
            """,
        ),
        {"neither": "possible 1", "awake": "proved", "belief": "proved", "at_all": "possible 1"},
    ),
    Asked(
        "no-substitute-without-a-fault",
        "a substitute is read only when the value is lost",
        asking(
            sensing("sense sub from x_wire live substitute on", "x", "key_wire"),
            "asleep never sub while not key\nopen never sub and not x even for an instant",
        ),
        {"asleep": "proved", "open": "proved"},
    ),
    Asked(
        "start-up-of-the-feed",
        "powered once the feed has been live for that long",
        asking(
            sensing("rule r = true", "x", "key_wire after 0.3 s"),
            """
            long_enough powered only after key has lasted 0.3 s
            no_longer never key and not powered for longer than 0.3 s
            soon possible powered and not on_delay(true, 0.3 s)
            """,
        ),
        {"long_enough": "proved", "no_longer": "proved", "soon": "impossible"},
    ),
    Asked(
        "command-in-rules-state-elsewhere",
        "in rules an output's name is its command, everywhere else its true state",
        asking(
            sensing("output o when sx fed by w\nrule r = o", "x y", copper="wire w from plus when y"),
            "unfed possible r and not o\ntrue_is_commanded never o and not r even for an instant",
        ),
        {"unfed": "possible 1", "true_is_commanded": "proved"},
    ),
    Asked(
        "self-holding-relay-and-its-source",
        "without supply a relay drops and forgets, so a self-holding one has to be started again",
        wired(
            "source main when batt\nwire c from main when start, from main when k\nrelay k coil c",
            "start batt",
            "again k only after start since not batt\nheld never falls(k) and batt",
        ),
        {"again": "proved", "held": "proved"},
    ),
)

COPPER = (
    Asked(
        "a-stage-onto-ground-is-a-short",
        "a wire both live and grounded is a short: a requirement that nobody has to write",
        asking(sensing("output o when sx feeds w", "x y", copper="wire w to ground when y"), "free never o"),
        {"short": "fails 1", "free": "fails 1"},
    ),
    Asked(
        "a-short-excluded",
        "where it cannot happen it is proved",
        asking(
            sensing("output o when sx feeds w", "x y", copper="wire w to ground when y"),
            "free never o",
            "never x and y",
        ),
        {"short": "proved", "free": "fails 1"},
    ),
    Asked(
        "a-short-through-a-diode",
        "live passes a diode along it, grounded against it: from both ends it is a short",
        wired(
            "wire a from plus when x\nwire b to ground when y\ndiode a -> b",
            "x y",
            "seen never a is live and a is grounded",
        ),
        {"short": "fails 1", "seen": "fails 1"},
    ),
    Asked(
        "no-short-behind-a-diode",
        "what is live behind a diode does not reach the grounded wire before it",
        wired(
            "wire a to ground when y\nwire b from plus when x\ndiode a -> b",
            "x y",
            "apart possible b and a is grounded",
        ),
        {"short": "proved", "apart": "possible 1"},
    ),
    Asked(
        "a-short-is-of-settled-values",
        "requirements look at settled values, the built-in one too; even for an instant is asked apart",
        wired(
            "relay k coil x\nwire w from plus when not k, to ground when x",
            "x",
            "flash never w is live and w is grounded even for an instant",
            first="x is off",
        ),
        {"short": "proved", "flash": "fails 2"},
    ),
    Asked(
        "both-senses-read",
        "senses on a wire live and grounded read both",
        asking(
            fed(
                "sense a from w live\nsense b from w grounded",
                "wire w from plus when x, to ground when y",
                contacts("x y"),
            ),
            "both possible a and b\nfit never a and b and not (x and y)",
        ),
        {"both": "possible 1", "fit": "proved", "short": "fails 1"},
    ),
    Asked(
        "sources-are-ends-for-all-worlds",
        "what arrives at a source goes no further",
        wired(
            "source house when h\nwire near from house\nwire bus from plus when x\njoin bus with house when t",
            "h x t",
            "name never house xor h\nback never near and not h\nout always bus while h and t",
        ),
        {"name": "proved", "back": "proved", "out": "proved"},
    ),
    Asked(
        "at-most-one",
        "none or one of them",
        world("a b c", "two never (at most one of (a, b, c)) xor not (a and b or a and c or b and c)"),
        {"two": "proved"},
    ),
)

NUMBERS = (
    Asked(
        "without-jumps-through-all-constants",
        "a number passes through each constant on its way, and what lies between two",
        world(
            "x",
            "high possible engine above 1000 rpm\nlow never engine is 300 rpm and x\nmid never engine is 400 rpm and x",
            "engine without jumps",
            "engine below 300 rpm",
            "engine 0 .. 7000 rpm",
        ),
        {"high": "possible 7", "low": "fails 2", "mid": "fails 4"},
    ),
    Asked(
        "a-number-may-jump",
        "unless it is without jumps a number may jump",
        world(
            "x",
            "high possible engine above 1000 rpm\nlow possible engine is 300 rpm",
            first="engine below 300 rpm",
            more="engine 0 .. 7000 rpm",
        ),
        {"high": "possible 2", "low": "possible 2"},
    ),
    Asked(
        "a-range-that-begins-at-a-constant",
        "a constant at the end of the range is an interval too, and nothing lies beyond it",
        world(
            "x",
            "high possible engine above 300 rpm\nunder possible engine below 0 rpm\nall always engine at least 0 rpm",
            "engine without jumps",
            "engine is 0 rpm",
            "engine 0 .. 7000 rpm",
        ),
        {"high": "possible 4", "under": "impossible", "all": "proved"},
    ),
    Asked(
        "a-range-that-ends-at-a-constant",
        "the same at its upper end",
        world(
            "x",
            "top possible engine is 7000 rpm\nbeyond possible engine above 7000 rpm\nnear possible engine above 6999 rpm and engine below 7000 rpm",
            "engine without jumps",
            "engine is 0 rpm",
            "engine 0 .. 7000 rpm",
        ),
        {"top": "possible 5", "beyond": "impossible", "near": "possible 4"},
    ),
    Asked(
        "numbers-are-dense",
        "between two constants there is always one more value, and at one just that",
        world(
            "x",
            """
            between possible engine above 400 rpm and engine below 400.001 rpm
            just possible engine at least 400 rpm and engine at most 400 rpm and not engine is 400 rpm
            strict never engine above 400 rpm and engine below 400 rpm
            """,
            more="engine 0 .. 7000 rpm",
        ),
        {"between": "possible 1", "just": "impossible", "strict": "proved"},
    ),
    Asked(
        "units-are-exact",
        "units are exact rationals: the same value in two units is one constant",
        world(
            "x",
            """
            heat never coolant above 100 degC xor coolant above 212 degF
            speed never road above 1 mph xor road above 1.609344 km/h
            volts never bus above 24 V xor bus above 24000 mV
            """,
            more="coolant 0 .. 130 degC\nroad 0 .. 200 km/h\nbus 0 .. 30 V",
        ),
        {"heat": "proved", "speed": "proved", "volts": "proved"},
    ),
)
