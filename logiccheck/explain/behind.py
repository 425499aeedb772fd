"""What is behind a fact: the reason of a signal, or how what remembers came to be so; down to hands and physics."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.explain.facts import BOXED, Fact, Function, condition, function, key_of
from logiccheck.explain.history import Past, Run, began, fed_values, filtered, owner_of, past, ran, run_of, stored
from logiccheck.explain.inside import POWERED
from logiccheck.explain.reasons import Reason, forced, reason
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Compare,
    Edge,
    Expr,
    Impulse,
    Position,
    Previous,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
)
from logiccheck.model.memory import Time
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf, Node

MOST = 60  # facts looked behind


class About(Enum):
    """What the reason behind a fact is a reason for."""

    ITSELF = "itself"
    SET = "what sets it"
    RESET = "what resets it"
    INPUT = "its input"
    INSTANT = "its input, which was so for an instant only"


@frozen
class Behind:
    """A fact at an instant, since when it is so, and why: `about` what the reason is, which held at the instant `at`.

    `value` is how that reads. No reason: hands and physics, or nothing that is settled shows it. `known`: what is
    behind it stands further up; `cut`: it was not looked for, there is too much already.
    """

    fact: Fact
    past: Past
    about: About = About.ITSELF
    value: bool = False
    at: Time = 0
    reason: Reason | None = None
    next: tuple[Behind, ...] = ()
    known: bool = False
    cut: bool = False


def behind(situation: Situation, facts: tuple[Fact, ...]) -> tuple[Behind, ...]:
    """What is behind each of these facts, which hold there."""
    looker = _Looker()
    return tuple(looker.look(situation, fact) for fact in facts)


def made(situation: Situation, fact: Fact) -> Behind:
    """What is next behind this fact, and no further."""
    return _Looker(further=False).look(situation, fact)


@dataclass(slots=True)
class _Looker:
    """Looks behind facts: as they are now, or, where that goes in a circle, as they were made.

    A number says which reaction of the moment is looked at; none: what is settled.
    """

    further: bool = True
    seen: set[tuple[object, ...]] = field(default_factory=set)
    reasons: dict[tuple[object, Time], Reason] = field(default_factory=dict)  # of what is settled

    def look(self, situation: Situation, fact: Fact, number: int | None = None) -> Behind:
        reactions = situation.played.moment.reactions
        if number is not None and any(each.holds(fact.leaf) != fact.value for each in reactions[number:]):
            return self._passing(situation, fact, number)
        so_far = past(situation, fact.leaf)
        if isinstance(fact.leaf, Position | Compare | Edge):
            return Behind(fact, so_far)
        if (stopped := self._stopped(fact, so_far, so_far.since)) is not None:
            return stopped
        if isinstance(fact.leaf, Signal):
            return self._signal(situation, fact, fact.leaf, so_far)
        return self._memory(situation, fact, fact.leaf, so_far)

    def _stopped(self, fact: Fact, so_far: Past, *at: Time) -> Behind | None:
        """It was looked behind already, or there is too much."""
        this = key_of(fact.leaf), fact.value, *at
        if this in self.seen:
            return Behind(fact, so_far, known=True)
        if len(self.seen) >= MOST:
            return Behind(fact, so_far, cut=True)
        self.seen.add(this)
        return None

    def _passing(self, situation: Situation, fact: Fact, number: int) -> Behind:
        """Of a fact that held in this reaction, and no longer once all had settled."""
        first = began(situation, fact.leaf, number)
        settled, at = situation.timeline.settled, situation.at
        if first == 0 and at and settled[at - 1].moment.settled.holds(fact.leaf) == fact.value:
            return self.look(Situation(situation.timeline, settled[at - 1].time), fact)
        so_far = Past(situation.time, at == 0)
        if isinstance(fact.leaf, Position | Compare):
            return Behind(fact, so_far)
        return self._stopped(fact, so_far, situation.time, first) or self._made(situation, fact, so_far, first)

    def _made(self, begin: Situation, fact: Fact, so_far: Past, first: int) -> Behind:
        """Why it came to be so in this reaction of the moment at which `begin` lies."""
        leaf = fact.leaf
        if isinstance(leaf, Signal):
            from_before = leaf.kind is SignalKind.RELAY  # its contact does what the coil did the reaction before
            number = first - 1 if from_before else first
            if number < 0:
                return Behind(fact, so_far)
            values = _values(begin, number, leaf.kind not in BOXED)
            return self._in(begin, fact, so_far, About.ITSELF, function(begin.program, values, leaf), number)
        assert isinstance(leaf, Node)
        guard = owner_of(begin.program, leaf).guard
        reaction = begin.played.moment.reactions[first]
        number = first - 1 if isinstance(leaf, Previous) else first
        if number < 0 or (guard is not None and not reaction.holds(guard)):
            return Behind(fact, so_far)
        match leaf:
            case Bistable(set=set_, reset=reset):
                about, part = (About.SET, set_) if fact.value else (About.RESET, reset)
            case Impulse(reset=reset) if not fact.value and reaction.holds(reset):
                about, part = About.RESET, reset
            case Timer(x=x) | Blink(x=x) | Previous(x=x) | Edge(x=x) | Impulse(x=x):
                about, part = About.INPUT, x
        return self._in(begin, fact, so_far, about, _operand(begin, leaf, part, number), number)

    def _now(self, situation: Situation, fact: Fact) -> Reason | None:
        """Why a signal, or what follows an input that is as it is, reads as it does once all has settled."""
        leaf = fact.leaf
        if not isinstance(leaf, Signal) and not follows_input(situation, leaf, fact.value):
            return None
        this = key_of(leaf), situation.played.time
        if this not in self.reasons:
            if isinstance(leaf, Signal):
                f = function(situation.program, situation.values, leaf)
            else:
                assert isinstance(leaf, Timer | Previous)
                f = _operand(situation, leaf, leaf.x, None)
            self.reasons[this] = reason(f)
        return self.reasons[this]

    def _circular(self, situation: Situation, fact: Fact) -> bool:
        """Why it is so now leads back to itself."""
        todo, met = [fact], {key_of(fact.leaf)}
        while todo and len(met) < MOST:
            found = self._now(situation, todo.pop())
            for each in found.facts if found else ():
                if key_of(each.leaf) == key_of(fact.leaf):
                    return True
                if key_of(each.leaf) not in met:
                    met.add(key_of(each.leaf))
                    todo.append(each)
        return False

    def _signal(self, situation: Situation, fact: Fact, signal: Signal, so_far: Past) -> Behind:
        """A signal is as it is now; of one that holds itself, the reason why it first did."""
        found = self._now(situation, fact)
        assert found is not None
        begin = Situation(situation.timeline, so_far.since)
        if any(key_of(each.leaf) == key_of(signal) for each in found.facts):
            for number, reaction in enumerate(begin.played.moment.reactions):
                if signal.name in reaction.memory.coils:
                    f = function(begin.program, _values(begin, number, True), signal)
                    return self._in(begin, fact, so_far, About.ITSELF, f, number)
            return Behind(fact, so_far)
        if self.further and not so_far.from_start and self._circular(situation, fact):
            return self._made(begin, fact, so_far, began(begin, signal))
        return self._so(situation, fact, so_far, About.ITSELF, fact.value, found)

    def _memory(self, situation: Situation, fact: Fact, node: Node, so_far: Past) -> Behind:
        def look(about: About, part: Expr) -> Behind:
            return self._in(situation, fact, so_far, about, _operand(situation, node, part, None), None)

        def then(about: About, part: Expr, number: int | None) -> Behind:
            return self._in(begin, fact, so_far, about, _operand(begin, node, part, number), number)

        begin = Situation(situation.timeline, so_far.since)
        match node:
            case Timer(kind=TimerKind.ONE_SHOT | TimerKind.OFF_DELAY) if so_far.run is not None:
                return self._running(situation, fact, node, so_far, so_far.run)
            case Timer(kind=TimerKind.ONE_SHOT) if so_far.blank is None:
                return Behind(fact, so_far)  # its time was over
            case Timer(kind=TimerKind.ON_DELAY, x=x) if fact.value and (start := ran(situation, node)) is not None:
                begin = Situation(situation.timeline, start)
                return then(About.INPUT, x, _starting(begin, node))
            case Previous() | Timer() if not so_far.from_start and self._circular(situation, fact):
                if so_far.forgotten:
                    return Behind(fact, so_far)
                return self._made(begin, fact, so_far, began(begin, node))
            case Timer(x=x) | Blink(x=x) | Previous(x=x):
                return look(About.INPUT, x)
            case Bistable(set=set_) if fact.value:
                return then(About.SET, set_, stored(begin.played, node, True))
            case Bistable(set=set_, reset=reset) if so_far.blank is not None:
                wins = situation.values.holds(set_)  # it is set and reset at once
                return look(About.RESET if wins else About.SET, reset if wins else set_)
            case Bistable(reset=reset) if not so_far.forgotten:
                return then(About.RESET, reset, stored(begin.played, node, False))
            case Impulse(x=x) if fact.value:
                return then(About.INPUT, x, stored(begin.played, node, True))
            case Impulse(x=x, reset=reset) if so_far.blank is None and not so_far.forgotten:
                about, part = (About.RESET, reset) if so_far.reset else (About.INPUT, x)
                return then(about, part, stored(begin.played, node, False))
            case _:
                return Behind(fact, so_far)

    def _running(self, situation: Situation, fact: Fact, node: Timer, so_far: Past, run: Run) -> Behind:
        """What began the run: an input that came on, or went off, or was on for an instant only."""
        begin = Situation(situation.timeline, run.start)
        number = _starting(begin, node)
        about = About.INPUT
        if node.kind is TimerKind.OFF_DELAY and number:
            reactions = begin.played.moment.reactions
            first = number
            while first and node.key in reactions[first - 1].memory.operands:
                first -= 1
            before = begin.timeline.settled[begin.at - 1].moment.memory.operands if begin.at else frozenset()
            if first or node.key not in before:
                about, number = About.INSTANT, first
        return self._in(begin, fact, so_far, about, _operand(begin, node, node.x, number), number)

    def _in(self, begin: Situation, fact: Fact, so_far: Past, about: About, f: Function, number: int | None) -> Behind:
        """The reason in a reaction of the moment at which `begin` lies, if the reaction shows one."""
        found = forced(f)
        return Behind(fact, so_far) if found is None else self._so(begin, fact, so_far, about, f.value, found, number)

    def _so(
        self,
        begin: Situation,
        fact: Fact,
        so_far: Past,
        about: About,
        value: bool,
        found: Reason,
        number: int | None = None,
    ) -> Behind:
        there = found.facts if self.further else ()
        looked = (self._next(begin, each, number) for each in there)
        return Behind(fact, so_far, about, value, begin.time, found, tuple(each for each in looked if each is not None))

    def _next(self, begin: Situation, fact: Fact, number: int | None) -> Behind | None:
        """What is behind a fact of a reason; an output feeds and is read in copper as the reaction before left it."""
        if number is None:
            return self.look(begin, fact) if begin.values.holds(fact.leaf) == fact.value else None
        if not (isinstance(fact.leaf, Signal) and fact.leaf.kind is SignalKind.OUTPUT):
            return self.look(begin, fact, number)
        if number:
            return self.look(begin, fact, number - 1)
        if begin.at == 0:
            return None
        return self.look(Situation(begin.timeline, begin.timeline.settled[begin.at - 1].time), fact)


def _values(begin: Situation, number: int | None, copper: bool) -> Values:
    """What is read in a reaction, in copper or in the box."""
    if number is None:
        return begin.values
    return fed_values(begin, number) if copper else begin.played.moment.reactions[number].values


def follows_input(situation: Situation, leaf: Leaf, value: bool) -> bool:
    """It remembers nothing now but that its input is as it is."""
    match leaf:
        case Previous():
            return True
        case Timer(kind=kind) if run_of(situation, leaf) is None:
            return kind in (TimerKind.OFF_DELAY, TimerKind.FILTER) or (kind is TimerKind.ON_DELAY and not value)
        case _:
            return False


def _operand(begin: Situation, node: Node, part: Expr, number: int | None) -> Function:
    """A part of what remembers, in a reaction."""
    guard = owner_of(begin.program, node).guard
    outside = isinstance(part, Signal) and filtered(node) is not None
    values = _values(begin, number, outside or guard != POWERED)
    return function(begin.program, values, part) if outside else condition(begin.program, values, part, guard)


def _starting(begin: Situation, node: Node) -> int:
    """The reaction of that moment in which its timer began the run that went on."""
    reactions = begin.played.moment.reactions
    number = len(reactions) - 1
    while number and (node.key, 0) in reactions[number - 1].memory.clocks:
        number -= 1
    return number
