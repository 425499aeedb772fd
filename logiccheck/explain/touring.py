"""The vehicle shown at work: how it wakes and falls asleep, how each thing that it switches comes on and goes off."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.alive import possible_alive
from logiccheck.explain.asking import Answer, Asking, Never, Open
from logiccheck.explain.inside import POWERED
from logiccheck.explain.situation import Asked, signals
from logiccheck.lang.program import Edge, Expr, Or, Program

ANYTHING = "anything"  # what a vehicle without a box is asked about as a whole


@frozen
class Shown:
    """`on`: whether it is ever on. `off`: whether it ever goes off after that, if it can be while all sources that
    matter to it are live; None where it is never on."""

    asked: Asked
    on: Answer
    off: Answer | None


@frozen
class Tour:
    """`whole` is the vehicle as one: that the box has power, or without a box that anything at all is on.

    There `on` is the shortest story in which it comes on after it was off, and `off` one in which it goes off. None
    where nothing is switched. `each` is shown in the order of the file: relays, loads, outputs.
    """

    whole: Shown | None
    each: tuple[Shown, ...]
    interrupted: bool
    unsettled: Obstacle | None


def switched(program: Program) -> tuple[Asked, ...]:
    """Everything that rules and relays switch: relays, loads, outputs, in the order of the file."""
    known = signals(program)
    names = [relay.name for relay in program.relays] + [load.name for load in program.loads]
    names += [output.name for output in program.box.outputs] if program.box is not None else []
    return tuple(known[name] for name in names)


def tour(program: Program, budget: Budget, progress: Callable[[str], None]) -> Tour:
    """Looks for all stories within the budget. A KeyboardInterrupt ends the search; what was found stays."""
    guide = _Guide(program, switched(program), budget, progress)
    try:
        guide.run()
    except KeyboardInterrupt:
        guide.interrupted = True
    return guide.found()


@dataclass(slots=True)
class _Guide:
    program: Program
    asked: tuple[Asked, ...]
    budget: Budget
    progress: Callable[[str], None]
    whole: Shown | None = None
    each: list[Shown] = field(default_factory=list)
    interrupted: bool = False
    unsettled: Obstacle | None = None

    def run(self) -> None:
        if not self.asked:
            return
        self.progress("settling")
        whole = self._whole()
        asking = Asking(self.program, (Or((whole.on, *(each.on for each in self.asked))),), self.budget)
        self.unsettled = asking.unsettled
        self.progress(whole.name)
        self.whole = Shown(whole, asking.possible(_turns(whole, True)), self._off(asking, whole))
        for asked in self.asked:
            self.progress(asked.name)
            on = asking.possible(asked.on)
            self.each.append(Shown(asked, on, None if isinstance(on, Never) else self._off(asking, asked)))

    def _off(self, asking: Asking, asked: Asked) -> Answer:
        return possible_alive(asking, self.program, asked.on, _turns(asked, False))

    def _whole(self) -> Asked:
        box = self.program.box
        if box is not None:
            return Asked(POWERED.name, box.label, POWERED)
        return Asked(ANYTHING, "", Or(tuple(each.on for each in self.asked)))

    def found(self) -> Tour:
        late = Open(Undecided.INTERRUPTED)
        if self.whole is None and self.asked:
            self.whole = Shown(self._whole(), late, late)
        return Tour(self.whole, (*self.each, *self._left()), self.interrupted, self.unsettled)

    def _left(self) -> Iterator[Shown]:
        late = Open(Undecided.INTERRUPTED)
        yield from (Shown(asked, late, late) for asked in self.asked[len(self.each) :])


def _turns(asked: Asked, on: bool) -> Expr:
    """It comes on at this moment, or goes off."""
    return Edge(on, asked.on, f"{asked.name} {'comes on' if on else 'goes off'}")
