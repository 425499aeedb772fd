"""An and-inverter graph: every value of one moment as a literal over inputs, built once and shared.

Literals are whole numbers: node n is 2 n, its negation 2 n + 1; 0 is false, 1 is true. Node 0 is the constant; an input
node has no operands. Nodes are numbered so that operands come before what uses them.
Reference: Kuehlmann, Paruthi, Krohm, Ganai, "Robust Boolean reasoning for equivalence checking and functional property
verification", IEEE TCAD 21(12), 2002.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeAlias

Lit: TypeAlias = int
Node: TypeAlias = int

FALSE: Lit = 0
TRUE: Lit = 1


class Aig:
    """Also the algebra in which boolean forms are lifted (see `logic.form.lift`)."""

    def __init__(self) -> None:
        self.operands: list[tuple[Lit, Lit] | None] = [None]  # by node; None: an input, or the constant
        self.names: dict[Node, str] = {}  # inputs only
        self._shared: dict[tuple[Lit, Lit], Lit] = {}

    def new_input(self, name: str) -> Lit:
        self.operands.append(None)
        node = len(self.operands) - 1
        self.names[node] = name
        return 2 * node

    def both(self, a: Lit, b: Lit) -> Lit:
        if a > b:
            a, b = b, a
        if a == FALSE or a == b ^ 1:
            return FALSE
        if a in (TRUE, b):
            return b
        lit = self._shared.get((a, b))
        if lit is None:
            lit = self._shared[a, b] = 2 * len(self.operands)
            self.operands.append((a, b))
        return lit

    def either(self, a: Lit, b: Lit) -> Lit:
        return self.both(a ^ 1, b ^ 1) ^ 1

    def choose(self, condition: Lit, then: Lit, other: Lit) -> Lit:
        return self.either(self.both(condition, then), self.both(condition ^ 1, other))

    def implies(self, a: Lit, b: Lit) -> Lit:
        return self.both(a, b ^ 1) ^ 1

    def same(self, a: Lit, b: Lit) -> Lit:
        return self.differ(a, b) ^ 1

    # the algebra of boolean forms

    def constant(self, value: bool) -> Lit:
        return TRUE if value else FALSE

    def negate(self, x: Lit) -> Lit:
        return x ^ 1

    def all_of(self, parts: Iterable[Lit]) -> Lit:
        result = TRUE
        for part in parts:
            result = self.both(result, part)
        return result

    def any_of(self, parts: Iterable[Lit]) -> Lit:
        return self.all_of(part ^ 1 for part in parts) ^ 1

    def differ(self, left: Lit, right: Lit) -> Lit:
        return self.choose(left, right ^ 1, right)

    # reading

    def cone(self, lits: Iterable[Lit], known: Iterable[Node] = ()) -> list[Node]:
        """All nodes that these literals depend on, operands first, without the constant; `known` with them, which hold
        the operands of each of their own."""
        operands, seen = self.operands, {0, *known}
        todo = [lit >> 1 for lit in lits]
        while todo:
            node = todo.pop()
            if node not in seen:
                seen.add(node)
                pair = operands[node]
                if pair is not None:
                    todo += (pair[0] >> 1, pair[1] >> 1)
        seen.remove(0)
        return sorted(seen)

    def evaluate(self, lits: list[Lit], inputs: Mapping[Node, bool], order: list[Node] | None = None) -> list[bool]:
        """The literals under an assignment of the inputs (inputs that are not named are false)."""
        value: dict[Node, int] = {0: 0}
        operands = self.operands
        for node in order if order is not None else self.cone(lits):
            pair = operands[node]
            if pair is None:
                value[node] = 1 if inputs.get(node) else 0
            else:
                a, b = pair
                value[node] = (value[a >> 1] ^ (a & 1)) & (value[b >> 1] ^ (b & 1))
        return [value[lit >> 1] != (lit & 1) for lit in lits]
