"""Conditions over free inputs, each built once: conjunctions of literals, with negation as the minus sign."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TypeAlias

Lit: TypeAlias = int  # a condition, or with a minus its negation
Gate: TypeAlias = int  # a positive literal

YES: Lit = 1
NO: Lit = -1


class Gates:
    """`parts[g]` are the literals whose conjunction gate g is; None for an input. Parts are older than their gate."""

    def __init__(self) -> None:
        self.parts: list[tuple[Lit, ...] | None] = [None, ()]  # there is no gate 0; gate 1 is always true
        self._known: dict[tuple[Lit, ...], Lit] = {}

    def input(self) -> Lit:
        """A new condition that is free."""
        self.parts.append(None)
        return len(self.parts) - 1

    def all(self, lits: Iterable[Lit]) -> Lit:
        wanted = set(lits)
        wanted.discard(YES)
        if NO in wanted or any(-lit in wanted for lit in wanted):
            return NO
        if len(wanted) < 2:
            return wanted.pop() if wanted else YES
        key = tuple(sorted(wanted))
        known = self._known.get(key)
        if known is None:
            self.parts.append(key)
            known = self._known[key] = len(self.parts) - 1
        return known

    def any(self, lits: Iterable[Lit]) -> Lit:
        return -self.all([-lit for lit in lits])

    def both(self, a: Lit, b: Lit) -> Lit:
        return self.all((a, b))

    def either(self, a: Lit, b: Lit) -> Lit:
        return -self.all((-a, -b))

    def implies(self, a: Lit, b: Lit) -> Lit:
        return -self.all((a, -b))

    def differ(self, a: Lit, b: Lit) -> Lit:
        return self.either(self.both(a, -b), self.both(-a, b))

    def choose(self, condition: Lit, then: Lit, other: Lit) -> Lit:
        return self.either(self.both(condition, then), self.both(-condition, other))

    def cone(self, lits: Iterable[Lit]) -> list[Gate]:
        """All gates and inputs that these literals depend on, parts first; without the one that is always true."""
        parts, found = self.parts, {YES}
        waiting = [abs(lit) for lit in lits]
        while waiting:
            gate = waiting.pop()
            if gate not in found:
                found.add(gate)
                waiting += map(abs, parts[gate] or ())
        found.remove(YES)
        return sorted(found)

    def replaced(self, lits: Iterable[Lit], by: Mapping[Gate, Lit]) -> list[Lit]:
        """The literals with these inputs replaced."""
        wanted = list(lits)
        made: dict[Gate, Lit] = {YES: YES, **by}
        for gate in self.cone(wanted):
            if gate in made:
                continue
            parts = self.parts[gate]
            made[gate] = gate if parts is None else self.all([_signed(made, part) for part in parts])
        return [_signed(made, lit) for lit in wanted]


def _signed(made: Mapping[Gate, Lit], lit: Lit) -> Lit:
    return made[lit] if lit > 0 else -made[-lit]
