"""Which timers may run for ever in a vehicle that no hand touches: blinkers, what goes in a circle, what hangs on them.

Any other timer hangs on a world that stands still and on timers of the same kind that do not hang on it, so it starts
only so often, and stops.
"""

from __future__ import annotations

from collections.abc import Iterable, Set

from logiccheck.copper.resting.arriving import arriving
from logiccheck.lang.matters import Item, Names, named
from logiccheck.lang.program import Blink, Expr, Program, SignalKind, Timer
from logiccheck.lang.walk import subexpressions


class Recurring:
    """Answers for one program; an item is a thing of it by kind and name."""

    def __init__(self, program: Program) -> None:
        self._program, self._names = program, Names(program)
        self._needed: dict[Item, Set[Item]] = {}
        self._below: dict[Item, frozenset[Item]] = {}
        self._roots = frozenset(item for item in _holders(program) if self._starts(item))

    def may(self, item: Item) -> bool:
        """Whether what the item holds, or what it hangs on, may go on for ever."""
        return not self._roots.isdisjoint(self._closed(item) | {item})

    def may_change(self, expr: Expr) -> bool:
        """Whether what the expression names may go on changing."""
        return any(self.may(item) for item in named([expr]))

    def alone(self, item: Item) -> bool:
        """Whether nothing else that may go on for ever has a part in the item."""
        return self._roots & (self._closed(item) | {item}) == {item}

    def _starts(self, item: Item) -> bool:
        """It holds a blinker, or a timer and hangs on itself."""
        parts = list(_parts(self._names.expressions(item)))
        if any(isinstance(part, Blink) for part in parts):
            return True
        return any(isinstance(part, Timer) for part in parts) and item in self._closed(item)

    def _needs(self, item: Item) -> Set[Item]:
        """What the item hangs on at first hand."""
        if item not in self._needed:
            kind, name = item
            wire = kind in (SignalKind.LIVE.value, SignalKind.GROUNDED.value)
            live = kind == SignalKind.LIVE.value
            self._needed[item] = arriving(self._program, name, live) if wire else self._names.needs(item)
        return self._needed[item]

    def _closed(self, item: Item) -> frozenset[Item]:
        """All that the item needs, at first hand or further on; itself only where it needs itself."""
        if item not in self._below:
            found: set[Item] = set()
            todo = list(self._needs(item))
            while todo:
                each = todo.pop()
                if each not in found:
                    found.add(each)
                    todo += self._needs(each)
            self._below[item] = frozenset(found)
        return self._below[item]


def _parts(exprs: Iterable[Expr]) -> Iterable[Expr]:
    return (part for expr in exprs for part in subexpressions(expr))


def _holders(program: Program) -> Iterable[Item]:
    """All items that may hold a timer."""
    yield from ((SignalKind.RELAY.value, relay.name) for relay in program.relays)
    box = program.box
    if box is None:
        return
    yield SignalKind.POWERED.value, "powered"
    yield from ((SignalKind.SENSE.value, sense.name) for sense in box.senses)
    outputs = {output.name for output in box.outputs}
    for rule in box.rules:
        yield (SignalKind.COMMAND if rule.name in outputs else SignalKind.RULE).value, rule.name
