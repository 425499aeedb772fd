"""What zones reached, in the names of the audit: a cover of all that can be stored.

Of each zone only those bounds are named that do not follow from the others, or from the windows of the clocks alone: a
running clock has more than nothing left, and at most its longest time.
Reference: K. Larsen, F. Larsson, P. Pettersson, W. Yi, "Efficient verification of real-time systems: compact data
structure and state-space reduction", RTSS 1997.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from logiccheck.audit.certificate import ALL, NONE, Ahead, Choice, Cover, Part, Sort
from logiccheck.engine.zones.decide import Covered
from logiccheck.engine.zones.sets import States, walk
from logiccheck.engine.zones.zone import BEFORE, SAME, Rows, Zone, add
from logiccheck.model.circuit.system import Clock


def cover(covered: Covered) -> Cover:
    """The cover that holds just what was reached."""
    moves, found = covered.moves, covered.found
    names = {moves.before[bit.now >> 1]: bit.name for bit in moves.cone.bits}
    sorts = _Sorts(names, {moves.sets.empty: NONE, moves.sets.all: ALL})
    clocks = moves.cone.clocks
    parts = [Part(sorts.of(place.states), tuple(_apart(clocks, place.zone))) for place in found.places()]
    return Cover(tuple(sorts.choices), tuple(parts))


@dataclass(slots=True)
class _Sorts:
    """Diagrams written down as choices, each once."""

    names: dict[int, str]
    known: dict[States, Sort]
    choices: list[Choice] = field(default_factory=list)

    def of(self, states: States) -> Sort:
        for part, number, then, other in walk(states):
            if part not in self.known:
                self.known[part] = len(self.choices) + 2
                self.choices.append(Choice(self.names[number], self.known[then], self.known[other]))
        return self.known[states]


def _apart(clocks: list[Clock], zone: Zone) -> Iterator[tuple[Ahead, bool]]:
    """The bounds of a zone that have to be said, as comparisons."""
    keys = [clocks[clock].key for clock in zone.clocks]
    for a, b, bound in _said(clocks, zone):
        limit, strict = bound >> 1, not bound & 1  # point a - point b <= limit, or < limit
        if b == 0 or (a and keys[a - 1] < keys[b - 1]):
            yield Ahead(keys[a - 1], None if b == 0 else keys[b - 1], limit, or_same=strict), False
        else:
            yield Ahead(keys[b - 1], None if a == 0 else keys[a - 1], -limit, or_same=not strict), True


def _said(clocks: list[Clock], zone: Zone) -> list[tuple[int, int, int]]:
    """As few bounds (of point a - point b) as dropping one by one leaves, so that the rest follows."""
    rows = zone.rows
    count = len(rows)
    windows = _windows([clocks[clock].hi for clock in zone.clocks])
    said = {(a, b): rows[a][b] for a in range(count) for b in range(count) if rows[a][b] < windows[a][b]}
    for pair in sorted(said, reverse=True):
        rest = {other: bound for other, bound in said.items() if other != pair}
        if _follows(windows, rest, pair, said[pair]):
            said = rest
    return [(a, b, bound) for (a, b), bound in sorted(said.items())]


def _windows(longest: list[int]) -> Rows:
    """What is known of running clocks alone: each has more than nothing left, and at most its longest time."""
    rows = [[SAME] + [BEFORE] * len(longest)]
    for a, most in enumerate(longest, 1):
        rows.append([2 * most + 1] + [SAME if a == b else 2 * most for b in range(1, len(longest) + 1)])
    return rows


def _follows(windows: Rows, said: dict[tuple[int, int], int], pair: tuple[int, int], bound: int) -> bool:
    """Whether a bound follows from these and from the windows."""
    rows = [list(row) for row in windows]
    for (a, b), limit in said.items():
        rows[a][b] = min(rows[a][b], limit)
    begin, end = pair
    far = rows[begin]
    for _ in rows:
        far = [min([old, *(add(far[k], rows[k][b]) for k in range(len(rows)))]) for b, old in enumerate(far)]
    return far[end] <= bound
