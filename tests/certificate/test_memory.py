"""What a second proof may hold: where there is no memory for one, that proof is not decided, and others are."""

from __future__ import annotations

import time

import pytest
import z3

from logiccheck.audit.relation import Relation
from logiccheck.base.budget import Budget, OutOfMemory, memory_bound
from logiccheck.certificate.claims import Claims
from logiccheck.certificate.document import Claim
from logiccheck.certificate.judged import Judged, Standing
from logiccheck.certificate.reals import Asked
from tests.certificate.making import certified, proved_again, standings

TEXT = """
vehicle "V"
world
    a contact
    b contact
    at first a is off
harness
    source plus
    wire a_wire from plus when a
    relay k coil off_delay(a_wire, 2 s)
requirements
    danger one_k never k and b and not a_wire for longer than 3 s
    danger both never k and not a for longer than 3 s
    function may possible k and b
"""
PIGEONS = 12  # more than fit into so many holes less one: no solver by cases finds out soon


def test_the_library_is_stopped_when_there_is_no_memory_left() -> None:
    """While it works; it can be asked again afterwards."""
    program, _, _ = certified(TEXT)
    asked = Asked(Relation(program, 1))
    places = [[z3.Bool(f"{i} in {j}") for j in range(PIGEONS - 1)] for i in range(PIGEONS)]
    for place in places:
        asked.solver.add(z3.Or(place))
    for j in range(PIGEONS - 1):
        asked.solver.add(z3.AtMost(*(place[j] for place in places), 1))
    begun = time.monotonic()
    with memory_bound(lambda: time.monotonic() > begun + 1), pytest.raises(OutOfMemory):
        asked.possible(z3.BoolVal(True), Budget(300))
    assert time.monotonic() < begun + 60
    assert Asked(Relation(program, 1)).possible(z3.Bool("x"), Budget(60)) is not None


def test_all_is_open_without_memory() -> None:
    """Neither proved nor refused, whatever all rests on; with memory again all is proved."""
    program, _, document = certified(TEXT)
    with memory_bound(lambda: True):
        found = proved_again(document, program)
    assert found.settling.standing is found.begins.standing is Standing.FULL
    assert not found.held
    assert {each.standing for each in found.requirements} <= {Standing.BASELESS, Standing.FULL}
    assert set(standings(proved_again(document, program)).values()) == {"shown"}


def test_one_proof_that_needs_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """The others stand."""
    program, _, document = certified(TEXT)
    judge = Claims._judge

    def hungry(self: Claims, claim: Claim) -> Judged:
        if claim.subject.requirement == "both":
            raise MemoryError
        return judge(self, claim)

    monkeypatch.setattr(Claims, "_judge", hungry)
    found = {each.name: each.standing for each in proved_again(document, program).requirements}
    assert found == {"one_k": Standing.SHOWN, "both": Standing.FULL, "may": Standing.SHOWN}
