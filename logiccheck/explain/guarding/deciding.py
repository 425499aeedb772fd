"""What becomes of one small edit: a requirement notices it, or it has no effect, or nobody would notice."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.explain.asking import Answer, Asking, Never, Seen
from logiccheck.explain.guarding.beside import Beside, beside, can_stand_beside, either
from logiccheck.explain.guarding.nominal import nominal
from logiccheck.explain.guarding.noticing import Noticed, Watch
from logiccheck.explain.guarding.touched import Hanging, changed, touched
from logiccheck.explain.guarding.unlike import Difference, told_apart
from logiccheck.lang.matters import Item
from logiccheck.lang.program import Expr, Possible, Program
from logiccheck.lang.program import Never as NeverForm
from logiccheck.model.story import Story


@frozen
class NoEffect:
    """Proved: no output, relay or load ever comes to rest otherwise."""


@frozen
class Unnoticed:
    """All that is required still holds, and the vehicle does something else; `shortest`: no story shows it sooner."""

    difference: Difference
    shortest: bool


@frozen
class Open:
    """Not decided. `asked`: the requirements of which it is not known whether they notice."""

    asked: tuple[str, ...] = ()


Decision: TypeAlias = Noticed | NoEffect | Unnoticed | Open


@dataclass(slots=True)
class Deciding:
    """Decides edits of one vehicle, each within `seconds`."""

    watch: Watch
    seconds: float
    differences: list[Story] = field(default_factory=list)
    hanging: Hanging | None = None

    @property
    def program(self) -> Program:
        return self.watch.program

    def reached(self, edited: Program) -> frozenset[Item]:
        """All that hangs on the edit, through the power of the box, too."""
        if self.hanging is None:
            self.hanging = Hanging(self.program)
        seeds = changed(self.program, edited)
        return frozenset(touched(seeds, (self.hanging, Hanging(edited)), lambda _: False))

    def decide(self, edited: Program) -> Decision:
        """What becomes of it. May raise KeyboardInterrupt, or BugMet."""
        items = self.reached(edited)
        if not items:
            return NoEffect()
        looked = self.watch.looked_at(edited, items)
        if isinstance(looked, Noticed):
            return looked
        decision = self._compared(edited)
        if looked.open_ and not isinstance(decision, NoEffect):
            return Open(looked.open_)
        if isinstance(decision, Unnoticed):
            self.differences.append(decision.difference.story)
        return decision

    def _compared(self, edited: Program) -> Decision:
        budget = Budget(self.seconds)
        if can_stand_beside(self.program, edited):
            try:
                decision = self._side_by_side(edited, budget)
            except OutOfTime:
                decision = None
            if decision is not None:
                return decision
        return self._tried(edited)

    def _side_by_side(self, edited: Program, budget: Budget) -> Decision | None:
        """None where it is not decided that way."""
        pair = beside(self.program, edited, share=True)
        apart = _ever(pair, pair.apart, budget, instant=True)
        exact = isinstance(apart, Never)
        if not exact and pair.timers:
            pair = beside(self.program, edited, share=False)
        seen = pair.visible if exact or pair.powers is None else (*pair.visible, ("powered", pair.powers))
        answer = _ever(pair, either(tuple(what for _, what in seen)), budget)
        told = exact or pair.powers is None  # all that differs is seen
        if isinstance(answer, Seen):
            difference = told_apart(self.program, edited, answer.story)
            first = isinstance(apart, Seen) and len(answer.story.steps) <= len(apart.story.steps)
            if difference is None:  # it rests on runs that begin together and do not last as long
                return self._without_tolerance(edited, budget)
            return Unnoticed(difference, shortest=told or first)
        if not isinstance(answer, Never) or not told:
            return None
        return NoEffect() if isinstance(_ever(pair, either(pair.hidden), budget), Never) else None

    def _without_tolerance(self, edited: Program, budget: Budget) -> Decision | None:
        """Whether they differ where every timer lasts its nominal time; None if that is not shown."""
        pair = beside(nominal(self.program), nominal(edited), share=False)
        answer = _ever(pair, either(tuple(what for _, what in pair.visible)), budget)
        difference = told_apart(self.program, edited, answer.story) if isinstance(answer, Seen) else None
        return None if difference is None else Unnoticed(difference, shortest=False)

    def _tried(self, edited: Program) -> Decision:
        """Stories that are known, played on both."""
        for story in (*self.differences, *self.watch.stories):
            difference = told_apart(self.program, edited, story)
            if difference is not None:
                return Unnoticed(difference, shortest=False)
        return Open()


def _ever(pair: Beside, condition: Expr | None, budget: Budget, instant: bool = False) -> Answer:
    """Whether the condition is ever so, once all has settled or even for an instant; None never is."""
    if condition is None:
        return Never()
    asking = Asking(pair.program, (condition,), budget)
    return asking.fails(NeverForm(condition, None, always=False, instant=True) if instant else Possible(condition))
