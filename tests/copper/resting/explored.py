"""What parked vehicles draw for ever, by brute force: all that can be is explored, each of it left alone, and what
draws is followed through the copper.

This shares the interpreter with what it is held against, and nothing else.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from logiccheck.lang.program import AfterLasting, Electrics, Expr, LastsAtMost, Program, SignalKind
from logiccheck.model.interpreter import Machine
from logiccheck.model.memory import Memory, Time
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Reaction, World
from logiccheck.model.story import Story
from tests.oracle.explorer import Explorer, Place, Search
from tests.oracle.kernel import Kernel

MANY = 400  # events after which it is given up


@dataclass(frozen=True)
class Rest:
    """What lasts for ever: settled reactions one after the other, each for so long, and again from the first. Without a
    period there is one."""

    reactions: tuple[tuple[Reaction, Time], ...]

    def drawn(self, program: Program, source: str) -> Fraction:
        """Amperes on the average."""
        period = sum(time for _, time in self.reactions)
        if not period:
            return current(program, self.reactions[0][0], source)
        whole = sum((current(program, each, source) * Fraction(time) for each, time in self.reactions), Fraction(0))
        return whole / period


def reached(program: Program, source: str, reaction: Reaction) -> set[str]:
    """All ends to which this source gives current in a settled situation; "in" is inside the box."""
    if not reaction.is_true(SignalKind.SOURCE, source):
        return set()
    stops = {each.name for each in program.sources} | {each.name for each in program.grounds}
    found, box = {source}, program.box
    while True:
        more = set()
        for contact in program.contacts:
            if reaction.holds(contact.condition):
                more |= {contact.right} if contact.left in found else set()
                more |= {contact.left} if contact.right in found else set()
        more |= {diode.cathode for diode in program.diodes if diode.anode in found}
        if box is not None:
            more |= {"in"} if box.feed in found else set()
            for output in box.outputs:
                if output.feeds and reaction.is_true(SignalKind.OUTPUT, output.name):
                    more |= {output.feeds} if (output.fed_by or "in") in found else set()
        if more - stops <= found:
            return found
        found |= more - stops


def current(program: Program, reaction: Reaction, source: str) -> Fraction:
    """What the source gives in a settled situation."""
    there, total, box = reached(program, source, reaction), Fraction(0), program.box
    heavy = {load.wire for load in program.loads if load.electrical.current is not None}
    heavy |= {relay.supply.name for relay in program.relays if relay.draws is not None and relay.supply is not None}
    for load in program.loads:
        if load.wire in there:
            total += load.electrical.current or 0
    for relay in program.relays:
        if relay.supply is not None and relay.supply.name in there and reaction.is_true(SignalKind.RELAY, relay.name):
            total += relay.draws or 0
    for output in box.outputs if box is not None else ():
        if reaction.is_true(SignalKind.OUTPUT, output.name) and output.feeds not in heavy:
            total += (output.electrical.current or 0) if (output.fed_by or "in") in there else 0
    if box is not None and "in" in there:
        awake = reaction.is_true(SignalKind.POWERED, "powered")
        total += (box.awake if awake else box.asleep) or 0
    return total


class Uncertain(Exception):
    """It cannot be told here whether what is given lets hands rest for ever."""


def left_alone(program: Program, memory: Memory, world: World) -> Rest | None:
    """How it goes on while no hand moves, each run lasting its nominal time where it still can. None where that cannot
    go on for ever, or is given up."""
    machine = Machine(program)
    settled = machine.repeat(memory, world)
    past: list[tuple[Memory, Reaction, Time]] = []
    while True:
        due_in = {}
        for key, (run, window) in machine.running(memory).items():
            due_in[key] = (window.nominal if run < window.nominal else window.hi) - run
        if not due_in:
            return _allowed(program, Rest(((settled, 0),)), past)
        step = min(due_in.values())
        begun = [number for number, (before, _, _) in enumerate(past) if before == memory]
        if begun:
            loop = tuple((reaction, time) for _, reaction, time in past[begun[0] :])
            return _allowed(program, Rest(loop), past)
        if len(past) == MANY:
            return None
        past.append((memory, settled, step))
        moment = machine.moment(memory, step, world, frozenset(key for key, time in due_in.items() if time == step))
        if not moment.settles:
            return None
        memory, settled = moment.memory, moment.settled


def _allowed(program: Program, rest: Rest, past: list[tuple[Memory, Reaction, Time]]) -> Rest | None:
    reactions = [reaction for _, reaction, _ in past] + [reaction for reaction, _ in rest.reactions]
    for given in program.givens:
        if isinstance(given, LastsAtMost) and rest.reactions[0][0].holds(given.p):
            return None
        if isinstance(given, AfterLasting) and not reactions[0].holds(given.c):
            try:
                if all(reaction.holds(given.p) for reaction, _ in rest.reactions):
                    return None
                if any(reaction.holds(given.p) for reaction in reactions):
                    raise Uncertain
            except LookupError as own:  # it remembers something of its own
                raise Uncertain from own
    return rest


def all_rests(program: Program, parked: Expr, limit: int) -> Iterator[Rest | None]:
    """All that parked vehicles come to; None where that is not certain. Raises TooBig."""
    plain = replace(program, requirements=(), scenarios=(), electrics=Electrics())
    kernel = Kernel(plain, None)
    explorer = Explorer(kernel, limit)
    search = Search(explorer)
    search.run(patient=True)
    for place in search.levels:
        memory, world = _concrete(explorer, place)
        if not kernel.machine.repeat(memory, world).holds(parked):
            continue
        try:
            rest = left_alone(plain, memory, world)
        except Uncertain:
            yield None
        else:
            if rest is not None:
                yield rest


def _concrete(explorer: Explorer, place: Place) -> tuple[Memory, World]:
    situation, reading = place
    grid, kernel = explorer.grid, explorer.kernel
    runs = {}
    for (kind, key), ticks in zip(situation.clocks, reading, strict=True):
        if kind == "machine":
            window = kernel.machine.windows[key]
            runs[key] = Fraction(ticks * window.hi, grid.windows[kind, key][1])
    return replace(situation.memory, clocks=frozenset(runs.items())), kernel.reading(situation.world)


def after(program: Program, story: Story) -> Rest | None:
    """What comes of a story. What is given is left out: it may be about things that the story does not involve."""
    plain = replace(program, givens=(), requirements=(), scenarios=(), electrics=Electrics())
    timeline = play_story(plain, story)
    last = timeline.played[-1]
    memory = last.moment.memory.later(timeline.end - last.time)
    return left_alone(plain, memory, last.world)
