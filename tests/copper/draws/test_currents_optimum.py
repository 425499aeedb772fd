"""The greatest current, held against the optimum that z3 finds over the worlds of random rule sets without memory."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from logiccheck.base.budget import Budget
from logiccheck.lang.program import Electrical, Program
from logiccheck.study.currents import currents
from tests.campaign import seeds
from tests.copper.draws.rule_sets import RuleSet, rule_set
from tests.oracle.loading import loaded

CHUNK = 50


def fused(program: Program) -> Program:
    """With a fuse in the wire `main`."""
    wires = (replace(w, electrical=Electrical(fuse=Fraction(60))) if w.name == "main" else w for w in program.wires)
    return replace(program, wires=tuple(wires))


def differences(made: RuleSet) -> list[str]:
    """What z3 finds otherwise."""
    found = currents(fused(loaded(made.text)), Budget(60.0), lambda _: None)
    told = {given.supply.feed.name: given.worst for given in found.given}
    wanted = {"plus": made.most(made.on)} | ({"main": made.most(made.through)} if made.through else {})
    return [
        f"{name}: {told[name].least} .. {told[name].most} A, and z3 finds {most} A"
        for name, most in wanted.items()
        if not told[name].least == told[name].most == most
    ]


@pytest.mark.parametrize("chunk", range(10))
def test_the_greatest_current_is_the_optimum_of_z3(chunk: int) -> None:
    """Exact, of every rule set: 500 of them."""
    some = range(chunk * CHUNK, (chunk + 1) * CHUNK)
    wrong = [f"rule set {seed}: {line}" for seed in some for line in differences(rule_set(seed))]
    assert not wrong, "\n".join(wrong)


@pytest.mark.long
def test_the_greatest_current_is_the_optimum_of_z3_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many rule sets as CAMPAIGN_COUNT says."""
    some = seeds()
    wrong = [f"rule set {seed}: {line}" for seed in some for line in differences(rule_set(seed))]
    with capsys.disabled():
        print(f"\n{len(some)} rule sets")
    assert not wrong, "\n".join(wrong)
