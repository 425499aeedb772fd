"""An edit of a wire far from the output is noticed by what is required of the output."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.explain.guarding.guarding import guard
from logiccheck.explain.guarding.noticing import Noticed
from logiccheck.lang.load import load_text

FILE = "test.circuit"
VEHICLE = """\
vehicle "Reversing"
world
    key  off | run
    gear reverse | neutral
harness
    source plus
    wire key_wire     from plus when key is run
    WAY
    wire reverse_wire from middle when gear is reverse
controller "Box" powered by plus
    sense in_reverse from reverse_wire live
    output reversing_lamp when in_reverse
requirements
    danger in_reverse_only never reversing_lamp while gear is not reverse
    damage with_key_only   never reversing_lamp while key is off
"""


@pytest.mark.parametrize("way", ["wire middle from key_wire", "wire middle\n    diode key_wire -> middle"])
def test_through_wires_between(way: str) -> None:
    """The requirement names neither the wire that is edited nor one beside it."""
    text = VEHICLE.replace("WAY", way)
    program = load_text(text, FILE).program
    assert program is not None
    guarded = guard(program, FILE, {FILE: text}, check_program(program), (), 60.0, lambda _: None)
    line = text[: text.index("wire key_wire")].count("\n") + 1
    begun = [text[: tried.small.edit.changes[0].span.begin].count("\n") + 1 for tried in guarded.tried]
    decided = [tried.decision for tried, number in zip(guarded.tried, begun, strict=True) if number == line]
    assert decided
    assert set(decided) == {Noticed("with_key_only")}
