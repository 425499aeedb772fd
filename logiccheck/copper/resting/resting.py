"""What a parked vehicle draws for ever, as long as no hand moves: every way found, and whether a worse one can be.

A way is found as the end of a story, and played on. Whether there is a worse one is asked of all situations that can
stay: where none of them draws more at once, or on the average of the phases of a blinker, than the worst way found
does, there is none. Each of these answers is a proof that has passed the audit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.draws import draws, silent
from logiccheck.copper.draws.feeds import Kind, feeds, passing
from logiccheck.copper.draws.moment import OneMoment
from logiccheck.copper.draws.shadow import Shadows
from logiccheck.copper.draws.together import Together
from logiccheck.copper.draws.worst import Search
from logiccheck.copper.resting.charge import Charge, charge
from logiccheck.copper.resting.quiet import Blinker, Quiet, quiet
from logiccheck.copper.resting.ways import NOTHING, Tap, Way, Ways
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, Blocked, BugMet, Never, Open, Seen
from logiccheck.explain.bare import bare
from logiccheck.explain.surveyed.lifted import lifted
from logiccheck.lang.program import And, Battery, Expr, Not, Program, Signal, SignalKind
from logiccheck.lang.walk import timer_windows

DAY = 24 * 3600 * 1_000_000  # microseconds
LATE = Open(Undecided.INTERRUPTED)


@frozen
class Drained:
    """A source and the ways in which it is drained for ever, what draws most first. `most`: on the average more is
    never drawn for ever, in A. `charge` of the battery behind it, None where nothing is said of that. `long`:
    timers, by key, of which one run may last until all that can draw at once has drained it."""

    tap: Tap
    battery: Battery | None
    charge: Charge | None
    ways: tuple[Way, ...]
    most: Fraction
    long: tuple[str, ...] = ()

    @property
    def worst(self) -> Fraction:
        return self.ways[0].average if self.ways else NOTHING

    @property
    def exact(self) -> bool:
        return bool(self.ways) and self.worst == self.most


@frozen
class Resting:
    """`stays`: whether the vehicle can be parked and at rest. `silent` do not say what they draw, and may be on for
    ever; `unfed` do not say from where. `restless`: stories after which nothing comes to rest. `left`: why something
    is not known."""

    stays: Answer
    drained: tuple[Drained, ...]
    silent: tuple[str, ...]
    unfed: tuple[str, ...]
    restless: int
    left: tuple[Open | Blocked, ...]
    interrupted: bool
    unsettled: Obstacle | None
    bugs: tuple[Bug, ...]


def resting(program: Program, budget: Budget, progress: Callable[[str], None]) -> Resting:
    """For a program that says when it is parked. A KeyboardInterrupt, a bug of ours, or the end of time or memory, ends
    the search; what was found stays."""
    assert program.electrics.parked is not None
    study = _Study(program, program.electrics.parked, budget, progress)
    try:
        study.run()
    except KeyboardInterrupt:
        study.interrupted = True
    except OutOfTime:
        study.ended = Undecided.BUDGET
    except MemoryError:
        study.ended = Undecided.MEMORY
    except BugMet as met:
        study.bugs.append(met.bug)
    try:
        return study.found()
    finally:
        study.close()


@dataclass(slots=True)
class _Study:
    user: Program
    parked: Expr
    budget: Budget
    progress: Callable[[str], None]
    interrupted: bool = False
    ended: Undecided | None = None  # why it came to an early end
    bugs: list[Bug] = field(default_factory=list)
    stays: Answer = LATE
    taps: tuple[Tap, ...] = field(init=False)
    quiet: Quiet = field(init=False)
    program: Program = field(init=False)
    asked: list[Together] = field(default_factory=list)
    moments: list[OneMoment] = field(default_factory=list)
    ways: Ways | None = None
    most: dict[str, Fraction] = field(default_factory=dict)  # by source
    silent: tuple[str, ...] = field(init=False)

    def __post_init__(self) -> None:
        self.silent = tuple(silent(self.user))
        shadows = Shadows(self.user)
        self.taps = tuple(_taps(self.user, shadows))
        named = lifted(shadows.program)
        self.program, self.quiet = named.program, quiet(named, self.parked)

    def run(self) -> None:
        self.progress("settling")
        taken = [self._at_rest(on) for on in self._all_taken()]
        unsaid = [self._at_rest(on) for on in self._unsaid().values()]
        runs = [self._at_rest(each.runs) for each in self.quiet.blinkers]
        together, moment = self._ask([*taken, *unsaid, *runs, self.quiet.condition])
        self.ways = Ways(together.asking.program, self.parked)
        self.progress("parked")
        self.stays = together.asking.possible(self.quiet.condition)
        if isinstance(self.stays, Seen):
            self.ways.play(self.stays.story, self.budget)
        if isinstance(self.stays, Never):
            self.most = {tap.feed.name: NOTHING for tap in self.taps}
            self.silent = ()
            return
        for tap, weights in self._weights():
            self.progress(f"drained: {tap.feed.name}")
            self.most[tap.feed.name] = self._search(together, moment, weights, 0.3)
        ever = [together.ever(frozenset({number})) for number in range(len(taken) + len(unsaid) + len(runs))]
        never = [name for name, on in zip(self._unsaid(), ever[len(taken) :], strict=False) if on is False]
        self.silent = tuple(name for name in self.silent if name not in never)
        self._play(together)
        for blinker, blinks in zip(self.quiet.blinkers, ever[len(taken) + len(unsaid) :], strict=True):
            if blinks is not False and any(not each.exact for each in self._drained()):
                self._by_phase(blinker)

    def _unsaid(self) -> dict[str, Expr]:
        """What does not say what it draws, and when it is on."""
        loads = {load.name: Signal(SignalKind.LIVE, load.wire) for load in self.user.loads}
        return {name: loads.get(name, Signal(SignalKind.OUTPUT, name)) for name in silent(self.user)}

    def _ask(self, conditions: list[Expr]) -> tuple[Together, OneMoment]:
        asking = Asking(self.program, tuple(conditions), self.budget, asides=False)
        self.asked.append(Together(asking, tuple(conditions)))
        self.moments.append(OneMoment(asking))
        return self.asked[-1], self.moments[-1]

    def _at_rest(self, *on: Expr) -> Expr:
        return And((self.quiet.condition, *on))

    def _all_taken(self) -> Iterator[Expr]:
        yield from (on for tap in self.taps for _, on in tap.taken)

    def _weights(self, begin: int = 0) -> Iterator[tuple[Tap, dict[int, Fraction]]]:
        """Of each source what weighs how much, by the number of its condition; the first has the number `begin`."""
        for tap in self.taps:
            yield tap, {begin + number: draw.amperes for number, (draw, _) in enumerate(tap.taken)}
            begin += len(tap.taken)

    def _search(self, together: Together, moment: OneMoment, weights: dict[int, Fraction], share: float) -> Fraction:
        """The most that is drawn at once."""
        search = Search(together, moment, weights, self.budget.part(share))
        search.run()
        return search.found().most

    def _play(self, together: Together) -> None:
        assert self.ways is not None
        for happened in together.happened:
            self.ways.play(happened.story, self.budget)

    def _by_phase(self, blinker: Blinker) -> None:
        """What is drawn on the average is no more than that of its phases, each at its worst, for as long as they can
        last; or it does not blink at all."""
        self.progress(f"phases of {blinker.node.key.removeprefix('inside ')}")
        idle, off = (Not(blinker.runs),), (blinker.runs, Not(blinker.on))
        phases: list[tuple[Expr, ...]] = [idle, (blinker.runs, blinker.on), off]
        taken = list(self._all_taken())
        together, moment = self._ask([self._at_rest(*phase, on) for phase in phases for on in taken])
        most: dict[str, list[Fraction]] = {tap.feed.name: [] for tap in self.taps}
        for at in range(len(phases)):
            for tap, weights in self._weights(at * len(taken)):
                most[tap.feed.name].append(self._search(together, moment, weights, 0.3))
        self._play(together)
        for name, (still, lit, dark) in most.items():
            blinking = max(share * lit + (1 - share) * dark for share in shares(blinker))
            self.most[name] = min(self.most.get(name, max(still, blinking)), max(still, blinking))

    # ---------------------------------------------------------------------------------------------- what was found

    def found(self) -> Resting:
        drained = tuple(self._drained())
        stays = Open(self.ended) if self.stays is LATE and self.ended is not None else self.stays
        left = [each for together in self.asked for each in together.left.values()]
        left += [stays] if isinstance(stays, Open | Blocked) else []
        left += [Open(self.ended)] if self.ended is not None and not all(each.exact for each in drained) else []
        return Resting(
            stays,
            drained,
            self.silent,
            tuple(draw.name for draw in draws(self.user) if draw.at is None),
            self.ways.restless if self.ways is not None else 0,
            tuple(dict.fromkeys(left)),
            self.interrupted,
            self.asked[0].asking.unsettled if self.asked else None,
            tuple(self.bugs),
        )

    def _drained(self) -> Iterator[Drained]:
        batteries = {battery.source: battery for battery in self.user.electrics.batteries}
        windows = timer_windows(replace(self.user, requirements=(), scenarios=(), givens=()))
        keys = timer_windows(replace(self.user, requirements=(), scenarios=())).keys()
        for tap in self.taps:
            battery = batteries.get(tap.feed.name)
            known = None if battery is None else charge(battery, self.user.electrics.ambient)
            ways = self.ways.of(tap) if self.ways is not None else ()
            told = tuple(replace(way, story=bare(way.story, keys)) for way in ways)
            days = None if known is None else known.days(_all_at_once(tap))
            long = tuple(key for key, window in windows.items() if days is not None and window.hi > days * DAY)
            yield Drained(tap, battery, known, told, self.most.get(tap.feed.name, _all_at_once(tap)), long)

    def close(self) -> None:
        for moment in self.moments:
            moment.close()


def shares(blinker: Blinker) -> tuple[Fraction, Fraction]:
    """The least and the greatest part of the time in which it can be on, as long as it blinks."""
    on, off = blinker.node.on, blinker.node.off
    return Fraction(on.lo, on.lo + off.hi), Fraction(on.hi, on.hi + off.lo)


def _all_at_once(tap: Tap) -> Fraction:
    return sum((draw.amperes for draw, _ in tap.taken), NOTHING)


def _taps(program: Program, shadows: Shadows) -> Iterator[Tap]:
    """The sources from which anything can draw that says what it draws."""
    for feed in feeds(program):
        if feed.kind is Kind.SOURCE:
            taken = [(each.draw, each.shared) for each in passing(program, feed)]
            yield Tap(feed, tuple((draw, shadows.through(feed, draw) if shared else draw.on) for draw, shared in taken))
