"""Waveforms: an independent reader finds in them, at every moment, just what the interpreter settles to."""

from __future__ import annotations

import io
import math
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import islice
from pathlib import Path

import pytest
from vcd.reader import TokenKind, tokenize

from logiccheck.base.units import UNITS, in_unit
from logiccheck.base.version import VERSION
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.lang.load import load, load_text
from logiccheck.lang.program import Output, Program, SignalKind
from logiccheck.model.timeline import Played
from logiccheck.render.vcd import _codes, render, stamps
from logiccheck.report.chart import Change, Chart, Curve, Sort
from logiccheck.report.charts import chart
from logiccheck.report.report import FileRead, PlayedPart, Report
from logiccheck.study.simulate import simulate
from tests.render.machines import GOOD_READ, MAIN


@dataclass
class Waves:
    """A file of waveforms as read: by scope and name the value of each signal from each time on."""

    comments: list[str] = field(default_factory=list)
    version: str = ""
    timescale: str = ""
    widths: dict[tuple[str, str], tuple[str, int]] = field(default_factory=dict)
    values: dict[tuple[str, str], dict[int, str | int | float]] = field(default_factory=dict)
    times: list[int] = field(default_factory=list)

    def at(self, scope: str, name: str, time: int) -> str | int | float:
        """The value that lasts at this time."""
        changes = self.values[scope, name]
        return changes[max(when for when in changes if when <= time)]


def waves(text: str) -> Waves:
    """The text, read by a library that has nothing of ours."""
    found, scope, time = Waves(), "", 0
    by_code: dict[str, tuple[str, str]] = {}
    for token in tokenize(io.BytesIO(text.encode("ascii"))):
        match token.kind:
            case TokenKind.COMMENT:
                found.comments.append(token.comment)
            case TokenKind.VERSION:
                found.version = token.version
            case TokenKind.TIMESCALE:
                found.timescale = f"{token.timescale.magnitude:d} {token.timescale.unit.value}"
            case TokenKind.SCOPE:
                scope = token.scope.ident
            case TokenKind.VAR:
                assert token.var.id_code not in by_code
                by_code[token.var.id_code] = (scope, token.var.reference)
                found.widths[scope, token.var.reference] = (token.var.type_.value, token.var.size)
            case TokenKind.CHANGE_TIME:
                assert not found.times or token.time_change > time
                time = token.time_change
                found.times.append(time)
            case TokenKind.CHANGE_SCALAR:
                found.values.setdefault(by_code[token.scalar_change.id_code], {})[time] = token.scalar_change.value
            case TokenKind.CHANGE_VECTOR:
                found.values.setdefault(by_code[token.vector_change.id_code], {})[time] = token.vector_change.value
            case TokenKind.CHANGE_REAL:
                found.values.setdefault(by_code[token.real_change.id_code], {})[time] = token.real_change.value
            case _:
                pass
    assert set(found.values) == set(by_code.values())
    assert all(0 in changes for changes in found.values.values())
    return found


def part(of: Chart, label: str = "") -> PlayedPart:
    """A scenario with this chart."""
    return PlayedPart("day", label, "Nothing is expected in it.", None, 0, (), chart=of)


def written(of: Chart, report: Report = GOOD_READ) -> str:
    """The chart as waveforms."""
    return render(report, part(of))


def test_examples() -> None:
    """Every scenario of every example: at each moment, and at the end, every signal is what it settled to."""
    seen = 0
    for path in MAIN:
        file = posix(str(path))
        program = load(file, DiskReader(file)).program
        for scenario in program.scenarios if program else ():
            assert program is not None
            timeline = simulate(program, scenario).timeline
            read = waves(written(chart(program, timeline)))
            assert read.timescale == "1 us"
            for played in timeline.settled:
                agree(program, played, read)
                seen += 1
            assert read.times[-1] == timeline.end
    assert seen > 100


def agree(program: Program, played: Played, read: Waves) -> None:
    """One moment, looked up in the interpreter's own values."""
    settled = played.moment.settled
    time = int(played.time)
    assert time in read.times
    for switch in program.switches:
        position = read.at("hands", switch.name, time)
        assert int(position) == played.world[switch.name]
    for number in program.numbers:
        value = in_unit(played.world[number.name], UNITS[number.unit])
        assert read.at("hands", number.name, time) == float(value)
    for wire in program.wires:
        live, grounded = (settled.is_true(kind, wire.name) for kind in (SignalKind.LIVE, SignalKind.GROUNDED))
        assert (
            read.at("copper", wire.name, time) == {(0, 0): "z", (1, 0): "1", (0, 1): "0", (1, 1): "x"}[live, grounded]
        )
    for relay in program.relays:
        assert read.at("copper", relay.name, time) == str(int(settled.is_true(SignalKind.RELAY, relay.name)))
    for hung in program.loads:
        assert read.at("copper", hung.name, time) == str(int(settled.is_true(SignalKind.LIVE, hung.wire)))
    if program.box is not None:
        powered = settled.is_true(SignalKind.POWERED, "powered")
        assert read.at("box", "powered", time) == str(int(powered))
        for rule in program.box.rules:
            kind = SignalKind.OUTPUT if isinstance(rule, Output) else SignalKind.RULE
            assert read.at("box", rule.name, time) == str(int(settled.is_true(kind, rule.name)))
        for sense in program.box.senses:
            value = read.at("box", sense.name, time)
            assert not isinstance(value, float) or powered is not math.isnan(value)


VEHICLE = """
vehicle "Grüße $end"
world
    key "Zündschlüssel $end" off | accessory | run | start
    two  left | right
    horn contact
    speed 0 .. 120 mph
    at first key is off
harness
    source plus
    ground strap
    wire a from plus when horn
    wire ähm to strap when two is right
    wire both from plus when horn, to ground when horn
    load lamp on a
    wire box_feed from plus when horn
controller "Box" powered by box_feed
    sense fast from speed
    output beep when fast above 3 mph
scenario day
    at 1 s     key is start, speed is 12.5 mph
    at 1.5 s   horn is on
    at 2.000001 s  two is right
    until 3 s
"""


def vehicle(text: str = VEHICLE) -> tuple[Program, Chart]:
    """The vehicle, and the chart of its only scenario."""
    loaded = load_text(text)
    assert loaded.program is not None, loaded.diagnostics
    return loaded.program, chart(loaded.program, simulate(loaded.program, loaded.program.scenarios[0]).timeline)


def test_each_sort_of_signal() -> None:
    """A switch is the number of its position, a wire 1, 0, z or x, a number a real in its unit."""
    _, of = vehicle()
    read = waves(written(of))
    assert read.times == [0, 1_000_000, 1_500_000, 2_000_001, 3_000_000]
    assert read.values["hands", "key"] == {0: 0, 1_000_000: 3}
    assert read.widths["hands", "key"] == ("wire", 2)
    assert read.values["hands", "two"] == {0: "0", 2_000_001: "1"}
    assert read.values["hands", "speed"] == {0: 0.0, 1_000_000: 12.5}
    assert read.widths["hands", "speed"] == ("real", 64)
    assert read.values["copper", "a"] == {0: "z", 1_500_000: "1"}
    assert read.values["copper", "both"] == {0: "z", 1_500_000: "x"}
    assert read.values["copper", "_xe4_hm"] == {0: "z", 2_000_001: "0"}
    assert read.values["copper", "lamp"] == {0: "0", 1_500_000: "1"}
    fast = read.values["box", "fast"]
    assert math.isnan(float(fast[0]))
    assert fast[1_500_000] == 12.5
    assert read.values["box", "beep"] == {0: "0", 1_500_000: "1"}


def test_labels_stand_in_comments() -> None:
    """With what the values mean; letters beyond ASCII as numbers, and nothing of the user's ends a comment."""
    _, of = vehicle()
    comments = waves(written(of)).comments
    assert "key: Z\\xfcndschl\\xfcssel $ end (0 off, 1 accessory, 2 run, 3 start)" in comments
    assert "speed (mph)" in comments
    assert "powered: Box (0 no, 1 yes)" in comments
    assert "Letters beyond ASCII" in comments[0]


def test_letters_beyond_ascii_are_explained() -> None:
    """Wherever they are: in a name, a label or a file; and only then."""
    of = Chart((Fraction(0),), Fraction(0), True, (curve("a", (0, 0)),))
    named = replace(GOOD_READ, files=(FileRead("größe.circuit", "0" * 64),))
    assert "Letters beyond ASCII" in waves(written(of, named)).comments[0]
    assert "gr\\xf6\\xdfe.circuit" in waves(written(of, named)).comments[0]
    assert "Letters beyond ASCII" not in waves(written(of)).comments[0]


def test_caution_versions_and_hashes() -> None:
    """As in every format."""
    _, of = vehicle()
    read = waves(render(GOOD_READ, part(of, "A day")))
    lines = [line.strip() for line in read.comments[0].splitlines()]
    assert lines[:2] == ["day: A day", GOOD_READ.opening]
    assert "This checks what the files say, not the vehicle." in lines
    assert f"boat.circuit: sha-256 {'0' * 64}" in lines
    assert "All times are exact." in lines
    assert read.version == f"logiccheck {VERSION} (language 1)"


def test_what_never_settles() -> None:
    """What goes on changing has no value; the rest has, and nothing comes after it."""
    text = """
vehicle "Chatter"
world
    key off | on
harness
    source plus
controller powered by plus
    rule turn = previous(turn) xor true
    output still when not false
scenario day
    at 1 s key is on
    until 3 s
"""
    program, of = vehicle(text)
    assert not of.settles
    read = waves(written(of))
    assert read.times == [0]
    assert read.values["box", "turn"] == {0: "x"}
    assert read.values["box", "still"] == {0: "1"}
    assert "At 0 s the rules or relays chase each other for ever" in read.comments[0]
    assert program.label == "Chatter"


def curve(name: str, *changes: tuple[Fraction | int, Fraction | int | None], sort: Sort = Sort.BIT) -> Curve:
    """A signal that is made up."""
    told = tuple(Change(Fraction(time), None if value is None else Fraction(value)) for time, value in changes)
    return Curve(name, "", "box", sort, ("off", "on") if sort is Sort.BIT else (), "rpm", told)


def test_times_between_microseconds() -> None:
    """Each moment stands at the whole microsecond before it, and after the moments before it; all that is said."""
    moments = tuple(map(Fraction, ("0", "1/3", "2/3", "1", "5/2", "7")))
    assert stamps(moments) == (0, 1, 2, 3, 4, 7)
    of = Chart(moments, Fraction(7), True, (curve("a", *((time, at % 2) for at, time in enumerate(moments))),))
    read = waves(written(of))
    assert read.times == [0, 1, 2, 3, 4, 7]
    assert list(read.values["box", "a"].values()) == ["0", "1", "0", "1", "0", "1"]
    said = next(line for line in read.comments[0].splitlines() if "whole microsecond" in line)
    assert said.endswith("1/3 us at 1 us, 2/3 us at 2 us, 1 us at 3 us, 2.5 us at 4 us.")
    assert "All times are exact." not in read.comments[0]


def test_numbers_are_exact_where_they_can_be() -> None:
    """A decimal number is written to its last digit, any other to seventeen."""
    big = Fraction(12345678901234567890123, 1000)
    changes = ((0, big), (1, Fraction(1, 3)), (2, -7), (3, None))
    of = Chart(tuple(map(Fraction, range(4))), Fraction(3), True, (curve("n", *changes, sort=Sort.NUMBER),))
    lines = written(of).splitlines()
    assert "r12345678901234567890.123 !" in lines
    assert "r0.33333333333333333 !" in lines
    assert "r-7 !" in lines
    assert "rnan !" in lines


def test_names_that_look_alike_in_ascii() -> None:
    """Are still told apart."""
    of = Chart((Fraction(0),), Fraction(0), True, (curve("ä", (0, 0)), curve("_xe4_", (0, 1))))
    read = waves(written(of))
    assert read.values == {("box", "_xe4_"): {0: "0"}, ("box", "_xe4__"): {0: "1"}}


def test_codes_never_repeat() -> None:
    """One character each as long as there are any, then two, then three."""
    codes = list(islice(_codes(), 94 + 94 * 94 + 1))
    assert len(set(codes)) == len(codes)
    assert [len(codes[0]), len(codes[93]), len(codes[94]), len(codes[-1])] == [1, 1, 2, 3]
    assert codes[:2] == ["!", '"']


def test_the_same_text_each_time(tmp_path: Path) -> None:
    """Nothing of the clock or the machine is in it."""
    _, of = vehicle()
    assert written(of) == written(of)
    assert "\r" not in written(of)
    assert written(of).endswith("\n")
    assert str(tmp_path.anchor + "tmp") not in written(of)


@pytest.mark.parametrize("basis", [True, False])
def test_without_a_basis(basis: bool) -> None:
    """A report that rests on nothing is written, too."""
    _, of = vehicle()
    assert waves(written(of, GOOD_READ if basis else replace(GOOD_READ, basis=None))).version
