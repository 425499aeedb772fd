"""Finds requirements about danger that speak of nothing but what the box believes."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Compare, Guard, Program, Signal, SignalKind
from logiccheck.lang.walk import Leaf, form_expressions, references


@frozen
class BeliefOnly(FindingMessage):
    """The check is green, and the pump runs after the crash all the same: its wire was broken.

    What it means
    A requirement that guards against danger names senses and rules alone. It says how the thoughts of the box fit
    together, and nothing about the vehicle.

    Write
    output lamp when key_on and not cranking
    requirements
        danger stays_dark never lamp while key is off

    Instead of
    output lamp when key_on and not cranking
    requirements
        danger   stays_dark never cranking while not key_on
        function lights_up  possible lamp

    When to accept it
    Where another requirement ties these senses and rules to what really happens.
    """

    word: str
    beliefs: tuple[str, ...]

    code, name, title = "W111", "belief-only", "Danger judged by the box alone"
    guards = Guard.DANGER

    def sentence(self) -> str:
        named = ", ".join(f"`{belief}`" for belief in self.beliefs)
        return f"`{self.word}` guards against danger and speaks only of what the box believes: {named}."

    def hint(self) -> str:
        return "Name what really happens: outputs, wires, loads, and things of the world."


def find(program: Program) -> Iterator[Finding]:
    """One for each such requirement, in the order written."""
    for each in program.requirements:
        leaves = [leaf for expr in form_expressions(each.form) for leaf in references(expr)]
        if each.guard is Guard.DANGER and leaves and all(map(_is_belief, leaves)):
            beliefs = tuple(dict.fromkeys(leaf.name for leaf in leaves))
            yield Finding(Diagnostic(BeliefOnly(each.name, beliefs), each.span), (each.name, *beliefs))


def _is_belief(leaf: Leaf) -> bool:
    if isinstance(leaf, Signal):
        return leaf.kind in (SignalKind.SENSE, SignalKind.RULE)
    return isinstance(leaf, Compare) and leaf.sense
