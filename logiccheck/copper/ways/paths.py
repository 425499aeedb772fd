"""Every way in which a live source, a true output, or ground reaches a wire: through contacts and diodes, part by part.

A way visits no wire twice, and sources and grounds stand at its begin only. So a wire is live, or grounded, exactly
when all conditions of one of its ways are so.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator
from heapq import heappop, heappush
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import And, Const, Contact, Diode, Expr, Or, Program, Signal, SignalKind

MOST_WAYS = 400  # ways to one wire that are looked for
MOST_BEGUN = 40_000  # begun ways that are followed before it is given up


@frozen
class Step:
    """What reaches the end `tail` goes on over `part` to the wire `head`."""

    tail: str
    head: str
    part: Contact | Diode


@frozen
class Way:
    """`origin`: the source, ground or output that has to be on. `begin`: its name, or the wire which the output feeds.

    `kind`: the way makes its last wire live, or grounded.
    """

    kind: SignalKind
    origin: Signal
    begin: str
    steps: tuple[Step, ...]

    @property
    def wires(self) -> tuple[str, ...]:
        """All wires on it in order, the one it leads to last."""
        own = (self.begin,) if self.origin.kind is SignalKind.OUTPUT else ()
        return (*own, *(step.head for step in self.steps))

    @property
    def conditions(self) -> tuple[Expr, ...]:
        """All that has to be so at once, each once, in the order of the way; what is always so is left out."""
        contacts = (step.part.condition for step in self.steps if isinstance(step.part, Contact))
        return tuple(each for each in dict.fromkeys((self.origin, *contacts)) if each != Const(True))

    @property
    def condition(self) -> Expr:
        """It conducts, once all has settled."""
        return And(self.conditions)


@frozen
class Ways:
    """Ways to one wire, the shortest first, else in the order of the file. `whole`: there are no others."""

    wire: str
    kind: SignalKind
    found: tuple[Way, ...]
    whole: bool


def ways_to(program: Program, wire: str, kind: SignalKind) -> Ways:
    """All ways in which this wire is made live, or grounded; up to a bound, which leaves out the longest."""
    return Copper(program, kind).ways_to(wire)


def any_of(ways: tuple[Way, ...]) -> Expr:
    """One of them conducts, once all has settled."""
    return Or(tuple(way.condition for way in ways)) if ways else Const(False)


class Copper:
    """The harness as what is live sees it, or what is grounded, whether contacts are closed or not."""

    def __init__(self, program: Program, kind: SignalKind) -> None:
        self.kind = kind
        live = kind is SignalKind.LIVE
        ends = program.sources if live else program.grounds
        signal = SignalKind.SOURCE if live else SignalKind.GROUND
        self._origins: dict[str, list[Signal]] = {end.name: [Signal(signal, end.name)] for end in ends}
        for output in program.box.outputs if program.box is not None and live else ():
            if output.feeds is not None:
                self._origins.setdefault(output.feeds, []).append(Signal(SignalKind.OUTPUT, output.name))
        wires = frozenset(wire.name for wire in program.wires)
        known = wires | {end.name for end in ends}
        self._arriving: defaultdict[str, list[Step]] = defaultdict(list)
        self._leaving: defaultdict[str, list[str]] = defaultdict(list)
        for step in _steps(program, live):
            if step.head in wires and step.tail in known:
                self._arriving[step.head].append(step)
                self._leaving[step.tail].append(step.head)
        self._place = {id(part): number for number, part in enumerate((*program.contacts, *program.diodes))}

    def ways_to(self, wire: str) -> Ways:
        """All ways to this wire, up to a bound, which leaves out the longest."""
        distance = self._distances(wire)
        found: list[Way] = []
        waiting: list[tuple[int, int, str, _Begun | None, frozenset[str]]] = [(0, 0, wire, None, frozenset({wire}))]
        number = begun = 0
        while waiting:
            begun += 1
            _, _, here, after, passed = heappop(waiting)  # the nearest to its origin first: some are found in any case
            found += (Way(self.kind, origin, here, _steps_of(after)) for origin in self._origins.get(here, ()))
            if len(found) > MOST_WAYS or begun > MOST_BEGUN:
                return Ways(wire, self.kind, self._sorted(found[:MOST_WAYS]), whole=False)
            for step in self._arriving.get(here, ()):
                if step.tail in distance and step.tail not in passed:
                    number += 1
                    length = len(passed) + distance[step.tail]
                    heappush(waiting, (length, number, step.tail, (step, after), passed | {step.tail}))
        return Ways(wire, self.kind, self._sorted(found), whole=True)

    def _sorted(self, found: list[Way]) -> tuple[Way, ...]:
        def key(way: Way) -> tuple[int, list[int]]:
            return len(way.steps), [self._place[id(step.part)] for step in way.steps]

        return tuple(sorted(found, key=key))

    def _distances(self, wire: str) -> dict[str, int]:
        """How many steps it takes at least from where something can come, to all that it can reach but by this wire."""
        found = dict.fromkeys((name for name in self._origins if name != wire), 0)
        waiting = deque(found)
        while waiting:
            here = waiting.popleft()
            for head in self._leaving.get(here, ()):
                if head not in found and head != wire:
                    found[head] = found[here] + 1
                    waiting.append(head)
        return found


_Begun: TypeAlias = "tuple[Step, _Begun | None]"  # a step, and what comes after it


def _steps_of(begun: _Begun | None) -> tuple[Step, ...]:
    steps = []
    while begun is not None:
        step, begun = begun
        steps.append(step)
    return tuple(steps)


def _steps(program: Program, live: bool) -> Iterator[Step]:
    for contact in program.contacts:
        if contact.condition != Const(False):
            yield Step(contact.left, contact.right, contact)
            yield Step(contact.right, contact.left, contact)
    for diode in program.diodes:
        tail, head = (diode.anode, diode.cathode) if live else (diode.cathode, diode.anode)
        yield Step(tail, head, diode)
