"""The SAT library behind one small door: clauses in, models and cores out.

Solver variables are whole numbers from 1; a negative number is the negation. Circuits enter by Tseitin's translation.
References: N. Een, N. Sorensson, "An extensible SAT-solver", SAT 2003 (assumptions); G. S. Tseitin, "On the complexity
of derivation in propositional calculus", 1968.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from pysat.card import ITotalizer
from pysat.solvers import MainThread, Solver

from logiccheck.model.circuit.aig import Aig, Lit, Node

Var = int

SLICED = frozenset({"minisat22", "glucose4"})  # can pause, so that a long search hears of Ctrl-C
SLICE = 20_000  # conflicts

# The library would catch Ctrl-C itself, jump out of the middle of a search and leave its own handler behind: the next
# Ctrl-C would jump to where nothing is any more. Where it believes not to be in the main thread, it leaves that to
# Python.
MainThread.check = staticmethod(lambda: False)


class Sat:
    """An incremental solver. `true` is a literal that is always true."""

    def __init__(self, name: str = "minisat22") -> None:
        self._solver = Solver(name=name)
        self._sliced = name in SLICED
        self.top = 1  # variable 1 is false: the place of the constant in a circuit
        self.true = -1
        self.add([-1])
        self._model: Sequence[int] | None = ()

    def new(self) -> Var:
        self.top += 1
        return self.top

    def add(self, clause: Iterable[int]) -> None:
        self._solver.add_clause(list(clause))

    def add_all(self, clauses: list[list[int]]) -> None:
        self._solver.append_formula(clauses)

    def solve(self, assumptions: Sequence[int] = ()) -> bool:
        """Whether some assignment meets all clauses and these literals."""
        self._model = None
        return self._solve(list(assumptions))

    def _solve(self, assumptions: list[int]) -> bool:
        answer: bool | None = None
        while answer is None:
            if self._sliced:
                self._solver.conf_budget(SLICE)
                answer = self._solver.solve_limited(assumptions=assumptions)
            else:
                answer = self._solver.solve(assumptions=assumptions)
        return answer

    def core(self) -> set[int]:
        """After an unsatisfiable `solve`: those of its assumptions that cannot hold together."""
        return set(self._solver.get_core() or ())

    def holds(self, lit: int) -> bool:
        """The value of a literal in the last model; a variable that nothing constrains is false.

        Who looks at a model does so before any clause is added.
        """
        model = self._model
        if model is None:
            model = self._model = self._solver.get_model() or ()
        var = abs(lit)
        value = var <= len(model) and model[var - 1] > 0
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


class Template:
    """The clauses of (part of) a graph over variables numbered without gaps, to be put into solvers many times.

    Without gaps, because a solver gives a value to every variable, named in a clause or not.
    """

    def __init__(self, aig: Aig, order: list[Node]) -> None:
        self.number = {0: 1} | {node: i for i, node in enumerate(order, 2)}
        signed = {node + 1: i for node, i in self.number.items()}
        signed |= {-var: -i for var, i in signed.items()}
        self.clauses = [[signed[x] for x in clause] for node in order for clause in aig.gates[node]]


class Circuit:
    """A template put into a solver; `given` maps nodes to solver literals that they are the same as."""

    def __init__(self, sat: Sat, template: Template, given: dict[Node, int] | None = None) -> None:
        up = 0 if sat.top == 1 else sat.top  # the first circuit shares variable 1, which is false
        self.sat, self.number, self.offset = sat, template.number, up
        sat.top = up + len(template.number)
        if up:
            sat.add([-1 - up])
            sat.add_all([[x + up if x > 0 else x - up for x in clause] for clause in template.clauses])
        else:
            sat.add_all(template.clauses)
        for node, lit in (given or {}).items():
            var = self.number[node] + up
            sat.add_all([[-var, lit], [var, -lit]])

    def lit(self, lit: Lit) -> int:
        """The solver literal of a graph literal."""
        var = self.number[lit >> 1] + self.offset
        return -var if lit & 1 else var

    def value(self, lit: Lit) -> bool:
        """The graph literal in the solver's last model."""
        return self.sat.holds(self.lit(lit))
