"""One whole moment as a circuit: a first reaction and a fixed number of repeats, the last of which is settled."""

from __future__ import annotations

from logiccheck.lang.program import Program
from logiccheck.model.circuit.aig import FALSE, Aig, Lit
from logiccheck.model.circuit.reaction import Forms, Reaction
from logiccheck.model.circuit.store import Store
from logiccheck.model.circuit.system import System, new_system
from logiccheck.model.circuit.worldcode import WorldCode


class Moment:
    """The circuit of a moment of `program`: `reactions` holds all reactions, first to last; `repeat` adds one.

    `unsettled` is true when one more repeat would still change a value or memory: a moment in which it is true needs
    more repeats, or never settles. Observers may be added once there are enough repeats: they see the last reaction.
    """

    def __init__(self, program: Program, forms: Forms | None = None) -> None:
        aig = Aig()
        self.program = program
        self.forms = forms if forms is not None else Forms()
        self.system: System = new_system(WorldCode(program, aig), aig)
        self.reactions = [Reaction(program, self.forms, Store(self.system))]
        self._close()

    @property
    def settled(self) -> Reaction:
        return self.reactions[-1]

    def repeat(self) -> None:
        """One more reaction with the same world, in which nothing new falls due."""
        self.reactions.append(self._again)
        self._close()

    def _close(self) -> None:
        last = self.settled
        last.store.close()
        self._again = Reaction(self.program, self.forms, Store(self.system, last.store))
        aig = self.system.aig
        # of each stored bit: one more repeat would still change it
        self.changing = {name: aig.differ(self._again.store.next[name], b) for name, b in last.store.next.items()}
        changed = [aig.differ(self._again.signals[key], lit) for key, lit in last.signals.items()]
        self.changes = [lit for lit in (*self.changing.values(), *changed) if lit != FALSE]
        self.unsettled: Lit = aig.any_of(self.changes)
