"""What the box remembers, watched from inside: rules that note for good what was so in any reaction, even in passing.

What is asked from outside sees settled moments only, and cannot tell a timer that ran out from one that was cleared
with the power of the box. These rules stand in the box, after all others; nothing reads them, so that it does what it
did.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.explain.surveyed.lifted import Lifted
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Box,
    Const,
    Edge,
    Expr,
    Impulse,
    Not,
    Output,
    Previous,
    Program,
    Rule,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
)
from logiccheck.lang.walk import Memory, condition_of, memory
from logiccheck.model.truth import is_filter

NEVER = Const(False)


class Note(Enum):
    """What is noted of something that the box remembers, in any reaction in which the box has power; it stays noted.

    All but the last survive loss of power.
    """

    WAS_ON = "was on"  # its value
    WAS_FED = "was fed"  # what it looks at
    WENT_OFF = "went off"  # it was off again, having been on since the box woke; of one that is retained: ever
    FELL = "fell"  # what it looks at was off again likewise
    WAITED = "waited"  # it was off although what it looks at was on
    SINCE_WAKING = "on since waking"  # its value, and power loss clears the note


@frozen
class Watched:
    """Something that the rule or output `item` remembers.

    `node` is as written; `value` is true when it is, and `inside` what it looks at (of a bistable what sets it, and
    `reset`), all as conditions on `Probed.program`; they read false, or what `not` makes of it, while the box sleeps.
    """

    node: Memory
    item: Rule | Output
    value: Signal
    inside: Expr
    reset: Expr

    def noted(self, note: Note) -> Signal:
        """The signal of `Probed.program` that tells it; only for what is noted of this kind."""
        assert note in notes_of(self.node)
        return Signal(SignalKind.RULE, _name(self.node, note.value))


@frozen
class Probed:
    """`program` does what the vehicle does; `watched` by key all that the box remembers and that has a name there."""

    program: Program
    watched: dict[str, Watched]

    @property
    def lines(self) -> dict[str, Expr]:
        """What each rule and output of the program says, by its name."""
        box = self.program.box
        return {} if box is None else {rule.name: condition_of(rule) for rule in box.rules}


def probed(program: Program, named: Lifted) -> Probed:
    """The vehicle `program`, of which `named` has the names, with a watch on each thing that its box remembers."""
    if program.box is None or named.program.box is None:
        return Probed(named.program, {})
    lifted_as = {rule.name: condition_of(rule) for rule in named.program.box.rules}
    watch = _Watch()
    for item, node in remembered(program.box):
        value = named.named.get(node.key)
        if value is not None:
            watch.on(node, item, value, lifted_as[value.name])
    box = replace(named.program.box, rules=(*named.program.box.rules, *watch.rules))
    return Probed(replace(named.program, box=box), watch.watched)


def remembered(box: Box) -> Iterator[tuple[Rule | Output, Memory]]:
    """All that rules and outputs remember, filters and what `previous` looks at left out, outermost first."""
    for item in box.rules:
        hidden = {
            inner.key for node in memory(condition_of(item)) if isinstance(node, Previous) for inner in memory(node.x)
        }
        for node in memory(condition_of(item)):
            if not is_filter(node) and node.key not in hidden:
                yield item, node


def notes_of(node: Memory) -> frozenset[Note]:
    """What is noted of this kind."""
    match node:
        case Timer(kind=TimerKind.ON_DELAY):
            return frozenset({Note.WAS_ON, Note.WAS_FED})
        case Timer(kind=TimerKind.OFF_DELAY):
            return frozenset({Note.WAS_FED, Note.FELL, Note.WENT_OFF})
        case Timer() | Impulse():
            return frozenset({Note.WAS_ON, Note.WAS_FED, Note.WENT_OFF, Note.SINCE_WAKING})
        case Blink():
            return frozenset({Note.WAS_ON, Note.WAS_FED, Note.WAITED})
        case Bistable():
            return frozenset({Note.WAS_ON, Note.WAS_FED, Note.WENT_OFF})
        case Edge(rising=rising):
            return frozenset({Note.SINCE_WAKING} if rising else {Note.WAS_FED, Note.FELL})
        case Previous():
            return frozenset()


@dataclass(slots=True)
class _Watch:
    rules: list[Rule] = field(default_factory=list)
    watched: dict[str, Watched] = field(default_factory=dict)

    def on(self, node: Memory, item: Rule | Output, value: Signal, lifted: Expr) -> None:
        inside, reset = _operands(lifted)
        self.watched[node.key] = Watched(node, item, value, inside, reset)
        for note in sorted(notes_of(node), key=lambda each: each.value):
            self._keeps(node, note.value, self._noted(note, node, value, inside), note is not Note.SINCE_WAKING)

    def _noted(self, note: Note, node: Memory, value: Signal, inside: Expr) -> Expr:
        match note:
            case Note.WAS_ON | Note.SINCE_WAKING:
                return value
            case Note.WAS_FED:
                return inside
            case Note.WENT_OFF:
                retained = isinstance(node, Bistable | Impulse) and node.retained
                return And((self._keeps(node, "has been on", value, retained), Not(value)))
            case Note.FELL:
                return And((self._keeps(node, "has been fed", inside, False), Not(inside)))
            case Note.WAITED:
                return And((inside, Not(value)))

    def _keeps(self, node: Memory, what: str, condition: Expr, retained: bool) -> Signal:
        """A signal that is on from the reaction on in which the condition first is so."""
        name = _name(node, what)
        self.rules.append(Rule(name, "", Bistable(condition, NEVER, False, retained, name)))
        return Signal(SignalKind.RULE, name)


def _name(node: Memory, what: str) -> str:
    return f"{node.key}, {what}"


def _operands(node: Expr) -> tuple[Expr, Expr]:
    match node:
        case Bistable(set=first, reset=reset) | Impulse(x=first, reset=reset):
            return first, reset
        case Timer(x=x) | Blink(x=x) | Edge(x=x) | Previous(x=x):
            return x, NEVER
        case _:
            raise AssertionError(f"nothing is remembered by {node}")


def kind_of(node: Memory) -> str:
    """What it is called."""
    match node:
        case Timer(kind=kind):
            return {
                TimerKind.ON_DELAY: "on-delay",
                TimerKind.OFF_DELAY: "off-delay",
                TimerKind.ONE_SHOT: "one-shot",
            }.get(kind, "filter")
        case Blink():
            return "blinker"
        case Bistable():
            return "bistable"
        case Impulse():
            return "impulse relay"
        case Edge(rising=rising):
            return "`rises`" if rising else "`falls`"
        case Previous():
            return "`previous`"


def is_timer(node: Memory, kind: TimerKind) -> bool:
    """Whether it is a timer of this kind."""
    return isinstance(node, Timer) and node.kind is kind
