"""Facts of a way in the words of the language: "key is run and not crashed and engine above 400 rpm"."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from logiccheck.base.units import show_quantity
from logiccheck.explain.primes import Term
from logiccheck.lang.program import Compare, Expr, NumberSense, Op, Position, Program, Signal, SignalKind, Switch
from logiccheck.report.excerpt import in_a_sentence
from logiccheck.report.facts import OPPOSITE

WORDS = {Op.GT: "above", Op.GE: "at least", Op.LT: "below", Op.LE: "at most", Op.EQ: "is", Op.NE: "is not"}
SUPPLYING = {SignalKind.LIVE, SignalKind.SOURCE}


class Literals:
    """The words for facts of one program; `named` has those that are said otherwise than they are written."""

    def __init__(self, program: Program, files: Mapping[str, str], named: Mapping[Expr, str]) -> None:
        self.files, self.named = files, named
        self.switches = {switch.name: switch for switch in program.switches}
        self.units = {number.name: number.unit for number in program.numbers}
        senses = program.box.senses if program.box is not None else ()
        self.units |= {s.name: self.units[s.number] for s in senses if isinstance(s, NumberSense)}

    def term(self, term: Term, facts: Iterable[Expr]) -> tuple[str, ...]:
        """The facts of a term, in this order; what it says of one switch is one fact."""
        values = dict(term)
        told: dict[str, None] = {}
        for fact in facts:
            if fact in values:
                told[self._switch(fact.name, term) if isinstance(fact, Position) else self._one(fact, values)] = None
        return tuple(told)

    def _one(self, fact: Expr, values: Mapping[Expr, bool]) -> str:
        value = values[fact]
        match fact:
            case _ if fact in self.named:
                text = self.named[fact]
            case Compare(name=name, sense=sense, op=op, bound=bound):
                turned = op if value or sense else OPPOSITE[op]
                text = f"{name} {WORDS[turned]} {show_quantity(bound, self.units[name])}"
                return f"not {text}" if sense and not value else text
            case Signal(kind=kind, name=name) if kind in SUPPLYING:
                return f"{name} is {'live' if value else 'not live'}"
            case Signal(name=name):
                text = name
            case _:
                text = in_a_sentence(fact, self.files)
        return text if value else f"not {text}"

    def _switch(self, name: str, term: Term) -> str:
        """Where the switch stands, or may."""
        switch = self.switches[name]
        mine = [(f, value) for f, value in term if isinstance(f, Position) and f.name == name]
        left = [i for i in range(len(switch.positions)) if all((i in f.indices) == value for f, value in mine)]
        return _stands(switch, left)


def _stands(switch: Switch, left: list[int]) -> str:
    if switch.contact:
        return switch.name if left == [1] else f"not {switch.name}"
    if len(left) == len(switch.positions) - 1 > 1:
        out = next(i for i in range(len(switch.positions)) if i not in left)
        return f"{switch.name} is not {switch.positions[out]}"
    if len(left) == 1:
        return f"{switch.name} is {switch.positions[left[0]]}"
    return f"{switch.name} in {{{', '.join(switch.positions[i] for i in left)}}}"
