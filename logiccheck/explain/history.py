"""Since when a fact has been as it is, and how it came to be so, in a played vehicle."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.frozen import frozen
from logiccheck.explain.inside import POWERED
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Expr,
    Impulse,
    Output,
    Previous,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    Timer,
    WireSense,
)
from logiccheck.lang.walk import condition_of
from logiccheck.model.memory import Time
from logiccheck.model.reaction import Values
from logiccheck.model.timeline import Played
from logiccheck.model.truth import Leaf, Node, is_filter, subexpressions


@frozen
class Run:
    """A timer runs since `start` and falls due in `left`."""

    start: Time
    left: Time


class Blank(Enum):
    """Since when what remembers could have come on, and never did."""

    START = "so far"
    WOKE = "since the box woke"
    SUPPLIED = "since its supply came"


@frozen
class Past:
    """A fact has been so since the moment at `since`; `from_start`: at every moment so far.

    `run`: its timer runs. `blank`: it is off and was never on in the time that it remembers, which began at `since`.
    `forgotten`: it went off at `since` because power or supply was away, if only for an instant. `reset`: an impulse
    relay that was not turned off then, but reset.
    """

    since: Time
    from_start: bool
    run: Run | None = None
    blank: Blank | None = None
    forgotten: bool = False
    reset: bool = False


@frozen
class Owner:
    """Whose line a node is written in, and what it needs to remember anything (None: nothing)."""

    item: Rule | Output | Relay | WireSense | None
    guard: Expr | None

    @property
    def whole(self) -> Expr | None:
        """All that the line says; a node that is all of it can be called by the name of the line."""
        match self.item:
            case Rule(expr=expr):
                return expr
            case WireSense(filter=filter_):
                return filter_
            case _:
                return None


def owner_of(program: Program, node: Node) -> Owner:
    """The line that holds a node of the box or of a relay; the filter of a number sense stands in many lines."""
    for relay in program.relays:
        if _holds(relay.coil, node):
            return Owner(relay, relay.supply)
    for rule in program.box.rules if program.box else ():
        if _holds(condition_of(rule), node):
            return Owner(rule, POWERED)
    for sense in program.box.senses if program.box else ():
        if isinstance(sense, WireSense) and sense.filter is not None and sense.filter.key == node.key:
            return Owner(sense, POWERED)
    return Owner(None, POWERED if filtered(node) is not None else None)


def _holds(expr: Expr, node: Node) -> bool:
    return any(isinstance(part, Node) and part.key == node.key for part in subexpressions(expr))


def past(situation: Situation, leaf: Leaf) -> Past:
    """How long the fact has been as it is."""
    moments = situation.timeline.settled[: situation.at + 1]
    value, at = reads(moments[-1], leaf), situation.at
    while at and not _passes(moments[at], leaf, not value) and reads(moments[at - 1], leaf) == value:
        at -= 1
    since, from_start = moments[at].time, at == 0
    if not isinstance(leaf, Node):
        return Past(since, from_start)
    run = run_of(situation, leaf)
    owner = owner_of(situation.program, leaf)
    guard = owner.guard
    if value:
        return Past(since, from_start, run)
    if isinstance(leaf, Previous) and latches(leaf, owner) and not from_start and _lost(moments[at], guard):
        return Past(since, from_start, run, forgotten=True)
    able = _able_since(moments, guard)
    if at < able or (at == able and not _passes(moments[at], leaf, True)):
        which = Blank.START if able == 0 else Blank.WOKE if guard == POWERED else Blank.SUPPLIED
        return Past(moments[able].time, from_start, run, which)
    if _lost(moments[at], guard):
        return Past(since, from_start, run, forgotten=True)
    return Past(since, from_start, run, reset=isinstance(leaf, Impulse) and _was_reset(moments[at], leaf))


def reads(played: Played, leaf: Leaf) -> bool:
    """The settled value; of what is retained, what is kept also while the box sleeps."""
    if isinstance(leaf, Bistable | Impulse) and leaf.retained:
        return leaf.key in played.moment.memory.bits
    return played.moment.settled.holds(leaf)


def _passes(played: Played, leaf: Leaf, value: bool) -> bool:
    """It reads this in some reaction of the moment, if only for an instant."""
    if isinstance(leaf, Bistable | Impulse) and leaf.retained:
        return any((leaf.key in reaction.memory.bits) == value for reaction in played.moment.reactions)
    return any(reaction.holds(leaf) == value for reaction in played.moment.reactions)


def stored(played: Played, node: Bistable | Impulse, bit: bool) -> int | None:
    """The number of the first reaction of the moment after which the bit of the node stays as it is then."""
    found = None
    for number, reaction in reversed(tuple(enumerate(played.moment.reactions))):
        if (node.key in reaction.memory.bits) != bit:
            break
        found = number
    return found


def began(situation: Situation, leaf: Leaf, number: int | None = None) -> int:
    """The first of the reactions without a break in which a fact reads as in this one; no number: as it settled."""
    reactions = situation.played.moment.reactions
    first = len(reactions) - 1 if number is None else number
    value = reactions[first].holds(leaf)
    while first and reactions[first - 1].holds(leaf) == value:
        first -= 1
    return first


def fed_values(situation: Situation, number: int) -> Values:
    """What copper sees in a reaction of the moment: its values, but of outputs those that feed, from the one before."""
    reactions, at = situation.played.moment.reactions, situation.at
    values = reactions[number].values
    fed: frozenset[str] = frozenset()
    if number:
        fed = reactions[number - 1].memory.outputs
    elif at:
        fed = situation.timeline.settled[at - 1].moment.memory.outputs
    true = {each for each in values.true if each[0] is not SignalKind.OUTPUT}
    true |= {(SignalKind.OUTPUT, name) for name in fed}
    return Values(values.world, values.known, true, values.nodes, values.numbers)


def ran(situation: Situation, node: Timer) -> Time | None:
    """When the run of a delay began that is over now; None: it did not run."""
    settled, at = situation.timeline.settled, situation.at
    while at and node.key in settled[at].moment.memory.bits:
        at -= 1
        clocks = dict(settled[at].moment.memory.clocks)
        if node.key in clocks:
            return settled[at].time - clocks[node.key]
    return None


def latches(node: Previous, owner: Owner) -> bool:
    """It is what its own line was before."""
    return owner.item is not None and isinstance(node.x, Signal) and node.x.name == owner.item.name


def _was_reset(played: Played, node: Impulse) -> bool:
    """It went off at this moment while it was reset, which wins."""
    off = stored(played, node, False)
    return off is not None and played.moment.reactions[off].holds(node.reset)


def _able_since(moments: tuple[Played, ...], guard: Expr | None) -> int:
    """The moment since which power or supply has been there without a break."""
    at = len(moments) - 1
    while at and guard is not None and moments[at - 1].moment.settled.holds(guard) and not _lost(moments[at], guard):
        at -= 1
    return 0 if guard is None else at


def _lost(played: Played, guard: Expr | None) -> bool:
    """Power or supply was away in a reaction of this moment."""
    return guard is not None and not all(reaction.holds(guard) for reaction in played.moment.reactions)


def run_of(situation: Situation, node: Node) -> Run | None:
    """The timer of the node, or the one of its phases, that runs."""
    keys = (node.key + ".on", node.key + ".off") if isinstance(node, Blink) else (node.key,)
    clocks = dict(situation.played.moment.memory.clocks)
    for key in keys:
        if key in clocks:
            start = situation.played.time - clocks[key]
            whole = situation.timeline.durations.get((key, start), _nominal(node, key))
            return Run(start, start + whole - situation.time)
    return None


def _nominal(node: Node, key: str) -> Time:
    match node:
        case Timer(window=window):
            return window.nominal
        case Blink(on=on, off=off):
            return on.nominal if key.endswith(".on") else off.nominal
        case _:
            raise AssertionError(f"{key} keeps no time")


def filtered(leaf: Leaf) -> Expr | None:
    """What a filter looks at; None for anything else."""
    return leaf.x if isinstance(leaf, Timer) and is_filter(leaf) else None
