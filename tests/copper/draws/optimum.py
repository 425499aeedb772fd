"""The greatest current of each feed over all settled situations of a small vehicle, found by visiting them all.

What flows where is worked out in each of them by following the current from end to end; it shares nothing with how the
package does that but the rules of what counts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from logiccheck.lang.program import (
    And,
    Const,
    Expr,
    Not,
    Or,
    Output,
    Possible,
    Program,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Window,
)
from tests.oracle.explorer import Explorer, Search
from tests.oracle.kernel import Kernel, Situation
from tests.oracle.watch import EMPTY

BOX = "(in the box)"


@dataclass(frozen=True)
class Thing:
    """Something that draws: while `on`, from the end `at`, so much; and `rush` instead in its first `time`."""

    name: str
    on: Expr
    at: str | None
    amperes: Fraction
    rush: Fraction
    time: int  # microseconds; 0: it has none

    @property
    def timer(self) -> Timer:
        return Timer(TimerKind.ON_DELAY, self.on, Window(self.time, self.time, self.time), f"{self.name}: come up")


def things(program: Program) -> Iterator[Thing]:
    """All that draws, by the words of the reference."""
    covered: set[str] = set()
    for load in program.loads:
        said = load.electrical
        if said.current is not None:
            covered.add(load.wire)
            on = Signal(SignalKind.LIVE, load.wire)
            rush, time = said.inrush or said.current, said.inrush_time or 0
            yield Thing(load.name, on, load.wire, said.current, rush, time)
    for relay in program.relays:
        if relay.draws is not None:
            at = relay.supply.name if isinstance(relay.supply, Signal) else None
            covered |= {at} if at is not None else set()
            on = Signal(SignalKind.RELAY, relay.name)
            yield Thing(relay.name, on, at, relay.draws, relay.draws, 0)
    if program.box is None:
        return
    powered = Signal(SignalKind.POWERED, "powered")
    box = program.box
    kind = SignalKind.SOURCE if box.feed in {s.name for s in program.sources} else SignalKind.LIVE
    if box.awake is not None:
        yield Thing("awake", powered, BOX, box.awake, box.awake, 0)
    if box.asleep is not None:
        asleep = And((Signal(kind, box.feed), Not(powered)))
        yield Thing("asleep", asleep, BOX, box.asleep, box.asleep, 0)
    for output in box.outputs:
        said = output.electrical
        if said.current is not None and (output.feeds is None or not joined(program, output.feeds) & covered):
            on = Signal(SignalKind.OUTPUT, output.name)
            yield Thing(
                output.name,
                on,
                output.name if output.feeds else output.fed_by or BOX,
                said.current,
                said.inrush or said.current,
                said.inrush_time or 0,
            )


def joined(program: Program, wire: str) -> set[str]:
    """The wire, and those that a connection without any condition makes one with it."""
    found, wires = {wire}, {each.name for each in program.wires}
    while True:
        more = set[str]()
        for contact in program.contacts:
            ends = {contact.left, contact.right}
            if contact.condition == Const(True) and ends <= wires and ends & found:
                more |= ends
        if more <= found:
            return found
        found |= more


def outputs(program: Program) -> tuple[Output, ...]:
    return program.box.outputs if program.box is not None else ()


class Flow:
    """Which ends take current from where, in one situation."""

    def __init__(self, program: Program, holds: Callable[[Expr], bool]) -> None:
        self.program = program
        self.wires = {wire.name for wire in program.wires}
        self.sources = {s.name for s in program.sources if holds(Signal(SignalKind.SOURCE, s.name))}
        self.closed = [i for i, contact in enumerate(program.contacts) if holds(contact.condition)]
        self.on = {o.name for o in outputs(program) if holds(Signal(SignalKind.OUTPUT, o.name))}

    def own(self, wire: str) -> set[int]:
        """The contacts on the line of a wire, not those of joins, nor to ground."""
        line = next(each for each in self.program.wires if each.name == wire).span
        grounds = {ground.name for ground in self.program.grounds}
        return {
            i
            for i, c in enumerate(self.program.contacts)
            if c.right == wire
            and c.left not in grounds
            and c.span.file == line.file
            and line.begin <= c.span.begin
            and c.span.end <= line.end
        }

    def flood(self, begin: set[str], without: set[int], cut: str) -> set[str]:
        """All ends that current reaches from these."""
        found = set(begin)
        while True:
            more = {head for tail, head in self.ways(without, cut) if tail in found} - found
            if not more:
                return found
            found |= more

    def ways(self, without: set[int], cut: str) -> Iterator[tuple[str, str]]:
        for i in self.closed:
            contact = self.program.contacts[i]
            if i not in without:
                if contact.right in self.wires:
                    yield contact.left, contact.right
                if contact.left in self.wires:
                    yield contact.right, contact.left
        for diode in self.program.diodes:
            if diode.cathode in self.wires:
                yield diode.anode, diode.cathode
        if cut != BOX and self.program.box is not None:
            yield self.program.box.feed, BOX
        for output in outputs(self.program):
            if output.feeds is not None and output.name in self.on and output.name != cut:
                yield output.fed_by or BOX, output.name
                yield output.name, output.feeds

    def through(self, feed: str) -> set[str]:
        """The ends that take current from this source, wire, box or output."""
        if feed in {source.name for source in self.program.sources}:
            return self.flood({feed} & self.sources, set(), "")
        if feed == BOX:
            assert self.program.box is not None
            before = self.flood(self.sources, set(), BOX)
            return self.flood({BOX} if self.program.box.feed in before else set(), set(), BOX)
        output = next((each for each in outputs(self.program) if each.name == feed), None)
        if output is not None and output.feeds is not None:
            before = self.flood(self.sources, set(), feed)
            entered = feed in self.on and (output.fed_by or BOX) in before
            return self.flood({output.feeds, feed} if entered else set(), set(), feed)
        own = self.own(feed)
        before = self.flood(self.sources, own, "")
        entered = any(self.program.contacts[i].left in before for i in own & set(self.closed))
        return self.flood({feed} if entered else set(), own, "")


@dataclass
class Explored:
    """The greatest current of each feed, without and with inrush; whether some moment never settles."""

    most: dict[str, Fraction] = field(default_factory=dict)
    rush: dict[str, Fraction] = field(default_factory=dict)
    unsettled: bool = False
    situations: int = 0


def explored(program: Program, feeds: list[str], limit: int, inrush: bool) -> Explored:
    """Visits everything; raises `TooBig`. Without `inrush` times are not looked at."""
    known = list(things(program))
    timers = [Not(thing.timer) for thing in known if thing.time and inrush]
    kernel = Kernel(program, Possible(And((Or(tuple(timers)), Not(Or(tuple(timers)))))) if timers else None)
    search = Search(Explorer(kernel, limit))
    search.run(patient=True)
    found = Explored({feed: Fraction(0) for feed in feeds}, {feed: Fraction(0) for feed in feeds}, search.unsettled)
    for situation in {place[0] for place in search.levels}:
        found.situations += 1
        look_at(program, kernel, situation, known, found)
    return found


def look_at(program: Program, kernel: Kernel, situation: Situation, known: list[Thing], found: Explored) -> None:
    """Adds what flows in one situation."""
    settled = kernel.machine.repeat(situation.memory, kernel.reading(situation.world))
    cells = dict(situation.cells)
    flow = Flow(program, settled.holds)
    on = [thing for thing in known if thing.at is not None and settled.holds(thing.on)]
    for feed in found.most:
        through = flow.through(feed)
        mine = [thing for thing in on if thing.at in through]
        found.most[feed] = max(found.most[feed], sum((thing.amperes for thing in mine), Fraction(0)))
        rushing = [thing.rush if fresh(thing, cells) else thing.amperes for thing in mine]
        found.rush[feed] = max(found.rush[feed], sum(rushing, Fraction(0)))


def fresh(thing: Thing, cells: dict[str, tuple[bool, bool, bool]]) -> bool:
    """It is on, and has not been for its time."""
    return thing.time > 0 and not cells.get(thing.timer.key, EMPTY)[1]
