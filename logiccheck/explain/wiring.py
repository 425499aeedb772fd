"""How a wire comes to be live or grounded at an instant, or what keeps it from being so."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from logiccheck.base.span import NOWHERE, Span
from logiccheck.base.spread import spread
from logiccheck.lang.program import Const, Contact, Expr, Output, Program, Signal, SignalKind
from logiccheck.model.reaction import Values


@dataclass(frozen=True, slots=True)
class Joint:
    """A closed way over which the end `head` hangs on the end `tail`."""

    head: str
    tail: str
    span: Span


@dataclass(frozen=True, slots=True)
class Ways:
    """The places to mark in the harness, the conditions there, and the signals that stand behind them; of a wire that
    is dead, over which closed ways it hangs on others that are, the nearest first."""

    marked: tuple[Span, ...]
    conditions: tuple[Expr, ...]
    behind: tuple[Signal, ...]  # outputs, wires, and sources or grounds that are off
    joints: tuple[Joint, ...] = ()


def reached(program: Program, signal: Signal, values: Values) -> Ways:
    """The last steps of all ways by which it reaches this wire (signal LIVE or GROUNDED); the wire feeds none of them.

    Sources and grounds are not looked behind: they are on.
    """
    copper = _Copper(program, signal.kind, values)
    closed = [step for step in copper.steps if step.closed]
    past = [(step.tail, step.head) for step in closed if step.head not in (signal.name, *copper.ends)]
    here = spread(copper.origins() - {signal.name}, past)
    last = [step for step in closed if step.head == signal.name and step.tail in here]
    feeding = [output for output in copper.feeding({signal.name}) if copper.on(output)]
    marks = [step.mark for step in last] + [output.span for output in feeding]
    outputs = [Signal(SignalKind.OUTPUT, output.name) for output in feeding]
    wires = [Signal(signal.kind, step.tail) for step in last if step.tail not in copper.ends]
    return Ways(tuple(marks), _conditions(last), (*outputs, *_each_once(wires)))


def missed(program: Program, signal: Signal, values: Values) -> Ways:
    """What is open between this wire and what could reach it; where that is dead itself, it stands behind."""
    copper = _Copper(program, signal.kind, values)
    closed = [(step.head, step.tail) for step in copper.steps if step.closed and step.head not in copper.ends]
    joined = spread({signal.name}, closed)
    border = [
        step
        for step in copper.steps
        if not step.closed and step.head in joined and step.head not in copper.ends and step.tail not in joined
    ]
    open_ = [step for step in border if copper.is_on(step.tail)]
    outputs = [Signal(SignalKind.OUTPUT, output.name) for output in copper.feeding(joined)]
    behind = [copper.signal(end) for end in copper.ends if end in joined]
    if not open_:
        around = [(step.tail, step.head) for step in copper.steps if step.head not in (*joined, *copper.ends)]
        able = spread({*copper.ends, *copper.fed(on=False)}, around)
        open_ = [step for step in border if step.tail in able]
        behind += [copper.signal(step.tail) for step in open_]
    marks = tuple(step.mark for step in open_)
    return Ways(marks, _conditions(open_), (*outputs, *_each_once(behind)), tuple(_joints(copper, signal.name)))


def _joints(copper: _Copper, wire: str) -> Iterator[Joint]:
    """The closed ways over which this wire hangs on others, the nearest first."""
    met, waiting = {wire}, [wire]
    while waiting:
        head = waiting.pop(0)
        for step in copper.steps:
            if step.closed and step.head == head and step.tail not in met:
                met.add(step.tail)
                yield Joint(head, step.tail, step.span)
                if step.tail not in copper.ends:
                    waiting.append(step.tail)


@dataclass(frozen=True, slots=True)
class _Step:
    """Current passes from `tail` to `head` (a way that passes both ways is two steps)."""

    tail: str
    head: str
    closed: bool
    mark: Span
    condition: Expr | None
    span: Span


class _Copper:
    """The harness as seen by what is live, or by what is grounded, at one instant."""

    def __init__(self, program: Program, kind: SignalKind, values: Values) -> None:
        self.kind, self.values, self.forward = kind, values, kind is SignalKind.LIVE
        sources, grounds = [each.name for each in program.sources], [each.name for each in program.grounds]
        self.ends, others = (sources, set(grounds)) if self.forward else (grounds, set(sources))
        self.outputs = program.box.outputs if program.box and self.forward else ()
        self.steps = [step for step in self._steps(program) if not {step.tail, step.head} & others]

    def _steps(self, program: Program) -> Iterator[_Step]:
        for contact in program.contacts:
            closed, mark = self.values.holds(contact.condition), _mark(contact)
            for tail, head in ((contact.left, contact.right), (contact.right, contact.left)):
                yield _Step(tail, head, closed, mark, contact.condition, contact.span)
        for diode in program.diodes:
            tail, head = (diode.anode, diode.cathode) if self.forward else (diode.cathode, diode.anode)
            yield _Step(tail, head, True, diode.span, None, diode.span)

    def origins(self) -> set[str]:
        """Where it comes from: sources or grounds that are on, and wires that outputs feed."""
        return {name for name in self.ends if self.is_on(name)} | self.fed(on=True)

    def fed(self, on: bool) -> set[str]:
        """The wires that outputs feed; `on`: only those of outputs that are on."""
        return {output.feeds for output in self.outputs if output.feeds is not None and (self.on(output) or not on)}

    def feeding(self, wires: Iterable[str]) -> list[Output]:
        """The outputs that feed one of these wires."""
        return [output for output in self.outputs if output.feeds in set(wires)]

    def on(self, output: Output) -> bool:
        return (SignalKind.OUTPUT, output.name) in self.values.true

    def is_on(self, name: str) -> bool:
        return self.values.holds(self.signal(name))

    def signal(self, name: str) -> Signal:
        """The wire being so, or the condition of the source or ground."""
        if name not in self.ends:
            return Signal(self.kind, name)
        return Signal(SignalKind.SOURCE if self.forward else SignalKind.GROUND, name)


def _mark(contact: Contact) -> Span:
    """Where a contact is written: its condition, or all of it where that is written nowhere."""
    bare = isinstance(contact.condition, Const) or contact.condition.span == NOWHERE
    return contact.span if bare else contact.condition.span


def _conditions(steps: Iterable[_Step]) -> tuple[Expr, ...]:
    return tuple(step.condition for step in steps if step.condition is not None)


def _each_once(signals: Iterable[Signal]) -> tuple[Signal, ...]:
    return tuple(dict.fromkeys(signals))
