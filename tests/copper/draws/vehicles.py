"""Random small vehicles in which things draw current: those of the oracle, with amperes, fuses and more ways."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

from logiccheck.base.span import Span
from logiccheck.lang.program import Const, Contact, Diode, Electrical, Load, Output, Program, Source
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

AWAY = Span("elsewhere", 0, 0)  # on no line of a wire
STEPS = (1_000_000, 500_000, 2_000_000)  # microseconds, as the timers of these vehicles


def random_vehicle(seed: int, inrush: bool = False) -> Program:
    """The vehicle of this seed; with `inrush` some of it draws more at first."""
    random = Random(seed)
    return Drawing(loaded(random_program(seed).text), random, inrush).program


class Drawing:
    def __init__(self, program: Program, random: Random, inrush: bool) -> None:
        self.random, self.inrush = random, inrush
        self.program = replace(program, requirements=(), scenarios=())
        self.loads()
        self.ways()
        self.fuses()
        self.box()

    def amperes(self) -> Fraction:
        return Fraction(self.random.randint(1, 60), self.random.choice([1, 2, 3, 4]))

    def drawn(self) -> Electrical:
        current = self.amperes()
        if not self.inrush or self.random.random() < 0.3:
            return Electrical(current, fuse=Fraction(5))
        return Electrical(current, current + self.amperes(), self.random.choice(STEPS), Fraction(5))

    def loads(self) -> None:
        """One or two more loads; all that there are draw."""
        program, random = self.program, self.random
        loads = [replace(load, electrical=self.drawn()) for load in program.loads]
        for number in range(random.choice([0, 1, 2])):
            if program.wires:
                loads.append(Load(f"x{number}", "", random.choice(program.wires).name, self.drawn()))
        relays = [replace(r, draws=self.amperes() if random.random() < 0.5 else None) for r in program.relays]
        self.program = replace(program, loads=tuple(loads), relays=tuple(relays))

    def ways(self) -> None:
        """Sometimes a second source, and something that joins two wires."""
        program, random = self.program, self.random
        closed = [contact.condition for contact in program.contacts] or [Const(True)]
        sources, contacts, diodes = list(program.sources), list(program.contacts), list(program.diodes)
        wires = [wire.name for wire in program.wires]
        if wires and random.random() < 0.4:
            sources.append(Source("aux", "", random.choice([Const(True), *closed])))
            wire = random.choice(program.wires)
            contacts.append(Contact("aux", wire.name, random.choice(closed), random.choice([wire.span, AWAY])))
        if len(wires) > 1 and random.random() < 0.4:
            one, other = random.sample(wires, 2)
            contacts.append(Contact(one, other, random.choice(closed), AWAY))
        if len(wires) > 1 and random.random() < 0.2:
            one, other = random.sample(wires, 2)
            diodes.append(Diode(one, other))
        self.program = replace(program, sources=tuple(sources), contacts=tuple(contacts), diodes=tuple(diodes))

    def fuses(self) -> None:
        wires = [
            replace(wire, electrical=Electrical(fuse=Fraction(10))) if self.random.random() < 0.35 else wire
            for wire in self.program.wires
        ]
        self.program = replace(self.program, wires=tuple(wires))

    def box(self) -> None:
        box, random = self.program.box, self.random
        if box is None:
            return
        rules = tuple(replace(r, electrical=self.drawn()) if isinstance(r, Output) else r for r in box.rules)
        awake = self.amperes() if random.random() < 0.5 else None
        asleep = self.amperes() if random.random() < 0.5 else None
        self.program = replace(self.program, box=replace(box, rules=rules, awake=awake, asleep=asleep))
