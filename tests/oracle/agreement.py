"""Holds the engine against the explorer on one program, requirement by requirement."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Obstacle, Verdict
from logiccheck.lang.program import Program
from tests.oracle.oracle import Answer, decide

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
    """Every requirement, the built-in one too. Raises `TooBig` when the program is too big to explore, and what our own
    mistakes are said to be."""
    answers = {requirement.name: decide(program, requirement, limit) for requirement in program.requirements}
    check = check_program(program, seconds_each)
    if check.bugs:
        raise AssertionError("\n".join(f"{bug.met_at}: {bug.what} at {bug.places}" for bug in check.bugs))
    verdicts = check.verdicts
    assert {verdict.requirement.name for verdict in verdicts if not verdict.builtin} == set(answers)
    found: list[Compared] = []
    for verdict in verdicts:
        name = verdict.requirement.name
        answer = decide(program, verdict.requirement, limit) if verdict.builtin else answers[name]
        found.append(Compared(name, answer, verdict, complaint(answer, verdict)))
    return found


def undecided(verdict: Verdict) -> str:
    """Why the engine does not know; empty when it does."""
    if verdict.obstacle is Obstacle.UNSETTLED_UNKNOWN:
        return "it is not decided whether everything settles"
    return verdict.undecided.value if verdict.undecided else ""


def complaint(answer: Answer, verdict: Verdict) -> str:
    """How the two contradict each other. The engine may not know."""
    if undecided(verdict):
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
