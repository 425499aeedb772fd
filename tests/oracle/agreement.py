"""Holds the engine against the explorer on one program, requirement by requirement."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Obstacle, Verdict
from logiccheck.lang.program import Program
from tests.oracle.oracle import Answer, decide_all

REASONS = {
    Obstacle.CONTRADICTION: "contradiction",
    Obstacle.TIME_STOPS: "time stops",
    Obstacle.UNSETTLED: "it never settles",
}


@dataclass(frozen=True)
class Compared:
    """What both say of one requirement; `complaint` is empty when they do not contradict each other."""

    name: str
    answer: Answer
    verdict: Verdict
    complaint: str


def compare(program: Program, seconds_each: float, limit: int) -> list[Compared]:
    """Every requirement that somebody wrote. Raises `TooBig` when the program is too big to explore."""
    answers = decide_all(program, limit)
    check = check_program(program, seconds_each)
    found = [verdict for verdict in check.verdicts if not verdict.builtin]
    assert [verdict.requirement.name for verdict in found] == list(answers)
    pairs = [(answers[verdict.requirement.name], verdict) for verdict in found]
    return [Compared(v.requirement.name, a, v, complaint(a, v)) for a, v in pairs]


def complaint(answer: Answer, verdict: Verdict) -> str:
    """How the two contradict each other. The engine may not know."""
    if verdict.kind is Kind.NOT_DECIDED:
        return ""
    moments = verdict.story.moments if verdict.story and verdict.kind is not Kind.NO_CASE else None
    said = f"the engine says {verdict.kind.value} {moments or ''}; the explorer says {answer.kind.value}"
    if verdict.kind.value != answer.kind.value:
        return f"{said} {answer.moments or ''} {answer.reason}"
    if verdict.kind is Kind.BLOCKED and verdict.obstacle in REASONS and REASONS[verdict.obstacle] not in answer.reason:
        return f"{said} because {answer.reason}, not {REASONS[verdict.obstacle]}"
    if verdict.kind is Kind.FAILS and not answer.exact and moments and answer.moments:
        return "" if moments >= answer.moments else f"{said} at least {answer.moments}"
    if verdict.kind in (Kind.PROVED, Kind.FAILS) and moments != answer.moments:
        return f"{said} {answer.moments or ''}"
    return ""
