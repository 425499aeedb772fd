"""Reasons by brute force: every consistent situation, every set of facts, evaluated from the resolved program.

Shares nothing with the search but the resolved program and the values of one reaction.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations, pairwise, product

from logiccheck.lang.program import (
    And,
    AtMostOne,
    Compare,
    Const,
    Expr,
    Not,
    NumberSense,
    Op,
    Or,
    Position,
    Program,
    Rule,
    Signal,
    SignalKind,
    WireSense,
    Xor,
)

MOST = 6_000  # situations looked at

Name = tuple[str, ...]  # of a boolean fact
Reads = Callable[[Expr], bool]
K = SignalKind


class TooMany(Exception):
    """More situations than a test has time for."""


@dataclass
class Guess:
    """One situation: the boolean facts that are true, positions and numbers. What is asked for first is noted."""

    true: frozenset[Name] = frozenset()
    world: dict[str, int | Fraction] = field(default_factory=dict)
    asked: dict[Name, Expr] = field(default_factory=dict)  # in the order in which they came up
    needs: dict[Name, Name] = field(default_factory=dict)  # what is off without what


class Meaning:
    """What the signals of a program are, written down once more."""

    def __init__(self, program: Program, copper: bool, supply: Expr | None) -> None:
        self.program, self.copper = program, copper
        self.supply = supply
        self.rules = {rule.name: rule for rule in (program.box.rules if program.box else ())}
        self.source_names = {source.name for source in program.sources}
        self.ground_names = {ground.name for ground in program.grounds}

    def fact(self, guess: Guess, expr: Expr, needs: Name | None = None) -> bool:
        if isinstance(expr, Signal) and (value := fixed(self.program, expr)) is not None:
            return value
        name = (expr.kind.value, expr.name) if isinstance(expr, Signal) else ("memory", expr.key)  # type: ignore[union-attr]
        guess.asked.setdefault(name, expr)
        if needs is not None:
            guess.needs[name] = needs
        return name in guess.true

    def value(self, guess: Guess, expr: Expr, needs: Name | None = None) -> bool:
        """All parts are looked at, also where one would do: each may be a fact."""
        match expr:
            case Const(value=value):
                return value
            case Not(x=x):
                return not self.value(guess, x, needs)
            case And(parts=parts):
                values = [self.value(guess, part, needs) for part in parts]
                return all(values)
            case Or(parts=parts):
                values = [self.value(guess, part, needs) for part in parts]
                return any(values)
            case AtMostOne(parts=parts):
                return sum([self.value(guess, part, needs) for part in parts]) <= 1
            case Xor(left=left, right=right):
                return self.value(guess, left, needs) != self.value(guess, right, needs)
            case Position(name=name, indices=indices):
                guess.asked.setdefault(("switch", name), expr)
                return guess.world.get(name) in indices
            case Compare():
                return self.compare(guess, expr)
            case Signal():
                return self.signal(guess, expr, needs)
            case _:
                return self.fact(guess, expr, needs)

    def compare(self, guess: Guess, expr: Compare) -> bool:
        guess.asked.setdefault(("compare", expr.name, expr.op.value, str(expr.bound)), expr)
        number = expr.name
        if expr.sense:
            assert self.program.box is not None
            number = next(s.number for s in self.program.box.senses if isinstance(s, NumberSense) and s.name == number)
            if not self.fact(guess, Signal(K.POWERED, "powered")):
                return False
        value, bound = guess.world.get(number, Fraction(0)), expr.bound
        match expr.op:
            case Op.LT:
                return value < bound
            case Op.LE:
                return value <= bound
            case Op.GT:
                return value > bound
            case Op.GE:
                return value >= bound
            case Op.EQ:
                return value == bound
            case Op.NE:
                return value != bound

    def signal(self, guess: Guess, signal: Signal, needs: Name | None) -> bool:
        if signal == self.supply:
            return self.fact(guess, signal)
        match signal.kind:
            case K.RULE | K.COMMAND:
                return self.asked(guess, signal)
            case K.SENSE:
                return self.fact(guess, signal, ("powered", "powered"))
            case K.LIVE | K.GROUNDED | K.SOURCE | K.GROUND if self.copper:
                return self.asked(guess, signal)
            case _:
                return self.fact(guess, signal)

    def asked(self, guess: Guess, signal: Signal) -> bool:
        """The value of a signal that is looked into."""
        power, power_name = Signal(K.POWERED, "powered"), ("powered", "powered")
        box = self.program.box
        match signal.kind:
            case K.SOURCE:
                return self.value(guess, next(s.condition for s in self.program.sources if s.name == signal.name))
            case K.GROUND:
                return self.value(guess, next(g.condition for g in self.program.grounds if g.name == signal.name))
            case K.LIVE | K.GROUNDED:
                return signal.name in self.reached(guess, signal)
            case K.RELAY:
                relay = next(r for r in self.program.relays if r.name == signal.name)
                if relay.supply is None:
                    return self.value(guess, relay.coil)
                name = (relay.supply.kind.value, relay.supply.name) if isinstance(relay.supply, Signal) else None
                return self.value(guess, relay.coil, name) & self.value(guess, relay.supply)
            case K.POWERED:
                assert box is not None
                fed = self.value(guess, self.end(box.feed))
                if box.startup is None:
                    return fed
                return self.fact(guess, box.startup, ("fed",)) & fed
            case K.SENSE:
                assert box is not None
                sense = next(s for s in box.senses if s.name == signal.name)
                assert isinstance(sense, WireSense)
                wire = Signal(K.GROUNDED, sense.wire) if sense.grounded else self.end(sense.wire)
                if sense.filter is not None:
                    return self.fact(guess, sense.filter, power_name) & self.fact(guess, power)
                return self.value(guess, wire) & self.fact(guess, power)
            case _:
                rule = self.rules[signal.name]
                if isinstance(rule, Rule):
                    return self.value(guess, rule.expr, power_name) & self.fact(guess, power)
                on = self.value(guess, rule.command, power_name) & self.fact(guess, power)
                if signal.kind is K.OUTPUT and rule.fed_by is not None:
                    on &= self.fact(guess, self.end(rule.fed_by))
                return on

    def end(self, name: str) -> Signal:
        return Signal(K.SOURCE if name in self.source_names else K.LIVE, name)

    def reached(self, guess: Guess, wire: Signal) -> set[str]:
        """All ends that it reaches, spread from every origin; what can never come to this wire is not looked at."""
        program, live = self.program, wire.kind is K.LIVE
        ends = self.source_names if live else self.ground_names
        others = self.ground_names if live else self.source_names
        joints = [(c.left, c.right, c.condition) for c in program.contacts]
        joints += [(c.right, c.left, c.condition) for c in program.contacts]
        diodes = [(d.anode, d.cathode) if live else (d.cathode, d.anode) for d in program.diodes]
        ways: list[tuple[str, str, Expr]] = joints + [(a, b, Const(True)) for a, b in diodes]
        outputs = program.box.outputs if program.box and live else ()
        closed = self.supply.name if isinstance(self.supply, Signal) and self.supply.kind is wire.kind else ""
        near, ways = {wire.name}, [w for w in ways if w[1] not in ends and w[1] != closed and not {w[0], w[1]} & others]
        while more := {tail for tail, head, _ in ways if head in near} - near:
            near |= more
        known = {each for each in ends & near if self.value(guess, Signal(K.SOURCE if live else K.GROUND, each))}
        if closed in near and self.fact(guess, Signal(wire.kind, closed)):
            known.add(closed)
        fed = [(o.feeds, self.fact(guess, Signal(K.OUTPUT, o.name))) for o in outputs if o.feeds in near - {closed}]
        known |= {name for name, on in fed if on and name}
        open_ways = [(t, h, self.value(guess, condition)) for t, h, condition in ways if h in near]
        while more := {head for tail, head, on in open_ways if on and tail in known} - known:
            known |= more
        return known


def situations(program: Program, meaning: Meaning, on: Callable[[Guess], bool]) -> Iterator[Guess]:
    """Every consistent situation of what the signal hangs on."""
    first = Guess()
    on(first)
    names = [name for name in first.asked if name[0] not in ("switch", "compare")]
    switches = {name[1] for name in first.asked if name[0] == "switch"}
    compared = [e for e in first.asked.values() if isinstance(e, Compare)]
    senses = program.box.senses if program.box else ()
    sensed = {s.name: s.number for s in senses if isinstance(s, NumberSense)}
    numbers = {sensed[e.name] if e.sense else e.name for e in compared}
    axes: list[list[int | Fraction]] = []
    for switch in program.switches:
        axes.append(list(range(len(switch.positions))) if switch.name in switches else [0])
    for number in program.numbers:
        marks = sorted({number.low, number.high, *(b for b in number.bounds if number.low <= b <= number.high)})
        between: list[int | Fraction] = [*marks, *((a + b) / 2 for a, b in pairwise(marks))]
        axes.append(between if number.name in numbers else [number.low])
    size = 2 ** len(names)
    for axis in axes:
        size *= len(axis)
    if size > MOST:
        raise TooMany
    world_names = [*(each.name for each in program.switches), *(each.name for each in program.numbers)]
    for bits in product([False, True], repeat=len(names)):
        true = frozenset(name for name, bit in zip(names, bits, strict=True) if bit)
        for values in product(*axes):
            guess = Guess(true, dict(zip(world_names, values, strict=True)))
            on(guess)
            if all(self_needs(program, meaning, guess, need) for name, need in guess.needs.items() if name in true):
                yield guess


def self_needs(program: Program, meaning: Meaning, guess: Guess, need: Name) -> bool:
    if need == ("fed",):
        assert program.box is not None
        return meaning.value(Guess(guess.true, guess.world), meaning.end(program.box.feed))
    return need in guess.true or meaning_of_supply(meaning, guess, need)


def meaning_of_supply(meaning: Meaning, guess: Guess, need: Name) -> bool:
    """A supply that is no fact of its own."""
    if need == ("powered", "powered"):
        return fixed(meaning.program, Signal(K.POWERED, "powered")) is True
    if need in guess.asked or meaning.supply is None:
        return False
    return meaning.value(Guess(guess.true, guess.world), meaning.supply)


KNOWN: dict[tuple[int, Name], tuple[Program, bool | None]] = {}  # with the program, so that its id stays its own


def fixed(program: Program, signal: Signal) -> bool | None:
    """What power, a sense, or a signal of copper reads in every situation; None where it can be either, or is something
    else."""
    if signal.kind not in (K.LIVE, K.GROUNDED, K.SOURCE, K.GROUND, K.POWERED, K.SENSE):
        return None
    key = id(program), (signal.kind.value, signal.name)
    if key not in KNOWN:
        meaning = Meaning(program, True, None)

        def on(guess: Guess) -> bool:
            return meaning.asked(guess, signal)

        reads = {on(guess) for guess in situations(program, meaning, on)}
        KNOWN[key] = program, reads.pop() if len(reads) == 1 else None
    return KNOWN[key][1]


def fewest(differences: list[frozenset[Name]], facts: list[Name]) -> tuple[int, int]:
    """How many facts a reason has at least, and how many reasons have so many: sets that meet every difference."""
    for size in range(len(facts) + 1):
        count = sum(all(each & set(chosen) for each in differences) for chosen in combinations(facts, size))
        if count:
            return size, count
    raise AssertionError("all facts together are a reason")
