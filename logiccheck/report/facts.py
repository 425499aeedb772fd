"""A fact in words: what it is about, how it reads, and in brackets since when or how it came to be so."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import assert_never

from logiccheck.base.units import said_quantity
from logiccheck.explain.behind import made
from logiccheck.explain.facts import Fact
from logiccheck.explain.history import Blank, Owner, Past, filtered, owner_of, past, reads
from logiccheck.explain.inside import POWERED
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Compare,
    Edge,
    Expr,
    Impulse,
    NumberSense,
    Op,
    Position,
    Previous,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
)
from logiccheck.model.memory import Time
from logiccheck.model.truth import Node, is_filter
from logiccheck.report import words_why as words
from logiccheck.report.durations import said
from logiccheck.report.excerpt import as_written, in_a_sentence

SHORT = 2  # facts told in brackets
STATES = {
    SignalKind.SOURCE: ("live", "dead"),
    SignalKind.GROUND: ("good", "lost"),
    SignalKind.LIVE: ("live", "not live"),
    SignalKind.GROUNDED: ("grounded", "not grounded"),
    SignalKind.RELAY: ("closed", "open"),
}
COMPARED = {Op.LT: "below", Op.LE: "at most", Op.GT: "above", Op.GE: "at least", Op.EQ: "", Op.NE: "not"}
OPPOSITE = {Op.LT: Op.GE, Op.LE: Op.GT, Op.GT: Op.LE, Op.GE: Op.LT, Op.EQ: Op.NE, Op.NE: Op.EQ}


@dataclass(frozen=True, slots=True)
class Teller:
    """Says the facts of one situation; `asked` is the name of the signal that they are facts about, `was` says them of
    a moment before, `brief` without a word about what never came on.
    """

    situation: Situation
    files: Mapping[str, str]
    asked: str = ""
    was: bool = False
    brief: bool = False

    def tell(self, fact: Fact, deep: bool = False) -> str:
        """The fact; what remembers with how it came to be so. `deep`: what hands and physics do, too, and no inputs,
        which are told further down.
        """
        leaf = fact.leaf
        if leaf == Signal(SignalKind.RELAY, self.asked):
            since = past(self.situation, leaf)
            return words.holds_itself(leaf.name, fact.value, "" if since.from_start else said(since.since))
        if isinstance(leaf, Signal):
            if leaf == POWERED:
                return words.power(fact.value, self.was)
            return words.fact(leaf.name, state(leaf, fact.value), "", self.was)
        if isinstance(leaf, Position | Compare):
            since = past(self.situation, leaf)
            details = words.from_then("" if since.from_start else said(since.since)) if deep else ""
            return self._hands(leaf, fact.value, details)
        return self._memory(leaf, fact.value, deep)

    def _hands(self, leaf: Position | Compare, value: bool, details: str) -> str:
        program = self.situation.program
        if isinstance(leaf, Position):
            switch = next(each for each in program.switches if each.name == leaf.name)
            (index,) = leaf.indices
            return words.fact(leaf.name, switch.positions[index], details, self.was)
        if leaf.sense and not value and leaf.name not in self.situation.values.numbers:
            return words.reads_nothing(leaf.name, self.was)
        return words.fact(leaf.name, self._compared(leaf, value), details, self.was)

    def _compared(self, leaf: Compare, value: bool) -> str:
        """ "above 400 rpm" """
        program = self.situation.program
        name = leaf.name
        for sense in program.box.senses if program.box else ():
            if isinstance(sense, NumberSense) and sense.name == leaf.name and leaf.sense:
                name = sense.number
        unit = next(number.unit for number in program.numbers if number.name == name)
        word = COMPARED[leaf.op if value else OPPOSITE[leaf.op]]
        return f"{word} {said_quantity(leaf.bound, unit)}".strip()

    def _memory(self, node: Node, value: bool, deep: bool) -> str:
        owner = owner_of(self.situation.program, node)
        state = "on" if value else "off"
        looked_at = filtered(node)
        if isinstance(looked_at, Compare):
            subject, state = words.through_filter(looked_at.name, False), self._compared(looked_at, value)
        elif looked_at is not None and owner.item is not None:
            subject = words.through_filter(owner.item.name, owner.item.name == self.asked)
        elif self._starts(node):
            subject, state = words.START_UP, words.OVER if value else words.NOT_OVER
        else:
            subject = self._called(node, owner)
        came = self._came(node, value, owner)
        if not deep:
            came = self._made(Fact(node, value, ()), came)
        elif came in (words.INPUT_ON, words.NO_INPUT):
            came = ""
        limits = self._limits(node) if came or not self.brief else ""
        return words.fact(subject, state, words.within(came, limits))

    def _limits(self, node: Node) -> str:
        """The values of two thresholds, where not both are written in their line."""
        if not isinstance(node, Bistable) or not _thresholds(node):
            return ""
        pair = [part.x if isinstance(part, Timer) else part for part in (node.set, node.reset)]
        up, down = (part for part in pair if isinstance(part, Compare))
        values = self._compared(up, True), self._compared(down, True)
        written = as_written(node, self.files)
        return "" if all(value in written for value in values) else words.until(*values)

    def _both(self, set_: Expr, reset: Expr) -> bool:
        """It is set and reset now."""
        return all(self.situation.values.holds(part) for part in (set_, reset))

    def _made(self, fact: Fact, came: str) -> str:
        """Of what is stored, also what set or reset it, where that is short."""
        stored = isinstance(fact.leaf, Impulse) or (isinstance(fact.leaf, Bistable) and not _thresholds(fact.leaf))
        found = made(self.situation, fact) if stored else None
        if found is None or found.reason is None or found.past.blank is not None or came == words.RESET_WINS:
            return came
        facts = found.reason.facts
        if not 0 < len(facts) <= SHORT or not all(isinstance(each.leaf, Signal | Position | Compare) for each in facts):
            return came
        was = found.at < self.situation.time
        then = Teller(Situation(self.situation.timeline, found.at), self.files, was=was)
        return words.made(came, [then.tell(each) for each in facts], was)

    def _called(self, node: Node, owner: Owner) -> str:
        """The name of the line that says nothing else, unless that is what is asked about; else what is written."""
        whole, item = owner.whole, owner.item
        all_of_it = isinstance(whole, Node) and whole.key == node.key
        if item is not None and all_of_it and item.name != self.asked:
            return item.name
        return _with_time(node, in_a_sentence(node, self.files))

    def _starts(self, node: Node) -> bool:
        """It is the start-up delay of the box."""
        box = self.situation.program.box
        return box is not None and box.startup is not None and box.startup.key == node.key

    def _came(self, node: Node, value: bool, owner: Owner) -> str:
        """How what remembers came to be so."""
        if reads(self.situation.played, node) != value:
            return ""  # it read so for an instant only
        so_far = past(self.situation, node)
        if self.brief and so_far.blank is not None and so_far.run is None:
            return ""
        since = said(so_far.since)
        if so_far.run is not None:
            return _running(node, value, so_far.run.start, so_far.run.left)
        if so_far.forgotten:
            return words.forgotten(since, owner.guard == POWERED)
        never = _since(so_far)
        match node:
            case Bistable(set=set_, reset=reset, set_wins=False) if never and self._both(set_, reset):
                return words.RESET_WINS
            case Timer(kind=TimerKind.FILTER):
                woke = so_far.blank in (Blank.WOKE, Blank.SUPPLIED)
                return never if woke else words.from_then("" if so_far.from_start else since)
            case Timer(kind=TimerKind.ON_DELAY) if value:
                return words.from_then(since) if self._starts(node) else words.at("its delay was over", since)
            case Timer(kind=TimerKind.ON_DELAY):
                return words.NO_INPUT
            case Timer(kind=TimerKind.OFF_DELAY) if value:
                return words.INPUT_ON
            case Timer():
                return words.never("started", never) if never else words.at("ended", since)
            case Blink():
                return words.NO_INPUT
            case Bistable() if _thresholds(node):
                return words.never("on", never) if never else words.from_then("" if so_far.from_start else since)
            case Bistable():
                return words.never("set", never) if never else words.at("set" if value else "reset", since)
            case Impulse():
                return words.never("turned", never) if never else words.at("reset" if so_far.reset else "turned", since)
            case Edge():
                return words.ONLY_AN_INSTANT
            case Previous():
                return ""
            case _:
                assert_never(node)


def _with_time(node: Node, written: str) -> str:
    """What is written; where its time is written as a name alone, with that time."""
    named = written.removesuffix(")").rsplit(",", 1)[-1].strip().isidentifier()
    if isinstance(node, Timer) and node.window.lo == node.window.hi and named:
        return words.called(written, said(node.window.lo))
    return written


def _thresholds(node: Bistable) -> bool:
    """Written as two thresholds, which say themselves what sets and resets."""
    return isinstance(node.set, Compare) or (is_filter(node.set) and isinstance(node.set.x, Compare))


def state(signal: Signal, value: bool) -> str:
    """How the signal reads, true or not."""
    return STATES.get(signal.kind, ("on", "off"))[not value]


def _running(node: Node, value: bool, start: Time, left: Time) -> str:
    if isinstance(node, Blink):
        return words.phase(value, said(start), said(left))
    if filtered(node) is not None:
        return words.lets_through(said(left))
    return words.runs(said(start), said(left))


def _since(so_far: Past) -> str:
    """Since when it could have come on and did not; nothing if that is not how it is."""
    if so_far.blank is None:
        return ""
    return so_far.blank.value if so_far.blank is Blank.START else f"{so_far.blank.value} at {said(so_far.since)}"
