"""What everything that decides programs must answer alike: engines, and the explorer that shares no code with them."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from typing import TypeAlias

import pytest

from logiccheck.lang.program import Program
from tests.oracle.cases import CASES, Case
from tests.oracle.loading import loaded

Decided: TypeAlias = tuple[str, int | None]  # the verdict in a word, and the moments of its shortest story or witness


class EngineContract(ABC):
    """A subclass says how it decides; the tests are the same for all."""

    @abstractmethod
    def decide(self, program: Program) -> Mapping[str, Decided]:
        """The answers to the requirements of the file, by name."""

    def verdicts(self, text: str) -> list[Decided]:
        program = loaded(text)
        answers = self.decide(program)
        return [answers[requirement.name] for requirement in program.requirements]

    @pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
    def test_cases_worked_out_by_hand(self, case: Case) -> None:
        """Each requirement gets its verdict, and its number of moments where there is a story."""
        assert self.verdicts(case.text) == list(case.expected)

    def test_a_requirement_is_decided_as_if_it_stood_alone(self) -> None:
        """The answers do not depend on what else is asked, nor on the order of the questions."""
        head, tail = (
            'vehicle "T"\nworld\n    x contact\n    y contact\n    at first x is off\nrequirements\n',
            [
                "danger a never x for longer than 2 s",
                "danger b x calls for y no later than 3 s",
                "danger c x only after y",
                "function d possible x and y",
                "danger e never on_delay(x, 4 s) while y",
            ],
        )
        together = self.decide(loaded(head + "".join(f"    {line}\n" for line in tail)))
        turned = self.decide(loaded(head + "".join(f"    {line}\n" for line in reversed(tail))))
        alone = [self.decide(loaded(f"{head}    {line}\n")) for line in tail]
        assert together == turned == {name: answer for each in alone for name, answer in each.items()}
        assert together["a"] == ("fails", 3)
