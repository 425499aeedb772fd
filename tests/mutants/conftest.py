"""Leaves out what plants mutants unless it is asked for by its marker: it takes far longer than everything else."""

from __future__ import annotations

import pytest


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Deselects tests marked `mutants` unless `-m` names that marker."""
    if "mutants" in config.option.markexpr:
        return
    left_out = [item for item in items if item.get_closest_marker("mutants")]
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]
