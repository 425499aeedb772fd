"""The harness beside the requirements: all ways to one wire, and what is wrong with the harness as a whole."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.copper.ways.apart import Sneak, causes, sneaks, suspects
from logiccheck.copper.ways.faulty import Opened, near, opened
from logiccheck.copper.ways.paths import Copper, Way, Ways, ways_to
from logiccheck.copper.ways.questions import Questions
from logiccheck.copper.ways.readback import ReadBack, read_back
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.asking import Answer, Never, Open, Seen
from logiccheck.lang.program import And, Program, Signal, SignalKind

MOST_ASKED = 40  # ways to one wire that are asked about, each on its own

BOTH = (SignalKind.LIVE, SignalKind.GROUNDED)


@frozen
class Asked:
    """One way, and whether it ever conducts."""

    way: Way
    answer: Answer


@frozen
class ToWire:
    """All ways to one wire. `left_out`: ways of `ways` that were not asked about; `sneaks`: what is wrong with it."""

    wire: str
    ways: tuple[Ways, ...]
    asked: tuple[Asked, ...]
    left_out: int
    sneaks: tuple[Sneak, ...]
    short: (
        Answer | None
    )  # whether it is ever live and grounded at once; None: by the drawing it cannot, or the end came before
    opened: tuple[Opened, ...]  # what faults open, each alone
    faults_left: int  # faults that were not looked at, as the time was over
    questions: Questions
    interrupted: bool
    bugs: tuple[Bug, ...]


@frozen
class Whole:
    """What is wrong with a harness. `shorts`: wires that can be live and grounded at once, or it is not decided.
    `too_many`: wires to which there are too many ways to look at. `looked`: the wires looked at."""

    sneaks: tuple[Sneak, ...]
    read_back: tuple[ReadBack, ...]
    shorts: tuple[tuple[str, Answer], ...]
    too_many: tuple[str, ...]
    looked: int
    questions: Questions
    interrupted: bool


def to_wire(program: Program, wire: str, budget: Budget, progress: Callable[[str], None]) -> ToWire:
    """Every way to the wire, and whether it can ever be so. A KeyboardInterrupt ends it; what was found stays."""
    ways = {(wire, kind): ways_to(program, wire, kind) for kind in BOTH}
    search = _Search(program, ways, budget, progress)
    listed = [way for each in ways.values() for way in each.found]
    found = [Asked(way, Open(Undecided.INTERRUPTED)) for way in listed[:MOST_ASKED]]
    faulty: list[Opened] = []
    more: list[Questions] = []
    left = near(program, wire)
    try:
        for number, asked in enumerate(found):
            found[number] = Asked(asked.way, search.questions.ask(wire, asked.way.condition))
        search.apart()
        search.short(wire)
        while left and budget.left:
            faulty += opened(program, left[0], tuple(ways.values()), budget, progress, more)
            left.pop(0)
    except KeyboardInterrupt:
        search.interrupted = True
    short = search.shorts[0][1] if search.shorts else None
    return ToWire(
        wire,
        tuple(ways.values()),
        tuple(found),
        len(listed) - len(found),
        causes(search.sneaks),
        short,
        tuple(faulty),
        len(left),
        search.questions,
        search.interrupted,
        tuple(bug for each in (search.questions, *more) for bug in each.bugs),
    )


def whole(program: Program, budget: Budget, progress: Callable[[str], None]) -> Whole:
    """All that is wrong with the harness. A KeyboardInterrupt ends it; what was found stays."""
    copper = [Copper(program, kind) for kind in BOTH]
    ways = {(wire.name, each.kind): each.ways_to(wire.name) for each in copper for wire in program.wires}
    search = _Search(program, ways, budget, progress)
    try:
        search.apart()
        search.reading_back()
        for wire in program.wires:
            search.short(wire.name)
    except KeyboardInterrupt:
        search.interrupted = True
    too_many = tuple(dict.fromkeys(each.wire for each in ways.values() if not each.whole))
    return Whole(
        causes(search.sneaks),
        tuple(search.read_back),
        tuple((wire, answer) for wire, answer in search.shorts if not isinstance(answer, Never)),
        too_many,
        len(program.wires) - len(too_many),
        search.questions,
        search.interrupted,
    )


@dataclass(slots=True)
class _Search:
    program: Program
    ways: dict[tuple[str, SignalKind], Ways]
    budget: Budget
    progress: Callable[[str], None]
    sneaks: list[Sneak] = field(default_factory=list)
    read_back: list[ReadBack] = field(default_factory=list)
    shorts: list[tuple[str, Answer]] = field(default_factory=list)
    interrupted: bool = False
    questions: Questions = field(init=False)

    def __post_init__(self) -> None:
        first = tuple(Signal(kind, wire) for (wire, kind), each in self.ways.items() if each.found)
        self.questions = Questions(self.program, first, self.budget, self.progress)

    def apart(self) -> None:
        for sneak in sneaks(self.program, self.questions, list(suspects(self.program, self.ways))):
            self.sneaks.append(sneak)

    def reading_back(self) -> None:
        told = frozenset(each.suspect.wire for each in self.sneaks if isinstance(each.answer, Seen))
        for each in read_back(self.program, self.questions, self.ways, told):
            self.read_back.append(each)

    def short(self, wire: str) -> None:
        live, grounded = (self.ways[wire, kind] for kind in BOTH)
        if live.found and grounded.found:
            both = And((Signal(SignalKind.LIVE, wire), Signal(SignalKind.GROUNDED, wire)))
            self.shorts.append((wire, self.questions.ask(wire, both)))
