"""The names of a vehicle while it is being resolved: who is declared where, and what is already known about it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from enum import Enum

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.base.suggest import near
from logiccheck.base.units import Dimension, Quantity
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.names import UnknownName, WrongKind


class Kind(Enum):
    """What a name stands for; the value is how people call it."""

    CONSTANT = "a constant"
    SWITCH = "a switch"
    NUMBER = "a number of the world"
    SOURCE = "a source"
    GROUND = "a ground"
    WIRE = "a wire"
    RELAY = "a relay"
    LOAD = "a load"
    SENSE = "a sense"
    NUMBER_SENSE = "a number sense"
    RULE = "a rule"
    OUTPUT = "an output"
    POWERED = "the power of the box"
    ROLE = "a role"
    REQUIREMENT = "a requirement"
    SCENARIO = "a scenario"
    LOST = "something that could not be read"


WORLD = frozenset({Kind.SWITCH, Kind.NUMBER})
COPPER = frozenset({Kind.SOURCE, Kind.GROUND, Kind.WIRE, Kind.RELAY, Kind.LOAD})
SENSES = frozenset({Kind.SENSE, Kind.NUMBER_SENSE})
BOX = SENSES | {Kind.RULE, Kind.OUTPUT}
ENDS = frozenset({Kind.WIRE, Kind.SOURCE, Kind.GROUND})
NUMBERS = frozenset({Kind.NUMBER, Kind.NUMBER_SENSE})


@frozen
class Declared:
    """One declaration; the built-in ground and `powered` have no item."""

    name: str
    kind: Kind
    span: Span
    item: w.Item | None = None


@frozen
class Gauge:
    """What a comparison on a number or a number sense must fit: its range and what it measures."""

    number: str  # the number of the world
    low: Quantity
    high: Quantity
    span: Span

    @property
    def dimension(self) -> Dimension:
        return self.high.dimension


@dataclass(slots=True)
class Scope:
    """Filled step by step: names first, then constants, the world, the senses. `found` collects all mistakes."""

    declared: dict[str, Declared]
    found: list[Diagnostic]
    constants: dict[str, Quantity | p.Window] = field(default_factory=dict)
    gauges: dict[str, Gauge] = field(default_factory=dict)
    switches: dict[str, p.Switch] = field(default_factory=dict)
    filters: dict[str, p.Window] = field(default_factory=dict)  # filter times of number senses
    load_wires: dict[str, str] = field(default_factory=dict)

    def tell(self, message: Message, span: Span, other: Span | None = None) -> None:
        self.found.append(Diagnostic(message, span, other))

    @property
    def full(self) -> bool:
        """So many mistakes are told that looking for what was meant by a further one is not worth the time."""
        return len(self.found) > limits.MISTAKES

    def find(self, name: w.Name) -> Declared | None:
        """The declaration of a name; None, and told, if there is none or it could not be read."""
        entry = self.declared.get(name.text)
        if entry is None:
            self.tell(self._unknown(name.text), name.span)
            return None
        return None if entry.kind is Kind.LOST else entry

    def want(self, name: w.Name, kinds: Iterable[Kind], wanted: str) -> str | None:
        """The name, if it is declared as one of the kinds; else None, and told. `wanted` is the kinds in words."""
        kinds = frozenset(kinds)
        entry = self.find(name)
        if entry is None:
            return None
        if entry.kind not in kinds:
            choice = near(name.text, self.names(kinds)) or tuple(self.names(kinds)[:4])
            self.tell(WrongKind(name.text, entry.kind.value, wanted, choice), name.span)
            return None
        return entry.name

    def names(self, kinds: Iterable[Kind]) -> list[str]:
        """All names of these kinds, in alphabetical order; for messages, and none when these are too many."""
        kinds = frozenset(kinds if not self.full else ())
        return sorted(name for name, entry in self.declared.items() if entry.kind in kinds) if kinds else []

    def _unknown(self, word: str) -> UnknownName:
        if self.full:
            return UnknownName(word, (), ())
        known = [name for name, entry in self.declared.items() if entry.kind is not Kind.LOST]
        owners = tuple(sorted(s.name for s in self.switches.values() if word in s.positions and not s.contact))
        return UnknownName(word, near(word, known), owners)


@dataclass(slots=True)
class Keys:
    """Hands out the keys of the memory in one item: its name, then "NAME, number 2", in the order written."""

    item: str
    used: int = 0

    def next(self) -> str:
        self.used += 1
        return self.item if self.used == 1 else f"{self.item}, number {self.used}"
