"""One moment of a program twice, by the circuit of the search and by the relation of the audit, side by side in a
solver: where can they differ?

Both start from the same stored bits, the same world and the same timers that fall due. Only memory that can be is looked
at, as far as that is easy to say: an index that is a place, no timer that runs for nothing, nothing over that never ran.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from logiccheck.audit.relation import Broken, Occurs, Relation, Shorted, TurnsOn
from logiccheck.audit.solver import Loaded
from logiccheck.engine.cone import Cone, exact
from logiccheck.engine.question import Question, Questions
from logiccheck.engine.sat import Sat
from logiccheck.engine.settle import Depth, never_together, settle
from logiccheck.lang.program import CallsWithin, NeverLonger, Program, Signal
from logiccheck.model.circuit.aig import FALSE, Aig, Lit
from logiccheck.model.circuit.reaction import Forms


class TwoWays:
    """`unlike` names everything in which the two can differ."""

    def __init__(self, program: Program, depth: Depth | None = None) -> None:
        depth = depth or settle(program, Forms())
        self.questions = Questions(depth.moment, settles=True)
        self.cone = exact(_whole(self.questions))
        self.relation = Relation(program, len(depth.moment.reactions) - 1)
        self.asked = [pair for question in self.questions.all for pair in self._asked(question)]
        self.sat = Sat("cadical153")
        self.circuit = _Circuit(self.sat, self.cone.aig, self._roots())
        self.loaded = Loaded(self.sat, self.relation.moment.gates, self._gates())
        self._same_start()
        self._what_can_be()

    @property
    def stored(self) -> set[str]:
        """The names of all stored bits: the same for both, or that is told."""
        return {bit.name for bit in self.cone.bits}

    def unlike(self) -> list[str]:
        past = self.relation.moment.past
        found = [f"{name} is stored by one of them only" for name in sorted(self.stored ^ set(past.after))]
        for bit in self.cone.bits:
            found += self._compare(bit.name, bit.next, past.after[bit.name])
        for clock in self.cone.clocks:
            other = past.clocks[clock.key]
            if (clock.lo, clock.hi) != (other.lo, other.hi):
                found.append(f"{clock.key} has two windows")
            aig = self.cone.aig
            found += self._compare(f"{clock.key} runs", clock.run, other.runs)
            found += self._compare(f"{clock.key} begins", aig.both(clock.run_next, clock.start), other.begins)
            found += self._compare(f"{clock.key} goes on", aig.both(clock.run_next, clock.start ^ 1), other.goes_on)
        for line, lit in self.relation.lines.items():
            found += self._compare(f"{line} is met", self._met(line), lit)
        for what, ours, theirs, over in self.asked:
            found += self._compare(what, ours, theirs, over)
        self.sat.close()
        return found

    def _compare(self, what: str, ours: Lit, theirs: int, over: str = "") -> list[str]:
        """`over`: what the audit knows already, the search may see in the moment that follows: when this is over."""
        x, y = self.circuit.lit(ours), self.loaded.lit(theirs)
        found = [f"{what}: by the search only"] if self.sat.solve([x, -y]) else []
        if not over:
            return found + ([f"{what}: by the audit only"] if self.sat.solve([-x, y]) else [])
        past = self.relation.moment.past
        before, after = self.loaded.lit(past.before[over]), self.loaded.lit(past.after[over])
        if self.sat.solve([-x, y, -after]) or self.sat.solve([-x, before]):
            found.append(f"{what}: by the audit only")
        return found

    def _asked(self, question: Question) -> Iterator[tuple[str, Lit, int, str]]:
        requirement, relation = question.requirement, self.relation
        if question.builtin:
            yield "a short circuit", question.bad, relation.happens(Shorted()), ""
            return
        over = ""
        if isinstance(requirement.form, NeverLonger | CallsWithin):
            over = f"{requirement.name}:{'run' if isinstance(requirement.form, NeverLonger) else 'open'}.over"
        yield requirement.text, question.bad, relation.happens(Broken(requirement)), over
        for number, case in enumerate(question.cases):
            if number < len(question.breach.cases):
                other = relation.happens(Occurs(requirement, number))
            else:
                assert isinstance(case.part, Signal)
                other = relation.happens(TurnsOn(requirement, case.part.name))
            yield f"{requirement.text}, case {number}", case.occurs, other, ""

    def _met(self, line: tuple[str, int | str]) -> Lit:
        constraints = self.cone.constraints
        same = [c.lit for c in constraints if c.line is not None and (c.line.kind, c.line.which) == line]
        return self.cone.aig.all_of(same)

    # both in one solver

    def _roots(self) -> list[Lit]:
        cone = self.cone
        lits = [bit for coded in cone.system.world.coded.values() for bit in coded.bits]
        lits += [lit for stored in cone.bits for lit in (stored.now, stored.next)]
        lits += [self._met(line) for line in self.relation.lines] + [c.lit for c in cone.constraints]
        for clock in cone.clocks:
            start, on = clock.start, clock.run_next
            lits += [clock.run, clock.due, cone.aig.both(on, start), cone.aig.both(on, start ^ 1)]
        return lits + [ours for _, ours, _, _ in self.asked]

    def _gates(self) -> list[int]:
        moment = self.relation.moment
        lits = [*moment.past.before.values(), *moment.past.after.values(), *moment.past.dues.values()]
        lits += self.relation.lines.values()
        for clock in moment.past.clocks.values():
            lits += (clock.runs, clock.begins, clock.goes_on)
        for variable in moment.world.variables.values():
            lits += [variable.digit(k) for k in variable.digits] + list(variable.reaches.values())
        return lits + [theirs for _, _, theirs, _ in self.asked]

    def _equal(self, x: int, y: int) -> None:
        self.sat.add([-x, y])
        self.sat.add([x, -y])

    def _same_start(self) -> None:
        past, world = self.relation.moment.past, self.relation.moment.world
        for bit in self.cone.bits:
            if bit.name in past.before:
                self._equal(self.circuit.lit(bit.now), self.loaded.lit(past.before[bit.name]))
        for clock in self.cone.clocks:
            self._equal(self.circuit.lit(clock.due), self.loaded.lit(past.dues[clock.key]))
        for name, coded in self.cone.system.world.coded.items():
            for k, digit in enumerate(coded.bits):
                self._equal(self.circuit.lit(digit), self.loaded.lit(world.variables[name].digit(k)))
        for order in world.orders():
            for less, more in pairwise(order):
                self.sat.add([-self.loaded.lit(more), self.loaded.lit(less)])

    def _what_can_be(self) -> None:
        for constraint in self.cone.constraints:
            if constraint.line is None:
                self.sat.add([self.circuit.lit(constraint.lit)])
        now = {bit.name: self.circuit.lit(bit.now) for bit in self.cone.bits}
        for one, other in never_together(self.questions.moment):
            self.sat.add([-now[one], -now[other]])
        for name in now:
            if name.endswith(".over"):
                self.sat.add([-now[name], now[name.removesuffix("over") + "run"]])


class _Circuit:
    """A graph in the solver, gate by gate."""

    def __init__(self, sat: Sat, aig: Aig, lits: list[Lit]) -> None:
        self.var = {0: -sat.true}
        for node in aig.cone(lits):
            pair = aig.operands[node]
            self.var[node] = sat.new() if pair is None else sat.both(self.lit(pair[0]), self.lit(pair[1]))

    def lit(self, lit: Lit) -> int:
        return -self.var[lit >> 1] if lit & 1 else self.var[lit >> 1]


def _whole(questions: Questions) -> Cone:
    """Everything, whether it matters to anything or not."""
    system = questions.moment.system
    world = {name: [bit >> 1 for bit in coded.bits] for name, coded in system.world.coded.items()}
    bits, clocks, watches = list(system.bits.values()), list(system.clocks.values()), list(system.watches.values())
    whole = Cone(system, FALSE, bits, clocks, watches, world, list(system.constraints))
    whole.arrange()
    return whole
