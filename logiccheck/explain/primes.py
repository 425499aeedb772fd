"""All minimal terms of a condition over its facts: the prime implicants, found on a decision diagram.

A term is a set of facts, each true or false, that together make the condition true whatever all other facts are; it is
minimal when none can be left out.
Reference: O. Coudert, J. C. Madre, "Implicit and incremental computation of primes and essential primes of Boolean
functions", DAC 1992 (here with plain sets: the conditions are those that people write).
"""

from __future__ import annotations

from typing import TypeAlias, assert_never

from logiccheck.lang.program import (
    And,
    AtMostOne,
    Bistable,
    Blink,
    Compare,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Or,
    Position,
    Previous,
    Signal,
    Timer,
    Xor,
)

Term: TypeAlias = frozenset[tuple[Expr, bool]]
Diagram: TypeAlias = int  # 0: false, 1: true, else the number of a node

MOST_NODES = 20_000
MOST_TERMS = 2_000


class TooMany(Exception):
    """The condition has more minimal terms, or takes a larger diagram, than anybody reads."""


class Diagrams:
    """Ordered decision diagrams over `facts`, from the first to the last. Each function has one diagram."""

    def __init__(self, facts: tuple[Expr, ...]) -> None:
        self.facts = facts
        self.level = {fact: number for number, fact in enumerate(facts)}
        self.nodes: list[tuple[int, Diagram, Diagram]] = [(len(facts), 0, 0), (len(facts), 1, 1)]
        self._known: dict[tuple[int, Diagram, Diagram], Diagram] = {}
        self._chosen: dict[tuple[Diagram, Diagram, Diagram], Diagram] = {}

    def of(self, expr: Expr) -> Diagram:
        """The diagram of a condition whose leaves are facts."""
        match expr:
            case Const(value=value):
                return int(value)
            case Not(x=x):
                return self.choose(self.of(x), 0, 1)
            case And(parts=parts):
                return self._all([self.of(part) for part in parts])
            case Or(parts=parts):
                return self.choose(self._all([self.choose(self.of(part), 0, 1) for part in parts]), 0, 1)
            case Xor(left=left, right=right):
                a, b = self.of(left), self.of(right)
                return self.choose(a, self.choose(b, 0, 1), b)
            case AtMostOne(parts=parts):
                return self._at_most_one([self.of(part) for part in parts])
            case Signal() | Position() | Compare() | Timer() | Blink() | Bistable() | Impulse() | Edge() | Previous():
                return self._node(self.level[expr], 0, 1)
            case _:
                assert_never(expr)

    def _all(self, parts: list[Diagram]) -> Diagram:
        result = 1
        for part in parts:
            result = self.choose(result, part, 0)
        return result

    def _at_most_one(self, parts: list[Diagram]) -> Diagram:
        none, one = 1, 0
        for part in parts:
            none, one = self.choose(part, 0, none), self.choose(part, none, one)
        return self.choose(none, 1, one)

    def _node(self, level: int, low: Diagram, high: Diagram) -> Diagram:
        if low == high:
            return low
        key = level, low, high
        if key not in self._known:
            if len(self.nodes) >= MOST_NODES:
                raise TooMany
            self._known[key] = len(self.nodes)
            self.nodes.append(key)
        return self._known[key]

    def choose(self, x: Diagram, then: Diagram, other: Diagram) -> Diagram:
        """`then` where x is true, `other` where it is not."""
        if x < 2 or then == other:
            return then if x == 1 or then == other else other
        key = x, then, other
        if key not in self._chosen:
            level = min(self.nodes[each][0] for each in key)
            low, high = (self.choose(*(self._below(each, level, value) for each in key)) for value in (0, 1))
            self._chosen[key] = self._node(level, low, high)
        return self._chosen[key]

    def _below(self, diagram: Diagram, level: int, value: int) -> Diagram:
        node = self.nodes[diagram]
        return node[1 + value] if node[0] == level else diagram


def minimal_terms(condition: Expr, facts: tuple[Expr, ...]) -> list[Term]:
    """All minimal terms, those of the fewest facts first, then in the order of the facts. Raises `TooMany`."""
    diagrams = Diagrams(facts)
    known: dict[Diagram, frozenset[frozenset[tuple[int, bool]]]] = {0: frozenset(), 1: frozenset({frozenset()})}

    def primes(diagram: Diagram) -> frozenset[frozenset[tuple[int, bool]]]:
        if diagram not in known:
            level, low, high = diagrams.nodes[diagram]
            both = primes(diagrams.choose(low, high, 0))
            found = set(both)
            for value, side in ((False, low), (True, high)):
                found |= {term | {(level, value)} for term in primes(side) if not any(each <= term for each in both)}
            if len(found) > MOST_TERMS:
                raise TooMany
            known[diagram] = frozenset(found)
        return known[diagram]

    terms = sorted(primes(diagrams.of(condition)), key=_order)
    return [frozenset((facts[number], value) for number, value in term) for term in terms]


def _order(term: frozenset[tuple[int, bool]]) -> tuple[int, list[tuple[int, bool]]]:
    """The shorter first, then by the numbers of the facts, those that are so before those that are not."""
    return len(term), sorted((number, not value) for number, value in term)
