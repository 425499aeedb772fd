"""A mistake of ours that a check survives is still a failure of the test that met it."""

from __future__ import annotations

import pytest

from logiccheck.copper.faults import deciding
from logiccheck.copper.sets import search
from logiccheck.engine import decider
from logiccheck.study import findings


def _raised(error: Exception, met_at: str = "") -> None:
    raise error


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leaves out what takes minutes, marked `long`, unless `-m` names that marker."""
    if "long" in config.option.markexpr:
        return
    left_out = [item for item in items if item.get_closest_marker("long")]
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]


@pytest.fixture(autouse=True)
def _no_bug_passes_unseen(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Unless a test is marked `our_bug`, what would be reported as our bug is raised where it is met."""
    if request.node.get_closest_marker("our_bug") is None:
        monkeypatch.setattr(decider, "bug_of", _raised)
        monkeypatch.setattr(deciding, "bug_of", _raised)
        monkeypatch.setattr(search, "bug_of", _raised)
        monkeypatch.setattr(findings, "bug_of", _raised)
