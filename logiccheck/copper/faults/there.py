"""Whether a fault is there at a moment, as conditions of the world: switches of our own, which only faults move."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import Protocol

from logiccheck.copper.faults.parts import Fault, Mode, When
from logiccheck.lang.program import (
    And,
    ChangesOnlyWhile,
    Const,
    Dip,
    Excluded,
    Expr,
    Given,
    LastsAtMost,
    Not,
    Or,
    Position,
    Switch,
    Xor,
)

# No name of a user holds a blank.
WHICH = "which part breaks"
THERE = "it is broken"
MANNER = "how it breaks"
MANNERS = (When.START, When.LATER, When.LOOSE)

WHOLE = "whole"
ONE_BREAKS = "only what is said to break breaks, in the manner said"
_OFF, _ON = frozenset({0}), frozenset({1})


class There(Protocol):
    """When which faults are there. `switches`, `at_first` and `givens` belong to a vehicle in which that is so;
    the conditions of dips are asked for as the vehicle has them."""

    faults: tuple[Fault, ...]

    @property
    def switches(self) -> tuple[Switch, ...]: ...

    @property
    def at_first(self) -> tuple[Expr, ...]: ...

    def givens(self, dips: tuple[Dip, ...]) -> tuple[Given, ...]: ...

    def any(self, faults: Iterable[Fault]) -> Expr | None:
        """One of these faults is there now; None if none of them ever is."""
        ...


# ---------------------------------------------------------------------------------------------------- one at a time


@dataclass(slots=True)
class OneOf:
    """One of several faults, the same all the time; in one of several manners, the same all the time, too."""

    faults: tuple[Fault, ...]
    number: dict[str, int] = field(init=False)  # of each fault, by its id

    def __post_init__(self) -> None:
        self.number = {fault.id: number for number, fault in enumerate(self.faults)}

    @property
    def switches(self) -> tuple[Switch, ...]:
        ids = tuple(fault.id for fault in self.faults)
        return (
            Switch(WHICH, "What breaks", ids if len(ids) > 1 else (*ids, WHOLE), False, False),
            Switch(MANNER, "How it breaks", tuple(when.value for when in MANNERS), False, False),
            Switch(THERE, "It is broken", ("off", "on"), False, True),
        )

    @property
    def at_first(self) -> tuple[Expr, ...]:
        return (Not(Xor(self.manner(When.START), Position(THERE, _ON))),)

    def givens(self, dips: tuple[Dip, ...]) -> tuple[Given, ...]:
        never = Const(False)
        found: list[Given] = [ChangesOnlyWhile(name, never, ONE_BREAKS) for name in (WHICH, MANNER)]
        for whens in {fault.whens: None for fault in self.faults}:
            others = [fault for fault in self.faults if fault.whens == whens]
            if left_out := [when for when in MANNERS if when not in whens]:
                found.append(Excluded(And((self.which(others), self.manner(*left_out))), ONE_BREAKS))
        off, loose, ready = Position(THERE, _OFF), self.manner(When.LOOSE), Not(self.manner(When.START))
        moves: list[Expr] = [ready, Or((off, loose))]
        for fault in (fault for fault in self.faults if fault.mode is Mode.DIPPED):
            dip, this = dips[fault.index], self.which([fault])
            moves.append(Or((Not(this), Position(THERE, _ON), dip.p)))
            found.append(LastsAtMost(And((this, Position(THERE, _ON))), dip.time, ONE_BREAKS))
        found.append(ChangesOnlyWhile(THERE, And(tuple(moves)), ONE_BREAKS))
        return tuple(found)

    def which(self, faults: Iterable[Fault]) -> Position:
        """It is one of these that breaks."""
        return Position(WHICH, frozenset(self.number[fault.id] for fault in faults))

    @staticmethod
    def manner(*whens: When) -> Position:
        """It breaks in one of these manners."""
        return Position(MANNER, frozenset(MANNERS.index(when) for when in whens))

    def any(self, faults: Iterable[Fault]) -> Expr | None:
        asked = [fault for fault in faults if fault.id in self.number]
        return And((self.which(asked), Position(THERE, _ON))) if asked else None


# ---------------------------------------------------------------------------------------------------------- together


@dataclass(slots=True)
class Each:
    """Several faults at once, each by a switch of its own; those that come back by themselves in their own manner."""

    faults: tuple[Fault, ...]
    when: When
    ids: frozenset[str] = field(init=False)

    def __post_init__(self) -> None:
        self.ids = frozenset(fault.id for fault in self.faults)

    @property
    def switches(self) -> tuple[Switch, ...]:
        return tuple(
            Switch(fault.id, fault.title, (WHOLE, fault.mode.value), False, False, fault.span) for fault in self.faults
        )

    @property
    def at_first(self) -> tuple[Expr, ...]:
        return tuple(self._at_first())

    def _at_first(self) -> Iterator[Expr]:
        for fault in self.faults:
            match self.manner(fault):
                case When.START:
                    yield Position(fault.id, _ON)
                case When.LATER | When.LOOSE:
                    yield Position(fault.id, _OFF)
                case When.SOMETIME:
                    pass

    def manner(self, fault: Fault) -> When:
        """When it is there."""
        return self.when if self.when in fault.whens or len(fault.whens) > 1 else fault.whens[0]

    def givens(self, dips: tuple[Dip, ...]) -> tuple[Given, ...]:
        return tuple(given for fault in self.faults for given in self._given(fault, dips))

    def _given(self, fault: Fault, dips: tuple[Dip, ...]) -> Iterator[Given]:
        name, off, on = fault.id, Position(fault.id, _OFF), Position(fault.id, _ON)
        manner = self.manner(fault)
        if manner is When.START:
            yield ChangesOnlyWhile(name, Const(False), ONE_BREAKS)
        elif manner is not When.LOOSE:
            yield ChangesOnlyWhile(name, off, ONE_BREAKS)
        if fault.mode is Mode.DIPPED:
            yield ChangesOnlyWhile(name, Or((on, dips[fault.index].p)), ONE_BREAKS)
            yield LastsAtMost(on, dips[fault.index].time, ONE_BREAKS)

    def any(self, faults: Iterable[Fault]) -> Expr | None:
        asked = tuple(Position(fault.id, _ON) for fault in faults if fault.id in self.ids)
        return Or(asked) if len(asked) > 1 else asked[0] if asked else None
