"""What single faults do: which requirement fails with which, when it is there from the start, comes later, or comes and
goes; and which of them nobody need notice."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, replace

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.answers import (
    Blocked,
    Broken,
    Fails,
    Hidden,
    Holds,
    Notice,
    Noticed,
    Open,
    Outcome,
    Pair,
    Tales,
    Unasked,
    Unclear,
)
from logiccheck.copper.faults.asked import Asked, chance, shorted, shown
from logiccheck.copper.faults.deciding import Deciding
from logiccheck.copper.faults.parts import Fault, When, faults_of
from logiccheck.copper.faults.tales import tales_of
from logiccheck.engine.verdict import Check, Kind, Obstacle, Undecided
from logiccheck.lang.program import Program, Requirement

SECONDS = 120.0  # for one requirement and all faults, at most
HOLDS = (Kind.PROVED, Kind.NO_CASE)


def faults(
    program: Program,
    whole: Check,
    budget: Budget,
    progress: Callable[[str], None],
    one_by_one: bool = False,
    seconds: float = SECONDS,
    only: tuple[Fault, ...] | None = None,
    names: Collection[str] = (),
) -> Broken:
    """All single faults of the vehicle, or `only` these, and what becomes of each requirement that is proved of it as
    it is, be it that it has no case there.

    `whole` is what a check of the vehicle found. Everything takes as long as `budget` says; a KeyboardInterrupt ends
    the search, and what was decided stays. `one_by_one`: each fault is asked in a vehicle of its own, which takes much
    longer and comes to the same. `names`: of the requirements that are asked; none for all.
    """
    known = faults_of(program) if only is None else only
    asked, unasked, idle = _asked(program, whole, names)
    tales = program.electrics.tell_tales
    notices = tuple(shown(number, told) for number, told in enumerate(tales, start=1))
    chances = tuple(chance(number, told, len(asked) + number - 1) for number, told in enumerate(tales, start=1))
    deciding = Deciding(program, (*asked, *notices, *chances), known, budget, seconds, progress)
    interrupted, why, lit = False, Undecided.BUDGET, Tales(unknown=tales)
    try:
        lit = tales_of(program, budget, progress)
        if one_by_one or whole.troubles or any(verdict.doubtful for verdict in whole.verdicts):
            deciding.one_by_one(known)
        else:
            deciding.together()
    except KeyboardInterrupt:
        interrupted, why = True, Undecided.INTERRUPTED
    except MemoryError:  # while a vehicle was made ready
        why = Undecided.MEMORY
    told = _Table(deciding, len(asked), why, lit)
    return Broken(
        known,
        tuple(_named(each) for each in asked),
        unasked,
        tuple(told.pair(fault, number) for fault in known for number in range(len(asked))),
        tuple(told.notice(fault) for fault in known),
        interrupted,
        (*lit.bugs, *deciding.bugs),
        idle,
        lit,
    )


def _asked(
    program: Program, whole: Check, names: Collection[str]
) -> tuple[tuple[Asked, ...], tuple[Unasked, ...], frozenset[str]]:
    """What is proved of the whole vehicle, which is asked; what is not; and the names of what has no case there. What
    copper rules out at first sight is proved, too; where the check itself broke off, nothing says that it does."""
    broke_off = any(verdict.undecided in (Undecided.MEMORY, Undecided.INTERRUPTED) for verdict in whole.verdicts)
    ruled_out = Kind.NOT_DECIDED if broke_off else Kind.PROVED
    kinds = {verdict.requirement.name: verdict.kind for verdict in whole.verdicts if not verdict.builtin}
    built_in = [verdict.kind for verdict in whole.verdicts if verdict.builtin]
    candidates = [(Asked(each), kinds.get(each.name, Kind.NOT_DECIDED)) for each in program.requirements]
    if program.wires:
        candidates.append((shorted(program), built_in[0] if built_in else ruled_out))
    candidates = [(asked, kind) for asked, kind in candidates if not names or asked.name in names]
    return (
        tuple(asked for asked, kind in candidates if kind in HOLDS),
        tuple(Unasked(_named(asked), kind) for asked, kind in candidates if kind not in HOLDS),
        frozenset(asked.name for asked, kind in candidates if kind is Kind.NO_CASE),
    )


def _named(asked: Asked) -> Requirement:
    """The requirement under the name that people know."""
    return replace(asked.requirement, name=asked.name)


@dataclass(slots=True)
class _Table:
    """What was decided, requirement by requirement; what comes after those in `deciding.asked` are tell-tales, then
    whether each has a chance. What has no answer is open."""

    deciding: Deciding
    requirements: int
    why: Undecided
    tales: Tales

    def _outcome(self, fault: Fault, number: int, when: When) -> Outcome:
        return self.deciding.outcomes.get((fault.id, number, when), Open(self.why))

    def pair(self, fault: Fault, number: int) -> Pair:
        asked = self.deciding.asked[number]
        found = {when: self._outcome(fault, number, when) for when in asked.whens(fault)}
        return Pair(
            fault,
            _named(asked),
            found.get(When.START),
            found.get(When.LATER),
            found.get(When.LOOSE),
            self.deciding.touches(fault, number),
        )

    def notice(self, fault: Fault) -> Notice:
        """The first tell-tale that is proved to show it, and has a chance to; else hidden, where each has a story in
        which it does not, or no chance, or comes on with nothing broken, too."""
        hidden: Hidden | None = Hidden()
        unclear: Undecided | Obstacle | None = None
        tales = (len(self.deciding.asked) - self.requirements) // 2
        for number in range(self.requirements, self.requirements + tales):
            told = self.deciding.asked[number].tell_tale
            assert told is not None
            if told in self.tales.always:
                continue
            found = self._found(fault, number)
            if all(isinstance(outcome, Holds) for outcome in found.values()):
                found = self._found(fault, number + tales)
                if all(isinstance(outcome, Holds) for outcome in found.values()):
                    if told in self.tales.counted:
                        return Noticed(told)
                    hidden = None
                    continue
            failing = ((when, each.story) for when, each in found.items() if isinstance(each, Fails))
            shown = next(failing, None)
            if shown is None:
                reasons = (_reason(each, self.why) for each in found.values() if not isinstance(each, Holds))
                hidden, unclear = None, next(reasons, None)
            elif hidden is not None and hidden.story is None:
                hidden = Hidden(*shown, told)
        return hidden if hidden is not None else Unclear(unclear)

    def _found(self, fault: Fault, number: int) -> dict[When, Outcome | None]:
        return {when: self.deciding.outcomes.get((fault.id, number, when)) for when in fault.whens}


def _reason(outcome: Outcome | None, why: Undecided) -> Undecided | Obstacle | None:
    """Why it is not known."""
    match outcome:
        case Open(reason):
            return reason
        case Blocked(by):
            return by
        case _:
            return why
