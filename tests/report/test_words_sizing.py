"""What is said of copper held against published tables, whole sentences."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from logiccheck.copper.sizing.ampacity import protects
from logiccheck.copper.sizing.fuse import inrush
from logiccheck.copper.sizing.sized import Kind, Lack, Sized, lacking
from logiccheck.copper.sizing.sizing import sizing
from logiccheck.copper.tables.size import Size, System
from logiccheck.lang.program import Electrical, Electrics
from logiccheck.report.words_sizing import amount, apart, formula, size, source, verdict

PLACE = Electrics(nominal=F(12), ambient=F(40), engine_space=F(80))


def said(what: Electrical, current: str | None, kind: Kind, place: Electrics = PLACE) -> tuple[str, str]:
    found = {each.kind: each for each in sizing(what, place, None if current is None else F(current))}
    one: Sized = found[kind]
    return verdict(one), formula(one)


def test_continuous() -> None:
    assert said(Electrical(fuse=F(15)), "12", Kind.CONTINUOUS) == (
        "continuous current against fuse: 12 A; a fuse of 15 A carries 12 A for long: fits.",
        "A fuse carries 80 % of its rating for long: 12 A.",
    )
    assert said(Electrical(fuse=F(15)), "12.0001", Kind.CONTINUOUS)[0] == (
        "continuous current against fuse: 12.0001 A; a fuse of 15 A carries 12 A for long: does not fit; "
        "the next fuse that is made and carries it: 20 A."
    )
    assert said(Electrical(), "12", Kind.CONTINUOUS) == (
        "continuous current against fuse: not decided: no fuse is written; it is written so: fuse 15 A.",
        "",
    )
    hot = Electrics(ambient=F(85))
    assert said(Electrical(fuse=F(40)), "31", Kind.CONTINUOUS, hot) == (
        "continuous current against fuse: 31 A; a fuse of 40 A carries 30 A for long: does not fit; "
        "the next fuse that is made and carries it: 50 A.",
        "A fuse carries 75 % of its rating for long, in air of 85 degC: 30 A.",
    )
    for wire, current, after in (
        ("2.5 mm2", "15", "20 A"),
        ("2.5 mm2", "38", "50 A, which is too large for its wire"),
        ("14 SAE", "20", "25 A, and no table says that its wire stands that"),
    ):
        thin = Electrical(fuse=F(15), wire_size=wire)
        assert said(thin, current, Kind.CONTINUOUS)[0].endswith(f"made and carries it: {after}.")


def test_protects() -> None:
    assert said(Electrical(fuse=F(20), wire_size="1.5 mm2", wire_length=F(4)), None, Kind.PROTECTS) == (
        "fuse against wire: fuse of 20 A; wire of 1.5 mm2 carries about 23.27 A: fits.",
        "What a wire of 1.5 mm2, counted as 16 AWG, lying alone, in air of 40 degC, carries for long, against its fuse.",
    )
    assert said(Electrical(fuse=F(15), wire_size="16 AWG", bundle=5, engine_space=True), None, Kind.PROTECTS) == (
        "fuse against wire: fuse of 15 A; wire of 16 AWG carries about 8.49 A: does not fit.",
        "What a wire of 16 AWG, lying in a bundle of 5, in air of 80 degC, carries for long, against its fuse.",
    )
    assert said(Electrical(fuse=F(5), wire_size="0.5 mm2"), None, Kind.PROTECTS)[0] == (
        "fuse against wire: fuse of 5 A; wire of 0.5 mm2 carries not more than about 14.9 A: not decided: "
        "no table here has wires of this size."
    )


def test_a_wire_without_a_fuse_of_its_own() -> None:
    thin = Electrical(wire_size="1.5 mm2")
    assert said(thin, "24", Kind.CARRIES) == (
        "continuous current against wire: 24 A; wire of 1.5 mm2 carries about 23.27 A: does not fit.",
        "What a wire of 1.5 mm2, lying alone, in air of 40 degC, carries for long, against what flows.",
    )
    other = protects(replace(thin, fuse=F(20)), PLACE, "main")
    assert verdict(other) == "fuse against wire: fuse of 20 A of main; wire of 1.5 mm2 carries about 23.27 A: fits."
    assert formula(other) == (
        "What a wire of 1.5 mm2, counted as 16 AWG, lying alone, in air of 40 degC, carries for long, against the fuse "
        "of main."
    )
    assert verdict(lacking(Kind.PROTECTS, Lack.PROTECTOR)) == (
        "fuse against wire: not decided: no fuse of its own protects it, and none through which all comes that flows "
        "there; write one."
    )


def test_drop() -> None:
    wire = Electrical(wire_size="1 mm2", wire_length=F(15))
    assert said(wire, "8", Kind.DROP) == (
        "voltage lost on the wire: about 5.05 V there and back; 1.2 V allowed: does not fit.",
        "Resistance of 1 mm2 (about 21.03 ohm/km at 40 degC) times twice the length (15 m) times 8 A, against 10 % of "
        "12 V.",
    )
    stranded = Electrical(wire_size="14 AWG", wire_length=F(30))
    fails, rests = said(stranded, "8", Kind.DROP)
    assert fails == "voltage lost on the wire: about 4.29 V at least there and back; 1.2 V allowed: does not fit."
    assert rests.startswith("Resistance of 14 AWG (about 8.94 ohm/km at least at 40 degC) times")
    assert said(wire, "8", Kind.DROP, Electrics())[0] == (
        "voltage lost on the wire: not decided: the voltage is not written; "
        "it is written so, under electrics: nominal 12 V."
    )


def test_inrush() -> None:
    assert said(Electrical(F(8), F(20), 100_000, F(10)), "8", Kind.INRUSH) == (
        "inrush against fuse: 20 A for 0.1 s; fuse of 10 A: fits.",
        "That is 200 % of its rating; such a fuse does not open before 150 ms; it has opened after 5 s.",
    )
    assert said(Electrical(F(8), F(20), 200_000, F(10)), "8", Kind.INRUSH)[0] == (
        "inrush against fuse: 20 A for 0.2 s; fuse of 10 A: not decided: "
        "published times say neither that the fuse opens nor that it does not."
    )


def test_inrush_of_something_behind() -> None:
    found = inrush(Electrical(F(8), F(20), 100_000, F(10)), "pump")
    assert verdict(found) == "inrush against fuse: 20 A of pump for 0.1 s; fuse of 10 A: fits."


def test_where_it_is_from() -> None:
    (found,) = (each for each in sizing(Electrical(fuse=F(15)), PLACE, F(8)) if each.kind is Kind.CONTINUOUS)
    assert [source(table) for table in found.basis] == [
        "Share of its rating that a fuse carries for long: NEC: a fuse has 125 % of a continuous load; road vehicle "
        "practice says 70 % to 80 % (no edition noted); from memory: ukmotorfactors.co.uk reckons with 125 %, which "
        "was read."
    ]


def test_numbers() -> None:
    assert [amount(F(1, 3), "V"), amount(F(25, 2), "A"), amount(F(12), "A")] == ["about 0.33 V", "12.5 A", "12 A"]
    assert apart(F("11.99999"), F(12), "A") == "11.99999 A"
    assert [size(Size(System.AWG, F(-1))), size(Size(System.SAE, F(14)))] == ["2/0 AWG", "14 SAE"]
