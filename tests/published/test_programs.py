"""Published systems as whole programs: each requirement comes out as published, each published course is played so.

Every file of this folder names its sources at its head, and says how the system was brought into the language.
"""

from __future__ import annotations

import pytest

from logiccheck.study.simulate import simulate
from tests.published.written import answered, marked, programs, read, scenarios, written

NAMES = programs()
PLAYED = scenarios()


@pytest.mark.parametrize("name", NAMES)
def test_requirements(name: str) -> None:
    """Every requirement has the published answer behind it, and the check gives just these."""
    program = read(written(name))
    expected = marked(written(name))
    assert set(expected) == {each.name for each in program.requirements}
    assert answered(program) == expected


@pytest.mark.parametrize(("name", "scenario"), PLAYED, ids=[f"{name}-{scenario}" for name, scenario in PLAYED])
def test_course(name: str, scenario: str) -> None:
    """What is expected of the course is so, and the course meets what is given."""
    program = read(written(name))
    (played,) = (simulate(program, each) for each in program.scenarios if each.name == scenario)
    assert [each.expectation.text for each in played.expectations if not each.held] == []
    assert played.held
    assert played.warnings == ()
    assert played.unused == ()


@pytest.mark.parametrize("name", NAMES)
def test_head(name: str) -> None:
    """The head is a comment that says how the system was brought into this language."""
    head = written(name).split("\nlanguage 1\n")[0]
    assert all(line.startswith("#") for line in head.splitlines())
    assert "# How it was brought into this language:" in head
