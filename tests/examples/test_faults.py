"""What single faults do to the examples: which requirement fails with which, and which of them somebody notices."""

from __future__ import annotations

import pytest

from logiccheck.base.budget import Budget
from logiccheck.cli.reader import DiskReader
from logiccheck.copper.faults.answers import Noticed
from logiccheck.engine.check import check_program
from logiccheck.lang.load import load
from logiccheck.study.faults import faults
from tests.examples.reading import Example, examples

SECONDS = 600.0
HELD = [example for example in examples() if "faults" in example.expected]


def test_there_is_one_with_and_one_without_a_box() -> None:
    """Not an empty list."""
    assert {"first-steps", "relay-only"} <= {example.name for example in HELD}


@pytest.mark.parametrize("example", [pytest.param(example, id=example.name) for example in HELD])
def test_single_faults(example: Example) -> None:
    """Each requirement under each fault, each time it can be there: all decided, and as expected."""
    program = load(str(example.file), DiskReader(str(example.file))).program
    assert program is not None
    found = faults(program, check_program(program), Budget(SECONDS), lambda _: None)
    fails: dict[str, list[str]] = {requirement.name: [] for requirement in found.asked}
    for pair in found.pairs:
        failing = pair.failing
        if failing is not None:
            fails[pair.requirement.name].append(f"{pair.fault.id}: {failing[0].value}")
        else:
            assert pair.is_proved, (pair.fault.id, pair.requirement.name)
    noticed = [
        fault.id for fault, notice in zip(found.faults, found.notices, strict=True) if isinstance(notice, Noticed)
    ]
    expected = example.expected["faults"]
    assert (len(found.faults), noticed) == (expected["single"], expected["noticed"])
    assert fails == expected["fails"]
