"""Property-directed reachability: can the bad thing happen when a running timer may fall due at any moment?

It answers with an inductive set of clauses (proved), or with a trace in which no time has been looked at yet.
References: A. Bradley, "SAT-based model checking without unrolling", VMCAI 2011; N. Een, A. Mishchenko, R. Brayton,
"Efficient implementation of property directed reachability", FMCAD 2011. Here one solver holds all frames, each clause
behind the activation literal of its frame; a state is lifted to a cube by the core of the query that it must lead on.

A *cube* is a set of literals over bits: +node for true, -node for false (the number of the bit's node in the graph).
Every bit is false before time 0, so that a cube holds initially exactly when all its literals are negative.
"""

from __future__ import annotations

import heapq
from collections.abc import Mapping
from itertools import count
from typing import TypeAlias

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.engine.sat import Circuit, Sat, Template
from logiccheck.engine.timing import Trace
from logiccheck.model.circuit.aig import Node

Cube: TypeAlias = frozenset[int]
Inputs: TypeAlias = dict[Node, bool]

GIVE_UP_DROPPING = 6  # literals in a row that could not be dropped from a clause


@frozen
class Proof:
    """The states that satisfy every clause (the negation of every cube) contain all reachable ones and no bad one."""

    cubes: tuple[Cube, ...]


class Pdr:
    """Frames are kept between runs: `frames[k]` blocks cubes that no k moments reach; they stay true for every cone
    that allows fewer stories, so that a finer abstraction goes on with the frames of a coarser one."""

    def __init__(self, cone: Cone, budget: Budget, frames: list[list[Cube]] | None = None) -> None:
        self.cone, self.budget = cone, budget
        self.sat = Sat("minisat22")
        self.circuit = Circuit(self.sat, Template(cone.aig, cone.order))
        self.var = {bit.now >> 1: self.circuit.lit(bit.now) for bit in cone.bits}
        following = {bit.now >> 1: self.circuit.lit(bit.next) for bit in cone.bits}
        self.now, self.then = _signed(self.var), _signed(following)  # of the literals of cubes
        self.inputs = {node: self.circuit.lit(2 * node) for node in cone.inputs}
        self.node_of = {var: node for node, var in self.var.items()}
        self.bad = self.circuit.lit(cone.bad)
        self.ok = [self.circuit.lit(c.lit) for c in cone.constraints]
        self.frames: list[list[Cube]] = []
        self.active: list[int] = []
        self._new_frame()
        for node in self.var:
            self.sat.add([-self.active[0], -self.var[node]])
        for cubes in (frames or [])[1:]:
            self._new_frame()
            for cube in cubes:
                self._block(cube, len(self.frames) - 1)

    def run(self) -> Proof | Trace:
        """Proved, or a trace (in moments; every input of the cone) at whose last moment the bad thing is so."""
        if len(self.frames) == 1:
            if self._solve([self.active[0], self.bad]):
                return [self._inputs()]
            self._new_frame()
        while True:
            top = len(self.frames) - 1
            while self._solve([*self._frame(top), self.bad]):
                inputs = self._inputs()
                trace = self._trace_or_block(self._lift([self.bad]), top, inputs)
                if trace is not None:
                    return trace
            self._new_frame()
            proof = self._push(top)
            if proof is not None:
                return proof

    def close(self) -> None:
        self.sat.close()

    # frames

    def _new_frame(self) -> None:
        self.frames.append([])
        self.active.append(self.sat.new())

    def _frame(self, k: int) -> list[int]:
        """What to assume for "reachable in at most k moments": the clauses of frame k and of all later ones."""
        return self.active[k:] if k else list(self.active)

    def _block(self, cube: Cube, k: int) -> None:
        self.frames[k].append(cube)
        self.sat.add([-self.active[k], *(-x for x in self._now(cube))])

    def _push(self, top: int) -> Proof | None:
        for k in range(1, top + 1):
            for cube in list(self.frames[k]):
                if not self._solve([*self._frame(k), *self._then(cube)]):
                    self.frames[k].remove(cube)
                    self._block(cube, k + 1)
            if not self.frames[k]:
                return Proof(tuple(c for later in self.frames[k + 1 :] for c in later))
        return None

    # queries

    def _solve(self, assumptions: list[int]) -> bool:
        self.budget.check()
        return self.sat.solve(assumptions + self.ok)

    def _now(self, cube: Cube) -> list[int]:
        return [self.now[x] for x in sorted(cube, key=abs)]

    def _then(self, cube: Cube) -> list[int]:
        return [self.then[x] for x in sorted(cube, key=abs)]

    def _inputs(self) -> Inputs:
        return self.circuit.values(self.inputs)

    def _lift(self, goal: list[int]) -> Cube:
        """A cube around the state of the last model all of whose states reach the goal with the same inputs."""
        values = self.sat.values()
        inputs = [v if values[v] > 0 else -v for v in self.inputs.values()]
        state = [v if values[v] > 0 else -v for v in self.var.values()]
        off = self.sat.new()
        self.sat.add([-off, *(-x for x in goal), *(-x for x in self.ok)])
        if self.sat.solve([off, *inputs, *state]):
            raise AssertionError("a moment is a function of its state and inputs")
        core = self.sat.core()
        self.sat.add([-off])
        return self._cube([x for x in state if x in core])

    def _cube(self, literals: list[int]) -> Cube:
        return frozenset(self.node_of[abs(x)] * (1 if x > 0 else -1) for x in literals)

    def _unreachable_from(self, cube: Cube, k: int) -> Cube | None:
        """The part of the cube that no state of frame k outside the cube can reach; None if one can (see the model)."""
        outside, literals = self.sat.new(), sorted(cube, key=abs)
        self.sat.add([-outside, *(-self.now[x] for x in literals)])
        then = [self.then[x] for x in literals]
        reached = self._solve([*self._frame(k), outside, *then])
        core = set() if reached else self.sat.core()
        if not reached:
            self.sat.add([-outside])
            return frozenset(x for x, y in zip(literals, then, strict=True) if y in core)
        self._retired = outside
        return None

    @staticmethod
    def _initial(cube: Cube) -> bool:
        return all(x < 0 for x in cube)

    # blocking

    def _trace_or_block(self, cube: Cube, top: int, inputs: Inputs) -> Trace | None:
        """Blocks a cube that leads to the bad thing, or finds the trace from time 0 into it."""
        order = count()
        queue: list[tuple[int, int, Cube, Trace]] = [(top, next(order), cube, [inputs])]
        while queue:
            k, _, cube, path = heapq.heappop(queue)
            if k == 0 or self._initial(cube):
                return path
            if not self._solve([*self._frame(k), *self._now(cube)]):
                continue
            part = self._unreachable_from(cube, k - 1)
            if part is None:
                before = self._inputs()
                earlier = self._lift(self._then(cube))
                self.sat.add([-self._retired])
                heapq.heappush(queue, (k - 1, next(order), earlier, [before, *path]))
                heapq.heappush(queue, (k, next(order), cube, path))
                continue
            at = self._block_generalised(self._keep_off_start(part, cube), k, top)
            if at < top:
                heapq.heappush(queue, (at + 1, next(order), cube, path))
        return None

    def _block_generalised(self, cube: Cube, k: int, top: int) -> int:
        """Blocks as much as can be around the cube, as far up as it holds; the frame it was blocked at."""
        cube = self._drop(cube, k - 1)
        while k < top:
            if self._unreachable_from(cube, k) is None:
                self.sat.add([-self._retired])
                break
            k += 1
        self._block(cube, k)
        return k

    def _keep_off_start(self, part: Cube, whole: Cube) -> Cube:
        """A cube to block must not hold initially: one literal of the whole that does not is put back."""
        if not self._initial(part):
            return part
        return part | {next(x for x in sorted(whole, key=abs) if x > 0)}

    def _drop(self, cube: Cube, k: int) -> Cube:
        failures = 0
        for x in sorted(cube, key=abs):
            smaller = cube - {x}
            if x not in cube or not smaller or self._initial(smaller):
                continue
            part = self._unreachable_from(smaller, k)
            if part is None:
                self.sat.add([-self._retired])
                failures += 1
                if failures == GIVE_UP_DROPPING:
                    break
            else:
                cube = self._keep_off_start(part, smaller)
                failures = 0
        return cube


def _signed(lits: Mapping[Node, int]) -> dict[int, int]:
    """The solver literals of a node and, with a minus, of its negation."""
    return {**lits, **{-node: -lit for node, lit in lits.items()}}
