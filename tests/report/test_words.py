"""Whole sentences, as people read them."""

from __future__ import annotations

from collections import Counter

import pytest

from logiccheck.engine.verdict import Kind, Obstacle, Trouble, Undecided
from logiccheck.lang.program import (
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Guard,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Possible,
    Signal,
    SignalKind,
    WaitsFor,
)
from logiccheck.model.signals import Instant
from logiccheck.model.story import Answer
from logiccheck.report import (
    words_causes,
    words_check,
    words_mistaken,
    words_played,
    words_stories,
    words_trouble,
    words_verdict,
)

S = 1_000_000


def name(text: str) -> Signal:
    """An output of this name."""
    return Signal(SignalKind.OUTPUT, text)


PUMP, LAMP, DOOR = name("pump"), name("lamp"), name("door")


def say(expr: Expr) -> str:
    """Names as they are; nothing else is asked for here."""
    assert isinstance(expr, Signal)
    return expr.name


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        (Never(PUMP, None, False, False), "At 10 s this happens: pump."),
        (Never(PUMP, DOOR, False, False), "At 10 s this happens: pump, while door."),
        (Never(PUMP, DOOR, False, True), "At 10 s this happens, if only for an instant: pump, while door."),
        (Never(Not(LAMP), DOOR, True, False), "At 10 s this does not hold: lamp, while door."),
        (Never(Not(LAMP), None, True, True), "At 10 s this does not hold, if only for an instant: lamp."),
        (NeverLonger(PUMP, DOOR, 4 * S), "Unbroken since 6 s, and so for longer than 4 s: pump, while door."),
        (
            CallsWithin(DOOR, LAMP, 2 * S, None),
            "At 8 s this happens: door. Within 2 s of it this does not follow: lamp.",
        ),
        (
            CallsWithin(DOOR, LAMP, 2 * S, PUMP),
            "At 8 s this happens: door. Within 2 s of it this does not follow: lamp. Nor does this excuse it: pump.",
        ),
        (
            CallsLasting(DOOR, LAMP, 3 * S, None),
            "At 10 s this is not so: lamp. It has to last 3 s from every instant with: door.",
        ),
        (
            CallsLasting(DOOR, LAMP, 3 * S, PUMP),
            "At 10 s this is not so: lamp. It has to last 3 s from every instant with: door. "
            "Nor does this excuse it: pump.",
        ),
        (
            OnlyAfter(PUMP, DOOR, None, None),
            "At 10 s this begins: pump. It needs before it: door. "
            "There was none since the start, or since it last ended.",
        ),
        (
            OnlyAfter(PUMP, DOOR, 240 * S, LAMP),
            "At 10 s this begins: pump. It needs before it, unbroken for 4 min: door. "
            "There was none since the start, or since the last instant with: lamp.",
        ),
        (WaitsFor(PUMP, LAMP, None), "At 10 s this is so: pump. It has to wait for this, which has not come: lamp."),
        (
            WaitsFor(PUMP, LAMP, DOOR),
            "At 10 s this is so: pump. Since this: door, it has to wait for this, which has not come: lamp.",
        ),
        (Possible(PUMP), "This can never happen: pump. That is proved for all situations, orders and timings."),
    ],
)
def test_what_went_wrong(form: Form, sentence: str) -> None:
    """One sentence for every form of requirement."""
    assert words_verdict.went_wrong(form, say, Instant(10 * S)) == sentence


def test_what_went_wrong_just_after() -> None:
    """What begins to be so only just after a moment is not said to be so at it."""
    sentence = words_verdict.went_wrong(Never(PUMP, None, False, False), say, Instant(10 * S, after=True))
    assert sentence == "Just after 10 s this happens: pump."


def tally(
    asked: int,
    unmet: int = 0,
    left_out: int = 0,
    interrupted: bool = False,
    waived: int = 0,
    open_dangers: int = 0,
    unlooked: bool = False,
    **kinds: int,
) -> words_check.Tally:
    """Verdicts by kind: fails=2, no_case=1."""
    counts = Counter({Kind[kind.upper()]: count for kind, count in kinds.items()})
    return words_check.Tally(
        counts, asked, unmet, left_out, interrupted, waived, open_dangers=open_dangers, unlooked=unlooked
    )


@pytest.mark.parametrize(
    ("tally", "first", "last"),
    [
        (
            tally(proved=23, fails=2, asked=25),
            "Van: NOT SAFE TO LOAD. Requirements that fail: 2 of 25.",
            "proved 23, fails 2, not decided 0, no case 0, blocked 0: not safe to load",
        ),
        (
            tally(proved=3, asked=3),
            "Van: PROVED. Requirements that hold in all situations, orders and timings: 3 of 3.",
            "proved 3, fails 0, not decided 0, no case 0, blocked 0: "
            "all proved, within what is given and the limits above",
        ),
        (
            tally(proved=1, asked=1, left_out=24),
            "Van: PROVED. Requirements that hold in all situations, orders and timings: 1 of 1. Not checked: 24.",
            "proved 1, fails 0, not decided 0, no case 0, blocked 0, not checked 24: "
            "what was checked is proved, within what is given and the limits above",
        ),
        (
            tally(proved=3, asked=3, waived=2),
            "Van: PROVED. Requirements that hold in all situations, orders and timings: 3 of 3. Waived: 2.",
            "proved 3, fails 0, not decided 0, no case 0, blocked 0, waived 2: "
            "what was checked is proved, within what is given and the limits above",
        ),
        (
            tally(proved=1, asked=0, waived=2),
            "Van: NOTHING WAS ASKED. Without a requirement of your own nothing is shown. Waived: 2.",
            "proved 1, fails 0, not decided 0, no case 0, blocked 0, waived 2: nothing was asked",
        ),
        (
            tally(proved=3, asked=3, unmet=1),
            "Van: NOT AS EXPECTED. Expectations not met: 1.",
            "proved 3, fails 0, not decided 0, no case 0, blocked 0, expectations not met 1: not as expected",
        ),
        (
            tally(proved=1, not_decided=2, asked=3, interrupted=True),
            "Van: NOT SHOWN SAFE. Requirements not decided: 2 of 3. This run was interrupted.",
            "proved 1, fails 0, not decided 2, no case 0, blocked 0, interrupted: not shown safe",
        ),
        (
            tally(proved=1, no_case=1, asked=2),
            "Van: NOT SHOWN SAFE. Requirements that can never matter: 1 of 2.",
            "proved 1, fails 0, not decided 0, no case 1, blocked 0: not shown safe",
        ),
        (
            tally(blocked=2, asked=2),
            "Van: NOT SHOWN SAFE. Requirements without a verdict: 2 of 2.",
            "proved 0, fails 0, not decided 0, no case 0, blocked 2: not shown safe",
        ),
        (
            tally(proved=1, asked=0),
            "Van: NOTHING WAS ASKED. Without a requirement of your own nothing is shown.",
            "proved 1, fails 0, not decided 0, no case 0, blocked 0: nothing was asked",
        ),
        (
            tally(proved=2, asked=2, open_dangers=3),
            "Van: NOT SHOWN SAFE. Findings from which danger to people may come, not decided: 3.",
            "proved 2, fails 0, not decided 0, no case 0, blocked 0, findings of danger not decided 3: not shown safe",
        ),
        (
            tally(proved=2, asked=2, unlooked=True),
            "Van: PROVED. Requirements that hold in all situations, orders and timings: 2 of 2.",
            "proved 2, fails 0, not decided 0, no case 0, blocked 0, findings looked for in the text only: "
            "all proved, within what is given and the limits above",
        ),
    ],
)  # fmt: skip
def test_first_and_last_line(tally: words_check.Tally, first: str, last: str) -> None:
    """Each alone says what the check came to; never "proved" where something is open."""
    assert words_check.opening("Van", tally) == first
    assert words_check.closing(tally) == last


@pytest.mark.parametrize(
    ("sentence", "words"),
    [
        (
            words_causes.because("pump", "on", "off", single=True, count=1),
            "pump is on because of the marked term; were that the opposite, it would be off:",
        ),
        (
            words_causes.because("pump", "off", "on", single=True, count=2),
            "pump is off because of the marked terms; were any one of them the opposite, it would be on:",
        ),
        (
            words_causes.because("pump", "on", "off", single=False, count=2),
            "pump is on because of the marked terms together:",
        ),
        (words_causes.always("pump", "on", "off", on=True), "pump is on whenever it has power:"),
        (words_causes.always("pump", "off", "on", on=False), "pump is never on:"),
        (words_played.opening("Van", words_played.Tally(2, 3, 4)), "Van: NOT AS EXPECTED. Expectations met: 3 of 4."),
        (words_played.opening("Van", words_played.Tally(0)), "Van: NOTHING TO PLAY. The file has no scenario."),
        (words_played.opening("Van", words_played.Tally(1)), "Van: played. Nothing was expected."),
        (
            words_played.opening("Van", words_played.Tally(1, 0, 1, broken=1)),
            "Van: BREAKS WHAT IS REQUIRED. Requirements broken: 1. Expectations met: 0 of 1.",
        ),
        (
            words_played.closing(words_played.Tally(1, 0, 1, broken=1)),
            "scenarios 1, expectations met 0, not met 1, requirements broken 1: breaks what is required",
        ),
        (
            words_mistaken.opening("a.circuit", 3),
            "a.circuit: CANNOT BE READ AS IT STANDS. Mistakes: 3. Nothing was checked.",
        ),
        (words_mistaken.unknown("rule", "pimp", ["pump"], ["pump"]), "There is no rule named pimp. Did you mean pump?"),
        (words_mistaken.unknown("rule", "x", [], []), "There is no rule named x; the file has none at all."),
    ],
)  # fmt: skip
def test_sentences(sentence: str, words: str) -> None:
    """Word for word."""
    assert sentence == words


def test_every_reason_and_obstacle_has_its_words() -> None:
    """No verdict is without a sentence."""
    assert set(words_verdict.UNDECIDED) == set(Undecided)
    assert set(words_verdict.OBSTACLES) == set(Obstacle) == set(words_trouble.TITLES)
    assert set(words_verdict.GUARDS) == set(Guard)
    for obstacle in Obstacle:
        assert words_trouble.sentences(Trouble(obstacle, None))


@pytest.mark.parametrize(
    ("answer", "moments", "sentence"),
    [
        (Answer.YES, 5, "It can also happen without any such coincidence, in a longer story. Its moments: 5."),
        (Answer.YES, 4, "It can also happen without any such coincidence, in as many moments."),
        (Answer.NO, 0, "Without such a coincidence it cannot happen."),
        (
            Answer.OPEN,
            0,
            "Whether it can happen without any such coincidence was not decided. More time: --budget SECONDS.",
        ),
    ],
)
def test_whether_it_takes_a_coincidence(answer: Answer, moments: int, sentence: str) -> None:
    """Of a story of four moments."""
    assert words_stories.apart(answer, moments, 4) == sentence


TIMERS = [("hold", "4 min 5 s"), ("fan", "3 s")]


@pytest.mark.parametrize(
    ("answer", "nominal", "sentence"),
    [
        (Answer.YES, True, "It also happens when each timer always runs its nominal time: hold 4 min 5 s, fan 3 s."),
        (
            Answer.YES,
            False,
            "It also happens when each timer always runs one and the same time: hold 4 min 5 s, fan 3 s.",
        ),
        (
            Answer.NO,
            True,
            "When each timer always runs one and the same time, it does not happen like this: hold, fan.",
        ),
        (
            Answer.OPEN,
            False,
            "Whether it also happens when each timer always runs one and the same time was not decided.",
        ),
    ],
)
def test_whether_timers_may_be_fixed(answer: Answer, nominal: bool, sentence: str) -> None:
    """Each timer with a time, in a story that chose the lengths of runs."""
    assert words_stories.fixed(answer, TIMERS, nominal) == sentence


def test_things_at_one_instant() -> None:
    """Hands by name, timers as what they do then."""
    sentence = words_stories.together("4 s", ("key", "door"), ("prime",))
    assert sentence == "At 4 s these fall on the very same instant: key, door, the end of timer prime."
