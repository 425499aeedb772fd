"""What would turn a signal: the smallest changes of hands that do it at once, or later, and what time alone does.

Smallest is what takes the fewest moves (`hands.py`): all that takes fewer was tried. Tried is on the reference
interpreter, on the part of the vehicle that can matter, and what turns the signal there again on all of it. A change
counts only if what is given allows it, up to the moment at which the signal turns.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from enum import Enum
from typing import TypeAlias, assert_never

from logiccheck.base.frozen import frozen
from logiccheck.explain.hands import Change, Hands, worlds
from logiccheck.explain.onward import Onward
from logiccheck.explain.ordinary import Order, Turn, turn_of
from logiccheck.explain.part import part_of
from logiccheck.explain.situation import Asked, Situation
from logiccheck.lang.program import Blink, ChangesOnlyWhile, Excluded, Given, Program, Timer
from logiccheck.model.interpreter import Machine
from logiccheck.model.judge import Broken, broken
from logiccheck.model.memory import Time
from logiccheck.model.timeline import Played, Timeline
from logiccheck.model.truth import all_nodes, expressions_of

MOVES = 4  # the most that hands do at once
MOVES_FOR_LATER = 3  # the most of them after which time goes on
FOLLOWED = 400  # moments that time alone is followed
AFTERWARDS = 60  # moments that one change is followed
BESIDE = 60  # moments in which all of the vehicle is looked at, too: whether it comes to rest
WORK = 150_000  # moments tried for at once, and as many for later, times the lines that each of them looks at


@frozen
class Stays:
    """Whatever time passes, nothing turns it: no timer runs any more, or all comes round again."""

    rough: bool = False


@frozen
class Unfollowed:
    """It was followed up to this time, and has not turned."""

    time: Time


@frozen
class Chase:
    """At this time rules or relays chase each other for ever."""

    time: Time


@frozen
class Moved:
    """What is given does not let all rest any longer than up to this time."""

    time: Time
    given: Given


Alone: TypeAlias = Turn | Stays | Unfollowed | Chase | Moved


class End(Enum):
    """Why a course was followed no further."""

    AT_ONCE = "the change has turned the signal"
    TURNED = "time has turned the signal"
    RESTS = "no timer runs"
    REPEATS = "all comes round again"
    CUT = "as many moments as were to be followed"
    CHASES = "the last moment never settles"


@frozen
class Course:
    """The moments that follow a change, up to where it was followed."""

    played: Sequence[Played]
    end: End
    rough: bool  # a timer with a tolerance fell due, at its nominal time


@frozen
class Turning:
    """What turns a signal that is on (off): `now` at once, `later` with fewer moves than that (or as few), `alone` with
    none.

    All changes were tried of up to `tried` moves for at once, of up to `tried_later` for later; of each kind those with
    the fewest moves are told, the most ordinary first. `hands`: something that is moved can matter to the signal;
    `unmet`: what is given is broken before, and left out. `chased`: the smallest changes after which rules or relays
    chase each other for ever, where nothing smaller turns it and no such chase comes without them.
    """

    on: bool
    now: tuple[Turn, ...]
    tried: int
    alone: Alone
    later: tuple[Turn, ...]
    tried_later: int
    hands: bool
    unmet: bool
    chased: tuple[Turn, ...] = ()


def turning(situation: Situation, asked: Asked, as_few: bool = False) -> Turning:
    """What would turn the signal in this situation, which must be one that settles.

    `as_few`: what turns it later may take as many moves as the smallest change that does it at once, and is also looked
    for where time alone turns it: what does it sooner than that.
    """
    search = _Search(situation, asked)
    now, tried = search.now()
    alone = search.alone()
    search.rests = not isinstance(alone, Chase)
    later: tuple[Turn, ...] = ()
    tried_later = 0
    if as_few or not isinstance(alone, Turn):
        most = now[0].moves if now else MOVES_FOR_LATER + 1
        later, tried_later = search.later(most if as_few else most - 1, alone.time if isinstance(alone, Turn) else None)
    chased = search.chased(turn.moves for turn in (*now, *later))
    return Turning(search.on, now, tried, alone, later, tried_later, bool(search.direct), bool(search.unmet), chased)


class _Search:
    def __init__(self, situation: Situation, asked: Asked) -> None:
        self.situation, self.asked = situation, asked
        self.on = situation.values.holds(asked.on)
        part = part_of(situation.program, asked.on)
        self.part, self.direct = part.program, part.direct
        self.small, self.whole = Onward(Machine(part.program), situation), Onward(Machine(situation.program), situation)
        self.past = situation.timeline.settled[: situation.at + 1]
        self.world = situation.played.world
        self.hands = Hands(part.program, self.world)
        self.order = Order(situation.program, self.world)
        self.moments = WORK // _lines(self.part)
        self.span = sum(map(_longest, self.part.givens))
        self.chases: dict[Change, Turn] = {}
        self.rests = True  # else rules or relays chase each other also when nothing is moved
        self.unmet: list[object] = []
        self.unmet = [each.what for each in self._broken([], situation.time)]

    def now(self) -> tuple[tuple[Turn, ...], int]:
        """The smallest changes that turn it at once; and up to how many moves all were tried."""
        left = self.moments
        for moves in range(1, MOVES + 1):
            left -= self.hands.count(moves)
            if left < 0:
                return (), moves - 1
            found = [turn_of(each, self.part) for each in self._changes(moves) if self._turns_at_once(each)]
            if found:
                return self.order.told(found), moves
        return (), MOVES

    def later(self, most: int, before: Time | None) -> tuple[tuple[Turn, ...], int]:
        """The smallest changes of at most so many moves that turn it later, but `before` this time, the same way."""
        left = self.moments
        for moves in range(1, min(most, MOVES_FOR_LATER) + 1):
            if self.hands.count(moves) > left:
                return (), moves - 1
            found = []
            for change in self._changes(moves):
                course = self._follow(change, self.small, AFTERWARDS)
                left -= len(course.played)
                if left < 0:
                    return (), moves - 1
                soon = before is None or (course.played and course.played[-1].time < before)
                if not soon or course.end not in (End.TURNED, End.CHASES) or not self._lawful(course):
                    continue
                if course.end is End.CHASES:
                    self._chases(change)
                elif self._confirmed(change, course):
                    found.append(self._turn(change, course))
            if found:
                return self.order.told(found), moves
        return (), min(most, MOVES_FOR_LATER)

    def chased(self, turning: Iterable[int]) -> tuple[Turn, ...]:
        """Of the changes that were found to end in a chase, those with the fewest moves; `turning`: how many moves the
        changes take that turn it, of which none is smaller.
        """
        least = min([*turning, *(turn.moves for turn in self.chases.values())], default=0)
        return self.order.told(turn for turn in self.chases.values() if turn.moves == least)

    def alone(self) -> Alone:
        """What time alone does."""
        course = self._follow((), self.small, FOLLOWED)
        last = course.played[-1].time if course.played else self.situation.time
        end = last + self.span + 1 if course.end is End.RESTS else last
        beside = self._follow((), self.whole, BESIDE)
        chase = beside.played[-1].time if beside.end is End.CHASES else None
        if lines := self._broken(course.played, end):
            first = min(lines, key=lambda each: each.instant)
            assert isinstance(first.what, Given)  # nothing of the world moves
            if chase is None or first.instant.time <= chase:
                return Moved(first.instant.time, first.what)
        if chase is not None:
            return Chase(chase)
        match course.end:
            case End.TURNED:
                return self._turn((), course)
            case End.RESTS | End.REPEATS:
                return Stays(course.rough)
            case End.CUT:
                return Unfollowed(last)
            case End.CHASES:
                return Chase(last)
            case End.AT_ONCE:
                raise AssertionError(course)  # nothing was changed
            case other_end:
                assert_never(other_end)

    # ------------------------------------------------------------------------------------------------------- steps

    def _changes(self, moves: int) -> Iterator[Change]:
        """All changes of so many moves that can matter to the signal itself."""
        return (each for each in self.hands.changes(moves) if any(move.name in self.direct for move in each))

    def _turns_at_once(self, change: Change) -> bool:
        done, point = self.small.hands(worlds(change, self.world))
        if point is None and not self._broken(done):
            self._chases(change)
        return point is not None and self._turned(done[-1]) and not self._broken(done) and self._turns_all(change)

    def _turns_all(self, change: Change) -> bool:
        """The same in all of the vehicle."""
        done, point = self.whole.hands(worlds(change, self.world))
        if point is None:
            self._chases(change)
        return point is not None and self._turned(done[-1])

    def _chases(self, change: Change) -> None:
        if self.rests:
            self.chases[change] = turn_of(change, self.part)

    def _turned(self, played: Played) -> bool:
        return played.moment.settled.holds(self.asked.on) != self.on

    def _follow(self, change: Change, onward: Onward, most: int) -> Course:
        """Hands make this change, and rest."""
        done, point = onward.hands(worlds(change, self.world)) if change else ([], onward.begin)
        if done and point is not None and self._turned(done[-1]):
            return Course(done, End.AT_ONCE, False)
        moved = len(done)
        seen: dict[object, Time] = {}
        rough = False
        while point is not None:
            since = seen.setdefault(point.repeats, point.time)
            if point.next is None:
                return Course(done, End.RESTS, rough)
            if since < point.time - self.span:
                return Course(done, End.REPEATS, rough)
            if len(done) - moved >= most:
                return Course(done, End.CUT, rough)
            played, after = onward.wait(point)
            rough = rough or onward.rough(point, played.due)
            point = after
            done.append(played)
            if point is not None and self._turned(played):
                return Course(done, End.TURNED, rough)
        return Course(done, End.CHASES, rough)

    def _confirmed(self, change: Change, course: Course) -> bool:
        """Whether it turns at the same time in all of the vehicle, as far as that is looked at."""
        other = self._follow(change, self.whole, BESIDE)
        if other.end is End.CHASES:
            self._chases(change)
        times = (other.played[-1].time, course.played[-1].time)
        return other.end is End.CUT or (other.end is End.TURNED and times[0] == times[1])

    def _lawful(self, course: Course) -> bool:
        return not self._broken(course.played)

    def _turn(self, change: Change, course: Course) -> Turn:
        last = course.played[-1]
        time = self.small.without_instants(last.time)
        return replace(turn_of(change, self.part), time=time, due=last.due, rough=course.rough)

    def _broken(self, after: Sequence[Played], end: Time | None = None) -> list[Broken]:
        """What is given about the part and is not met from the situation on; nothing that was not met before it."""
        played = (*self.past, *after)
        durations = self.situation.timeline.durations
        last = played[-1].time if end is None else end
        found = broken(Timeline(self.part, played, last, durations, ()))
        return [each for each in found if each.what not in self.unmet]


def _lines(program: Program) -> int:
    """How much there is to look at in a moment; some of it there always is."""
    boxed = len(program.box.rules) + len(program.box.senses) if program.box else 0
    return 20 + len(program.contacts) + len(program.diodes) + len(program.relays) + boxed


def _longest(given: Given) -> Time:
    """Longer than any time that this line looks back."""
    timers = [node for node in all_nodes(expressions_of(given)) if isinstance(node, Timer | Blink)]
    own = 0 if isinstance(given, Excluded | ChangesOnlyWhile) else given.time
    return own + sum(node.window.hi if isinstance(node, Timer) else node.on.hi + node.off.hi for node in timers)
