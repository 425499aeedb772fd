"""What fits, what does not, and what no table decides: never more is said than a table says."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from logiccheck.copper.sizing.ampacity import bounds
from logiccheck.copper.sizing.drop import drop
from logiccheck.copper.sizing.fuse import inrush
from logiccheck.copper.sizing.sized import Drop, Fit, Kind, Lack, Protects
from logiccheck.copper.sizing.sizing import sizing
from logiccheck.copper.tables.roots import power, root
from logiccheck.copper.tables.size import size_of
from logiccheck.copper.tables.table import Standing, table
from logiccheck.lang.program import NO_ELECTRICS, Electrical, Electrics


def protected(fuse: str, wire: str, place: Electrics = NO_ELECTRICS, **more: object) -> tuple[Fit, tuple[Lack, ...]]:
    what = Electrical(fuse=F(fuse), wire_size=wire, **more)  # type: ignore[arg-type]
    (found,) = (each for each in sizing(what, place, None) if each.kind is Kind.PROTECTS)
    return found.fit, found.lacks


@pytest.mark.parametrize(
    ("fuse", "wire", "fit"),
    [
        ("25", "16 AWG", Fit.FITS),
        ("25.1", "16 AWG", Fit.NOT),
        ("20", "1 mm2", Fit.FITS),  # no less copper than 18 AWG
        ("25", "1 mm2", Fit.NOT),
        ("25", "1.5 mm2", Fit.FITS),
        ("30", "1.5 mm2", Fit.NOT),  # ISO 10133
        ("80", "10 mm2", Fit.FITS),
        ("85", "10 mm2", Fit.OPEN),  # between 8 AWG and what ISO 10133 has
        ("100", "10 mm2", Fit.NOT),
        ("15", "0.75 mm2", Fit.FITS),
        ("20", "0.75 mm2", Fit.NOT),
        ("5", "0.5 mm2", Fit.OPEN),  # no table begins so thin
        ("20", "0.5 mm2", Fit.NOT),  # but what is too much for the next thicker wire is too much
        ("200", "50 mm2", Fit.FITS),
        ("300", "50 mm2", Fit.NOT),
        ("300", "70 mm2", Fit.OPEN),  # no table goes so far
        ("25", "14 SAE", Fit.FITS),  # less copper than 14 AWG, more than 16 AWG
        ("30", "14 SAE", Fit.OPEN),
        ("40", "14 SAE", Fit.NOT),
        ("10", "20 AWG", Fit.OPEN),
        ("30", "20 AWG", Fit.NOT),
        ("35", "2.1 mm2", Fit.FITS),
    ],
)
def test_fuse_against_wire(fuse: str, wire: str, fit: Fit) -> None:
    assert protected(fuse, wire)[0] is fit


def test_as_the_wire_lies() -> None:
    """A bundle, warm air and an engine space leave less; cold air adds nothing."""
    assert protected("15", "16 AWG", bundle=4)[0] is Fit.FITS  # 25 A times 0.6
    assert protected("15.1", "16 AWG", bundle=4)[0] is Fit.NOT
    assert protected("10", "16 AWG", bundle=25) == (Fit.OPEN, (Lack.BUNDLE,))
    assert protected("21", "16 AWG", engine_space=True)[0] is Fit.FITS
    assert protected("21.1", "16 AWG", engine_space=True)[0] is Fit.NOT
    assert protected("25", "16 AWG", Electrics(ambient=F(-20)))[0] is Fit.FITS
    assert protected("25.1", "16 AWG", Electrics(ambient=F(-20)))[0] is Fit.NOT
    assert protected("12.5", "16 AWG", Electrics(ambient=F("86.25")))[0] is Fit.FITS  # a quarter of 75 K left: half
    assert protected("12.51", "16 AWG", Electrics(ambient=F("86.25")))[0] is Fit.NOT
    assert protected("1", "16 AWG", Electrics(ambient=F(105)))[0] is Fit.NOT
    assert protected("21.1", "16 AWG", Electrics(ambient=F(60)), engine_space=True)[0] is Fit.NOT


def test_an_engine_space_is_not_colder_than_the_air() -> None:
    what = Electrical(fuse=F(10), wire_size="16 AWG", engine_space=True)
    for place, degrees in (
        (Electrics(), 50),
        (Electrics(ambient=F(40)), 50),
        (Electrics(ambient=F(60)), 60),
        (Electrics(ambient=F(60), engine_space=F(80)), 80),
    ):
        (found,) = (each for each in sizing(what, place, None) if each.kind is Kind.PROTECTS)
        assert isinstance(found.numbers, Protects)
        assert found.numbers.temperature == degrees


def test_what_rests_on_memory_says_so() -> None:
    """That a fuse fits a wire of 1.5 mm2 was read; that it is too large is from memory."""
    for fuse, standing in (("25", Standing.CONFIRMED), ("30", Standing.MEMORY)):
        what = Electrical(fuse=F(fuse), wire_size="1.5 mm2")
        (found,) = (each for each in sizing(what, Electrics(), None) if each.kind is Kind.PROTECTS)
        assert (Standing.MEMORY in {each.standing for each in found.basis}) is (standing is Standing.MEMORY)


def test_drop_goes_by_the_worse_end() -> None:
    """Stranded wire of 14 AWG has between 8.285 and 8.451 ohm/km: 10 A over 5.9 m lose 0.978 to 0.997 V, over 6 m 0.994
    to 1.014 V, over 6.1 m 1.011 V at least."""
    place = Electrics(nominal=F(10), ambient=F(20))
    found = [
        drop(Electrical(wire_size="14 AWG", wire_length=F(length)), place, F(10)).fit for length in ("5.9", "6", "6.1")
    ]
    assert found == [Fit.FITS, Fit.OPEN, Fit.NOT]


def test_drop_of_a_wire_beyond_the_table() -> None:
    """Thicker than the thickest it loses less, nobody knows how much; thinner than the thinnest it loses more."""
    place = Electrics(nominal=F(12), ambient=F(20))
    for size, current, fit in (("70 mm2", 100, Fit.FITS), ("70 mm2", 400, Fit.OPEN), ("0.35 mm2", 3, Fit.OPEN)):
        found = drop(Electrical(wire_size=size, wire_length=F(5)), place, F(current))
        assert (found.fit, found.lacks) == (fit, (Lack.SIZE,) if fit is Fit.OPEN else ())


def test_drop_that_is_allowed() -> None:
    """10 % where nothing is said, 3 % where that is; there and back at 20 degC: 13.3 ohm/km, 5 m, 6 A: 0.798 V."""
    place = Electrics(nominal=F(12), ambient=F(20))
    wire = Electrical(wire_size="1.5 mm2", wire_length=F(5))
    found = drop(wire, place, F(6))
    assert isinstance(found.numbers, Drop)
    assert (found.numbers.lost.low, found.numbers.lost.high, found.numbers.limit) == (F("0.798"), F("0.798"), F("1.2"))
    assert found.fit is Fit.FITS
    critical = Electrical(wire_size="1.5 mm2", wire_length=F(5), drop=F(3))
    assert drop(critical, place, F(6)).fit is Fit.NOT
    just = Electrical(wire_size="1.5 mm2", wire_length=F(5), drop=F("6.65"))
    assert drop(just, place, F(6)).fit is Fit.FITS  # 0.798 V is 6.65 % of 12 V exactly


def test_what_is_missing_is_named() -> None:
    found = {each.kind: each.lacks for each in sizing(Electrical(), Electrics(), None)}
    assert found == {
        Kind.CONTINUOUS: (Lack.CURRENT, Lack.FUSE),
        Kind.PROTECTS: (Lack.FUSE,),
        Kind.DROP: (Lack.CURRENT, Lack.WIRE, Lack.NOMINAL),
    }
    odd = Electrical(fuse=F(10), wire_size="13 SAE", wire_length=F(1))
    found = {each.kind: each.lacks for each in sizing(odd, Electrics(nominal=F(12)), F(5))}
    assert found[Kind.PROTECTS] == found[Kind.DROP] == (Lack.SIZE,)
    assert sizing(Electrical(fuse=F(10)), Electrics(ambient=F(90)), F(5))[0].lacks == (Lack.HEAT,)
    assert inrush(Electrical(F(5), F(50), 100_000)).lacks == (Lack.FUSE,)


def test_bounds_of_every_size_are_in_order() -> None:
    """A thicker wire never carries less, and the lower bound is never above the upper one."""
    for inside in (False, True):
        for degrees in (20, 40, 70):
            before = F(0)
            for hundredths in range(50, 6000, 25):
                size = size_of(f"{hundredths / 100} mm2")
                assert size is not None
                low, high = bounds(size, inside, F(degrees))
                assert low is None or high is None or low.amperes <= high.amperes
                if low is not None and size.number != F("0.75"):
                    assert low.amperes >= before
                    before = low.amperes


def test_roots_are_cut_or_raised() -> None:
    assert (root(F(2), 2, 3), root(F(2), 2, 3, up=True), root(F(4), 2, up=True)) == (F("1.414"), F("1.415"), 2)
    assert power(F(2), F(1, 2)) ** 2 < 2 < power(F(2), F(1, 2), up=True) ** 2
    assert (power(F(2), F(-1)), power(F(2), F(3))) == (F(1, 2), 8)


def test_every_table_says_where_it_is_from() -> None:
    names = ("awg", "copper", "iec60228", "sae", "ampacity", "ampacity_mm2", "bundle", "warm_wire", "allowed_drop")
    names += ("blade_sizes", "large_sizes", "blade_gates", "large_gates", "continuous", "warm_fuse", "reserve")
    for name in (*names, "self_discharge", "at_rest"):
        found = table(name)
        assert found.title
        assert found.standard
        assert found.unit
        assert found.rows
        assert found.standing is Standing.MEMORY or found.read
