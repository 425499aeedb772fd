"""The second proof does not rest on the first doubt: a search that is wrong, with nobody to doubt it, is found out."""

from __future__ import annotations

import pytest

from logiccheck.audit.check import Audit
from logiccheck.certificate.taken import taken
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.lang.reading import SourceFile
from tests.audit.wrong import WRONG, Wrong
from tests.certificate.making import SECONDS, proved_again, standings

NOWHERE = (SourceFile("van.circuit", "", "0" * 64),)


@pytest.mark.parametrize("wrong", WRONG, ids=lambda wrong: wrong.name)
def test_a_wrong_proof_is_refused(wrong: Wrong, monkeypatch: pytest.MonkeyPatch) -> None:
    """What fails is proved by a mistake in the search, and goes into the certificate; there it is refused."""
    program = wrong.program
    with monkeypatch.context() as patch:
        wrong.make(patch)
        patch.setattr(Audit, "_doubt", lambda *_: None)
        check = check_program(program, SECONDS)
    assert check.verdicts[0].kind in (Kind.PROVED, Kind.NO_CASE)
    found = proved_again(taken(check, NOWHERE), program)
    refused = {each.standing.value for each in (*found.bases, *found.requirements)}
    assert "refused" in refused
    assert standings(found)["wrong"] in ("refused", "without a base")
