"""A mistake of ours that a check survives is still a failure of the test that met it."""

from __future__ import annotations

import pytest

from logiccheck.copper.faults import deciding
from logiccheck.engine import decider
from logiccheck.study import findings


def _raised(error: Exception, met_at: str = "") -> None:
    raise error


@pytest.fixture(autouse=True)
def _no_bug_passes_unseen(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Unless a test is marked `our_bug`, what would be reported as our bug is raised where it is met."""
    if request.node.get_closest_marker("our_bug") is None:
        monkeypatch.setattr(decider, "bug_of", _raised)
        monkeypatch.setattr(deciding, "bug_of", _raised)
        monkeypatch.setattr(findings, "bug_of", _raised)
