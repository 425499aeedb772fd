"""z3 and `check` say the same of generated vehicles: two searches that share the cone and nothing else."""

from __future__ import annotations

import pytest

from logiccheck.lang.load import load_text
from tests.bench.against import happens, rows
from tests.bench.programs import text_of


@pytest.mark.parametrize("name", ["S0", "S1", "S2", "M0", "chain:3", "par:4", "indep:3", "countbad:1"])
def test_z3_says_the_same(name: str) -> None:
    program = load_text(text_of(name), name).program
    assert program is not None
    found = list(rows(program, limit=30, depth=12))
    assert found
    for row in found:
        assert not row.contradicted, (row.name, row.verdict.kind, row.fixed, row.bounded)
        assert happens(row.verdict) is not None
        assert row.fixed.happens is not None


def test_a_generated_vehicle_is_as_large_as_it_says() -> None:
    program = load_text(text_of("XL0"), "XL0").program
    assert program is not None
    timers = text_of("XL0").count("on_delay(") + text_of("XL0").count("off_delay(") + text_of("XL0").count("one_shot(")
    assert (len(program.switches) + len(program.numbers), timers, len(program.requirements)) == (123, 61, 50)
    assert program.box is not None
    assert len(program.box.outputs) == 160
