"""Rules of a box as text, and what they mean by the truth of what they name, without any boolean form.

The box senses five wires, a to e, and a number, m. What a rule names is looked up in the resolved program itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from typing import TypeAlias

from logiccheck.base.span import Span
from logiccheck.lang.load import Loaded, load_text
from logiccheck.lang.program import Compare, Expr, Output, Program, Rule, Signal, SignalKind
from logiccheck.logic.show import Shown, show
from logiccheck.model.truth import Leaf, compare, truth

SENSES = ("a", "b", "c", "d", "e")
VOLTS = (0, 10, 15, 20, 25)  # each constant that a rule may compare with, 10 and 20, and a value beside each

Facts: TypeAlias = Mapping[str, bool | int]  # by sense


def vehicle(rules: Mapping[str, str], senses: tuple[str, ...] = SENSES) -> str:
    """The text of a vehicle with these rules."""
    world = "".join(f"    k_{name} contact\n" for name in senses) + "    volts 0 .. 30 V\n"
    wires = "".join(f"    wire w_{name} from plus when k_{name}\n" for name in senses)
    sensed = "".join(f"    sense {name} from w_{name} live\n" for name in senses) + "    sense m from volts\n"
    lines = "".join(f"    rule {name} = {text}\n" for name, text in rules.items())
    return (
        f'vehicle "T"\nworld\n{world}harness\n    source plus\n{wires}controller "Box" powered by plus\n{sensed}{lines}'
    )


@dataclass(frozen=True, slots=True)
class Box:
    """A loaded vehicle with rules."""

    loaded: Loaded
    program: Program

    def expr(self, name: str) -> Expr:
        """What a rule says."""
        return _said(self._rules()[name])

    def show(self, name: str) -> Shown:
        return show(self.program, name, self.text_of)

    def text_of(self, span: Span) -> str:
        return self.loaded.texts[span.file][span.begin : span.end]

    def value(self, name: str, facts: Facts) -> bool:
        """The rule where these facts are so."""
        return self.truth(self.expr(name), facts)

    def truth(self, expr: Expr, facts: Facts) -> bool:
        def leaf(part: Leaf) -> bool:
            match part:
                case Signal(kind=SignalKind.SENSE, name=name):
                    return bool(facts[name])
                case Signal(kind=SignalKind.RULE | SignalKind.COMMAND, name=name):
                    return self.value(name, facts)
                case Compare(name=name, op=op, bound=bound):
                    return compare(Fraction(facts[name]), op, bound)
                case _:
                    raise LookupError(part)

        return truth(expr, leaf)

    def _rules(self) -> dict[str, Rule | Output]:
        assert self.program.box is not None
        return {rule.name: rule for rule in self.program.box.rules}


def _said(rule: Rule | Output) -> Expr:
    return rule.expr if isinstance(rule, Rule) else rule.command


def box(rules: Mapping[str, str], senses: tuple[str, ...] = SENSES) -> Box:
    """The loaded vehicle with these rules, which must have no mistake."""
    loaded = load_text(vehicle(rules, senses))
    assert loaded.program is not None, (loaded.diagnostics, rules)
    return Box(loaded, loaded.program)


def all_facts() -> Iterator[Facts]:
    """All that the box can sense: each wire and, of the number, each interval."""
    for values in product((False, True), repeat=len(SENSES)):
        for volts in VOLTS:
            yield {**dict(zip(SENSES, values, strict=True)), "m": volts}
