"""Facts of hands and physics in a situation, as expressions and in the words of the language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.base.units import show_quantity
from logiccheck.lang.program import And, Compare, Expr, Not, Number, Op, Or, Position, Program, Switch

_WORDS = {Op.GT: "above", Op.GE: "at least", Op.LT: "below", Op.LE: "at most"}
_OPPOSITE = {Op.GT: Op.LE, Op.LE: Op.GT, Op.GE: Op.LT, Op.LT: Op.GE}


@frozen
class Fact:
    """Something that is so of one thing of the world, and what to type for it, and for its opposite. `looser`: what is
    so with it, and says less."""

    expr: Expr
    text: str
    opposite: str
    looser: tuple[Fact, ...] = ()

    @property
    def no(self) -> Expr:
        return Not(self.expr)

    @property
    def begins(self) -> str:
        """What to type for the moment at which it comes to be so."""
        match self.expr:
            case Position(name=name):
                return f"{name} becomes {self.text.split()[-1] if ' is ' in self.text else 'on'}"
            case Not(x=Position(name=name)) if self.text == f"not {name}":
                return f"{name} becomes off"
            case _:
                return f"rises({self.text})"


def facts_of(program: Program, world: Iterable[tuple[str, int | Fraction]]) -> tuple[Fact, ...]:
    """All that can be said of these things as they are."""
    variables: tuple[Switch | Number, ...] = (*program.switches, *program.numbers)
    things = {each.name: each for each in variables}
    return tuple(fact for name, value in world for fact in _facts(things[name], value))


def _facts(thing: Switch | Number, value: int | Fraction) -> Iterator[Fact]:
    if isinstance(thing, Number):
        yield from _amounts(thing, Fraction(value))
        return
    name, at = thing.name, int(value)
    if thing.contact:
        on = Position(name, frozenset({1}))
        yield Fact(on, name, f"not {name}") if at == 1 else Fact(Not(on), f"not {name}", name)
        return
    where = thing.positions[at]
    others = [(other, there) for other, there in enumerate(thing.positions) if other != at]
    looser = tuple(
        Fact(Not(Position(name, frozenset({other}))), f"{name} is not {there}", f"{name} is {there}")
        for other, there in others
    )
    here = Position(name, frozenset({at}))
    yield Fact(here, f"{name} is {where}", f"{name} is not {where}", looser if len(others) > 1 else ())


def _amounts(number: Number, value: Fraction) -> Iterator[Fact]:
    """Of which constants it is above, and below, the nearest first; nothing that is always so."""
    for bound in sorted((bound for bound in number.bounds if bound <= value), reverse=True):
        if bound < value:
            yield _compared(number, Op.GT, bound)
        if bound > number.low:
            yield _compared(number, Op.GE, bound)
    for bound in (bound for bound in number.bounds if bound >= value):
        if bound > value:
            yield _compared(number, Op.LT, bound)
        if bound < number.high:
            yield _compared(number, Op.LE, bound)


def _compared(number: Number, op: Op, bound: Fraction) -> Fact:
    amount = show_quantity(bound, number.unit)
    expr = Compare(number.name, sense=False, op=op, bound=bound)
    return Fact(expr, f"{number.name} {_WORDS[op]} {amount}", f"{number.name} {_WORDS[_OPPOSITE[op]]} {amount}")


def all_of(facts: Iterable[Fact]) -> Expr | None:
    """Each of them is so; None where there is none."""
    parts = tuple(fact.expr for fact in facts)
    return None if not parts else parts[0] if len(parts) == 1 else And(parts)


def one_not(facts: Iterable[Fact]) -> Expr:
    """One of them, at least one there is, is not so."""
    parts = tuple(fact.no for fact in facts)
    return parts[0] if len(parts) == 1 else Or(parts)


def all_said(facts: Iterable[Fact]) -> str:
    return " and ".join(fact.text for fact in facts)


def one_not_said(facts: Iterable[Fact]) -> str:
    return " or ".join(fact.opposite for fact in facts)
