"""What is asked of a vehicle with faults: its requirements, that nothing is shorted, and what tell-tales show."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import Fault, When
from logiccheck.copper.faults.there import OneOf
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.matters import WORLD, Names
from logiccheck.lang.program import (
    And,
    CallsWithin,
    Const,
    Expr,
    Form,
    Guard,
    Never,
    Not,
    Or,
    Position,
    Possible,
    Program,
    Requirement,
    Signal,
    SignalKind,
    TellTale,
)
from logiccheck.lang.walk import form_expressions

_ON = frozenset({1})
_SHORTED = "shorted, asked of each vehicle"  # a name of its own, for each vehicle has a requirement of the other name


@frozen
class Asked:
    """A requirement, or what a tell-tale shows: that is asked of each fault while it is there. `once`: one story of a
    fault is enough, in whatever manner it breaks. `rests_on`: it is asked only of faults for which what has this number
    among all that is asked holds."""

    requirement: Requirement
    tell_tale: TellTale | None = None
    rests_on: int | None = None

    @property
    def name(self) -> str:
        return SHORT_CIRCUIT if self.requirement.name == _SHORTED else self.requirement.name

    @property
    def once(self) -> bool:
        return self.tell_tale is not None and self.rests_on is None

    def whens(self, fault: Fault) -> tuple[When, ...]:
        """The manners of a fault of which it is asked."""
        if possible(self.requirement.form) and self.tell_tale is None:
            return tuple(when for when in fault.whens if when is When.START)
        return fault.whens

    def of(self, fault: Fault) -> Requirement:
        """As it is asked of the vehicle with this fault."""
        return self._while(Position(fault.id, _ON))

    def of_any(self, faults: tuple[Fault, ...]) -> Requirement:
        """As it is asked of a vehicle with one of these faults. It names which, even where none makes a difference."""
        there = OneOf(faults).any(faults)
        assert there is not None
        return self._while(there)

    def _while(self, there: Expr) -> Requirement:
        match self.requirement.form:
            case CallsWithin() as form if self.tell_tale is not None:
                return replace(self.requirement, form=replace(form, p=And((there, form.p))))
            case Possible() as form if self.tell_tale is not None:
                return replace(self.requirement, form=replace(form, q=And((there, form.q))))
            case _:
                return self.requirement


def possible(form: Form) -> bool:
    return isinstance(form, Possible)


def shorted(program: Program) -> Asked:
    """That no wire is ever both live and grounded."""
    wires = tuple(
        And((Signal(SignalKind.LIVE, wire.name, wire.span), Signal(SignalKind.GROUNDED, wire.name, wire.span)))
        for wire in program.wires
    )
    form = Never(Or(wires), None, always=False, instant=False)
    text = "never a wire both live and grounded"
    return Asked(Requirement(_SHORTED, "Short circuit", Guard.DANGER, form, text))


def shown(number: int, told: TellTale) -> Asked:
    """That a fault is noticed by this tell-tale, in time."""
    while_ = told.r if told.r is not None else Const(True)
    form = CallsWithin(while_, told.p, told.time, Not(told.r) if told.r is not None else None)
    return Asked(Requirement(f"tell-tale {number}", told.label, Guard.FUNCTION, form, told.text, told.span), told)


def chance(number: int, told: TellTale, rests_on: int) -> Asked:
    """That it ever counts what this tell-tale shows of a fault: without that, it shows nothing."""
    form = Possible(told.r if told.r is not None else Const(True))
    requirement = Requirement(f"chance of tell-tale {number}", told.label, Guard.FUNCTION, form, told.text, told.span)
    return Asked(requirement, told, rests_on)


def is_touching(program: Program, faults: Iterable[Fault], asked: Iterable[Asked]) -> list[frozenset[str]]:
    """For each thing that is asked the faults, by their ids, that can matter to it by name; to what tell-tales show all
    do."""
    known = tuple(faults)
    requirements = tuple(each.requirement for each in asked)
    vehicle = together(replace(program, requirements=requirements), known)
    names, ids = Names(vehicle), frozenset(fault.id for fault in known)
    return [
        ids if each.tell_tale is not None else names.matter(form_expressions(there.form)).names(WORLD) & ids
        for each, there in zip(asked, vehicle.requirements, strict=True)
    ]
