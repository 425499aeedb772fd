"""Tiny random systems without clocks, small enough to look at every state one by one."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from random import Random
from typing import TypeAlias

from logiccheck.engine.cone import Cone
from logiccheck.model.circuit.aig import Aig, Lit
from logiccheck.model.circuit.system import Constraint, new_system
from logiccheck.model.circuit.worldcode import WorldCode
from tests.oracle.loading import loaded

State: TypeAlias = tuple[bool, ...]

WORLD = loaded('vehicle "T"\nworld\n    a contact\n    b contact\n')


@dataclass(frozen=True)
class Step:
    """What a moment does from one state with one world: lawful, bad, and the state after it."""

    lawful: bool
    bad: bool
    after: State


class Tiny:
    """A cone over two contacts and a few bits, and all its steps."""

    def __init__(self, seed: int) -> None:
        random = Random(seed)
        aig = Aig()
        system = new_system(WorldCode(WORLD, aig), aig)
        bits = [system.bit(f"b{i}") for i in range(random.randint(1, 4))]
        self.world = [coded.bits[0] for coded in system.world.coded.values()]
        lits = [*self.world, *(bit.now for bit in bits)]
        for _ in range(random.randint(2, 14)):
            a, b = (random.choice(lits) ^ random.randrange(2) for _ in range(2))
            lits.append(random.choice([aig.both, aig.both, aig.differ])(a, b))

        def pick() -> Lit:
            return random.choice(lits[2:]) ^ random.randrange(2)

        for bit in bits:
            bit.next = pick()
        constraints = [Constraint(aig.either(pick(), pick())) for _ in range(random.choice([0, 0, 1]))]
        bad = aig.all_of(pick() for _ in range(random.randint(1, 4)))
        world = {name: [bit >> 1 for bit in coded.bits] for name, coded in system.world.coded.items()}
        self.cone = Cone(system, bad, bits, [], [], world, constraints)
        self.cone.arrange()
        self.states: list[State] = list(product((False, True), repeat=len(bits)))
        self.inputs: list[State] = list(product((False, True), repeat=len(self.world)))
        self.first: State = self.states[0]
        self.steps = {(s, w): self._step(s, w) for s in self.states for w in self.inputs}

    def _step(self, state: State, world: State) -> Step:
        cone = self.cone
        inputs = {bit.now >> 1: value for bit, value in zip(cone.bits, state, strict=True)}
        inputs |= {lit >> 1: value for lit, value in zip(self.world, world, strict=True)}
        lits = [bit.next for bit in cone.bits] + [c.lit for c in cone.constraints] + [cone.bad]
        values = cone.aig.evaluate(lits, inputs)
        count = len(cone.bits)
        return Step(all(values[count:-1]), values[-1], tuple(values[:count]))

    def following(self, states: set[State]) -> set[State]:
        """All states one lawful moment later."""
        return {step.after for s in states for w in self.inputs if (step := self.steps[s, w]).lawful}

    def bad_at(self, state: State) -> bool:
        """Whether some lawful moment from this state is bad."""
        return any(step.lawful and step.bad for w in self.inputs if (step := self.steps[state, w]))

    def levels(self) -> list[set[State]]:
        """The states before moment 0, 1, 2, ...: those reached in so many moments and not in fewer."""
        seen, level = {self.first}, {self.first}
        found = [level]
        while level := self.following(level) - seen:
            seen |= level
            found.append(level)
        return found

    def depth(self) -> int | None:
        """The number of the first moment that can be bad."""
        return next((k for k, level in enumerate(self.levels()) if any(map(self.bad_at, level))), None)

    def within(self, moments: int) -> set[State]:
        """All states reached in at most so many moments."""
        return {state for level in self.levels()[: moments + 1] for state in level}
