"""What is asked of one program: its requirements and the built-in one, as literals of one system with all that is
given."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logiccheck.engine.cone import Cone, Reach
from logiccheck.lang.program import And, Expr, Form, Guard, Never, Or, Requirement, Signal, SignalKind
from logiccheck.lang.walk import subexpressions
from logiccheck.model.circuit.aig import FALSE, Lit
from logiccheck.model.circuit.moment import Moment
from logiccheck.require.forms import Breach, Case, breach
from logiccheck.require.given import assume

SHORT_CIRCUIT = "no_short_circuit"


@dataclass(frozen=True, slots=True)
class Question:
    requirement: Requirement
    breach: Breach
    cases: tuple[Case, ...]
    builtin: bool
    bad: Lit  # broken at this moment, or overdue by it


class Questions:
    """All questions of a program, in the order written, the built-in one last; `reach` gives the cone of any literal.

    `settles`: false adds to what is given that every moment settles with the repeats at hand, so that a story found is
    a story, though a proof is none.
    """

    def __init__(self, moment: Moment, settles: bool, only: frozenset[str] | None = None) -> None:
        self.moment = moment
        assume(moment)
        if not settles:
            moment.system.constrain(moment.unsettled ^ 1, "")
        self.all = [self._question(r, builtin) for r, builtin in _asked(moment) if only is None or r.name in only]
        self.reach = Reach(moment.system)

    def _question(self, requirement: Requirement, builtin: bool) -> Question:
        b = breach(self.moment, requirement.name, requirement.form)
        cases = (*b.cases, *self._outputs(requirement.form))
        bad = self.moment.system.aig.either(b.now, b.overdue)
        return Question(requirement, b, cases, builtin, bad)

    def _outputs(self, form: Form) -> Iterator[Case]:
        """An output that a requirement names must be able to be on."""
        seen: set[str] = set()
        for part in _parts(form):
            for e in subexpressions(part):
                if isinstance(e, Signal) and e.kind is SignalKind.OUTPUT and e.name not in seen:
                    seen.add(e.name)
                    yield Case(e, self.moment.settled.signals[e.kind, e.name])

    def cone(self, bad: Lit) -> Cone:
        return self.reach.cone(bad)


def _parts(form: Form) -> list[Expr]:
    fields = (getattr(form, name, None) for name in ("p", "q", "r"))
    return [x for x in fields if x is not None]


def _asked(moment: Moment) -> Iterator[tuple[Requirement, bool]]:
    for requirement in moment.program.requirements:
        yield requirement, False
    short = _short_circuit(moment)
    if short is not None:
        yield short, True


def _short_circuit(moment: Moment) -> Requirement | None:
    """`never a wire both live and grounded`, of the wires for which copper does not rule it out at first sight."""
    signals, aig = moment.settled.signals, moment.system.aig
    shorts = []
    for wire in moment.program.wires:
        live, grounded = (SignalKind.LIVE, wire.name), (SignalKind.GROUNDED, wire.name)
        if aig.both(signals[live], signals[grounded]) != FALSE:
            shorts.append(And((Signal(*live, wire.span), Signal(*grounded, wire.span)), wire.span))
    if not shorts:
        return None
    form = Never(Or(tuple(shorts)), None, always=False, instant=False)
    text = "never a wire both live and grounded"
    return Requirement(SHORT_CIRCUIT, "Short circuit", Guard.DANGER, form, text)
