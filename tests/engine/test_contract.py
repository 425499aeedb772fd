"""The engine keeps the contract, and so does the explorer."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Verdict
from logiccheck.lang.program import Program
from tests.engine.contract import Decided, EngineContract
from tests.oracle.oracle import decide


def decided(verdict: Verdict) -> Decided:
    return verdict.kind.value, None if verdict.story is None else verdict.story.moments


class TestEngine(EngineContract):
    def decide(self, program: Program) -> Mapping[str, Decided]:
        return {v.requirement.name: decided(v) for v in check_program(program, seconds_each=120).verdicts}


class TestExplorer(EngineContract):
    def decide(self, program: Program) -> Mapping[str, Decided]:
        answers = {requirement.name: decide(program, requirement) for requirement in program.requirements}
        return {name: (answer.kind.value, answer.moments) for name, answer in answers.items()}
