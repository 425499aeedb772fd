"""What is behind a fact: the reason of a signal, or how what remembers came to be so; down to hands and physics."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.explain.facts import Fact, Function, condition, function, key_of
from logiccheck.explain.history import Past, filtered, owner_of, past, stored
from logiccheck.explain.reasons import Reason, reason, stands
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
    Timer,
    TimerKind,
)
from logiccheck.model.memory import Time
from logiccheck.model.reaction import Reaction
from logiccheck.model.truth import Node

MOST = 60  # facts looked behind


class About(Enum):
    """What the reason behind a fact is a reason for."""

    ITSELF = "itself"
    SET = "what sets it"
    RESET = "what resets it"
    INPUT = "its input"


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
    further: bool = True
    seen: set[tuple[object, bool, Time]] = field(default_factory=set)

    def look(self, situation: Situation, fact: Fact) -> Behind:
        so_far = past(situation, fact.leaf)
        if isinstance(fact.leaf, Position | Compare | Edge):
            return Behind(fact, so_far)
        this = key_of(fact.leaf), fact.value, so_far.since
        if this in self.seen:
            return Behind(fact, so_far, known=True)
        if len(self.seen) >= MOST:
            return Behind(fact, so_far, cut=True)
        self.seen.add(this)
        if isinstance(fact.leaf, Signal):
            return self._signal(situation, fact, fact.leaf, so_far)
        return self._memory(situation, fact, fact.leaf, so_far)

    def _signal(self, situation: Situation, fact: Fact, signal: Signal, so_far: Past) -> Behind:
        """A signal is as it is now; of a relay that holds itself, the reason why it first did."""
        found = reason(function(situation.program, situation.values, signal))
        if not any(key_of(each.leaf) == key_of(signal) for each in found.facts):
            return self._so(situation, fact, so_far, About.ITSELF, fact.value, found)
        begin = Situation(situation.timeline, so_far.since)
        for reaction in begin.played.moment.reactions:
            if signal.name in reaction.memory.coils:
                return self._in(begin, fact, so_far, About.ITSELF, function(begin.program, reaction.values, signal))
        return Behind(fact, so_far)

    def _memory(self, situation: Situation, fact: Fact, node: Node, so_far: Past) -> Behind:
        program = situation.program
        owner = owner_of(program, node)

        def look(about: About, part: Expr, at: Time | None = None, reaction: Reaction | None = None) -> Behind:
            begin = situation if at is None else Situation(situation.timeline, at)
            values = begin.values if reaction is None else reaction.values
            outside = isinstance(part, Signal) and filtered(node) is not None
            f = function(program, values, part) if outside else condition(program, values, part, owner.guard)
            return self._in(begin, fact, so_far, about, f)

        begin = Situation(situation.timeline, so_far.since)
        match node:
            case Timer(kind=TimerKind.ONE_SHOT, x=x) if so_far.run is not None:
                start = Situation(situation.timeline, so_far.run.start)
                return look(About.INPUT, x, so_far.run.start, _started(start, node))
            case Timer(kind=TimerKind.ONE_SHOT, x=x) if so_far.blank is None:
                return Behind(fact, so_far)  # its time was over
            case Timer(kind=TimerKind.OFF_DELAY, x=x) if so_far.run is not None:
                return look(About.INPUT, x, so_far.run.start)
            case Timer(x=x) | Blink(x=x) | Previous(x=x):
                return look(About.INPUT, x)
            case Bistable(set=set_) if fact.value:
                return look(About.SET, set_, so_far.since, stored(begin.played, node, True))
            case Bistable(set=set_, reset=reset) if so_far.blank is not None:
                wins = situation.values.holds(set_)  # it is set and reset at once
                return look(About.RESET if wins else About.SET, reset if wins else set_)
            case Bistable(reset=reset) if not so_far.forgotten:
                return look(About.RESET, reset, so_far.since, stored(begin.played, node, False))
            case Impulse(x=x) if fact.value:
                return look(About.INPUT, x, so_far.since, stored(begin.played, node, True))
            case Impulse(x=x, reset=reset) if so_far.blank is None and not so_far.forgotten:
                about, part = (About.RESET, reset) if so_far.reset else (About.INPUT, x)
                return look(about, part, so_far.since, stored(begin.played, node, False))
            case _:
                return Behind(fact, so_far)

    def _in(self, begin: Situation, fact: Fact, so_far: Past, about: About, f: Function) -> Behind:
        """The reason in a reaction of the moment at which `begin` lies, if the reaction shows one."""
        if not stands(f):
            return Behind(fact, so_far)
        return self._so(begin, fact, so_far, about, f.value, reason(f))

    def _so(self, begin: Situation, fact: Fact, so_far: Past, about: About, value: bool, found: Reason) -> Behind:
        there = found.facts if self.further else ()
        settled = [each for each in there if begin.values.holds(each.leaf) == each.value]
        behind_it = tuple(self.look(begin, each) for each in settled)
        return Behind(fact, so_far, about, value, begin.time, found, behind_it)


def _started(begin: Situation, node: Node) -> Reaction | None:
    """The reaction of that moment in which its timer began to run; None: the settled one."""
    reactions = begin.played.moment.reactions
    return next((each for each in reactions if (node.key, 0) in each.memory.clocks), None)
