"""What single faults do to a vehicle, in few letters."""

from __future__ import annotations

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.answers import Blocked, Broken, Fails, Holds, Open, Outcome
from logiccheck.engine.check import check_program
from logiccheck.lang.program import Program
from logiccheck.study.faults import faults
from tests.oracle.loading import loaded


def broken(text: str, one_by_one: bool = False) -> Broken:
    return of(loaded(text), one_by_one)


def of(program: Program, one_by_one: bool = False) -> Broken:
    return faults(program, check_program(program), Budget(600), lambda _: None, one_by_one)


def letter(outcome: Outcome | None) -> str:
    match outcome:
        case None:
            return "-"
        case Holds():
            return "."
        case Fails():
            return "F"
        case Open():
            return "?"
        case Blocked():
            return "B"


def table(found: Broken) -> dict[tuple[str, str], str]:
    """By fault and requirement: from the start, later, loose; "." proved, "F" fails, "-" not asked."""
    return {
        (pair.fault.id, pair.requirement.name): "".join(map(letter, (pair.start, pair.later, pair.loose)))
        for pair in found.pairs
    }
