"""What is asked about the currents of a vehicle: which conditions, and how much each of them weighs for which feed."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations

from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.draws import Draw, What, draws
from logiccheck.copper.draws.feeds import Feed, Passing, feeds, passing
from logiccheck.copper.draws.shadow import Shadows
from logiccheck.lang.program import And, Expr, Micros, Not, Or, Program, Timer, TimerKind, Window


@frozen
class Fed:
    """`passing` draws from a feed while the condition `on` is so; `rushing`, and has just come on, while that is so;
    both by number, None where it has no inrush."""

    passing: Passing
    on: int
    rushing: int | None


@frozen
class Supply:
    """A feed, and all that can draw through it."""

    feed: Feed
    fed: tuple[Fed, ...]

    @property
    def weights(self) -> dict[int, Fraction]:
        """What each condition adds to the current."""
        return _added([(each.on, each.passing.draw.amperes) for each in self.fed])

    @property
    def rush(self) -> dict[int, Fraction]:
        """The same with inrush counted: what has just come on adds what its inrush is above its current."""
        found = [(each.on, each.passing.draw.amperes) for each in self.fed]
        found += [(each.rushing, _above(each.passing.draw)) for each in self.fed if each.rushing is not None]
        return _added(found)

    @property
    def rushes(self) -> bool:
        return any(each.rushing is not None for each in self.fed)

    @property
    def together(self) -> Fraction:
        """All at once; the box is either awake or asleep."""
        return sum((each.amperes for each in self._at_once()), Fraction(0))

    @property
    def all_rush(self) -> Fraction:
        return sum((each.amperes + _above(each) for each in self._at_once()), Fraction(0))

    def _at_once(self) -> list[Draw]:
        box = [f.passing.draw for f in self.fed if f.passing.draw.what in (What.AWAKE, What.ASLEEP)]
        most = max(box, key=lambda draw: draw.amperes, default=None)
        return [f.passing.draw for f in self.fed if f.passing.draw not in box] + ([most] if most is not None else [])


@frozen
class Meet:
    """Two whose inrush is to begin apart from each other, on these feeds; `expr`: neither has been on for that long."""

    first: Draw
    second: Draw
    common: tuple[Feed, ...]
    expr: Expr


@dataclass(slots=True)
class Plan:
    """`program` is the vehicle with the copies of copper that some conditions need."""

    user: Program
    conditions: dict[Expr, int] = field(default_factory=dict)
    supplies: list[Supply] = field(default_factory=list)
    meets: list[Meet] = field(default_factory=list)
    _shadows: Shadows = field(init=False)

    def __post_init__(self) -> None:
        self._shadows = Shadows(self.user)
        for feed in feeds(self.user):
            self.supplies.append(Supply(feed, tuple(self._fed(feed, each) for each in passing(self.user, feed))))
        if self.user.electrics.apart is not None:
            self._pairs(self.user.electrics.apart)

    @property
    def program(self) -> Program:
        return self._shadows.program

    def _number(self, expr: Expr) -> int:
        return self.conditions.setdefault(expr, len(self.conditions))

    def _fed(self, feed: Feed, each: Passing) -> Fed:
        on, draw = self._through(feed, each), each.draw
        rushing = None
        if draw.inrush_time is not None and _above(draw) > 0:
            rushing = self._number(And((on, self._since(draw, draw.inrush_time))))
        return Fed(each, self._number(on), rushing)

    def _through(self, feed: Feed, each: Passing) -> Expr:
        return self._shadows.through(feed, each.draw) if each.shared else each.draw.on

    @staticmethod
    def _since(draw: Draw, time: Micros) -> Expr:
        """It has not been on for that long; also where it is off."""
        return Not(Timer(TimerKind.ON_DELAY, draw.on, Window(time, time, time), f"{draw.name} on for {time} us"))

    def _pairs(self, apart: Micros) -> None:
        rushing = [draw for draw in draws(self.user) if draw.inrush_time is not None and _above(draw) > 0]
        for first, second in combinations(rushing, 2):
            common = [(s.feed, tuple(self._of(s, draw) for draw in (first, second))) for s in self.supplies]
            shared = [(feed, both) for feed, both in common if None not in both]
            if not shared:
                continue
            begun = [And((draw.on, self._since(draw, apart))) for draw in (first, second)]
            for each in begun:
                self._number(each)
            through = [And(tuple(self._through(feed, p) for p in both if p is not None)) for feed, both in shared]
            plain = any(not p.shared for _, both in shared for p in both if p is not None and not _any_shared(both))
            fed = [] if plain else [Or(tuple(through))]
            self.meets.append(Meet(first, second, tuple(feed for feed, _ in shared), And((*begun, *fed))))

    @staticmethod
    def _of(supply: Supply, draw: Draw) -> Passing | None:
        return next((fed.passing for fed in supply.fed if fed.passing.draw == draw), None)


def _any_shared(both: tuple[Passing | None, ...]) -> bool:
    return any(each is None or each.shared for each in both)


def _above(draw: Draw) -> Fraction:
    return draw.inrush - draw.amperes if draw.inrush is not None else Fraction(0)


def _added(parts: list[tuple[int, Fraction]]) -> dict[int, Fraction]:
    found: dict[int, Fraction] = {}
    for number, weight in parts:
        found[number] = found.get(number, Fraction(0)) + weight
    return {number: weight for number, weight in found.items() if weight > 0}
