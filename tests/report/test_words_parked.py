"""The sentences about the battery of a parked vehicle, whole."""

from __future__ import annotations

from fractions import Fraction as F

from logiccheck.copper.draws.draws import Draw, What
from logiccheck.lang.program import Const
from logiccheck.report import words_parked as words


def draw(what: What, amperes: str) -> Draw:
    return Draw(what, "hold", "", Const(True), "plus", F(amperes))


def test_opening() -> None:
    known = words.drained("Starter battery", F(9), F(9), words.lasts(F(1, 8), F(1, 8)))
    assert known == "Starter battery gives 9 A at worst; that lasts for 3 hours"
    between = words.drained("plus", F("0.0265"), F("0.5"), words.lasts(F(2), F("37.735")))
    assert between == (
        "plus gives at least 26.5 mA, at most 0.5 A, at worst; that lasts for 2 days at least, for about 37.7 days at most"
    )
    assert words.lasts(None, None) == "for how long that lasts is not known"
    assert words.lasts(F(40), None) == "that lasts for 40 days at least, how much longer is not known"
    assert words.drained("plus", F(0), F(0), words.lasts(F(40), F(40)), loses=True) == (
        "plus gives nothing but what it loses by itself; that lasts for 40 days"
    )
    assert words.drained("plus", F(0), F(0), words.lasts(None, None)) == (
        "plus gives nothing; for how long that lasts is not known"
    )
    assert words.opening("Van", [known, words.nothing_found("house", F(7))]) == (
        "Van, parked and left alone: Starter battery gives 9 A at worst; that lasts for 3 hours; what house gives is "
        "not known, but for this: at most 7 A."
    )
    assert words.opening("Van", [known], counted=False) == (
        "Van, parked and left alone: Starter battery gives 9 A at worst; that lasts for 3 hours. Not all that may draw is "
        "counted: see below."
    )


def test_what_draws() -> None:
    parts = [
        words.takes(draw(What.COIL, "0.15"), F(1)),
        words.takes(draw(What.AWAKE, "0.12"), F(1)),
        words.takes(draw(What.ASLEEP, "0.0015"), F(1, 3)),
        words.takes(draw(What.LOAD, "7"), F(2, 5)),
        words.takes(draw(What.OUTPUT, "1.2345"), F(1)),
    ]
    assert parts == [
        "the coil of hold 0.15 A",
        "the box, awake 0.12 A",
        "the box, asleep 1.5 mA, about 33.3 % of the time",
        "hold 7 A, 40 % of the time",
        "hold about 1.234 A",
    ]
    assert words.draws(parts[:2], F("0.27")) == "For ever 0.27 A: the coil of hold 0.15 A; the box, awake 0.12 A."
    assert words.draws([], F(0)) == "Nothing draws anything for ever."


def test_how_it_comes_and_stays() -> None:
    assert words.story(["at first key is off", "at 1 s door goes to open"]) == (
        "How it comes to that: at first key is off; at 1 s door goes to open; then no hand moves any more."
    )
    assert words.stays(None, None) == "From there on nothing changes."
    assert words.stays("5 min", "0.8 s") == "From 5 min on all goes round every 0.8 s."


def test_how_sure() -> None:
    assert words.how_sure(4, True, F(9)) == (
        "Ways found: 4; this is the worst of them. That there is no worse one is proved for all situations, orders and "
        "timings."
    )
    assert words.how_sure(1, False, F(9)) == (
        "Ways found: 1; this is the worst of them. Whether there is a worse one is not known; it never gives more than "
        "9 A for ever."
    )
    assert words.others([words.other(F(5), ["fridge"]), words.other(F(0), [])]) == (
        "Others found: 5 A (fridge); 0 A. There may be further ones."
    )


def test_the_battery() -> None:
    assert words.charge(F(24), F(60), F(60), usual=True) == (
        "It gives 24 Ah of 60 Ah: with 60 % left it still cranks, which is usual."
    )
    assert words.loses(F(1, 300), F(25)) == (
        "By itself it loses as much as about 3.33 mA would take, at 25 degC: counted."
    )
    assert words.loses(None, F(25)) == "What it loses by itself is not counted; it is written so: loses 4 % a month"
    assert words.limit(F("0.025"), F("0.0251")) == (
        "This is more than 25 mA, which a service text allows a parked vehicle with this battery."
    )
    assert words.limit(F("0.025"), F("0.025")).startswith("This is not more than 25 mA,")
    assert words.volts(F(60), F("12.28"), F("12.36")) == (
        "With 60 % left, a battery of 12 V at rest shows between 12.28 V and 12.36 V: published tables differ."
    )
    assert words.no_battery("plus") == (
        "For how long is not known. It is written so, under electrics: battery plus 70 Ah, cranks with 60 %"
    )


def test_what_is_not_counted() -> None:
    assert (
        words.silent(["lamp", "horn"])
        == "Not counted, for they do not say what they draw, and may be on for ever: lamp, horn."
    )
    assert words.unfed(["k"]) == "Not counted, for they do not say what supplies them: k."
    assert words.restless(2) == (
        "Stories after which it does not come to rest for ever, as far as was seen: 2; they are not counted."
    )
    assert words.never_parked("Van") == (
        "Van: NO CASE: it is never parked and at rest, proved for all situations, orders and timings. See what is said "
        "after `parked`, and what is given."
    )


def test_what_is_not_the_whole_answer() -> None:
    """Timers that end too late, and what several sources feed."""
    assert words.long(["hold", "lamp"]) == (
        "Not counted is what is drawn until a timer ends, and then no more. With all on that can draw, these last long "
        "enough to drain the battery before they end: hold, lamp."
    )
    assert words.several(["horn"]) == "Counted in full for each source that can feed it: horn."
