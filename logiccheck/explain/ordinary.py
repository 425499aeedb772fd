"""Which of several changes is told first, and which of them are told as one.

First stands what is moved more often in the scenarios of the file, then what stands earlier in the file; the least
ordinary thing of a change decides. Then what moves less far. Neighbouring intervals of a number are one change.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import groupby

from logiccheck.base.frozen import frozen
from logiccheck.explain.hands import Change, Value, place
from logiccheck.lang.program import Number, Program, Switch
from logiccheck.model.memory import Time
from logiccheck.model.reaction import World


@frozen
class Target:
    """Where a thing of the world is moved to.

    Of a switch one position, and those it passes; of a number one value of each interval, neighbours, rising.
    """

    name: str
    values: tuple[Value, ...]
    through: tuple[Value, ...] = ()


@frozen
class Turn:
    """A change that turns a signal; `moves` is what it costs hands.

    `time`: when it turns, None for at once; `due`: the timers that fall due then; `rough`: a timer with a tolerance
    fell due on the way, at its nominal time.
    """

    targets: tuple[Target, ...]
    moves: int
    time: Time | None = None
    due: frozenset[str] = frozenset()
    rough: bool = False


def turn_of(change: Change, program: Program) -> Turn:
    """The change as one that turns something at once."""
    switches = {switch.name for switch in program.switches}
    targets = (Target(m.name, (m.end,), m.way[:-1] if m.name in switches else ()) for m in change)
    return Turn(tuple(targets), sum(move.cost for move in change))


class Order:
    """Puts changes of one world in order."""

    def __init__(self, program: Program, world: World) -> None:
        self._world = world
        self._numbers = {number.name: number for number in program.numbers}
        moved = Counter(each.name for scenario in program.scenarios for each in scenario.sets if each.time > 0)
        things: tuple[Switch | Number, ...] = (*program.switches, *program.numbers)
        ordered = sorted(things, key=lambda each: (-moved[each.name], each.span.begin))
        self._rank: Mapping[str, int] = {each.name: rank for rank, each in enumerate(ordered)}

    def told(self, turns: Iterable[Turn]) -> tuple[Turn, ...]:
        """The turns with neighbouring intervals made one, the most ordinary first."""
        found = list(turns)
        for number in self._numbers.values():
            found = self._joined(found, number)
        return tuple(sorted(found, key=self._key))

    def _key(self, turn: Turn) -> tuple[tuple[int, ...], int, Time, tuple[tuple[Value, ...], ...]]:
        ranks = sorted((self._rank[target.name] for target in turn.targets), reverse=True)
        values = tuple(target.values for target in sorted(turn.targets, key=lambda each: self._rank[each.name]))
        return tuple(ranks), sum(map(self._far, turn.targets)), turn.time or 0, values

    def _far(self, target: Target) -> int:
        """How far it is to the nearest of the values."""
        return min(abs(self._place(target.name, value) - self._now(target.name)) for value in target.values)

    def _now(self, name: str) -> int:
        return self._place(name, self._world[name])

    def _place(self, name: str, value: Value) -> int:
        return place(self._numbers[name], value) if name in self._numbers else int(value)

    def _joined(self, turns: list[Turn], number: Number) -> list[Turn]:
        """Those that differ in this number alone, and there by neighbours, made one."""
        kept = [turn for turn in turns if all(target.name != number.name for target in turn.targets)]
        alike: dict[Turn, list[Value]] = {}
        for turn in turns:
            for at, target in enumerate(turn.targets):
                if target.name == number.name:
                    bare = (*turn.targets[:at], Target(number.name, ()), *turn.targets[at + 1 :])
                    alike.setdefault(replace(turn, targets=bare), []).extend(target.values)
        for turn, values in alike.items():
            for run in self._runs(number, values):
                targets = (Target(number.name, run) if each.name == number.name else each for each in turn.targets)
                kept.append(replace(turn, targets=tuple(targets)))
        return kept

    def _runs(self, number: Number, values: list[Value]) -> list[tuple[Value, ...]]:
        """The values in runs of neighbours."""
        ordered = sorted(set(values))
        numbered = [(place(number, value) - at, value) for at, value in enumerate(ordered)]
        return [tuple(value for _, value in run) for _, run in groupby(numbered, key=lambda each: each[0])]
