"""Each sentence that all stories of a vehicle show: engine, explorer, interpreter and judge give the same answer."""

from __future__ import annotations

import pytest

from tests.meaning.asking import engine_answers, engine_lawful, explorer_answers, judged_lawful, judged_on_walks
from tests.meaning.given import BLOCKED, CASES, GIVEN
from tests.meaning.lawful import LAWFUL
from tests.meaning.sentences import HEAD, Asked, Lawful, rows
from tests.meaning.vehicles import COUNTED, REACTIONS, START, TIMERS
from tests.meaning.vehicles_parts import COPPER, NUMBERS, POWER
from tests.model.driven import program

ALL = (*REACTIONS, *COUNTED, *START, *TIMERS, *POWER, *COPPER, *NUMBERS, *CASES, *BLOCKED, *GIVEN)


@pytest.mark.parametrize("case", rows(ALL, "engine"))
def test_the_engine_says_so(case: Asked) -> None:
    """Each story that it shows is played on the interpreter and judged."""
    ruled_out = {"short": "proved"}  # where copper rules a short out at first sight it is not asked
    found = ruled_out | engine_answers(program(HEAD + case.text))
    assert found == ruled_out | dict(case.answers)


@pytest.mark.parametrize("case", rows(ALL, "explorer"))
def test_the_explorer_says_so(case: Asked) -> None:
    """And so does the search through all stories."""
    vehicle = program(HEAD + case.text)
    expected = {name: answer for name, answer in case.answers.items() if name != "short"}
    assert explorer_answers(vehicle) == expected


@pytest.mark.parametrize("case", rows(ALL, "judge"))
def test_the_judge_finds_nothing_wrong_with_what_is_proved(case: Asked) -> None:
    """On random stories, played on the interpreter."""
    vehicle = program(HEAD + case.text)
    for requirement in vehicle.requirements:
        if case.answers[requirement.name.removeprefix("q_")] in ("proved", "no case"):
            judged_on_walks(vehicle, requirement)


@pytest.mark.parametrize("case", rows(LAWFUL, "judge"))
def test_the_judge_allows_it(case: Lawful) -> None:
    """The course meets what is given, or up to this instant."""
    assert judged_lawful(case) == case.answer


@pytest.mark.parametrize("case", rows(LAWFUL, "engine"))
def test_the_engine_allows_it(case: Lawful) -> None:
    """It can be followed so far, and no further."""
    assert engine_lawful(case) == case.answer
