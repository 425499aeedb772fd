"""One instant of a small vehicle in which parts may break: as on whole copper, with the faults among the world."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import product

from logiccheck.lang.program import (
    ChangesOnlyWhile,
    Contact,
    Diode,
    Dip,
    Form,
    Given,
    Ground,
    LastsAtMost,
    Load,
    NumberSense,
    Or,
    Output,
    Position,
    Program,
    Relay,
    Source,
    Wire,
    WireSense,
)
from tests.oracle.broken.parts import Fault, Mode, When, fused
from tests.oracle.broken.reaction import BrokenMachine
from tests.oracle.kernel import Kernel, World
from tests.oracle.slices import Node, Slicer


def is_there(fault: Fault) -> Position:
    """The fault is there: a fact of the world."""
    return Position(fault.bit, frozenset({1}))


def limited(program: Program, faults: Iterable[Fault]) -> Program:
    """The vehicle with what is so of dips: they begin only where they may, and are short."""
    givens: list[Given] = []
    for fault in faults:
        if isinstance(fault.part, Dip):
            there = is_there(fault)
            givens.append(ChangesOnlyWhile(fault.bit, Or((there, fault.part.p)), "dip begins"))
            givens.append(LastsAtMost(there, fault.part.time, "dip lasts"))
    return replace(program, givens=(*program.givens, *givens))


class BrokenSlicer(Slicer):
    """Finds what can matter where `faults` may be there; their bits are nodes of the world."""

    def __init__(self, program: Program, faults: Iterable[Fault]) -> None:
        super().__init__(program)
        self.faults = tuple(faults)
        self.kept: set[Node] = set()  # the nodes of the last slice

    def links(self, grounded: bool) -> list[tuple[str, str, Node]]:
        ways = super().links(grounded)
        for fault in self.faults:
            bit, part = ("world", fault.bit), fault.part
            if isinstance(part, Diode) and fault.mode is Mode.SHORTED:
                ways += [(part.anode, part.cathode, bit), (part.cathode, part.anode, bit)]
            elif isinstance(part, Wire) and fault.mode is Mode.LIVE and not grounded:
                ways += [(source.name, part.name, bit) for source in self.program.sources]
            elif isinstance(part, Wire) and fault.mode is Mode.GROUNDED and grounded:
                ways.append(("ground", part.name, bit))
        return [way for way in ways if way[1] not in self.ends]

    def find_needs(self, node: Node) -> set[Node]:
        return super().find_needs(node) | {("world", fault.bit) for fault in self.faults if self.touches(fault, node)}

    def touches(self, fault: Fault, node: Node) -> bool:
        """Whether the item of this node may be broken so; what comes by other ways is found by `links`."""
        kind, name = node
        match fault.part:
            case Source() | Ground() | Relay() | WireSense() | NumberSense() | Output() as part:
                kinds = {Source: "source", Ground: "ground", Relay: "relay", Output: "output"}
                return node == (kinds.get(type(part), "sense"), part.name)
            case Dip(source=source):
                return node == ("source", source)
            case Load(wire=wire):
                return node == ("live", wire)
            case Wire() if fault.mode is Mode.FUSE:
                return kind == "contact" and any(self.program.contacts[int(name)] is x for x in self.fuses(fault))
            case Wire(name=wire):
                return node in (("wire", wire), ("live", wire), ("grounded", wire))
            case Contact():
                return kind == "contact" and self.program.contacts[int(name)] is fault.part
            case Diode():
                return kind == "diode" and self.program.diodes[int(name)] is fault.part

    def fuses(self, fault: Fault) -> tuple[Contact, ...]:
        assert isinstance(fault.part, Wire)
        return fused(self.program, fault.part)

    def cut(self, nodes: set[Node]) -> Program:
        self.kept = nodes
        return super().cut(nodes)


class BrokenKernel(Kernel):
    """The instants of `program` (a slice) in which `faults` may be there, each `when` it may."""

    def __init__(self, program: Program, form: Form | None, faults: Iterable[tuple[Fault, When]]) -> None:
        super().__init__(program, form)
        self.faults = tuple(faults)
        self.machine = BrokenMachine(program, [fault for fault, _ in self.faults])
        self.whole = len(self.names)  # names before those of faults
        holding = [fault for fault, _ in self.faults if fault.mode is Mode.HOLDING and self.reads(fault)]
        self.holding = [(self.place(fault), self.number(fault)) for fault in holding]
        self.names += [fault.bit for fault, _ in self.faults] + [fault.held for fault in holding]
        self.values += [(0, 1) for _ in self.faults] + [self.values[number] for _, number in self.holding]
        self.steady += [False] * (len(self.faults) + len(holding))

    def reads(self, fault: Fault) -> bool:
        """Whether what holds is part of the slice, and not only named as broken."""
        return isinstance(fault.part, NumberSense) and fault.part.number in self.names

    def place(self, fault: Fault) -> int:
        return self.whole + [each for each, _ in self.faults].index(fault)

    def number(self, fault: Fault) -> int:
        assert isinstance(fault.part, NumberSense)
        return self.names.index(fault.part.number)

    def worlds(self, before: World | None) -> Iterator[World]:
        """Faults come and go as they may; what a sense holds is what its number was just before."""
        whole = self.whole
        choices: list[list[int]] = []
        for i, values in enumerate(self.values[:whole]):
            old = before[i] if before is not None and self.steady[i] else None
            choices.append([k for k in range(len(values)) if old is None or abs(k - old) < 2])
        for i, (_, when) in enumerate(self.faults):
            choices.append(self.bits(when, before[whole + i] if before is not None else None))
        for world in product(*choices):
            for held in product(*(self.held(before, world, n) for n in range(len(self.holding)))):
                yield (*world, *held)

    @staticmethod
    def bits(when: When, old: int | None) -> list[int]:
        match when:
            case When.START:
                return [1]
            case When.LATER:
                return [0] if old is None else [0, 1] if old == 0 else [1]
            case When.LOOSE:
                return [0] if old is None else [0, 1]
            case When.EVER:
                return [1] if old == 1 else [0, 1]

    def held(self, before: World | None, world: World, n: int) -> list[int]:
        """What the n-th holding sense may hold: what its number was just before, or at time 0."""
        place, number = self.holding[n]
        if not world[place]:
            return [0]
        if before is None:
            return [world[number]]
        own = self.whole + len(self.faults) + n
        return [before[own] if before[place] else before[number]]
