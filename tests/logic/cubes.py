"""Products of letters, as textbooks write them: "BC'D'" is B and not C and not D."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import combinations, product

from sympy import Symbol
from sympy.logic.boolalg import And, Boolean, Not, Or
from sympy.logic.boolalg import false as sym_false
from sympy.logic.boolalg import true as sym_true

from logiccheck.logic.simplify import Columns


def literals(cube: str) -> list[str]:
    """The letters of a product, each with its dash if it has one."""
    found = re.findall(r"[A-Za-z]'?", cube)
    assert "".join(found) == cube
    return found


def cube_of(minterm: int, letters: str) -> str:
    """The product that is true for this row only; the first letter is the most significant."""
    last = len(letters) - 1
    return "".join(x if minterm >> (last - i) & 1 else f"{x}'" for i, x in enumerate(letters))


def cubes(letters: str) -> list[str]:
    """All products of some of the letters."""
    return ["".join(parts) for parts in product(*(("", x, f"{x}'") for x in letters))]


def words(sum_: Iterable[str]) -> str:
    """A sum of products in the language."""
    terms = [" and ".join(f"not {x[0]}" if x[1:] else x for x in literals(cube)) for cube in sum_]
    return "(" + (" or ".join(terms) or "false") + ")"


def formula(sum_: Iterable[str]) -> Boolean:
    """A sum of products for SymPy."""
    terms = [And(*(Not(Symbol(x[0]), evaluate=False) if x[1:] else Symbol(x) for x in literals(cube))) for cube in sum_]
    return Or(*terms) if terms else sym_false


class Sums:
    """Sums of products over some letters by their tables."""

    def __init__(self, letters: str) -> None:
        self.letters = letters
        self.columns = Columns([Symbol(x) for x in letters])
        self.table = {cube: self.columns.table(formula([cube]) if cube else sym_true) for cube in cubes(letters)}

    def of(self, sum_: Iterable[str]) -> int:
        result = 0
        for cube in sum_:
            result |= self.table["".join(sorted(literals(cube), key=lambda x: self.letters.index(x[0])))]
        return result

    def primes(self, allowed: int) -> set[str]:
        """The products that are true in allowed rows only, and with no letter less."""
        inside = [cube for cube, table in self.table.items() if not table & ~allowed]
        wider = {cube: {c for c in inside if set(literals(c)) < set(literals(cube))} for cube in inside}
        return {cube for cube in inside if not wider[cube]}

    def essential(self, primes: set[str], wanted: int) -> set[str]:
        """The primes without which the others leave something out."""
        return {cube for cube in primes if wanted & ~self.of(primes - {cube})}

    def covers(self, primes: set[str], wanted: int) -> list[frozenset[str]]:
        """The sums of fewest primes, then of fewest letters, that are true in all wanted rows."""
        for count in range(1, len(primes) + 1):
            enough = [frozenset(c) for c in combinations(sorted(primes), count) if not wanted & ~self.of(c)]
            if enough:
                least = min(map(cost, enough))
                return [sum_ for sum_ in enough if cost(sum_) == least]
        return []


def cost(sum_: Iterable[str]) -> int:
    """The letters of a sum of products."""
    return sum(len(literals(cube)) for cube in sum_)
