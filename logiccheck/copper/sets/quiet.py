"""A story of the same moments in which hands move less: nothing that moves in it could be left out on its own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeAlias

from logiccheck.engine.timing import Trace
from logiccheck.engine.unroll import Unrolling
from logiccheck.lang.program import Program
from logiccheck.model.play import first_world

Move: TypeAlias = tuple[int, str]  # a moment and what of the world changes in it; at the first: is not as usual


class Quieter:
    """Of an unrolling with its last moment; stories begin as usual, where they can."""

    def __init__(self, unrolling: Unrolling, program: Program) -> None:
        self.unrolling, self.nodes = unrolling, unrolling.cone.world
        usual = first_world(program, {}, program.at_first)
        switches = [each.name for each in program.switches if each.name in self.nodes]
        self._usual = {
            name: [bool(int(usual[name]) >> place & 1) for place in range(len(self.nodes[name]))] for name in switches
        }
        self._still = {move: self._literal(*move) for move in self._moves()}

    def quieter(self, trace: Trace, assumed: Sequence[int]) -> Trace:
        """A story that meets the same, with fewer moves if there is one; nothing is moved back for what is left out."""
        for first in (False, True):
            moved = {move for move in self._moved(trace) if (move[0] == 0) is first}
            held = [self._still[m] for m in self._still if m not in moved and (first or m[0] > 0)]
            for move in sorted(moved, reverse=True):
                found = self.unrolling.possible([*assumed, *held, self._still[move]])
                if found is not None:
                    trace = found[0]
                    held.append(self._still[move])
            assumed = [*assumed, *(self._still[m] for m in self._still if m[0] > 0 and m not in self._moved(trace))]
        return trace

    def _moves(self) -> list[Move]:
        later = [(k, name) for k in range(1, len(self.unrolling.moments)) for name in self.nodes]
        return [*((0, name) for name in self._usual), *later]

    def _moved(self, trace: Trace) -> set[Move]:
        return {move for move in self._still if self._moves_in(trace, *move)}

    def _moves_in(self, trace: Trace, k: int, name: str) -> bool:
        before = self._usual[name] if k == 0 else [trace[k - 1][node] for node in self.nodes[name]]
        return before != [trace[k][node] for node in self.nodes[name]]

    def _literal(self, k: int, name: str) -> int:
        """If it holds, this does not move."""
        sat, moments = self.unrolling.sat, self.unrolling.moments
        still = sat.new()
        for place, node in enumerate(self.nodes[name]):
            now = moments[k].lit(2 * node)
            if k == 0:
                sat.add([-still, now if self._usual[name][place] else -now])
            else:
                was = moments[k - 1].lit(2 * node)
                sat.add([-still, -now, was])
                sat.add([-still, now, -was])
        return still
