"""The SAT library behind one small door: clauses in, models and cores out.

Solver variables are whole numbers from 1; a negative number is the negation. Circuits enter by Tseitin's translation.
References: N. Een, N. Sorensson, "An extensible SAT-solver", SAT 2003 (assumptions); G. S. Tseitin, "On the complexity
of derivation in propositional calculus", 1968.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeAlias

from pysat.card import ITotalizer
from pysat.solvers import MainThread, Solver

from logiccheck.base.budget import Budget
from logiccheck.model.circuit.aig import Aig, Lit, Node

Var = int
Gate: TypeAlias = tuple[Var, int, int]  # the first is true exactly when both literals are

SLICED = frozenset({"minisat22", "glucose4"})  # can pause, so that a long search hears of Ctrl-C
SLICE = 20_000  # conflicts

# The library would catch Ctrl-C itself, jump out of the middle of a search and leave its own handler behind: the next
# Ctrl-C would jump to where nothing is any more. Where it believes not to be in the main thread, it leaves that to
# Python.
MainThread.check = staticmethod(lambda: False)


class Sat:
    """An incremental solver. `true` is a literal that is always true."""

    def __init__(self, name: str = "minisat22") -> None:
        self._owner = Solver(name=name)
        self._solver = self._owner.solver  # what it hands every call on to
        self._sliced = name in SLICED
        self.top = 1  # variable 1 is false: the place of the constant in a circuit
        self.true = -1
        self.add([-1])
        self._values: Sequence[int] | None = ()

    def new(self) -> Var:
        self.top += 1
        return self.top

    def add(self, clause: Iterable[int]) -> None:
        self._solver.add_clause(list(clause))

    def add_gates(self, gates: Iterable[Gate], up: int) -> None:
        """Gates of a template, all their variables moved up by this number."""
        add = self._solver.add_clause
        for z, x, y in gates:
            z += up
            x += up if x > 0 else -up
            y += up if y > 0 else -up
            add([-z, x])
            add([-z, y])
            add([z, -x, -y])

    def solve(self, assumptions: Sequence[int] = ()) -> bool:
        """Whether some assignment meets all clauses and these literals."""
        self._values = None
        return self._solve(list(assumptions))

    def _solve(self, assumptions: list[int]) -> bool:
        solver, answer = self._solver, None
        while answer is None:
            if self._sliced:
                solver.conf_budget(SLICE)
                answer = solver.solve_limited(assumptions)
            else:
                answer = solver.solve(assumptions)
        return bool(answer)

    def core(self) -> set[int]:
        """After an unsatisfiable `solve`: those of its assumptions that cannot hold together."""
        return set(self._solver.get_core() or ())

    def holds(self, lit: int) -> bool:
        """The value of a literal in the last model; a variable that nothing constrains is false.

        Who looks at a model does so before any clause is added.
        """
        values, var = self.values(), abs(lit)
        return (var < len(values) and values[var] > 0) == (lit > 0)

    def values(self) -> Sequence[int]:
        """The last model by variable, from 1 on: above 0 where it is true. To be looked at as in `holds`."""
        values = self._values
        if values is None:
            found = self._solver.get_model() or []
            values = self._values = [0, *found, *[0] * (self.top - len(found))]
        return values

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
        self._owner.delete()


class _Oracle:
    """The solver of an optimiser, which pauses after so many conflicts to look whether there is time."""

    def __init__(self, solver: Solver, budget: Budget) -> None:
        self._solver, self._budget = solver, budget

    def __getattr__(self, name: str) -> object:
        return getattr(self._solver, name)

    def solve(self, assumptions: Sequence[int] = ()) -> bool:
        answer = None
        while answer is None:
            self._budget.check()
            self._solver.conf_budget(SLICE)
            answer = self._solver.solve_limited(list(assumptions))
        return bool(answer)

    def solve_limited(self, assumptions: Sequence[int] = (), expect_interrupt: bool = False) -> bool:
        return self.solve(assumptions)


def heaviest(clauses: Iterable[Sequence[int]], weights: Mapping[int, int], budget: Budget) -> frozenset[int] | None:
    """Of all assignments that meet the clauses, one in which the literals of `weights` that hold weigh most together:
    these literals. None if there is no assignment. Each weight is above 0. May raise `OutOfTime`.

    Reference: A. Ignatiev, A. Morgado, J. Marques-Silva, "RC2: an efficient MaxSAT solver", JSAT 11(1), 2019.
    """
    from pysat.examples.rc2 import RC2  # loads much that no other question needs
    from pysat.formula import WCNF

    asked = WCNF()
    for clause in clauses:
        asked.append(list(clause))
    for lit, weight in weights.items():
        asked.append([lit], weight=weight)
    with RC2(asked, solver="glucose4", adapt=True, exhaust=True) as search:
        search.oracle = _Oracle(search.oracle, budget)
        model = search.compute()
    if model is None:
        return None
    known = set(model)
    return frozenset(lit for lit in weights if lit in known)


class Template:
    """(Part of) a graph over variables numbered without gaps, to be put into solvers many times.

    Without gaps, because a solver gives a value to every variable, named in a clause or not.
    """

    def __init__(self, aig: Aig, order: list[Node]) -> None:
        number = self.number = {0: 1} | {node: i for i, node in enumerate(order, 2)}
        self.gates: list[Gate] = []
        for node in order:
            pair = aig.operands[node]
            if pair is not None:
                a, b = pair
                x, y = number[a >> 1], number[b >> 1]
                self.gates.append((number[node], -x if a & 1 else x, -y if b & 1 else y))

    def lit(self, lit: Lit) -> int:
        """The variable of a graph literal where the template stands alone, negative for its negation."""
        var = self.number[lit >> 1]
        return -var if lit & 1 else var

    def clauses(self) -> list[list[int]]:
        """The template standing alone."""
        found = [[-1]]
        for z, x, y in self.gates:
            found += [[-z, x], [-z, y], [z, -x, -y]]
        return found


class Circuit:
    """A template put into a solver; `given` maps nodes to solver literals that they are the same as."""

    def __init__(self, sat: Sat, template: Template, given: dict[Node, int] | None = None) -> None:
        up = 0 if sat.top == 1 else sat.top  # the first circuit shares variable 1, which is false
        self.sat, self.number, self.offset = sat, template.number, up
        sat.top = up + len(template.number)
        if up:
            sat.add([-1 - up])
        sat.add_gates(template.gates, up)
        for node, lit in (given or {}).items():
            var = self.number[node] + up
            sat.add([-var, lit])
            sat.add([var, -lit])

    def lit(self, lit: Lit) -> int:
        """The solver literal of a graph literal."""
        var = self.number[lit >> 1] + self.offset
        return -var if lit & 1 else var

    def value(self, lit: Lit) -> bool:
        """The graph literal in the solver's last model."""
        return (self.sat.values()[self.number[lit >> 1] + self.offset] > 0) != bool(lit & 1)

    def values(self, nodes: Iterable[Node]) -> dict[Node, bool]:
        """These nodes in the solver's last model."""
        values, number, up = self.sat.values(), self.number, self.offset
        return {node: values[number[node] + up] > 0 for node in nodes}
