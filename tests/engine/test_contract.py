"""Each engine keeps the contract, alone and in turn with the other, and so does the explorer."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from logiccheck.engine.check import check_program
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.verdict import Verdict
from logiccheck.lang.program import Program
from tests.engine.contract import Decided, EngineContract, SearchContract
from tests.oracle.oracle import decide


def decided(verdict: Verdict) -> Decided:
    return verdict.kind.value, None if verdict.story is None else verdict.story.moments


def found(program: Program, engines: Collection[Engine]) -> Mapping[str, Decided]:
    verdicts = check_program(program, seconds_each=120, engines=engines).verdicts
    return {verdict.requirement.name: decided(verdict) for verdict in verdicts}


class TestEngine(SearchContract):
    most_open = 0.01

    def decide(self, program: Program) -> Mapping[str, Decided]:
        return found(program, BOTH)


class TestRefinement(SearchContract):
    most_open = 0.05

    def decide(self, program: Program) -> Mapping[str, Decided]:
        return found(program, {Engine.REFINEMENT})


class TestZones(SearchContract):
    most_open = 0.10

    def decide(self, program: Program) -> Mapping[str, Decided]:
        return found(program, {Engine.ZONES})


class TestExplorer(EngineContract):
    def decide(self, program: Program) -> Mapping[str, Decided]:
        answers = {requirement.name: decide(program, requirement) for requirement in program.requirements}
        return {name: (answer.kind.value, answer.moments) for name, answer in answers.items()}
