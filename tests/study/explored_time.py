"""What the findings about time and memory are about, by exploring all of a small vehicle, reaction by reaction.

Shares with the search for findings nothing but the resolved program: every moment is made by the interpreter, and each
question is answered by looking at the reactions of all moments that can come.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations, pairwise

from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Compare,
    Edge,
    Expr,
    Impulse,
    Output,
    Previous,
    Program,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
)
from logiccheck.lang.walk import memory
from logiccheck.model.interpreter import Machine, Moment
from logiccheck.model.memory import Memory
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Reaction, Values
from logiccheck.model.story import Story
from logiccheck.model.timeline import Played
from logiccheck.model.truth import Node, all_nodes, truth
from tests.oracle.explorer import Explorer, Search
from tests.oracle.kernel import Clock, Event, Kernel, Situation, World
from tests.oracle.slices import parts

POWERED = Signal(SignalKind.POWERED, "powered")
HIDDEN = (Timer, Blink, Bistable, Impulse, Edge, Previous)


@dataclass(frozen=True)
class Change:
    """One moment that can come: the situation before (None at time 0), its world, the timers that fall due."""

    before: Situation | None
    world: World
    due: frozenset[Clock]


class Noting(Kernel):
    """A kernel that keeps every moment that it was asked for and that can come."""

    def __init__(self, program: Program) -> None:
        super().__init__(program, None)
        self.changes: dict[Change, None] = {}

    def event(self, before: Situation | None, world: World, due: frozenset[Clock], moment: bool = True) -> Event | None:
        found = super().event(before, world, due, moment)
        if found is not None and moment:
            self.changes[Change(before, world, due)] = None
        return found


class Explored:
    """All that can happen in a vehicle. Raises `TooBig`."""

    def __init__(self, program: Program, limit: int) -> None:
        self.program = program
        self.kernel = Noting(program)
        Search(Explorer(self.kernel, limit)).run(patient=True)
        assert program.box is not None
        self.lines = {x.name: x.command if isinstance(x, Output) else x.expr for x in program.box.rules}
        hidden = {
            n.key for line in self.lines.values() for n in memory(line) if isinstance(n, Previous) for n in memory(n.x)
        }
        self.nodes = {n.key: n for n in all_nodes(self.lines.values()) if n.key not in hidden}
        self.facts: dict[str, set[str]] = defaultdict(set)
        names = Names(program)
        feed = self.end(program.box.feed)
        self.feed, self.hands = feed, names.world([feed])
        self.own = {k for k, _ in names.matter([POWERED]).items} & {SignalKind.OUTPUT.value, SignalKind.COMMAND.value}
        self.hands_of = {key: names.world(self.copper(operand(node))) for key, node in self.nodes.items()}
        self.wakes = False
        self.cuts: set[tuple[str, str]] = set()
        for change in self.kernel.changes:
            self.look(change)

    # ---------------------------------------------------------------------------------------------- one moment

    def look(self, change: Change) -> None:
        now = self.kernel.reactions(change.before, change.world, change.due, True)
        before = self.settled(change.before)
        self.wakes |= now[-1].holds(POWERED)
        for node in self.nodes.values():
            for reaction in now:
                self.facts[node.key] |= set(self.one(node, reaction))
            for one, two in pairwise([*([before] if before else []), *now]):
                self.facts[node.key] |= set(self.two(node, one, two))
            self.facts[node.key] |= set(self.whole(node, change, before, now))

    def settled(self, before: Situation | None) -> Reaction | None:
        if before is None:
            return None
        return self.kernel.machine.repeat(before.memory, self.kernel.reading(before.world))

    def one(self, node: Node, at: Reaction) -> Iterator[str]:
        if not at.holds(POWERED):
            return
        x = at.holds(operand(node))
        if x:
            yield "fed"
        if at.holds(node):
            yield "on"
        if x and not at.holds(node):
            yield "waited"

    def two(self, node: Node, one: Reaction, two: Reaction) -> Iterator[str]:
        if not two.holds(POWERED):
            return
        kept = isinstance(node, Bistable | Impulse) and node.retained and node.key in one.memory.bits
        if (kept or (one.holds(POWERED) and one.holds(node))) and not two.holds(node):
            yield "went off"
        if one.holds(POWERED) and one.holds(operand(node)) and not two.holds(operand(node)):
            yield "fell"

    def whole(self, node: Node, change: Change, before: Reaction | None, now: tuple[Reaction, ...]) -> Iterator[str]:
        last = now[-1]
        if last.holds(POWERED):
            yield from self.settled_facts(node, last)
        if before is None or change.before is None:
            return
        was, x = self.believed(operand(node), before.values), self.believed(operand(node), last.values)
        if not before.holds(POWERED) and last.holds(POWERED) and was and x:
            awake = [reaction.holds(POWERED) for reaction in now]
            since = len(now) - awake[::-1].index(False) if False in awake else 0
            if any(reaction.holds(node) for reaction in now[since:]):
                yield "waking"
        moved = self.moved(change.before.world, change.world)
        if not before.holds(self.feed) and last.holds(self.feed) and was and x is False:
            shared = self.hands & self.hands_of[node.key]
            if shared and any(not (moved & (self.hands | self.hands_of[node.key])) - {hand} for hand in shared):
                yield "lost"
        if before.holds(POWERED) and not last.holds(POWERED) and not moved & self.hands:
            self.look_for_cuts(node, change, before)

    def settled_facts(self, node: Node, last: Reaction) -> Iterator[str]:
        if not last.holds(operand(node)):
            yield "not fed"
        if isinstance(node, Bistable | Impulse) and last.holds(node.reset):
            yield "reset"
            if isinstance(node, Bistable) and last.holds(node.set):
                yield "together"

    def look_for_cuts(self, node: Node, change: Change, before: Reaction) -> None:
        if not isinstance(node, Timer) or not before.holds(node) or ("machine", node.key) in change.due:
            return
        if node.kind is TimerKind.ON_DELAY or (node.kind is TimerKind.OFF_DELAY and before.holds(node.x)):
            return
        for name, line in self.lines.items():
            if (SignalKind.OUTPUT, name) in before.values.true and not self.without(line, node, before.values):
                self.cuts.add((node.key, name))

    def moved(self, before: World, world: World) -> set[str]:
        return {name for i, name in enumerate(self.kernel.names) if before[i] != world[i]}

    def keeps_itself_awake(self, program: Program, story: Story) -> bool:
        """Whether at the end of the story the box stays awake whatever timers do, and with its outputs off does not."""
        end = play_story(program, story).settled[-1]
        return self.awake_for_ever(Machine(program), end) and not self.awake_in_the_end(Machine(dark(program)), end)

    @staticmethod
    def awake_for_ever(machine: Machine, end: Played) -> bool:
        """No hand moves, and of the running timers any may be the next to fall due."""
        seen, waiting = set[Memory](), [end.moment.memory]
        while waiting:
            still = at_rest(waiting.pop())
            if still in seen:
                continue
            seen.add(still)
            keys = sorted(key for key, _ in still.clocks)
            for chosen in (c for size in range(1, len(keys) + 1) for c in combinations(keys, size)):
                moment = next_moment(machine, still, end.world, frozenset(chosen))
                if not moment.settled.holds(POWERED):
                    return False
                waiting.append(moment.memory)
        return True

    @staticmethod
    def awake_in_the_end(machine: Machine, end: Played) -> bool:
        """Its outputs feed nothing any more, and all timers run out, one after the other."""
        moment = machine.moment(at_rest(end.moment.memory), 1, end.world)
        for _ in range(20):
            if not moment.memory.clocks:
                break
            due = frozenset({min(key for key, _ in moment.memory.clocks)})
            moment = next_moment(machine, at_rest(moment.memory), end.world, due)
        return moment.settled.holds(POWERED)

    # ---------------------------------------------------------------------------------------------- expressions

    def end(self, name: str) -> Signal:
        sources = {source.name for source in self.program.sources}
        return Signal(SignalKind.SOURCE if name in sources else SignalKind.LIVE, name)

    def believed(self, expr: Expr, values: Values) -> bool | None:
        """What the box would make of copper as it is; None where that is not a matter of copper alone."""
        assert self.program.box is not None
        senses = {sense.name: sense for sense in self.program.box.senses}

        def leaf(part: Expr) -> bool:
            if isinstance(part, HIDDEN):
                raise LookupError
            if isinstance(part, Compare):
                return values.holds(replace(part, name=senses[part.name].number, sense=False))  # type: ignore[union-attr]
            assert isinstance(part, Signal)
            if part.kind is not SignalKind.SENSE:
                return told(self.lines[part.name])
            sense = senses[part.name]
            assert isinstance(sense, WireSense)
            if sense.filter is not None:
                raise LookupError
            return values.holds(Signal(SignalKind.GROUNDED, sense.wire) if sense.grounded else self.end(sense.wire))

        def told(line: Expr) -> bool:
            for part in leaves(line):  # whether it can be told hangs on none of the values
                leaf(part)
            return truth(line, leaf)

        try:
            return told(expr)
        except LookupError:
            return None

    def copper(self, expr: Expr) -> list[Expr]:
        """What of copper and the world it rests on, as far as that can be told."""
        assert self.program.box is not None
        senses = {sense.name: sense for sense in self.program.box.senses}
        found: list[Expr] = []
        for part in leaves(expr):
            if isinstance(part, Compare):
                found.append(replace(part, name=senses[part.name].number, sense=False))  # type: ignore[union-attr]
            elif isinstance(part, Signal) and part.kind is SignalKind.SENSE:
                sense = senses[part.name]
                assert isinstance(sense, WireSense)
                grounded = Signal(SignalKind.GROUNDED, sense.wire)
                found.append(grounded if sense.grounded else self.end(sense.wire))
            elif isinstance(part, Signal):
                found += self.copper(self.lines[part.name])
        return found

    def without(self, line: Expr, node: Node, values: Values) -> bool:
        """What a line would be if this node were off, all else that remembers being as it is."""

        def leaf(part: Expr) -> bool:
            if isinstance(part, HIDDEN):
                return part.key != node.key and values.holds(part)
            if isinstance(part, Signal) and part.kind in (SignalKind.RULE, SignalKind.COMMAND):
                return truth(self.lines[part.name], leaf)
            return values.holds(part)

        return truth(line, leaf)


def at_rest(memory: Memory) -> Memory:
    """The same, as if all timers had just begun."""
    return replace(memory, clocks=frozenset((key, 0) for key, _ in memory.clocks))


def next_moment(machine: Machine, memory: Memory, world: Mapping[str, int | Fraction], due: frozenset[str]) -> Moment:
    """What comes when these timers fall due and no hand moves."""
    runs = frozenset((key, machine.windows[key].lo - 1 if key in due else 0) for key, _ in memory.clocks)
    return machine.moment(replace(memory, clocks=runs), 1, world, due)


def dark(program: Program) -> Program:
    """The vehicle with the plugs of its outputs pulled."""
    assert program.box is not None
    off = [replace(item, feeds=None) if isinstance(item, Output) else item for item in program.box.rules]
    named = [leaf for relay in program.relays for leaf in leaves(relay.coil) if isinstance(leaf, Signal)]
    assert all(leaf.kind is not SignalKind.OUTPUT for leaf in named)
    return replace(program, box=replace(program.box, rules=tuple(off)))


def operand(node: Node) -> Expr:
    """What it looks at; of a bistable what sets it."""
    return node.set if isinstance(node, Bistable) else node.x


def leaves(expr: Expr) -> Iterator[Expr]:
    """What the connectives of an expression join."""
    if isinstance(expr, (*HIDDEN, Signal, Compare)):
        yield expr
    else:
        for part in parts(expr):
            yield from leaves(part)
