"""The mark of the logic that a finding rests on: two times four digits that change when that logic changes.

All lines that can matter by name (`lang/matters.py`) are written out as they are resolved, in alphabetical order,
without places, labels and comments, and hashed. So neither layout nor the order of lines nor a label changes a mark;
each rule, coil, contact, number, assumption or resolved constant among them does, and nothing else does.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from typing import Any

from logiccheck.lang.matters import Item, Names
from logiccheck.lang.program import (
    Compare,
    Expr,
    Load,
    Op,
    Output,
    Position,
    Program,
    Requirement,
    Signal,
    SignalKind,
)
from logiccheck.lang.walk import form_expressions

NO_LOGIC = frozenset(
    {"span", "label", "text", "key", "unit", "bounds", "electrical", "said", "awake", "asleep", "draws"}
)
"""Fields that are no logic: places, words for people, what another line puts there; currents count for whom a finding
names."""

LEFT_OUT = frozenset({"bundle", "engine_space", "drop"})
"""Fields that are written out only where something is said: a mark made before they were there still fits."""


class Marks:
    """The marks of one program; what belongs to an item is written out once."""

    def __init__(self, program: Program) -> None:
        self.program = program
        self._names = Names(program)
        self._declared = {item.name: item for item in _named(program)}
        self._requirements = {each.name: each for each in program.requirements}
        self._scenarios = {each.name: each for each in program.scenarios}
        self._lines: dict[Item, frozenset[str]] = {}

    def of_requirement(self, requirement: Requirement) -> str:
        """The mark of a requirement: of its form, what it guards, and all that can matter to it."""
        return self._mark([_asked(requirement)], form_expressions(requirement.form))

    def of_finding(self, kind: str, signals: Sequence[str], number: int = 0) -> str:
        """The mark of a finding of a kind about these names: anything that is declared, requirements and scenarios.
        `number`: how many of its kind about the same names come before it."""
        own: list[str] = [f"{kind} {' '.join(sorted(signals))}", *([f"number {number}"] if number else [])]
        roots: list[Expr] = []
        for name in signals:
            if name in self._requirements:
                own.append(_asked(self._requirements[name]))
                roots += form_expressions(self._requirements[name].form)
            elif name in self._scenarios:
                scenario = self._scenarios[name]
                played = (*scenario.sets, *scenario.timers, *scenario.expectations)
                own += [f"scenario {name} until {scenario.end}", *(f"scenario {name} {_plain(p)}" for p in played)]
                roots += [each.p for each in scenario.expectations]
            else:
                own += [_plain(item.electrical) for item in self._drawing(name)]
                roots += self._readings(name)
        return self._mark(own, roots)

    def _drawing(self, name: str) -> Iterator[Load | Output]:
        item = self._declared.get(name)
        if isinstance(item, Load | Output):
            yield item

    def _readings(self, name: str) -> Iterator[Expr]:
        """Expressions that read a name in each way in which it can be read."""
        if any(each.name == name for each in self.program.switches):
            yield Position(name, frozenset())
        elif any(each.name == name for each in self.program.numbers):
            yield Compare(name, False, Op.EQ, Fraction(0))
        elif name == "powered" and self.program.box is not None:
            yield Signal(SignalKind.POWERED, name)
        else:
            yield from (Signal(kind, wire) for kind, wire in self._read(name))

    def _read(self, name: str) -> Iterator[tuple[SignalKind, str]]:
        """What a name of the harness or the box reads as."""
        program, box = self.program, self.program.box
        kinds: list[tuple[SignalKind, Iterable[Any]]] = [
            (SignalKind.SOURCE, program.sources),
            (SignalKind.GROUND, program.grounds),
            (SignalKind.LIVE, program.wires),
            (SignalKind.GROUNDED, program.wires),
            (SignalKind.RELAY, program.relays),
            (SignalKind.SENSE, box.senses if box else ()),
            (SignalKind.OUTPUT, box.outputs if box else ()),
            (SignalKind.RULE, [each for each in box.rules if not isinstance(each, Output)] if box else ()),
        ]
        for kind, items in kinds:
            yield from ((kind, name) for each in items if each.name == name)
        yield from ((SignalKind.LIVE, each.wire) for each in program.loads if each.name == name)

    def _mark(self, own: Iterable[str], roots: Iterable[Expr]) -> str:
        matter = self._names.matter(roots)
        lines = set(own)
        for item in matter.items:
            lines |= self._written(item)
        lines |= {f"at first {_plain(self.program.at_first[i])}" for i in matter.at_first}
        lines |= {f"given {_plain(self.program.givens[i])}" for i in matter.givens}
        digest = hashlib.sha256("\n".join(sorted(lines)).encode()).hexdigest()
        return f"{digest[:4]}-{digest[4:8]}"

    def _written(self, item: Item) -> frozenset[str]:
        """The lines that make an item what it is, written out."""
        if item not in self._lines:
            kind, name = item
            declared = self._declared.get(name)
            own = [] if declared is None else [f"{kind} {_plain(declared)}"]
            box = self.program.box
            if kind == SignalKind.POWERED.value and box is not None:
                own = [f"box {box.feed} {_plain(box.startup)}"]
            elif kind == SignalKind.COMMAND.value and isinstance(declared, Output):
                own = [f"command {name} {_plain(declared.command)}"]
            own += [_plain(each) for each in self._names.copper(item)]
            self._lines[item] = frozenset(own)
        return self._lines[item]


def _named(program: Program) -> Iterator[Any]:
    """All that has a name and logic of its own; senses and rules of the box too."""
    yield from (*program.switches, *program.numbers, *program.sources, *program.grounds, *program.wires)
    yield from (*program.relays, *program.loads)
    if program.box is not None:
        yield from (*program.box.senses, *program.box.rules)


def _asked(requirement: Requirement) -> str:
    return f"requirement {requirement.name} {requirement.guard.value} {_plain(requirement.form)}"


def _plain(node: Any) -> str:
    """A node of the resolved tree in a form of its own: the same for the same logic."""
    if is_dataclass(node):
        inner = (f"{f.name}={_plain(getattr(node, f.name))}" for f in fields(node) if _counts(f.name, node))
        return f"{type(node).__name__}({', '.join(inner)})"
    if isinstance(node, Enum):
        return str(node.value)
    if isinstance(node, frozenset):
        return f"{{{', '.join(sorted(map(_plain, node)))}}}"
    if isinstance(node, tuple):
        return f"[{', '.join(map(_plain, node))}]"
    return str(node)


def _counts(name: str, node: Any) -> bool:
    return name not in NO_LOGIC and (name not in LEFT_OUT or bool(getattr(node, name)))
