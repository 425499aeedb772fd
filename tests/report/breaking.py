"""What single faults do to a small vehicle, found without any haste: each fault and manner checked on a vehicle of its
own."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.copper.faults.answers import Blocked, Broken, Fails, Hidden, Holds, Open, Outcome, Pair, Unasked
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import Fault, When, faults_of
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.lang.program import Possible, Program, Requirement

SECONDS = 20.0


def broken(program: Program, wanted: Callable[[Fault], bool]) -> Broken:
    """The faults that are wanted, all taken as hidden. Whether wires are short-circuited is asked of each, last."""
    whole = check_program(program, SECONDS).verdicts
    asked = [each.requirement for each in whole if each.kind is Kind.PROVED and not each.builtin]
    unasked = tuple(Unasked(each.requirement, each.kind) for each in whole if each.kind is not Kind.PROVED)
    faults = tuple(fault for fault in faults_of(program) if wanted(fault))
    found = {fault.id: {when: _verdicts(program, fault, when) for when in fault.whens} for fault in faults}
    short = next(
        v.requirement for whens in found.values() for some in whens.values() for v in some.values() if v.builtin
    )
    pairs = tuple(_pair(fault, each, found[fault.id]) for fault in faults for each in (*asked, short))
    return Broken(faults, (*asked, short), unasked, pairs, tuple(Hidden() for _ in faults))


def _verdicts(program: Program, fault: Fault, when: When) -> dict[str, Verdict]:
    return {each.requirement.name: each for each in check_program(together(program, (fault,), when), SECONDS).verdicts}


def _pair(fault: Fault, requirement: Requirement, found: dict[When, dict[str, Verdict]]) -> Pair:
    outcomes: dict[str, Outcome] = {}
    for when, verdicts in found.items():
        if when is When.START or not isinstance(requirement.form, Possible):
            verdict = verdicts.get(requirement.name)  # where nothing could be short-circuited, that is not asked
            outcomes[when.value] = _outcome(verdict) if verdict is not None else Holds()
    return Pair(fault, requirement, **outcomes)


def _outcome(verdict: Verdict) -> Outcome:
    match verdict.kind:
        case Kind.FAILS:
            return Fails(verdict.story)
        case Kind.PROVED | Kind.NO_CASE:
            return Holds()
        case Kind.BLOCKED:
            assert verdict.obstacle is not None
            return Blocked(verdict.obstacle)
        case Kind.NOT_DECIDED:
            return Open(verdict.undecided)
