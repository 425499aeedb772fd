"""A shorter form that means the same: found by SymPy or by leaving parts out, and believed only when the tables agree.

The meaning of a form over n variables is a table of 2^n truth values, held as one whole number and computed a column at
a time; that decides equality exactly and at once up to MOST_VARIABLES. Above it a form is left as it is.
Reference: SymPy's `simplify_logic` (Quine-McCluskey), which itself gives up above 8 variables without a word.
"""

from __future__ import annotations

from collections.abc import Iterator

from sympy import Symbol
from sympy.logic.boolalg import And, Boolean, BooleanFalse, BooleanTrue, Not, Or, Xor, simplify_logic, to_nnf
from sympy.logic.boolalg import false as sym_false
from sympy.logic.boolalg import true as sym_true

MOST_VARIABLES = 20
MOST_FOR_SYMPY = 8
MOST_WORK = 1 << 32  # names times names times rows of the table


def simplified(expr: Boolean) -> Boolean | None:
    """An expression with the same meaning and as few names as leaving out gets to; None: too large to decide."""
    variables = sorted(expr.free_symbols, key=str)
    if not is_small(expr):
        return None
    columns = Columns(variables)
    meaning = columns.table(expr)
    if meaning in (0, columns.ones):
        return sym_true if meaning else sym_false
    candidates = [expr]
    if not expr.has(Xor):  # in negation normal form it doubles with each name
        candidates.append(to_nnf(expr, simplify=False))
    if len(variables) <= MOST_FOR_SYMPY:
        candidates += [simplify_logic(expr, form="dnf"), simplify_logic(expr, form="cnf")]
    same = [_leave_out(c, columns, meaning) for c in candidates if columns.table(c) == meaning]
    return min(same, key=size)


def is_small(expr: Boolean) -> bool:
    """Whether its tables can be held, and leaving out each of its parts be tried, in about a second."""
    variables = len(expr.free_symbols)
    return variables <= MOST_VARIABLES and size(expr) ** 2 << variables <= MOST_WORK


def size(expr: Boolean) -> int:
    """How many names are read when the expression is read aloud."""
    return 1 if isinstance(expr, Symbol) else sum(size(a) for a in expr.args)


class Columns:
    """Truth tables over some variables: bit k of a table is the value where variable i is bit i of k."""

    def __init__(self, variables: list[Symbol]) -> None:
        self.rows = 1 << len(variables)
        self.ones = (1 << self.rows) - 1
        self.of: dict[Symbol, int] = {}
        for i, variable in enumerate(variables):
            run = 1 << i
            column = ((1 << run) - 1) << run
            width = 2 * run
            while width < self.rows:
                column |= column << width
                width *= 2
            self.of[variable] = column

    def table(self, expr: Boolean) -> int:
        if isinstance(expr, Symbol):
            return self.of[expr]
        if isinstance(expr, BooleanTrue | BooleanFalse):
            return self.ones if expr else 0
        parts = [self.table(a) for a in expr.args]
        if isinstance(expr, Not):
            return self.ones ^ parts[0]
        result = parts[0]
        for part in parts[1:]:
            if isinstance(expr, And):
                result &= part
            elif isinstance(expr, Or):
                result |= part
            elif isinstance(expr, Xor):
                result ^= part
            else:
                raise AssertionError(type(expr))
        return result


def _leave_out(expr: Boolean, columns: Columns, meaning: int) -> Boolean:
    """Leaves parts of conjunctions and disjunctions out, one at a time, as long as the meaning stays."""
    while True:
        shorter = next((s for s in _one_left_out(expr) if columns.table(s) == meaning), None)
        if shorter is None:
            return expr
        expr = shorter


def _one_left_out(expr: Boolean) -> Iterator[Boolean]:
    """All expressions with one part less, the largest parts of the outermost connective first."""
    if isinstance(expr, Symbol) or not expr.args:
        return
    args = list(expr.args)
    if isinstance(expr, And | Or):
        for i in sorted(range(len(args)), key=lambda i: -size(args[i])):
            yield expr.func(*args[:i], *args[i + 1 :])
    for i, part in enumerate(args):
        for shorter in _one_left_out(part):
            yield expr.func(*args[:i], shorter, *args[i + 1 :])
