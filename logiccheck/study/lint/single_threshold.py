"""Finds outputs that follow a number across a single threshold, with nothing that keeps them from chattering there."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.program import Compare, Expr, Guard, NumberSense, Op, Program, Signal
from logiccheck.lang.walk import Memory, children, condition_of

ONE_SIDE = (Op.LT, Op.LE, Op.GT, Op.GE)
PASSING = ("rpm", "km/h")  # speeds pass a threshold on their way; temperatures, voltages, pressures stay about it


@frozen
class SingleThreshold(FindingMessage):
    """The fan starts and stops many times a second while the coolant is about as warm as its threshold.

    What it means
    The output follows a comparison with one threshold, with no second threshold, no filter time and no timer between.
    A number that trembles around the threshold switches the output each time it passes. Speeds are left out: they
    do not stay where they pass.

    Write
    output fan "Radiator fan" when temperature above 95 degC until below 88 degC

    Instead of
    output fan "Radiator fan" when temperature above 95 degC

    When to accept it
    Where the value that is sensed cannot tremble there, or where being switched that often harms nothing.
    """

    sense: str
    outputs: tuple[str, ...]

    code, name, title = "W108", "single-threshold", "One threshold for on and off"
    guards = Guard.DAMAGE

    def sentence(self) -> str:
        named = ", ".join(f"`{output}`" for output in self.outputs)
        return f"One threshold of `{self.sense}` switches both on and off, with nothing in between: {named}."

    def hint(self) -> str:
        return "Give it two thresholds (`above .. until below ..`), or the sense a filter time."


def find(program: Program) -> Iterator[Finding]:
    """One for each comparison that outputs follow at once, at the first of its places."""
    if program.box is None:
        return
    ends = {each.name: (each.low, each.high) for each in program.numbers if each.unit not in PASSING}
    unfiltered = [each for each in program.box.senses if isinstance(each, NumberSense) and each.filter is None]
    bare = {each.name: ends[each.number] for each in unfiltered if each.number in ends}
    exprs = {rule.name: condition_of(rule) for rule in program.box.rules}
    found: dict[tuple[str, Op, Fraction], tuple[Compare, list[str]]] = {}
    for output in program.box.outputs:
        for compare in _followed(output.command, exprs):
            if compare.op not in ONE_SIDE or compare.bound in bare.get(compare.name, (compare.bound,)):
                continue
            key = compare.name, compare.op, compare.bound
            _, names = found.setdefault(key, (compare, []))
            names += [output.name] if output.name not in names else []
    for (sense, _, _), (compare, names) in found.items():
        yield Finding(Diagnostic(SingleThreshold(sense, tuple(names)), compare.span), (*names, sense))


def _followed(expr: Expr, exprs: dict[str, Expr]) -> Iterator[Compare]:
    """The comparisons that an expression follows at once, also by way of rules."""
    todo, seen = [expr], set[str]()
    while todo:
        node = todo.pop()
        if isinstance(node, Compare):
            yield node
        elif isinstance(node, Signal) and node.name in exprs and node.name not in seen:
            seen.add(node.name)
            todo.append(exprs[node.name])
        elif not isinstance(node, Memory):
            todo.extend(reversed(children(node)))
