"""A mistake in what compiles, observes or searches leads to a refused proof, never to a wrong verdict."""

from __future__ import annotations

import pytest

from logiccheck.audit.check import Audit
from logiccheck.engine.certify import ProofRefused
from logiccheck.engine.check import check_program
from logiccheck.engine.pdr import Proof
from logiccheck.engine.refine import Cegar, TimedProof
from logiccheck.engine.verdict import Kind
from tests.audit.twoways import TwoWays
from tests.audit.wrong import WRONG, Wrong


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: wrong.name)
def test_a_mistake_is_refused(wrong: Wrong, monkeypatch: pytest.MonkeyPatch) -> None:
    """What fails would be proved, if nobody doubted it."""
    (right,) = check_program(wrong.program).verdicts[:1]
    assert right.kind is Kind.FAILS
    with monkeypatch.context() as patch:
        wrong.make(patch)
        with pytest.raises(ProofRefused):
            check_program(wrong.program)
        patch.setattr(Audit, "_doubt", lambda *_: None)
        assert check_program(wrong.program).verdicts[0].kind in (Kind.PROVED, Kind.NO_CASE)


@pytest.mark.parametrize("wrong", [w for w in WRONG if w.name != "all settles at once"], ids=lambda wrong: wrong.name)
def test_a_mistake_is_seen_in_the_circuit(wrong: Wrong, monkeypatch: pytest.MonkeyPatch) -> None:
    """The comparison of the two ways is not blind to it."""
    assert TwoWays(wrong.program).unlike() == []
    wrong.make(monkeypatch)
    assert TwoWays(wrong.program).unlike()


def test_a_search_that_claims_everything_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """The search is not believed."""
    monkeypatch.setattr(Cegar, "run", lambda self, _: TimedProof(self.cone, self.tracked, Proof(())))
    for wrong in WRONG:
        with pytest.raises(ProofRefused):
            check_program(wrong.program)
