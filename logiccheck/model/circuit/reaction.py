"""One reaction as a circuit: copper, then the power of the box, then its senses, then its rules and outputs.

A relay's contact and an output's wire show what the reaction before left; everything else is of this reaction.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from logiccheck.lang.program import (
    Bistable,
    Blink,
    Compare,
    Edge,
    Expr,
    Impulse,
    NumberSense,
    Output,
    Position,
    Previous,
    Program,
    Relay,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    WireSense,
)
from logiccheck.logic.form import Form, form_of, lift
from logiccheck.model.circuit import memory
from logiccheck.model.circuit.aig import FALSE, TRUE, Lit
from logiccheck.model.circuit.filters import comparison_filters
from logiccheck.model.circuit.store import Store
from logiccheck.model.circuit.wires import contact_ways, spread

Values: TypeAlias = dict[tuple[SignalKind, str], Lit]


class Forms:
    """The boolean form of each expression of one program, made once."""

    def __init__(self, make: Callable[[Expr], Form] = form_of) -> None:
        self._make = make
        self._known: dict[int, tuple[Expr, Form]] = {}  # the expression is kept so that its id stays its own

    def of(self, expr: Expr) -> Form:
        known = self._known.get(id(expr))
        if known is None:
            known = self._known[id(expr)] = (expr, self._make(expr))
        return known[1]


class Evaluator:
    """Values of expressions in one reaction, in one domain (copper, one relay's coil, the box, or an observer).

    `signals` grows while the reaction goes on; `gate` is the power or supply of the domain; `first` is true where the
    value of an operand counts as its value before, too; `deferred` collects the operands of `previous` whose rules come
    later in the order.
    """

    def __init__(self, forms: Forms, store: Store, signals: Values, gate: Lit, program: Program, first: Lit = FALSE):
        self.forms, self.store, self.signals, self.gate, self.first = forms, store, signals, gate, first
        self.aig = store.system.aig
        self.numbers = {s.name: s.number for s in _number_senses(program)}
        self.deferred: list[Previous] | None = None

    def value(self, expr: Expr) -> Lit:
        return lift(self.forms.of(expr), self._place, self.aig)

    def _place(self, e: Expr) -> Lit:
        world = self.store.system.world
        match e:
            case Signal():
                return self.signals[e.kind, e.name]
            case Position():
                return world.position(e)
            case Compare():
                if not e.sense:
                    return world.compare(e.name, e)
                return self.aig.both(
                    world.compare(self.numbers[e.name], e), self.signals[SignalKind.POWERED, "powered"]
                )
            case Timer():
                return self._timer(e)
            case Blink():
                return memory.blink(e, self.value(e.x), self.store, self.gate)
            case Bistable():
                return memory.bistable(e, self.value(e.set), self.value(e.reset), self.store, self.gate)
            case Impulse():
                return memory.impulse(e, self.value(e.x), self.value(e.reset), self.store, self.gate, self.first)
            case Edge():
                return memory.edge(e, self.value(e.x), self.store, self.gate, self.first)
            case Previous():
                return self._previous(e)
            case _:
                raise AssertionError(type(e))

    def _timer(self, e: Timer) -> Lit:
        """A filtered comparison is a signal of the box, known before anything names it."""
        known = self.signals.get((SignalKind.SENSE, e.key)) if e.kind is TimerKind.FILTER else None
        if known is not None:
            return known
        return memory.timer(e, self.value(e.x), self.store, self.gate, self.first)

    def _previous(self, e: Previous) -> Lit:
        if self.deferred is not None:
            self.deferred.append(e)
            return memory.previous(e, self.store, self.gate)
        x = self.value(e.x)
        value = self.aig.choose(self.first, x, memory.previous(e, self.store, self.gate))
        memory.remember(e, x, self.store, self.gate)
        return value

    def finish(self) -> None:
        """Evaluates the operands of `previous` (which may hold further ones) once all signals are known."""
        while self.deferred:
            e = self.deferred.pop()
            memory.remember(e, self.value(e.x), self.store, self.gate)


def _number_senses(program: Program) -> list[NumberSense]:
    return [s for s in program.box.senses if isinstance(s, NumberSense)] if program.box else []


class Reaction:
    """All signal values of one reaction, in `signals`; what it leaves behind is in `store`."""

    def __init__(self, program: Program, forms: Forms, store: Store) -> None:
        self.program, self.forms, self.store = program, forms, store
        self.aig = store.system.aig
        self.signals: Values = {}
        self.outputs = program.box.outputs if program.box is not None else ()
        self.true_before = {o.name: store.read(f"{o.name}.true") for o in self.outputs}
        self._copper()
        for relay in program.relays:
            self._coil(relay)
        self._power()
        if program.box is not None:
            self._box()
        for output in self.outputs:
            self.store.write(f"{output.name}.true", self.signals[SignalKind.OUTPUT, output.name])

    def _evaluator(self, gate: Lit) -> Evaluator:
        return Evaluator(self.forms, self.store, self.signals, gate, self.program)

    def _copper(self) -> None:
        program, aig, signals = self.program, self.aig, self.signals
        for relay in program.relays:
            signals[SignalKind.RELAY, relay.name] = self.store.read(f"{relay.name}.coil")
        copper = self._evaluator(TRUE)
        for source in program.sources:
            signals[SignalKind.SOURCE, source.name] = copper.value(source.condition)
        for ground in program.grounds:
            signals[SignalKind.GROUND, ground.name] = copper.value(ground.condition)
        closed = {i: copper.value(contact.condition) for i, contact in enumerate(program.contacts)}
        wires = [w.name for w in program.wires]
        live = {s.name: signals[SignalKind.SOURCE, s.name] for s in program.sources}
        for output in self.outputs:
            if output.feeds is not None:
                live[output.feeds] = aig.either(live.get(output.feeds, FALSE), self.true_before[output.name])
        ground_seeds = {g.name: signals[SignalKind.GROUND, g.name] for g in program.grounds}
        for name, lit in spread(aig, wires, contact_ways(program, closed, True), live).items():
            signals[SignalKind.LIVE, name] = lit
        for name, lit in spread(aig, wires, contact_ways(program, closed, False), ground_seeds).items():
            signals[SignalKind.GROUNDED, name] = lit

    def _coil(self, relay: Relay) -> None:
        supply = TRUE if relay.supply is None else self._evaluator(TRUE).value(relay.supply)
        coil = Evaluator(self.forms, self.store, self._seen_from_copper(), supply, self.program)
        self.store.write(f"{relay.name}.coil", self.aig.both(supply, coil.value(relay.coil)))

    def _seen_from_copper(self) -> Values:
        """A coil that names an output sees it as it was in the reaction before."""
        return self.signals | {(SignalKind.OUTPUT, name): lit for name, lit in self.true_before.items()}

    def _power(self) -> None:
        box = self.program.box
        powered = FALSE
        if box is not None:
            powered = self.feed()
            if box.startup is not None:
                powered = self._evaluator(TRUE).value(box.startup)
        self.signals[SignalKind.POWERED, "powered"] = powered

    def feed(self) -> Lit:
        """Whether the wire (or source) that powers the box is live."""
        assert self.program.box is not None
        name = self.program.box.feed
        live = self.signals.get((SignalKind.LIVE, name))
        return live if live is not None else self.signals[SignalKind.SOURCE, name]

    def _box(self) -> None:
        box, aig, signals = self.program.box, self.aig, self.signals
        assert box is not None
        powered = signals[SignalKind.POWERED, "powered"]
        inside = self._evaluator(powered)
        inside.deferred = []
        for sense in box.senses:
            if isinstance(sense, WireSense):
                kind = SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE
                raw = inside.value(sense.filter) if sense.filter is not None else self._end(kind, sense.wire)
                signals[SignalKind.SENSE, sense.name] = aig.both(powered, raw)
        for key, filter_ in comparison_filters(self.program).items():
            signals[SignalKind.SENSE, key] = inside.value(filter_)
        for rule in box.rules:
            if isinstance(rule, Output):
                command = aig.both(powered, inside.value(rule.command))
                fed = TRUE if rule.fed_by is None else self._end(SignalKind.LIVE, rule.fed_by)
                signals[SignalKind.COMMAND, rule.name] = command
                signals[SignalKind.OUTPUT, rule.name] = aig.both(command, fed)
            else:
                signals[SignalKind.RULE, rule.name] = aig.both(powered, inside.value(rule.expr))
        inside.finish()

    def _end(self, kind: SignalKind, name: str) -> Lit:
        """A wire, source or ground, by the name that a sense or an output gives."""
        for k in (kind, SignalKind.SOURCE if kind is SignalKind.LIVE else SignalKind.GROUND):
            if (k, name) in self.signals:
                return self.signals[k, name]
        return FALSE
