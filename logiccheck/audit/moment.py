"""One moment: a first reaction and a number of repeats, and whether one more repeat would still change anything."""

from __future__ import annotations

from logiccheck.audit.gates import YES, Gates, Lit
from logiccheck.audit.reaction import Reaction, filters_of
from logiccheck.audit.traces import Look, Past
from logiccheck.audit.world import World
from logiccheck.lang.program import Program


class Moment:
    """`reactions` are all of the moment; the last one counts as settled, which is right while `unsettled` is false.

    `first`: this moment is time 0.
    """

    def __init__(self, program: Program, repeats: int) -> None:
        self.program = program
        self.gates = Gates()
        self.world = World(program, self.gates)
        self.past = Past(self.gates)
        self.first = -self.past.kept("begun", YES)
        self._filters = filters_of(program)
        self.reactions = [self._react(None)]
        for _ in range(repeats):
            self.reactions.append(self._react(self.settled.look))
        self.settled.look.close()

    @property
    def settled(self) -> Reaction:
        return self.reactions[-1]

    def _react(self, earlier: Look | None) -> Reaction:
        return Reaction(self.program, self.world, Look(self.past, earlier), self._filters)

    def unsettled(self) -> Lit:
        """One more repeat would change a value, or what is stored."""
        last, again = self.settled, self._react(self.settled.look)
        differ = self.gates.differ
        values = [differ(lit, again.values[key]) for key, lit in last.values.items()]
        stored = [differ(lit, again.look.left[name]) for name, lit in last.look.left.items()]
        return self.gates.any(values + stored)
