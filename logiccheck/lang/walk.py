"""Walks over the resolved program: the parts of an expression, the names it reads, the memory it holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TypeAlias, assert_never

from logiccheck.lang.program import (
    AfterLasting,
    And,
    AtMostOne,
    Bistable,
    Blink,
    Box,
    CallsLasting,
    CallsWithin,
    ChangesOnlyWhile,
    Compare,
    Const,
    Edge,
    Excluded,
    Expr,
    Form,
    Given,
    Impulse,
    LastsAtLeast,
    LastsAtMost,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Or,
    Output,
    Position,
    Possible,
    Previous,
    Program,
    Rule,
    Signal,
    Timer,
    WaitsFor,
    Window,
    WireSense,
    Xor,
)

Leaf: TypeAlias = Signal | Position | Compare
Memory: TypeAlias = Timer | Blink | Bistable | Impulse | Edge | Previous


def children(expr: Expr) -> tuple[Expr, ...]:
    """The operands of an expression, in the order written."""
    match expr:
        case Const() | Signal() | Position() | Compare():
            return ()
        case Not(x) | Timer(x=x) | Blink(x=x) | Edge(x=x) | Previous(x=x):
            return (x,)
        case And(parts) | Or(parts) | AtMostOne(parts):
            return parts
        case Xor(left, right):
            return (left, right)
        case Bistable(set=set_, reset=reset):
            return (set_, reset)
        case Impulse(x=x, reset=reset):
            return (x, reset)
    assert_never(expr)


def subexpressions(expr: Expr) -> Iterator[Expr]:
    """The expression and everything inside it: each before its operands, operands in the order written."""
    todo = [expr]
    while todo:
        node = todo.pop()
        yield node
        todo.extend(reversed(children(node)))


def references(expr: Expr) -> Iterator[Leaf]:
    """The signals, positions and comparisons an expression reads, in the order written, each as often as it stands."""
    return (node for node in subexpressions(expr) if isinstance(node, Leaf))


def memory(expr: Expr) -> Iterator[Memory]:
    """The parts of an expression that have a key, outermost first."""
    return (node for node in subexpressions(expr) if isinstance(node, Memory))


def given_expressions(given: Given) -> tuple[Expr, ...]:
    """The expressions of an assumption, in the order written."""
    match given:
        case Excluded(p=p) | LastsAtLeast(p=p) | LastsAtMost(p=p):
            return (p,)
        case ChangesOnlyWhile(y=y):
            return (y,)
        case AfterLasting(c=c, p=p):
            return (c, p)
    assert_never(given)


def form_expressions(form: Form) -> tuple[Expr, ...]:
    """The expressions of a requirement, in the order written; absent parts are left out."""
    parts: tuple[Expr | None, ...]
    match form:
        case Never(p=p, r=r) | NeverLonger(p=p, r=r):
            parts = (p, r)
        case CallsWithin(p=p, q=q, r=r) | CallsLasting(p=p, q=q, r=r):
            parts = (p, q, r)
        case OnlyAfter(q=q, p=p, r=r):
            parts = (q, p, r)
        case WaitsFor(q=q, r=r, p=after):
            parts = (q, r, after)
        case Possible(q=q):
            parts = (q,)
        case _:
            assert_never(form)
    return tuple(part for part in parts if part is not None)


def program_expressions(program: Program) -> Iterator[Expr]:
    """Every expression of the vehicle, and of what is given and required, that is not inside another, in a fixed order.

    What scenarios expect and what `electrics` reads is not among them: it only looks on, and changes neither a verdict
    nor a story.
    """
    yield from program.at_first
    yield from (source.condition for source in program.sources)
    yield from (ground.condition for ground in program.grounds)
    yield from (contact.condition for contact in program.contacts)
    for relay in program.relays:
        yield relay.coil
        if relay.supply is not None:
            yield relay.supply
    if program.box is not None:
        yield from _box_expressions(program.box)
    for given in program.givens:
        yield from given_expressions(given)
    for requirement in program.requirements:
        yield from form_expressions(requirement.form)


def electrics_expressions(program: Program) -> Iterator[Expr]:
    """What the block `electrics` reads: it only looks on, and changes nothing that the vehicle does."""
    around = program.electrics
    yield from [around.parked] if around.parked is not None else []
    yield from (dip.p for dip in around.dips)
    for tell_tale in around.tell_tales:
        yield from [tell_tale.p] if tell_tale.r is None else [tell_tale.p, tell_tale.r]


def scenario_expressions(program: Program) -> Iterator[Expr]:
    """What scenarios expect."""
    for scenario in program.scenarios:
        yield from (expectation.p for expectation in scenario.expectations)


def _box_expressions(box: Box) -> Iterator[Expr]:
    if box.startup is not None:
        yield box.startup
    for sense in box.senses:
        if isinstance(sense, WireSense) and sense.filter is not None:
            yield sense.filter
    for rule in box.rules:
        yield condition_of(rule)


def condition_of(rule: Rule | Output) -> Expr:
    """What the line says: the condition of a rule, the command of an output."""
    return rule.expr if isinstance(rule, Rule) else rule.command


def timer_windows(program: Program) -> dict[str, Window]:
    """Every timer of the program by its key, with the times its runs may last; those of scenarios, too."""
    return windows_of((*program_expressions(program), *scenario_expressions(program)))


def windows_of(exprs: Iterable[Expr]) -> dict[str, Window]:
    """Every timer in these expressions by its key, with the times its runs may last."""
    windows: dict[str, Window] = {}
    for expr in exprs:
        for node in memory(expr):
            if isinstance(node, Timer):
                windows[node.key] = node.window
            elif isinstance(node, Blink):
                windows[f"{node.key}.on"] = node.on
                windows[f"{node.key}.off"] = node.off
    return windows
