"""A situation in which a proved requirement decides something: one thing read otherwise there would break it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget
from logiccheck.engine.verdict import Obstacle, Undecided, Verdict
from logiccheck.explain.alive import possible_alive
from logiccheck.explain.aside import Bindings, Binds, Bound
from logiccheck.explain.asking import Answer, Asking, Never, Open, Seen, known
from logiccheck.explain.freed import freed
from logiccheck.lang import program as p
from logiccheck.lang.program import And, Bistable, Const, Edge, Expr, Form, Not, Or, Program, Signal
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import form_expressions, references, subexpressions


def bindings(program: Program, proved: Sequence[Verdict], budget: Budget, progress: Callable[[str], None]) -> Bindings:
    """One for each requirement that was proved. A KeyboardInterrupt, or no memory, ends it. May raise BugMet."""
    search = _Search(program, proved, budget, progress)
    over = Undecided.INTERRUPTED
    interrupted = False
    try:
        search.run()
    except KeyboardInterrupt:
        interrupted = True
    except MemoryError:
        over = Undecided.MEMORY
    late = Open(over)
    left = [Bound(verdict, _binds(verdict.requirement.form), late) for verdict in proved[len(search.found) :]]
    return Bindings((*search.found, *left), interrupted, search.unsettled)


@dataclass(slots=True)
class _Search:
    program: Program
    proved: Sequence[Verdict]
    budget: Budget
    progress: Callable[[str], None]
    found: list[Bound] = field(default_factory=list)
    unsettled: Obstacle | None = None

    def run(self) -> None:
        if not self.proved:
            return
        self.progress("settling")
        everything = Or(tuple(e for verdict in self.proved for e in form_expressions(verdict.requirement.form)))
        asking = Asking(self.program, (everything,), self.budget, whole=True)
        at_will = Asking(freed(self.program), (everything,), self.budget, whole=True)
        self.unsettled = asking.unsettled
        for verdict in self.proved:
            self.progress(verdict.requirement.name)
            self.found.append(self._bound(verdict, asking, at_will))

    def _bound(self, verdict: Verdict, asking: Asking, at_will: Asking) -> Bound:
        form = verdict.requirement.form
        if verdict.story is not None:
            return Bound(verdict, Binds.HAPPENS, Seen(verdict.story))
        breaks = known(at_will.fails(form)) if self.program.box is not None else None
        free = None if breaks is None else not breaks
        answer: Answer = Never()
        for signal, condition in _conditions(form, verdict.requirement.name):
            if isinstance(form, p.NeverLonger):
                answer = possible_alive(asking, self.program, form.p, condition)
            else:
                answer = asking.possible(condition)
            if not isinstance(answer, Never):
                return Bound(verdict, _binds(form), answer, signal, free)
        return Bound(verdict, _binds(form), answer, None, free)


def _binds(form: Form) -> Binds:
    match form:
        case p.Never():
            return Binds.OTHERWISE
        case p.NeverLonger():
            return Binds.ENDS
        case p.CallsWithin():
            return Binds.FOLLOWS
        case p.CallsLasting():
            return Binds.LASTS
        case p.OnlyAfter():
            return Binds.BEGINS
        case p.WaitsFor():
            return Binds.WAITS
        case p.Possible():
            return Binds.HAPPENS


def _conditions(form: Form, name: str) -> Iterator[tuple[Signal | None, Expr]]:
    """What to look for, the first that is ever so; with the thing that would break it, read otherwise."""
    match form:
        case p.Never(p=x, r=r):
            breach = x if r is None else And((x, r))
            for signal in _named(breach):
                yield signal, _otherwise(breach, signal)
        case p.NeverLonger(p=x, r=r, time=time):
            held = x if r is None else And((x, r))
            yield None, held if _has_edge(held) else Edge(False, held, f"{name} ends")
            window = p.Window(time, time, time)
            for signal in _named(held) if not _has_edge(held) else ():
                lasting = p.Timer(
                    p.TimerKind.ON_DELAY, _otherwise(held, signal), window, f"{name}, {signal.name} so long"
                )
                yield signal, lasting
        case p.CallsWithin(p=x, q=q, r=r):
            excuse = Const(False) if r is None else r
            if not _has_edge(q):
                called = Bistable(x, excuse, False, False, f"{name} called")
                yield None, And((Edge(True, q, f"{name} follows"), called))
            yield None, And((x, q, Not(excuse)))
        case p.CallsLasting(p=x, q=q, r=r):
            yield None, And((x, q) if r is None else (x, q, Not(r)))
        case p.OnlyAfter(q=q):
            yield None, q
        case p.WaitsFor(q=q, r=r, p=x):
            since = Not(Bistable(r, Const(False), True, False, f"{name} come"))
            waits = since if x is None else And((Bistable(x, r, False, False, f"{name} waits"), Not(r)))
            yield None, And((Not(q), waits))
        case p.Possible(q=q):
            yield None, q


def _has_edge(expr: Expr) -> bool:
    """An edge of an edge means nothing."""
    return any(isinstance(node, Edge) for node in subexpressions(expr))


def _named(expr: Expr) -> Iterator[Signal]:
    """What copper and box decide and it names outside timers and stored states, each once, in the order written."""
    seen: set[Signal] = set()
    inside = {leaf for node in subexpressions(expr) if _remembers(node) for leaf in references(node)}
    for leaf in references(expr):
        if isinstance(leaf, Signal) and leaf not in seen | inside:
            seen.add(leaf)
            yield leaf


def _remembers(node: Expr) -> bool:
    return isinstance(node, p.Timer | p.Blink | p.Bistable | p.Impulse | p.Edge | p.Previous)


def _otherwise(expr: Expr, signal: Signal) -> Expr:
    """The expression, in which that one signal reads the other way."""
    return replace_leaves(expr, lambda leaf: Not(leaf) if leaf == signal else leaf)
