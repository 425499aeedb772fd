"""What a signal is in all reachable situations that meet some conditions: always on, always off, or now this, now that.

Where both can be, two situations are looked for in which hands and physics are the same: what tells those apart can
only be what is stored.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, Never, Open, Seen
from logiccheck.explain.situation import Asked
from logiccheck.lang.matters import WORLD, Matter, Names
from logiccheck.lang.program import (
    And,
    Compare,
    Expr,
    Not,
    Number,
    Op,
    Output,
    Position,
    Program,
    Relay,
    Signal,
    SignalKind,
    WireSense,
)
from logiccheck.lang.walk import Memory, condition_of, memory
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Values, World
from logiccheck.model.story import Story

LATE = Open(Undecided.INTERRUPTED)


@frozen
class Stored:
    """Something that is stored, and reads otherwise in two situations.

    `on` is how it reads in the situation in which the signal is on.
    """

    what: Relay | Output | Memory
    on: bool


@frozen
class Situations:
    """`on` and `off` say whether a situation that meets the conditions can have the signal on, and off.

    Where both can be: `same_hands` says that what hands and physics are is the same in both stories; `stored` is what
    can matter to the signal and is stored otherwise in them, `moved` which things of the world are otherwise. Where
    neither can be: `apart` are the numbers of the conditions that exclude each other. Stories play on `program`.
    """

    program: Program
    on: Answer
    off: Answer
    same_hands: bool = False
    stored: tuple[Stored, ...] = ()
    moved: tuple[str, ...] = ()
    apart: tuple[int, ...] = ()
    interrupted: bool = False
    unsettled: Obstacle | None = None  # why not all is known to come to rest; what is said is said of what does


def situations(
    program: Program, asked: Asked, when: Sequence[Expr], budget: Budget, progress: Callable[[str], None]
) -> Situations:
    """What the signal is when all of `when` is so. A KeyboardInterrupt ends the search; what was found stays."""
    search = _Search(program, asked, tuple(when), budget, progress)
    try:
        search.run()
    except KeyboardInterrupt:
        search.interrupted = True
    return search.found()


@dataclass(slots=True)
class _Search:
    program: Program
    asked: Asked
    when: tuple[Expr, ...]
    budget: Budget
    progress: Callable[[str], None]
    on: Answer = LATE
    off: Answer = LATE
    same_hands: bool = False
    apart: tuple[int, ...] = ()
    interrupted: bool = False
    unsettled: Obstacle | None = None
    matter: Matter = field(init=False)

    def __post_init__(self) -> None:
        self.matter = Names(self.program).matter([self.asked.on])

    def run(self) -> None:
        self.progress("situations")
        asking = Asking(self.program, (And((*self.when, self.asked.on)),), self.budget)
        self.program, self.unsettled = asking.program, asking.unsettled
        self.on = asking.possible(self._so(self.asked.on))
        self.off = asking.possible(self._so(Not(self.asked.on)))
        match self.on, self.off:
            case Seen(on), Seen(off):
                self._alike(asking, on, off)
            case Never(), Never():
                self.apart = self._apart(asking)
            case _:
                pass

    def _so(self, *more: Expr) -> Expr:
        return And((*self.when, *more))

    def found(self) -> Situations:
        stored: tuple[Stored, ...] = ()
        moved: tuple[str, ...] = ()
        if isinstance(self.on, Seen) and isinstance(self.off, Seen):
            on, off = (end_of(self.program, answer.story) for answer in (self.on, self.off))
            stored, moved = self._stored(on, off), self._moved(on, off)
        return Situations(
            self.program,
            self.on,
            self.off,
            self.same_hands,
            stored,
            moved,
            self.apart,
            self.interrupted,
            self.unsettled,
        )

    # ------------------------------------------------------------------------------------------- both can be

    def _alike(self, asking: Asking, on: Story, off: Story) -> None:
        """Looks for the other situation where the hands are as in the one, or the other way round."""
        self.progress("the same hands")
        for is_on, story in ((True, on), (False, off)):
            hands = self._hands(end_of(self.program, story).world)
            signal = Not(self.asked.on) if is_on else self.asked.on
            answer = asking.possible(self._so(signal, *hands))
            if isinstance(answer, Seen):
                self.on, self.off = (Seen(story), answer) if is_on else (answer, Seen(story))
                self.same_hands = True
                return

    def _hands(self, world: World) -> list[Expr]:
        """What of the world can matter is as it is in this one; a number lies in the same interval."""
        names = self.matter.names(WORLD)
        found: list[Expr] = []
        for switch in self.program.switches:
            if switch.name in names:
                found.append(Position(switch.name, frozenset({int(world[switch.name])})))
        for number in self.program.numbers:
            if number.name in names:
                found += _interval(number, world[number.name])
        return found

    def _moved(self, on: Values, off: Values) -> tuple[str, ...]:
        names = [*(each.name for each in self.program.switches), *(each.name for each in self.program.numbers)]
        if self.same_hands:
            return ()
        return tuple(n for n in names if n in self.matter.names(WORLD) and on.world[n] != off.world[n])

    def _stored(self, on: Values, off: Values) -> tuple[Stored, ...]:
        """Relays, then what the box remembers, in the order of the file."""
        found = []
        for what in self._can_be_stored():
            here, there = (values.holds(_read(what)) for values in (on, off))
            if here != there:
                found.append(Stored(what, here))
        return tuple(found)

    def _can_be_stored(self) -> Iterator[Relay | Output | Memory]:
        """All that can matter to the signal; an output, where copper sees it as it was."""
        names, box = self.matter.names, self.program.box
        yield from (relay for relay in self.program.relays if relay.name in names(SignalKind.RELAY.value))
        if box is None:
            return
        if box.startup is not None and names(SignalKind.POWERED.value):
            yield box.startup
        for sense in box.senses:
            if (
                isinstance(sense, WireSense)
                and sense.filter is not None
                and sense.name in names(SignalKind.SENSE.value)
            ):
                yield sense.filter
        inside = names(SignalKind.RULE.value) | names(SignalKind.COMMAND.value)
        for rule in box.rules:
            if isinstance(rule, Output) and rule.feeds is not None and rule.name in names(SignalKind.OUTPUT.value):
                yield rule
            if rule.name in inside:
                yield from memory(condition_of(rule))

    # ---------------------------------------------------------------------------------------- neither can be

    def _apart(self, asking: Asking) -> tuple[int, ...]:
        """One or two of the conditions that are never so, or all of them."""
        numbers = range(len(self.when))
        for size in numbers[1:3]:
            for some in combinations(numbers, size):
                if isinstance(asking.possible(And(tuple(self.when[n] for n in some))), Never):
                    return some
        return tuple(numbers)


def _read(what: Relay | Output | Memory) -> Expr:
    match what:
        case Relay(name=name):
            return Signal(SignalKind.RELAY, name)
        case Output(name=name):
            return Signal(SignalKind.OUTPUT, name)
        case _:
            return what


def end_of(program: Program, story: Story) -> Values:
    """What is settled where the story ends."""
    return play_story(program, story).settled[-1].moment.settled.values


def _interval(number: Number, value: int | Fraction) -> list[Expr]:
    """The number is as this value to all that it is compared with."""
    if value in number.bounds:
        return [Compare(number.name, False, Op.EQ, Fraction(value))]
    found: list[Expr] = []
    below, above = [b for b in number.bounds if b < value], [b for b in number.bounds if b > value]
    if below:
        found.append(Compare(number.name, False, Op.GT, below[-1]))
    if above:
        found.append(Compare(number.name, False, Op.LT, above[0]))
    return found
