"""One story, the same every time: however the file is ordered, whatever things are called, whoever solves."""

from __future__ import annotations

import json
import subprocess
import sys
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.engine import unroll
from logiccheck.engine.fixed import with_fixed_times
from logiccheck.engine.sat import Sat
from logiccheck.model.story import Story
from tests.calling import ROOT, environment
from tests.engine.asking import Found, stories
from tests.engine.test_shortest import changes
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.stories.rewriting import names, renamed, reordered

SEEDS = range(30)


def as_data(story: Story) -> object:
    """All that a story tells, as text."""
    steps = [[str(step.time), [[n, str(v)] for n, v in sorted(step.world)], list(step.due)] for step in story.steps]
    return [steps, [[run.key, str(run.start), str(run.duration)] for run in story.runs], story.overdue]


def told(text: str) -> dict[str, object]:
    """The story of each requirement of a program that has one, and the times by which its timers may be fixed."""
    return {found.question.requirement.name: [as_data(found.story), times(found)] for found in stories(loaded(text))}


def times(found: Found) -> object:
    fixed = with_fixed_times(found.cone, found.trace, found.story, Budget(60))
    return fixed and [fixed.answer.value, sorted(fixed.lengths.items())]


@pytest.fixture(scope="module")
def usual() -> dict[int, dict[str, object]]:
    """The stories of random programs as they are written."""
    known = {seed: told(random_program(seed).text) for seed in SEEDS}
    assert sum(len(each) for each in known.values()) > 25
    return known


@pytest.mark.parametrize("seed", SEEDS)
def test_in_another_order(seed: int, usual: dict[int, dict[str, object]]) -> None:
    """The order of lines says nothing."""
    assert told(reordered(random_program(seed).text, Random(seed))) == usual[seed]


@pytest.mark.parametrize("seed", SEEDS)
def test_by_names_in_the_same_order_of_the_alphabet(seed: int, usual: dict[int, dict[str, object]]) -> None:
    """The same story, names changed."""
    text = random_program(seed).text
    others = {name: f"n_{name}" for name in names(loaded(text))}
    expected = json.loads(renamed(json.dumps(usual[seed]), others))
    assert json.loads(json.dumps(told(renamed(text, others)))) == expected


@pytest.mark.parametrize("seed", SEEDS)
def test_by_any_names(seed: int) -> None:
    """As many moments and changes, at the same times: only which of equal stories is told is the alphabet's to say."""
    text = random_program(seed).text
    known = names(loaded(text))
    fresh = [f"n_{number}" for number in range(len(known))]
    Random(seed).shuffle(fresh)
    assert measures(renamed(text, dict(zip(known, fresh, strict=True)))) == measures(text)


def measures(text: str) -> dict[str, object]:
    """What of each story does not hang on names."""
    return {
        found.question.requirement.name: (
            [step.time for step in found.story.steps],
            changes(found.cone, found.trace),
            found.story.overdue,
        )
        for found in stories(loaded(text))
    }


@pytest.mark.parametrize("solver", ["glucose4", "minisat22"])
@pytest.mark.parametrize("seed", SEEDS)
def test_by_another_solver(
    seed: int, solver: str, usual: dict[int, dict[str, object]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Which models a solver finds first says nothing."""
    monkeypatch.setattr(unroll, "Sat", lambda _: Sat(solver))
    assert told(random_program(seed).text) == usual[seed]


SCRIPT = """
import json
from tests.oracle.programs import random_program
from tests.stories.test_same_story import SEEDS, told
print(json.dumps([told(random_program(seed).text) for seed in SEEDS[:12]]))
"""


@pytest.mark.parametrize("hash_seed", ["1", "2"])
def test_with_another_hash_seed(hash_seed: str, usual: dict[int, dict[str, object]]) -> None:
    """Nor does the order in which Python goes through a set."""
    call = subprocess.run(
        [sys.executable, "-c", SCRIPT],
        cwd=ROOT,
        env=environment(PYTHONHASHSEED=hash_seed),
        capture_output=True,
        encoding="utf-8",
        timeout=300,
        check=True,
    )
    assert json.loads(call.stdout) == json.loads(json.dumps([usual[seed] for seed in SEEDS[:12]]))
