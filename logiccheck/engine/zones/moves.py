"""One moment of a cone as a relation on sets of states: from the states before it to those after it.

Each stored bit has two variables, before and after; each clock one for "starts"; each input one. A relation is kept in
parts, one for each bit, which are met one after another; what no later part speaks of is forgotten at once.
References: J. Burch, E. Clarke, D. Long, "Symbolic model checking with partitioned transition relations", VLSI 1991;
R. Ranjan et al., "Efficient BDD algorithms for FSM synthesis and verification", IWLS 1995 (clusters of parts).
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone
from logiccheck.engine.zones.order import arranged
from logiccheck.engine.zones.sets import Sets, States
from logiccheck.model.circuit.aig import Lit, Node

CLUSTER = 500  # nodes of the diagram of several parts in one


@frozen
class Part:
    """A part of a relation, and the variables it speaks of."""

    states: States
    speaks_of: frozenset[int]


class Moves:
    """All moments of an exact cone. Operations may raise OutOfTime or TooLarge."""

    def __init__(self, cone: Cone, budget: Budget) -> None:
        self.cone, self.budget = cone, budget
        self.before: dict[Node, int] = {}  # the variable of an input, of a bit before the moment
        self.after: dict[Node, int] = {}  # of a bit after it
        self.starts: list[int] = []  # of each clock: it starts
        self.sets = self._numbered()
        self._diagrams = self._drawn()
        self.runs = [self.diagram(clock.run) for clock in cone.clocks]
        self.dues = [self.before[clock.due >> 1] for clock in cone.clocks]
        self.first = self.sets.all
        for bit in cone.bits:
            self.first &= ~self.diagram(bit.now)
        stored = {bit.now >> 1 for bit in cone.bits}
        self.stored = frozenset(self.before[node] for node in stored)
        self.inputs = frozenset(number for node, number in self.before.items() if node not in stored)
        self._back = self.sets.renaming({self.after[node]: self.before[node] for node in stored})

    # diagrams

    def _numbered(self) -> Sets:
        """Gives every variable its number, near those it depends on."""
        aig, cone = self.cone.aig, self.cone
        leaves = {node for node in cone.order if aig.operands[node] is None}
        leaves |= {bit.now >> 1 for bit in cone.bits} | {clock.due >> 1 for clock in cone.clocks}

        def under(*lits: Lit) -> set[Node]:
            return {node for node in aig.cone(lits) if node in leaves}

        groups = [under(bit.now, bit.next) for bit in cone.bits]
        groups += [under(clock.start, clock.run, clock.due) for clock in cone.clocks]
        groups += [under(constraint.lit) for constraint in cone.constraints] + [under(cone.bad)]
        stored = {bit.now >> 1 for bit in cone.bits}
        starting = {clock.due >> 1: k for k, clock in enumerate(cone.clocks)}
        self.starts = [0] * len(cone.clocks)
        count = 0
        for node in arranged(sorted(leaves), groups):
            self.before[node], count = count, count + 1
            if node in stored:
                self.after[node], count = count, count + 1
            if node in starting:
                self.starts[starting[node]], count = count, count + 1
        return Sets(count)

    def _drawn(self) -> dict[Node, States]:
        """The diagram of every node of the cone."""
        diagrams: dict[Node, States] = {0: self.sets.empty}
        operands = self.cone.aig.operands
        for node in self.cone.order:
            self.budget.check()
            pair = operands[node]
            if pair is None:
                diagrams[node] = self.sets.variable(self.before[node])
            else:
                a, b = (~diagrams[lit >> 1] if lit & 1 else diagrams[lit >> 1] for lit in pair)
                diagrams[node] = a & b
        return diagrams

    def diagram(self, lit: Lit) -> States:
        """The states and inputs for which a literal of the cone is true."""
        return ~self._diagrams[lit >> 1] if lit & 1 else self._diagrams[lit >> 1]

    @cached_property
    def lawful(self) -> list[States]:
        """What is always so: the constraints, and that only what runs falls due."""
        meets = [self.diagram(constraint.lit) for constraint in self.cone.constraints]
        return meets + [run | ~self.sets.variable(due) for run, due in zip(self.runs, self.dues, strict=True)]

    @cached_property
    def following(self) -> list[tuple[int, States]]:
        """The variable of each bit after the moment, and when it is true."""
        return [(self.after[bit.now >> 1], self.diagram(bit.next)) for bit in self.cone.bits]

    @cached_property
    def starting(self) -> list[States]:
        """When each clock starts: a run begins and is still there after the moment."""
        return [self.diagram(clock.start) & self.diagram(clock.run_next) for clock in self.cone.clocks]

    def renamed_back(self, states: States) -> States:
        """What speaks of bits after a moment, as what they are before the next."""
        return self._back(states)


class Relation:
    """All moments at which of the clocks that are timed just these fall due; `timed`: those whose falling due is not
    free."""

    def __init__(self, moves: Moves, timed: Iterable[int], due: frozenset[int]) -> None:
        self.moves = moves
        sets = moves.sets
        fix = sets.fixing({moves.dues[clock]: clock in due for clock in timed})
        equal = [(number, fix(states)) for number, states in moves.following]
        equal += [(moves.starts[clock], fix(moves.starting[clock])) for clock in timed]
        parts = [~(sets.variable(number) ^ states) for number, states in equal]
        parts += [fix(states) for states in moves.lawful]
        self.bad = fix(moves.diagram(moves.cone.bad))
        lawful = sets.all
        for states in moves.lawful:
            lawful &= fix(states)
        self.bad = sets.meet_and_forget(lawful, self.bad, moves.inputs)
        self._steps = self._planned([Part(p, frozenset(sets.support(p))) for p in parts if p != sets.all])

    def _planned(self, parts: list[Part]) -> list[tuple[States, frozenset[int]]]:
        """The parts in clusters, topmost first, each with the variables that can be forgotten once it is met."""
        moves, sets = self.moves, self.moves.sets
        clusters: list[Part] = []
        for part in sorted(parts, key=lambda part: min(part.speaks_of, default=0)):
            moves.budget.check()
            if clusters:
                both = clusters[-1].states & part.states
                if both.node_count() < CLUSTER:
                    clusters[-1] = Part(both, clusters[-1].speaks_of | part.speaks_of)
                    continue
            clusters.append(part)
        passing, planned = moves.stored | moves.inputs, []
        spoken: frozenset[int] = frozenset()
        for cluster in reversed(clusters):
            planned.append((cluster.states, (cluster.speaks_of & passing) - spoken))
            spoken |= cluster.speaks_of
        planned.append((sets.all, passing - spoken))
        return planned[::-1]

    def image(self, states: States) -> States:
        """The states after such a moment in one of these states, with the variables of the timed clocks that start."""
        sets = self.moves.sets
        for part, forgotten in self._steps:
            self.moves.budget.check()
            states = sets.meet_and_forget(states, part, forgotten)
        return self.moves.renamed_back(states)
