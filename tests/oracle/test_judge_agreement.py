"""A third opinion: the judge of played timelines and the monitors of the explorer see the same on the same stories."""

from __future__ import annotations

from random import Random

import pytest

from logiccheck.lang.program import Possible, Program, Requirement
from logiccheck.model.judge import broken, violated, witnessed
from logiccheck.model.play import play
from tests.campaign import seeds
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.oracle.walks import Walk, Walker

SEEDS = 120
WALKS = 8  # of each requirement


def check_walk(program: Program, requirement: Requirement, walk: Walk) -> str:
    """Plays the walk again and lets the judge judge it; what it says must be what the monitors said. Gives a tag."""
    first = {change.name: change.value for change in walk.changes if change.time == 0}
    timeline = play(program, walk.changes, walk.runs, walk.end, first)
    assert not (timeline.settles and walk.unsettled)
    if not timeline.settles and (walk.cut == walk.end or walk.end == 0):
        return "unsettled"  # of a moment that never settles nothing is judged
    assert timeline.settles != walk.unsettled
    unmet = min((each.instant.time for each in broken(timeline)), default=None)
    assert unmet == walk.cut, f"{[str(x) for x in broken(timeline)]}, the monitors say {walk.cut}"
    form = requirement.form
    found = witnessed(timeline, form.q) if isinstance(form, Possible) else violated(timeline, form)
    if found is not None and unmet is not None and found.time >= unmet:
        found = None  # the story was over before
    assert (found.time if found else None) == walk.found, f"the judge says {found}, the monitors say {walk.found}"
    return "unsettled" if walk.unsettled else "cut" if walk.cut is not None else "found" if found else "fine"


def check_seed(seed: int) -> list[str]:
    """Random walks of all requirements of one program."""
    program = loaded(random_program(seed).text)
    random = Random(seed)
    tags = []
    for requirement in program.requirements:
        for _ in range(WALKS):
            walk = Walker(program, requirement.form, random).go(12)
            try:
                tags.append(check_walk(program, requirement, walk))
            except AssertionError as error:
                raise AssertionError(f"program {seed}, {requirement.text}: {error}\n{walk}") from error
    return tags


def test_judge_and_monitors_agree() -> None:
    """On random walks of random programs; and the walks are not dull."""
    tags = [tag for seed in range(SEEDS) for tag in check_seed(seed)]
    assert tags.count("found") > len(tags) / 10
    assert tags.count("fine") > len(tags) / 10
    assert tags.count("cut") > len(tags) / 50


@pytest.mark.campaign
def test_judge_and_monitors_agree_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds(50):
        check_seed(each)
