"""What the audit needs of a SAT solver, and a set of conditions in one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Protocol, TypeAlias

from logiccheck.audit.gates import YES, Gate, Gates, Lit


class Solver(Protocol):
    """Variables are whole numbers from 1, a minus negates."""

    def new(self) -> int: ...

    def add(self, clause: Iterable[int]) -> None: ...

    def solve(self, assumptions: Sequence[int] = ()) -> bool: ...

    def holds(self, lit: int) -> bool:
        """The value of a literal in the model that the last `solve` found."""

    def close(self) -> None: ...


Solvers: TypeAlias = Callable[[], Solver]  # makes a new one; not the one that the search used


class Loaded:
    """Conditions with all they depend on, in a solver.

    Reference: G. S. Tseitin, "On the complexity of derivation in propositional calculus", 1968.
    """

    def __init__(self, solver: Solver, gates: Gates, lits: Iterable[Lit]) -> None:
        self.solver = solver
        self._var: dict[Gate, int] = {YES: solver.new()}
        of = self._var
        solver.add([of[YES]])
        for gate in gates.cone(lits):
            parts = gates.parts[gate]
            var = of[gate] = solver.new()
            if parts is not None:
                some_not = [-of[part] if part > 0 else of[-part] for part in parts]
                for lit in some_not:
                    solver.add([-var, -lit])
                solver.add([var, *some_not])

    def knows(self, gate: Gate) -> bool:
        """Whether the gate is in it at all."""
        return gate in self._var

    def lit(self, lit: Lit) -> int:
        return self._var[lit] if lit > 0 else -self._var[-lit]
