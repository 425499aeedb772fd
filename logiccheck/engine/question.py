"""What is asked of one program: its requirements and the built-in one, as literals of one system with all that is
given."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.frozen import frozen
from logiccheck.engine.cone import Cone, Reach
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.matters import WORLD, Matter, Names
from logiccheck.lang.program import And, Blink, Expr, Form, Guard, Never, Or, Requirement, Signal, SignalKind, Timer
from logiccheck.lang.walk import form_expressions, given_expressions, memory, subexpressions
from logiccheck.model.circuit.aig import FALSE, Lit
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.system import Line
from logiccheck.require.forms import Breach, Case, breach
from logiccheck.require.given import assume


@frozen
class Question:
    requirement: Requirement
    breach: Breach
    cases: tuple[Case, ...]
    builtin: bool
    bad: Lit  # broken at this moment, or overdue by it


class Questions:
    """All questions of a program, in the order written, the built-in one last; `reach` gives the cone of any literal.

    `settles`: false adds to what is given that every moment settles with the repeats at hand, so that a story found is
    a story, though a proof is none. `unasked`: the built-in one is left out because it is not among `only`.
    """

    def __init__(self, moment: Moment, settles: bool, only: frozenset[str] | None = None) -> None:
        self.moment = moment
        assume(moment)
        self.settles = settles
        known = list(_asked(moment))
        self.all = [self._question(r, builtin) for r, builtin in known if only is None or r.name in only]
        self.unasked = only is not None and any(builtin and r.name not in only for r, builtin in known)
        self.reach = Reach(moment.system)
        self.names = Names(moment.program)
        self._lines = {c.line for c in moment.system.constraints if c.line is not None}

    def ask_also(self, requirement: Requirement) -> int:
        """One more question, about the same program; its number in `all`."""
        known = len(self.moment.system.bits)
        self.all.append(self._question(requirement, builtin=False))
        if len(self.moment.system.bits) > known:  # it stores something of its own
            self.reach = Reach(self.moment.system)
        return len(self.all) - 1

    def _question(self, requirement: Requirement, builtin: bool) -> Question:
        b = breach(self.moment, requirement.name, requirement.form)
        cases = (*b.cases, *self._outputs(requirement.form))
        bad = self.moment.system.aig.either(b.now, b.overdue)
        return Question(requirement, b, cases, builtin, bad)

    def _outputs(self, form: Form) -> Iterator[Case]:
        """An output that a requirement names must be able to be on (for an instant, where instants count)."""
        instants = isinstance(form, Never) and form.instant
        reactions = self.moment.reactions if instants else [self.moment.settled]
        seen: set[str] = set()
        for part in form_expressions(form):
            for e in subexpressions(part):
                if isinstance(e, Signal) and e.kind is SignalKind.OUTPUT and e.name not in seen:
                    seen.add(e.name)
                    on = self.moment.system.aig.any_of(r.signals[e.kind, e.name] for r in reactions)
                    yield Case(e, on)

    def cone(self, question: Question, bad: Lit) -> Cone:
        """What a proof about this requirement needs to look at: of what is given only what touches it by name."""
        return self.reach.cone(bad, self.lines(self.matter(question)))

    def matter(self, question: Question) -> Matter:
        return self.names.matter(form_expressions(question.requirement.form))

    def lines(self, matter: Matter) -> set[Line]:
        """The lines of what is given that matter."""
        return {line for line in self._lines if self._belongs(line, matter)}

    def told(self, question: Question, whole: bool = False) -> Cone:
        """What counts in a story of this question: everything that can matter to it by name; where moments may fail to
        settle, only moments in which that (or the whole vehicle) settles."""
        asked, matter = form_expressions(question.requirement.form), self.matter(question)
        lines = self.lines(matter)
        holders = [*asked, *(e for item in matter.items for e in self.names.expressions(item))]
        holders += [e for i in matter.givens for e in given_expressions(self.moment.program.givens[i])]
        timers = {key for holder in holders for key in _timers(holder)}
        cone = self.reach.named_cone(question.bad, sorted(matter.names(WORLD)), timers, lines)
        if not self.settles:
            cone = self.reach.settling(cone, self.moment.changing, whole)
        cone.overdue = question.breach.overdue
        cone.arrange()
        return cone

    def about_unrest(self) -> frozenset[Line]:
        """The lines about what can go on changing in a moment: where something can, a story has to meet them, too."""
        unrest = self.moment.system.aig.any_of(self.moment.changing.values())
        return frozenset(self.reach.cone(unrest).lines)

    @staticmethod
    def _belongs(line: Line, matter: Matter) -> bool:
        if line.kind == "steps":
            return line.which in matter.names(WORLD)
        return line.which in (matter.at_first if line.kind == "at first" else matter.givens)


def _timers(expr: Expr) -> Iterator[str]:
    """The keys of all timers in an expression."""
    for node in memory(expr):
        if isinstance(node, Timer):
            yield node.key
        elif isinstance(node, Blink):
            yield f"{node.key}.on"
            yield f"{node.key}.off"


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
