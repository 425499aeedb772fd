"""What copper has to stand, resolved: exact, where it was said, and without a trace in the logic."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from logiccheck.lang import program as p
from logiccheck.lang.fingerprint import Marks
from logiccheck.lang.load import load_text
from logiccheck.lang.walk import electrics_expressions, program_expressions
from tests.lang.showing import show_all, told
from tests.lang.vehicle import around
from tests.lang.whole import WHOLE_VEHICLE


def resolved(text: str) -> p.Program:
    loaded = load_text(text)
    assert loaded.program is not None, show_all(loaded)
    return loaded.program


WHOLE = resolved(WHOLE_VEHICLE)


def test_settings() -> None:
    """Voltage, temperatures, the time between inrushes, and when the vehicle is parked."""
    around_it = WHOLE.electrics
    assert (around_it.nominal, around_it.ambient, around_it.engine_space) == (12, 40, 80)
    assert around_it.apart == 250_000
    still = p.Compare("engine", False, p.Op.EQ, Fraction(0))
    assert around_it.parked == p.And((p.Position("key", frozenset({0})), still))


def test_batteries() -> None:
    """What is said of each, with a constant in place of a quantity; what is not said is None."""
    assert WHOLE.electrics.batteries == (
        p.Battery("plus", Fraction(70), Fraction(110), Fraction(60), Fraction(3)),
        p.Battery("house", None, Fraction(120), None, None),
    )


def test_dips_and_tell_tales() -> None:
    """A dip and a tell-tale read what a requirement reads: true outputs, live wires, a load as its wire."""
    assert WHOLE.electrics.dips == (p.Dip("plus", p.Signal(p.SignalKind.OUTPUT, "fuel_pump"), 50_000),)
    first, second = WHOLE.electrics.tell_tales
    assert first.p == p.Or((p.Signal(p.SignalKind.OUTPUT, "lamp"), p.Signal(p.SignalKind.LIVE, "wake")))
    assert first.r == p.And((p.Position("key", frozenset({2})), p.Not(p.Position("brake", frozenset({1})))))
    assert (first.time, first.text, first.label) == (5_000_000, "lamp or horn", "Lamp or horn")
    assert second.p == p.Signal(p.SignalKind.GROUNDED, "key_wire")
    assert (second.r, second.time) == (None, 200_000)
    assert second.label == second.text == "key_wire is grounded"


def test_how_wires_lie() -> None:
    """Of wires of the harness, with and without connections, and of the wire of a load."""
    wires = {wire.name: wire.electrical for wire in WHOLE.wires}
    assert wires["key_wire"] == p.Electrical(fuse=Fraction(10), wire_size="16 AWG", wire_length=Fraction(2))
    assert wires["bus"] == p.Electrical(fuse=Fraction("7.5"), engine_space=True)
    assert wires["pump_wire"] == p.Electrical(wire_size="1 mm2", wire_length=Fraction(3))
    assert wires["spare_wire"] == p.Electrical(bundle=3, drop=Fraction("2.5"))
    assert wires["wake"] == p.NO_ELECTRICAL
    siren = next(load for load in WHOLE.loads if load.name == "siren")
    assert siren.electrical == p.Electrical(wire_size="1 mm2", bundle=5, engine_space=True, drop=Fraction(3))


@pytest.mark.parametrize(
    ("written", "read"), [("0 AWG", "0 AWG"), ("00 AWG", "-1 AWG"), ("0000 AWG", "-3 AWG"), ("10 AWG", "10 AWG")]
)
def test_gauges_beyond_nought(written: str, read: str) -> None:
    """In a constant, too."""
    text = "constants\n    thick = {size}\nharness\n    source plus\n    wire a from plus, wire {size} over 1 m\n"
    text += "    wire b from plus, wire thick over 1 m\n"
    program = resolved('vehicle "x"\n' + text.format(size=written))
    assert [wire.electrical.wire_size for wire in program.wires] == [read, read]


def test_what_box_and_coils_draw() -> None:
    """In ampere; None where nothing is said."""
    assert [relay.draws for relay in WHOLE.relays] == [Fraction("0.15"), Fraction("0.08")]
    assert WHOLE.box is not None
    assert (WHOLE.box.awake, WHOLE.box.asleep) == (Fraction("0.12"), Fraction("0.0015"))
    silent = resolved(around("harness\n    relay r coil wake\n"))
    assert silent.box is not None
    assert (silent.box.awake, silent.box.asleep, silent.relays[0].draws) == (None, None, None)
    assert silent.electrics == p.NO_ELECTRICS


def without_electrics(text: str) -> str:
    """The whole vehicle, of its copper only what matters to the logic."""
    text = re.sub(r"^electrics\n(?: .*\n)*", "", text, flags=re.MULTILINE)
    text = re.sub(r"^    draws .*\n(?:     .*\n)*", "", text, flags=re.MULTILINE)
    text = re.sub(r",\s+draws [\d.]+ m?A$", "", text, flags=re.MULTILINE)
    laid = r"^(    wire \w+.*?),? (?:fuse \d|wire \d|bundle of|in engine).*$"
    return re.sub(laid, r"\1", text, flags=re.MULTILINE)


def test_nothing_of_it_is_logic() -> None:
    """Without all that, each requirement and each name has the same mark, and the logic has the same expressions."""
    bare = resolved(without_electrics(WHOLE_VEHICLE))
    assert bare.electrics == p.NO_ELECTRICS
    assert all(wire.electrical == p.NO_ELECTRICAL for wire in bare.wires)
    assert all(relay.draws is None for relay in bare.relays)
    assert list(program_expressions(bare)) == list(program_expressions(WHOLE))
    before, after = Marks(bare), Marks(WHOLE)
    for requirement in WHOLE.requirements:
        assert before.of_requirement(requirement) == after.of_requirement(requirement)
    for name in [*(wire.name for wire in WHOLE.wires), *(relay.name for relay in WHOLE.relays), "powered", "lamp"]:
        assert before.of_finding("some-kind", [name]) == after.of_finding("some-kind", [name])


def test_what_electrics_reads() -> None:
    """Each expression of the block, in the order parked, dips, tell-tales; none of them belongs to the logic."""
    first, second = WHOLE.electrics.tell_tales
    read = list(electrics_expressions(WHOLE))
    assert read == [WHOLE.electrics.parked, WHOLE.electrics.dips[0].p, first.p, first.r, second.p]
    assert not {id(expr) for expr in read} & {id(expr) for expr in program_expressions(WHOLE)}


@pytest.mark.parametrize("word", ["drop", "bundle", "reserve", "cranks", "loses"])
def test_a_constant_may_have_the_name_of_a_part(word: str) -> None:
    """Where a part cannot begin, for nothing follows, the word is the constant."""
    text = f"""\
constants
    {word} = 4 A
    {word}_charge = 70 Ah
harness
    load horn on wake {word}
    load bell on wake {word}, fuse {word}
electrics
    battery plus {word}_charge, reserve 2 h
"""
    assert [load.electrical.current for load in resolved(around(text)).loads] == [4, 4]


@pytest.mark.parametrize("colder", ["engine space -10 degC", "engine space 40 degC", "ambient -40 degF"])
def test_any_temperature_is_one(colder: str) -> None:
    """An engine space may be colder than the air around it."""
    assert told(f'vehicle "Small"\nelectrics\n    {colder}\n') == []
