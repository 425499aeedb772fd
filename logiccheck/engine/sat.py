"""The SAT library behind one small door: clauses in, models and cores out.

Solver variables are whole numbers from 1; a negative number is the negation. Circuits enter by Tseitin's translation.
References: N. Een, N. Sorensson, "An extensible SAT-solver", SAT 2003 (assumptions); G. S. Tseitin, "On the complexity
of derivation in propositional calculus", 1968.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from pysat.card import ITotalizer
from pysat.solvers import Solver

from logiccheck.model.circuit.aig import Aig, Lit, Node

Var = int


class Sat:
    """An incremental solver. `true` is a variable that is always true."""

    def __init__(self, name: str = "minisat22") -> None:
        self._solver = Solver(name=name)
        self.top = 0
        self.true = self.new()
        self.add([self.true])
        self._model: Sequence[int] = ()

    def new(self) -> Var:
        self.top += 1
        return self.top

    def add(self, clause: Iterable[int]) -> None:
        self._solver.add_clause(list(clause))

    def solve(self, assumptions: Sequence[int] = ()) -> bool:
        answer = bool(self._solver.solve(assumptions=list(assumptions)))
        if answer:
            self._model = self._solver.get_model() or ()
        return answer

    def core(self) -> set[int]:
        """After an unsatisfiable `solve`: those of its assumptions that cannot hold together."""
        return set(self._solver.get_core() or ())

    def holds(self, lit: int) -> bool:
        """The value of a literal in the last model; a variable that nothing constrains is false."""
        var = abs(lit)
        value = var <= len(self._model) and self._model[var - 1] > 0
        return value == (lit > 0)

    def both(self, x: int, y: int) -> int:
        """A literal for x and y."""
        if -self.true in (x, y) or x == -y:
            return -self.true
        if x == self.true or x == y:
            return y
        if y == self.true:
            return x
        z = self.new()
        self.add([-z, x])
        self.add([-z, y])
        self.add([z, -x, -y])
        return z

    def at_most(self, lits: Sequence[int]) -> Callable[[int], int]:
        """A counter over literals: gives for n < len(lits) the literal to assume for "at most n of them hold"."""
        totalizer = ITotalizer(lits=list(lits), ubound=len(lits), top_id=self.top)
        for clause in totalizer.cnf.clauses:
            self.add(clause)
        self.top = max(self.top, totalizer.top_id)
        bounds = list(totalizer.rhs)
        totalizer.delete()
        return lambda n: -bounds[n]

    def close(self) -> None:
        self._solver.delete()


class Circuit:
    """One copy of (part of) a graph in a solver: each node once, made from `order`, in which operands come first.

    `given` maps nodes whose variable is known already (inputs shared with another copy); all other inputs are new.
    """

    def __init__(self, sat: Sat, aig: Aig, order: list[Node], given: dict[Node, int] | None = None) -> None:
        self.sat = sat
        self.var: dict[Node, int] = {0: -sat.true}
        for node in order:
            pair = aig.operands[node]
            if given is not None and node in given:
                self.var[node] = given[node]
            elif pair is None:
                self.var[node] = sat.new()
            else:
                self.var[node] = sat.both(self.lit(pair[0]), self.lit(pair[1]))

    def lit(self, lit: Lit) -> int:
        """The solver literal of a graph literal."""
        var = self.var[lit >> 1]
        return -var if lit & 1 else var

    def value(self, lit: Lit) -> bool:
        """The graph literal in the solver's last model."""
        return self.sat.holds(self.lit(lit))
