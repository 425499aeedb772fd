"""What can matter to one question: the bits, clocks, watches, world and assumptions that it depends on.

An assumption belongs to the cone when something of the world that it depends on does. Leaving out the rest is exact
because every moment settles whatever else happens in it (see `settle`), and what is left out has a story of its own
beside any story of the cone unless what is given stops time, which is asked for by itself.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace

from logiccheck.model.circuit.aig import FALSE, Aig, Lit, Node
from logiccheck.model.circuit.system import Bit, Clock, Constraint, Line, System, Watch


@dataclass(slots=True)
class Cone:
    """`bad` is the question: can it become true. `world` are the input nodes of the world, by variable."""

    system: System
    bad: Lit
    bits: list[Bit]
    clocks: list[Clock]
    watches: list[Watch]
    world: dict[str, list[Node]]
    constraints: list[Constraint]
    order: list[Node] = field(default_factory=list)
    shown: list[Node] = field(default_factory=list)  # inputs that the constraints tie to the clocks (see `exact`)
    overdue: Lit = FALSE  # the part of `bad` that is so just after the time of a watch, whatever a moment brings

    @property
    def aig(self) -> Aig:
        return self.system.aig

    @property
    def inputs(self) -> list[Node]:
        """All that is chosen freely at a moment: the world, what falls due, what the watches show."""
        nodes = [node for group in self.world.values() for node in group]
        nodes += [clock.due >> 1 for clock in self.clocks]
        for watch in self.watches:
            nodes += [watch.ge >> 1, watch.gt >> 1]
        return nodes + self.shown

    @property
    def late(self) -> str:
        """The key of the watch that shows what is overdue; empty when nothing ever is."""
        return next((w.key for w in self.watches if self.aig.both(w.run, w.gt) == self.overdue), "")

    @property
    def lines(self) -> list[Line]:
        """The lines of what is given that its constraints come from."""
        return [c.line for c in self.constraints if c.line is not None]

    def arrange(self, known: Iterable[Node] = ()) -> None:
        """Computes `order`: every node that a moment of this cone needs. `known` is the order of a cone of which this
        one holds everything."""
        lits = [self.bad, self.overdue] + [c.lit for c in self.constraints]
        for bit in self.bits:
            lits += (bit.now, bit.next)
        for clock in self.clocks:
            lits += (clock.run, clock.due, clock.start, clock.run_next)
        for watch in self.watches:
            lits += (watch.run, watch.ge, watch.gt, watch.must, watch.start, watch.run_next)
        lits += [2 * node for node in self.inputs]
        self.order = self.aig.cone(lits, known)


class Reach:
    """Everything that literals depend on through any number of moments."""

    def __init__(self, system: System) -> None:
        self.system = system
        self._bit = {bit.now >> 1: bit for bit in system.bits.values()}
        self._timer: dict[Node, list[Lit]] = {}
        self._onward: dict[Node, list[Node]] = {}
        for clock in system.clocks.values():
            lits = [clock.run, clock.due, clock.start, clock.run_next]
            self._timer[clock.run >> 1] = self._timer[clock.due >> 1] = lits
        for watch in system.watches.values():
            lits = [watch.run, watch.ge, watch.gt, watch.must, watch.start, watch.run_next]
            for lit in (watch.run, watch.ge, watch.gt):
                self._timer[lit >> 1] = lits
        self.owner = {bit >> 1: name for name, coded in system.world.coded.items() for bit in coded.bits}
        self._assumed = [self.world(self.nodes([c.lit])) for c in system.constraints]

    def nodes(self, lits: Iterable[Lit], seen: set[Node] | None = None) -> set[Node]:
        """All nodes reached from these literals, added to `seen`."""
        seen = set() if seen is None else seen
        known = self._onward
        todo = [lit >> 1 for lit in lits if lit > 1]
        while todo:
            node = todo.pop()
            if node not in seen:
                seen.add(node)
                onward = known.get(node)
                if onward is None:
                    onward = known[node] = self._on_from(node)
                todo += onward
        return seen

    def _on_from(self, node: Node) -> list[Node]:
        """What a node depends on at once: its operands, what a timer shows and follows, what a bit will be."""
        lits: list[Lit] = [*(self.system.aig.operands[node] or self._timer.get(node) or ())]
        bit = self._bit.get(node)
        if bit is not None:
            lits.append(bit.next)
        return [lit >> 1 for lit in lits if lit > 1]

    def world(self, nodes: set[Node]) -> set[str]:
        return {self.owner[node] for node in nodes if node in self.owner}

    def cone(self, bad: Lit, lines: Collection[Line] | None = None) -> Cone:
        """The cone of one question, with what is given that touches it (of these lines; None: of all)."""
        system = self.system
        known = {i for i, c in enumerate(system.constraints) if lines is None or c.line is None or c.line in lines}
        seen = self.nodes([bad])
        chosen: set[int] = set()
        while True:
            world = self.world(seen)
            more = {i for i in known - chosen if self._assumed[i] & world}
            if not more:
                break
            chosen |= more
            self.nodes([system.constraints[i].lit for i in more], seen)
        return self._cut(bad, seen, [system.constraints[i] for i in sorted(chosen)])

    def named_cone(self, bad: Lit, world: Collection[str], timers: Collection[str], lines: Collection[Line]) -> Cone:
        """The cone of a question in which these names of the world, timers and lines count whether they matter or not.

        Stories are told and their moments counted on such a cone: what counts there is a matter of names alone.
        """
        system = self.system
        chosen = [c for c in system.constraints if c.line in lines]
        seen = self.nodes([bad, *(c.lit for c in chosen)])
        self.nodes([clock.due for clock in system.clocks.values() if clock.key in timers], seen)
        self.nodes([bit for name in world for bit in system.world.coded[name].bits], seen)
        return self._cut(bad, seen, self._coding(seen) + chosen)

    def settling(self, cone: Cone, changing: Mapping[str, Lit], whole: bool) -> Cone:
        """The cone in which, besides, none of these bits (of its own, or of the whole) goes on changing in a moment; of
        the whole: and what is given about those is met, too."""
        own = {bit.name for bit in cone.bits}
        lits = [lit for name, lit in changing.items() if (whole or name in own) and lit != FALSE]
        if not lits:
            return cone
        still = Constraint(self.system.aig.any_of(lits) ^ 1)
        lines = [c for c in cone.constraints if c.line is not None]
        if whole:
            lines += [c for c in self.cone(still.lit).constraints if c.line is not None and c not in lines]
        seen = self.nodes([still.lit, *(c.lit for c in lines)], set(cone.order))
        return self._cut(cone.bad, seen, [*self._coding(seen), *lines, still])

    def _coding(self, seen: set[Node]) -> list[Constraint]:
        """The coding of the variables of the world that are in use."""
        world = self.world(seen)
        coding = (i for i, c in enumerate(self.system.constraints) if c.line is None)
        return [self.system.constraints[i] for i in coding if self._assumed[i] & world]

    def _cut(self, bad: Lit, seen: set[Node], constraints: list[Constraint]) -> Cone:
        system, world = self.system, self.world(seen)
        cone = Cone(
            system,
            bad,
            [b for b in system.bits.values() if b.now >> 1 in seen],
            [c for c in system.clocks.values() if c.run >> 1 in seen],
            [w for w in system.watches.values() if w.run >> 1 in seen],
            {name: [bit >> 1 for bit in system.world.coded[name].bits] for name in sorted(world)},
            constraints,
        )
        cone.arrange()
        return cone


def exact(cone: Cone) -> Cone:
    """The same cone with every watch made a clock that falls due at its time: nothing silent is left.

    A clock knows that its time goes on; a watch alone may show anything at each moment. Proofs are sought here; a story
    found here may have silent moments more than it needs.
    """
    if not cone.watches:
        return replace(cone)
    aig, system = cone.aig, cone.system
    bits, clocks, constraints = list(cone.bits), list(cone.clocks), list(cone.constraints)
    for watch in cone.watches:
        done = Bit(f"{watch.key}.over", aig.new_input(f"{watch.key}.over"))
        run, due = aig.both(watch.run, done.now ^ 1), aig.new_input(f"{watch.key}.due")
        clock = Clock(watch.key, watch.time, watch.time, watch.time, run, due)
        fired = aig.both(clock.run, clock.due)
        over = aig.either(done.now, fired)
        clock.start = watch.start
        clock.run_next = aig.both(watch.run_next, aig.either(watch.start, over ^ 1))
        done.next = aig.all_of([watch.run_next, watch.start ^ 1, over])
        bits.append(done)
        clocks.append(clock)
        shows = [aig.same(watch.ge, aig.both(watch.run, over)), aig.same(watch.gt, aig.both(watch.run, done.now))]
        constraints += [Constraint(lit) for lit in shows]
    full = Cone(system, cone.bad, bits, clocks, [], cone.world, constraints)
    full.shown = [w.ge >> 1 for w in cone.watches] + [w.gt >> 1 for w in cone.watches]
    full.arrange()
    return full
