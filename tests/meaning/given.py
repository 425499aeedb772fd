"""What is given, and when a verdict is no case or blocked."""

from __future__ import annotations

from tests.meaning.courses_box import sensing
from tests.meaning.sentences import Asked
from tests.meaning.vehicles import asking, world

# o is on with x; z is a stage that can never be on, and imp a rule that never holds.
NOTHING = sensing("output o when sx\noutput z when sx and not sx\nrule imp = sx and not sx", "x y")

CASES = (
    Asked(
        "no-case-of-while",
        "no case: the `while` part cannot occur",
        asking(
            NOTHING,
            """
            rule_never never x while imp
            rule_always always x while imp
            stage never x while z
            longer never o while imp for longer than 3 s
            instant never x while z even for an instant
            together never x while not x for longer than 3 s
            """,
        ),
        {
            "rule_never": "no case",
            "rule_always": "no case",
            "stage": "no case",
            "longer": "no case",
            "instant": "no case",
            "together": "proved",
        },
    ),
    Asked(
        "no-case-of-an-output",
        "no case: an output named that can never be on, but for what is found to fail",
        asking(
            NOTHING,
            """
            forbidden never z
            turned always not z
            in_part never z and o
            believed never imp
            wish possible z
            idle possible not z
            lit always z
            """,
        ),
        {
            "forbidden": "no case",
            "turned": "no case",
            "in_part": "no case",
            "believed": "proved",
            "wish": "impossible",
            "idle": "no case",
            "lit": "fails 1",
        },
    ),
    Asked(
        "no-case-of-p",
        "no case: p itself in `longer than`, `calls for` and `has lasted`, p in `waits for ... after p`",
        asking(
            NOTHING,
            """
            longer never imp for longer than 3 s
            within imp calls for x no later than 1 s
            lasting imp calls for x lasting 1 s
            lasted imp only after imp has lasted 3 s
            waits x waits for y after imp
            """,
        ),
        {
            "longer": "no case",
            "within": "no case",
            "lasting": "no case",
            "lasted": "no case",
            "waits": "no case",
        },
    ),
    Asked(
        "no-case-of-q-rising",
        "no case: q rising in `only after`; that r never comes, or q never does, is none",
        asking(
            NOTHING,
            """
            rises imp only after x
            rises_late imp only after x has lasted 3 s
            since o only after x since imp
            never_q imp waits for x
            """,
        ),
        {"rises": "no case", "rises_late": "no case", "since": "proved", "never_q": "proved"},
    ),
    Asked(
        "no-case-of-excused",
        "no case: p without r in `excused by r`",
        asking(
            NOTHING,
            """
            always_excused x calls for imp no later than 1 s, excused by x
            lasting_excused x calls for imp lasting 1 s, excused by o
            half_excused x calls for o no later than 1 s, excused by y
            """,
        ),
        {"always_excused": "no case", "lasting_excused": "no case", "half_excused": "proved"},
    ),
)

BLOCKED = (
    Asked(
        "a-contradiction",
        "assumptions that contradict each other block what rests on them, and nothing else",
        world("x y", "rests never x\nlater possible not x\nbeside possible y", "always x\nnever x"),
        {"rests": "blocked contradiction", "later": "blocked contradiction", "beside": "possible 1"},
    ),
    Asked(
        "a-longest-time-for-ever",
        "let time go no further: what must end and may not",
        world("x y", "rests never x for longer than 9 s\nbeside never y", "always x\nx lasts at most 5 s"),
        {"rests": "blocked time stops", "beside": "fails 1"},
    ),
    Asked(
        "two-longest-times",
        "what may always change lets time go on",
        world(
            "x",
            "on never x for longer than 5 s\noff never not x for longer than 4 s",
            "x lasts at most 5 s\nnot x lasts at most 4 s",
        ),
        {"on": "proved", "off": "proved"},
    ),
    Asked(
        "after-itself",
        "as long as on_delay(p, t) is true c is so: x that is off after itself lasts less than t",
        world(
            "x",
            "on never x for longer than 3 s\nat_3 possible on_delay(x, 3 s)\nless never x for longer than 2.9 s",
            "x is off after x has lasted 3 s",
        ),
        {"on": "proved", "at_3": "impossible", "less": "fails 2"},
    ),
    Asked(
        "after-itself-and-a-shortest-time",
        "a reachable situation from which no continuation lets time pass",
        world("x", "on never x for longer than 3 s", "x is off after x has lasted 3 s\nx lasts at least 5 s"),
        {"on": "blocked time stops"},
    ),
    Asked(
        "after-what-may-still-end",
        "an excluded c only says that p ends in time",
        world("x y", "on never x for longer than 3 s", "y is on after x has lasted 3 s\nnever y"),
        {"on": "proved"},
    ),
    Asked(
        "after-an-output-that-goes-on",
        "where p cannot end, time stops",
        asking(
            sensing("output o when true", "x y"),
            "rests never y and o\nbeside never x",
            "y is on after o has lasted 3 s\nnever y",
        ),
        {"rests": "blocked time stops", "beside": "fails 1"},
    ),
    Asked(
        "frozen-and-bounded",
        "what may not change and must",
        world("x", "on never x for longer than 5 s", "x lasts at most 5 s\nx changes only while false"),
        {"on": "blocked time stops"},
    ),
    Asked(
        "bounded-by-what-stands-still",
        "what must change and may not, as long as another may not change either",
        world(
            "x y",
            "rests never x for longer than 5 s",
            "x lasts at most 5 s\nx changes only while y\nnot y lasts at least 10 s",
        ),
        {"rests": "blocked time stops"},
    ),
    Asked(
        "after-and-a-shortest-time-of-not",
        "c that must hold again before it may",
        world("x y", "rests never y", "always x\ny is on after x has lasted 3 s\nnot y lasts at least 5 s"),
        {"rests": "blocked time stops"},
    ),
    Asked(
        "after-by-way-of-another",
        "a way on that has to be prepared in time is a way on",
        world(
            "x y z",
            "rests never x and not y for longer than 3 s",
            "y is on after x has lasted 3 s\ny changes only while z",
        ),
        {"rests": "proved"},
    ),
)

GIVEN = (
    Asked(
        "changes-only-while-an-output-that-falls",
        "y held just before the moment: an output that falls at the same moment still counts, one that rises does not",
        asking(
            sensing("output o when sb", "b", world="x contact\nat first x is off"),
            """
            falls possible x becomes on and not o
            rises possible x becomes on and o becomes on
            holds possible x becomes on and o
            idle never x becomes on and not previous(o)
            """,
            "x changes only while o",
        ),
        {"falls": "possible 2", "rises": "impossible", "holds": "possible 2", "idle": "proved"},
    ),
    Asked(
        "changes-only-while-an-edge",
        "an edge holds at its moment only, so it never held just before another",
        world("x y", "moves possible x", "x changes only while rises(y)", "x is off"),
        {"moves": "impossible"},
    ),
    Asked(
        "changes-only-while-each-other",
        "two that wait for each other stand still, and time goes on",
        world(
            "x y",
            "moves possible x or y\nstill possible on_delay(true, 9 s)",
            "x changes only while y\ny changes only while x",
            "x is off, y is off",
        ),
        {"moves": "impossible", "still": "possible 2"},
    ),
    Asked(
        "a-bound-on-both-together",
        "durations speak of unbroken runs of the whole condition",
        world(
            "a b",
            "both never a or b for longer than 5 s\nless never a or b for longer than 4.9 s\nalone never a for longer than 5 s",
            "a or b lasts at most 5 s",
        ),
        {"both": "proved", "less": "fails 2", "alone": "proved"},
    ),
    Asked(
        "a-run-that-goes-on",
        "a run still going on is not too short: a prefix that meets it all counts as a story",
        world(
            "x y",
            "soon never x\nends possible x becomes off\nquick never x becomes off and not previous(on_delay(x, 60 s)) and not y",
            "x lasts at least 60 s",
            "x is off",
        ),
        {"soon": "fails 2", "ends": "possible 3", "quick": "fails 3"},
    ),
    Asked(
        "what-the-box-does-not-do-yet",
        "the world is there before the output is: p may be an output, also of a box that sleeps",
        asking(
            sensing("output ign when sx", "x", "key_wire", world="engine 0 .. 7000 rpm"),
            """
            stops never engine above 0 rpm while not key for longer than 3 s
            less never engine above 0 rpm while not key for longer than 2.9 s
            runs possible engine above 0 rpm and on_delay(ign, 9 s)
            """,
            "engine is 0 rpm after not ign has lasted 3 s",
        ),
        {"stops": "proved", "less": "fails 2", "runs": "possible 2"},
    ),
)
