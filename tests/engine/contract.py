"""What everything that decides programs must answer alike: engines, and the explorer that shares no code with them."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections import Counter
from collections.abc import Mapping
from typing import ClassVar, TypeAlias

import pytest
from hypothesis import HealthCheck, given, settings

from logiccheck.lang.program import Program
from tests.oracle.cases import CASES, Case
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.oracle import decide as explore
from tests.oracle.programs import Made, programs

EXAMPLES = 25  # random programs for each engine
STATES = 4_000  # that the explorer looks at for one requirement
OPEN = "not decided"
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


class SearchContract(EngineContract):
    """What an engine that searches must keep besides: it is right about whatever it decides, and decides nearly all."""

    most_open: ClassVar[float]  # the share of requirements that it may leave undecided

    def test_random_programs(self, capsys: pytest.CaptureFixture[str]) -> None:
        """The explorer says the same, fewest moments included; how much is left open is printed."""
        kinds = Counter[str]()

        @settings(max_examples=EXAMPLES, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
        @given(programs())
        def agree(made: Made) -> None:
            kinds.update(self._compared(made))

        agree()
        with capsys.disabled():
            share = kinds[OPEN] / kinds.total()
            print(f"\n{type(self).__name__}: {kinds[OPEN]} of {kinds.total()} not decided ({100 * share:.1f} %)")
        assert share <= self.most_open
        assert min(kinds["proved"], kinds["fails"]) >= 10

    def _compared(self, made: Made) -> list[str]:
        """The verdicts on one program, each of which is that of the explorer; nothing where it is too big for it."""
        program = loaded(made.text)
        try:
            expected = {r.name: explore(program, r, STATES) for r in program.requirements}
        except TooBig:
            return []
        decided = self.decide(program)
        for name, answer in expected.items():
            kind, moments = decided[name]
            if kind == OPEN:
                continue
            assert kind == answer.kind.value, made.text
            if kind in ("proved", "fails") and answer.exact:
                assert moments == answer.moments, made.text
        return [decided[name][0] for name in expected]
