"""What is said of currents, whole sentences."""

from __future__ import annotations

from fractions import Fraction as F

from logiccheck.report import words_currents as words


def test_amperes() -> None:
    assert words.amperes(F("63.4")) == "63.4 A"
    assert words.amperes(F("0.12")) == "0.12 A"
    assert words.amperes(F("0.0015")) == "1.5 mA"
    assert words.amperes(F(1, 3)) == "about 0.33 A"
    assert words.amperes(F(0)) == "0 A"


def test_opening() -> None:
    assert words.opening("plus", F("63.4"), F("63.4"), F("91.2")) == (
        "The most that plus ever gives at once: 63.4 A (not 91.2 A, which all loads together would be)."
    )
    assert words.opening("plus", F("91.2"), F("91.2"), F("91.2")) == (
        "The most that plus ever gives at once: 91.2 A (all loads together)."
    )
    assert words.opening("plus", F(40), F("63.4"), F("91.2")) == (
        "The most that plus ever gives at once: at least 40 A, at most 63.4 A (not 91.2 A, which all loads together "
        "would be)."
    )
    assert words.opening("plus", F(40), F("91.2"), F("91.2")) == (
        "The most that plus ever gives at once: at least 40 A, at most 91.2 A (all loads together would be 91.2 A)."
    )


def test_beside_the_most() -> None:
    assert words.beside(0, counted=True) == ""
    assert words.beside(2, counted=True) == "Checks that fail: 2."
    assert words.beside(2, counted=False) == "Checks that fail: 2. Not all that may draw is counted: see below."


def test_feeds() -> None:
    assert words.gives(F(5), F(5), F(9)) == "the most at once: 5 A; if all were on at once: 9 A"
    assert words.nothing_found(F(9)) == "no situation was found; never more than 9 A"
    assert words.share(F(30), F(15), F(15)) == "30 A; that is 50 % of it"
    assert words.share(F(30), F(12), F(20)) == "30 A; that is about 67 % of it at most"
    assert words.drawing([("fan", F(14)), (words.BOX_AWAKE, F("0.05"))]) == "fan 14 A, box awake 50 mA"
    assert words.rush(F(20), F(20), F(30), ["fan"], ["pump", words.coil("hold")]) == (
        "the most at an instant: 20 A; if all inrush came at once: 30 A; just come on: fan; also on: pump, coil of hold"
    )
    assert words.rush(F(20), F(25), F(30), [], []) == (
        "the most at an instant: at least 20 A, at most 25 A; if all inrush came at once: 30 A"
    )
    assert words.more_ways(["fridge"]) == "counted in full, though there are other ways to feed it: fridge"


def test_air_that_is_taken() -> None:
    assert words.air_unsaid(["30 degC", "50 degC"]) == (
        "How warm the air around wires gets is not written, so 30 degC and 50 degC is taken; it is written so, under "
        "electrics: ambient 40 degC"
    )


def test_pairs() -> None:
    assert words.apart("250 ms", 3) == (
        "Wanted: at least 250 ms between the moments in which two come on that share a source, a fused wire or the "
        "box, while both are on; exactly 250 ms is far enough. Pairs: 3."
    )
    assert words.meets("250 ms", ["at first key is run", "at 80 ms the delay in fan is over"]) == (
        "both come on within less than 250 ms: at first key is run; at 80 ms the delay in fan is over"
    )
    assert words.proved_apart("250 ms") == (
        "never within less than 250 ms while both are on: proved for all situations, orders and timings"
    )
    assert words.apart_unsaid() == (
        "How far apart two inrushes have to begin is not written; it is written so, under electrics: apart 250 ms"
    )


def test_what_is_left_out() -> None:
    assert words.silent(["clock", "radio"]) == (
        "What these draw is not written, so they count as nothing: clock, radio."
    )
    assert words.unfed(["hold"]) == "From where these draw is not written, so they count nowhere: hold."
    assert words.differs([("starter", "start_wire")]) == (
        "Where loads hang on the wire that an output feeds, they count, and not what its own line says: starter, "
        "which feeds start_wire."
    )
    assert words.closing(1, 0, 12) == "Checks that fail: 1; not decided: 0; that hold: 12."
    assert words.how_to_see("my van.circuit") == ('The whole stories: logiccheck currents "my van.circuit" --stories')
