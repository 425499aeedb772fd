"""Requirements on three signals of a given course: the sentences about forms, with edges and instants in them."""

from __future__ import annotations

from tests.meaning.sentences import OnSignals

LONGER = (
    OnSignals(
        "gap-without-time",
        "for longer than: a gap that lasts no time does not end an interval",
        "never not p or previous(p) for longer than 3 s",
        "[2,..)", "", "", "after 3",
    ),
    OnSignals(
        "gap-with-time",
        "a gap that lasts any time ends it",
        "never p for longer than 3 s",
        "[0,3) [3.001,6)", "", "", "holds",
    ),
    OnSignals(
        "no-longer-than-an-instant",
        "what is true at its moment only lasts through no interval",
        "never p and not previous(p) for longer than 0.001 s",
        "[1,2) [3,..)", "", "", "holds",
    ),
    OnSignals(
        "longer-while",
        "never p while r is never (p and r)",
        "never p while r for longer than 2 s",
        "[0,3) [4,9)", "", "[1,7)", "after 6",
    ),
    OnSignals(
        "longer-joined",
        "p holds through an interval also when what makes it true changes",
        "never p or q for longer than 3 s",
        "[0,2)", "[2,4)", "", "after 3",
    ),
    OnSignals(
        "longer-off-delay",
        "a timer may stand in a requirement; false exactly at t after the fall",
        "never off_delay(p, 2 s) for longer than 3 s",
        "[0,1) [3.1,4)", "", "", "holds",
    ),
    OnSignals(
        "longer-off-delay-met",
        "due and rise at one moment leave no gap",
        "never off_delay(p, 2 s) for longer than 3 s",
        "[0,1) [3,4)", "", "", "after 3",
    ),
)  # fmt: skip

CALLS = (
    OnSignals(
        "calls-for-an-edge",
        "calls for: q may be an edge, and answers all instants up to t before it",
        "p calls for q becomes on no later than 2 s",
        "[1,3)", "[3,4)", "", "holds",
    ),
    OnSignals(
        "calls-for-an-edge-again",
        "what comes after the answer is unanswered anew: the oldest unanswered instant counts",
        "p calls for q becomes on no later than 2 s",
        "[1,3.5)", "[3,4)", "", "after 5",
    ),
    OnSignals(
        "calls-between-moments",
        "an instant between two moments needs its answer too",
        "p calls for q becomes on no later than 2 s",
        "[1,9)", "[1,2)", "", "after 3",
    ),
    OnSignals(
        "calls-with-an-edge",
        "an edge calls at its moment only",
        "p becomes on calls for q no later than 2 s",
        "[1,9)", "[0.5,1.5)", "", "holds",
    ),
    OnSignals(
        "calls-excused-at-the-same-instant",
        "excused by r at the very instant of p: there is then no p without r",
        "p becomes on calls for q no later than 2 s, excused by r becomes on",
        "[1,9)", "", "[1,2)", "no case",
    ),
    OnSignals(
        "calls-excused-at-the-last-instant",
        "excused by r at t later",
        "p becomes on calls for q no later than 2 s, excused by r becomes on",
        "[1,9)", "", "[3,4)", "holds",
    ),
    OnSignals(
        "calls-excused-too-late",
        "r later than t excuses nothing",
        "p becomes on calls for q no later than 2 s, excused by r",
        "[1,9)", "", "[3.1,4)", "after 3",
    ),
    OnSignals(
        "calls-excused-before",
        "r that is over before p excuses nothing",
        "p becomes on calls for q no later than 2 s, excused by r",
        "[1,9)", "", "[0,1)", "after 3",
    ),
    OnSignals(
        "calls-from-time-0",
        "there is no edge at time 0",
        "p becomes on calls for q no later than 2 s",
        "[0,..)", "", "", "no case",
    ),
    OnSignals(
        "calls-lasting-with-an-edge",
        "q from then on for t: from the instant of the edge up to t later",
        "p becomes on calls for q lasting 3 s",
        "[1,9)", "[1,4)", "", "holds",
    ),
    OnSignals(
        "calls-lasting-from-before",
        "q has to hold at the instant of p too",
        "p becomes on calls for q lasting 3 s",
        "[1,9)", "[1.001,5)", "", "at 1",
    ),
    OnSignals(
        "calls-lasting-each-instant",
        "every instant with p calls anew",
        "p calls for q lasting 3 s",
        "[1,2)", "[1,4)", "", "at 4",
    ),
    OnSignals(
        "calls-lasting-excused-at-once",
        "until r: r at the instant of p asks for nothing",
        "p becomes on calls for q lasting 3 s, excused by r becomes on",
        "[1,9)", "", "[1,2)", "no case",
    ),
    OnSignals(
        "calls-lasting-excused-as-q-ends",
        "until r: r at the instant at which q ends is in time",
        "p becomes on calls for q lasting 3 s, excused by r becomes on",
        "[1,9)", "[1,2)", "[2,9)", "holds",
    ),
    OnSignals(
        "calls-lasting-excused-before",
        "r that was before p excuses nothing",
        "p becomes on calls for q lasting 3 s, excused by r",
        "[1,9)", "[1,2)", "[0,1)", "at 2",
    ),
    OnSignals(
        "calls-lasting-all-along",
        "while p goes on every instant calls: q needs to go on, r ends what was called before it only",
        "p calls for q lasting 1 s, excused by r becomes on",
        "[0,4)", "[0,3)", "[2,9)", "at 3",
    ),
)  # fmt: skip

ONLY_AFTER = (
    OnSignals(
        "only-after-the-fall-included",
        "p at the instant at which q last fell counts",
        "q only after p becomes on",
        "[2,2.5) [4,9)", "[3,4) [5,6)", "", "holds",
    ),
    OnSignals(
        "only-after-before-the-fall",
        "p before q last fell does not count, be it once",
        "q only after p",
        "[0,3.9)", "[3,4) [5,6)", "", "at 5",
    ),
    OnSignals(
        "only-after-up-to-the-fall",
        "p that ends as q falls is not there at that instant",
        "q only after p",
        "[0,4)", "[3,4) [5,6)", "", "at 5",
    ),
    OnSignals(
        "only-after-time-0",
        "q true at time 0 needs p at time 0",
        "q only after p",
        "[0,1)", "[0,2)", "", "holds",
    ),
    OnSignals(
        "only-after-lasting-at-time-0",
        "at time 0 nothing has lasted",
        "q only after p has lasted 1 s",
        "[0,9)", "[0,2)", "", "at 0",
    ),
    OnSignals(
        "only-after-lasted-some-instant",
        "p unbroken for t at some instant since q fell, though no longer at the rise",
        "q only after p has lasted 2 s",
        "[0,3)", "[5,6)", "", "holds",
    ),
    OnSignals(
        "only-after-lasted-until-the-fall",
        "p unbroken for t before q fell and not at that instant is spent",
        "q only after p has lasted 2 s",
        "[0,4)", "[2,4) [5,6)", "", "at 5",
    ),
    OnSignals(
        "only-after-lasted-reaches-back-over-the-fall",
        "the t may reach back before q last fell",
        "q only after p has lasted 3 s",
        "[0,4.5)", "[3,4) [5,6)", "", "holds",
    ),
    OnSignals(
        "only-after-since-at-the-rise",
        "since the last instant with r, when that is the rise itself: only then counts",
        "q only after p since r",
        "[1,5)", "[5,6)", "[4,9)", "at 5",
    ),
    OnSignals(
        "only-after-since-edge",
        "p at the very instant of r counts",
        "q only after p becomes on since r becomes on",
        "[4,9)", "[5,6) [7,8)", "[4,9)", "holds",
    ),
    OnSignals(
        "only-after-since-not-the-fall",
        "with since the fall of q does not matter",
        "q only after p becomes on since r becomes on",
        "[1,2)", "[3,4) [5,6) [7,8)", "[6,9)", "at 7",
    ),
    OnSignals(
        "only-after-since-time-0",
        "with since and no r from the start on",
        "q only after p since r",
        "[0,1)", "[0,2) [3,4)", "", "holds",
    ),
    OnSignals(
        "only-after-lasted-since-reaches-back",
        "the t may reach back before the last r",
        "q only after p has lasted 5 s since r",
        "[0,10)", "[9,9.5)", "[8,8.1)", "holds",
    ),
    OnSignals(
        "only-after-lasted-since-too-short",
        "p has to be unbroken for t at an instant since the last r",
        "q only after p has lasted 5 s since r",
        "[0,8)", "[9,9.5)", "[8,8.1)", "at 9",
    ),
    OnSignals(
        "only-after-an-output-that-holds-on",
        "a rise of q only: p need not go on",
        "q only after p",
        "[1,1.5)", "[1,..)", "", "holds",
    ),
)  # fmt: skip

WAITS = (
    OnSignals(
        "waits-again",
        "each instant with p begins to wait anew, after an r too",
        "q waits for r after p",
        "[1,2)", "[3,4)", "[1.5,1.6)", "at 3",
    ),
    OnSignals(
        "waits-with-an-edge",
        "an edge p waits from its moment on; the first r ends it for good",
        "q waits for r after p becomes on",
        "[1,2)", "[3,4) [9,9.5)", "[1.5,1.6)", "holds",
    ),
    OnSignals(
        "waits-not-before",
        "before the first p nothing waits",
        "q waits for r after p",
        "[5,6)", "[0,4)", "", "holds",
    ),
    OnSignals(
        "waits-and-q-goes-on",
        "no q from the instant with p on: a q that is true already is one",
        "q waits for r after p",
        "[5,6)", "[0,9)", "", "at 5",
    ),
    OnSignals(
        "waits-r-together-with-p",
        "r at the same instant ends it",
        "q waits for r becomes on after p becomes on",
        "[1,2)", "[1,4)", "[1,4)", "holds",
    ),
    OnSignals(
        "waits-r-just-before-p",
        "an r that is over when p comes ends nothing",
        "q waits for r after p becomes on",
        "[2,3)", "[4,5)", "[1,2)", "at 4",
    ),
    OnSignals(
        "waits-r-at-the-instant-of-q",
        "r at the instant of q is in time",
        "q waits for r becomes on",
        "", "[4,5)", "[4,4.5)", "holds",
    ),
    OnSignals(
        "waits-for-ever",
        "r may never come",
        "q waits for r",
        "", "", "", "holds",
    ),
    OnSignals(
        "waits-from-time-0",
        "from the start: q at time 0",
        "q waits for r",
        "", "[0,1)", "[1,2)", "at 0",
    ),
)  # fmt: skip

PLAIN = (
    OnSignals(
        "always-while",
        "always p while r is never (r and not p)",
        "always p while r",
        "[0,3)", "", "[4,5)", "at 4",
    ),
    OnSignals(
        "edges-hold-at-their-moment-only",
        "edges are between settled values and hold at their moment only",
        "never p becomes on and q",
        "[1,9)", "[1.001,9)", "", "holds",
    ),
    OnSignals(
        "edges-at-one-moment",
        "all that falls on one instant is one moment",
        "never p becomes off and q becomes on",
        "[1,3)", "[3,4)", "", "at 3",
    ),
    OnSignals(
        "stored-by-an-edge",
        "a stored state in a requirement may be set by an edge, and is never set at time 0",
        "never bistable(set p becomes on, reset q) and r",
        "[0,2) [4,5)", "[6,7)", "[1,3) [6,9)", "holds",
    ),
    OnSignals(
        "stored-set-wins",
        "set wins when told so",
        "never bistable(set p, reset q, set wins) and r",
        "[1,5)", "[2,3)", "[2,2.5)", "at 2",
    ),
    OnSignals(
        "an-on-delay-in-a-requirement",
        "on_delay holds at the instant it falls due",
        "never on_delay(p, 3 s) and q becomes on",
        "[1,5)", "[4,6)", "", "at 4",
    ),
    OnSignals(
        "an-on-delay-that-never-comes",
        "p falls at the moment at which it would come",
        "never on_delay(p, 3 s)",
        "[1,4)", "", "", "holds",
    ),
    OnSignals(
        "a-one-shot-in-a-requirement",
        "a rise at the instant at which it ends is lost",
        "never one_shot(p, 2 s) and q",
        "[1,2) [3,9)", "[3,9)", "", "holds",
    ),
    OnSignals(
        "an-impulse-relay-in-a-requirement",
        "reset wins",
        "never impulse_relay(p, reset q) and r",
        "[1,2) [3,4)", "[3,3.5)", "[3,9)", "holds",
    ),
)  # fmt: skip
