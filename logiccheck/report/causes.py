"""Why a signal is as it is at an instant: the terms of its own line that decide it, marked in the user's file.

A term decides when its opposite alone would turn the signal. Where no single term does (two alternatives both hold),
all terms that speak for the value are marked. A rule that decides is followed into its own line, a few lines deep.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import assert_never

from logiccheck.base.span import Span
from logiccheck.lang.program import (
    And,
    AtMostOne,
    CallsLasting,
    CallsWithin,
    Const,
    Expr,
    Form,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Or,
    Output,
    Possible,
    Program,
    Relay,
    Rule,
    Signal,
    SignalKind,
    WaitsFor,
    Xor,
)
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf, truth
from logiccheck.report import words_causes as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Cause

MOST = 4  # lines shown for one story


def blamed(form: Form) -> Expr | None:
    """The part of a requirement whose value at the end of its story is what went wrong; None where none is."""
    match form:
        case Never(p=p) | NeverLonger(p=p):
            return p
        case CallsWithin(q=q) | CallsLasting(q=q) | OnlyAfter(q=q) | WaitsFor(q=q):
            return q
        case Possible():
            return None
        case _:
            assert_never(form)


def causes(program: Program, form: Form, values: Values, files: Mapping[str, str]) -> tuple[Cause, ...]:
    """Why the blamed signals read as they do in `values`, the last of the story; at most `MOST`, the nearest first."""
    expr = blamed(form)
    if expr is None:
        return ()
    lines = _lines(program)
    waiting = [leaf for leaf in leaves(expr) if isinstance(leaf, Signal)]
    found: list[Cause] = []
    seen: set[str] = set()
    while waiting and len(found) < MOST:
        signal = waiting.pop(0)
        if signal.name in seen or signal.name not in lines:
            continue
        seen.add(signal.name)
        cause, deeper = _cause(lines[signal.name], signal, values, files)
        found.append(cause)
        waiting = [leaf for leaf in deeper if isinstance(leaf, Signal) and leaf.kind is SignalKind.RULE] + waiting
    return tuple(found)


def _lines(program: Program) -> dict[str, Rule | Output | Relay]:
    rules = program.box.rules if program.box else ()
    return {item.name: item for item in (*program.relays, *rules)}


def _cause(
    item: Rule | Output | Relay, signal: Signal, values: Values, files: Mapping[str, str]
) -> tuple[Cause, tuple[Leaf, ...]]:
    """The cause of one signal, and the terms that decide it."""
    on = values.holds(signal)
    if isinstance(item, Relay):
        if not on and item.supply is not None and not values.holds(item.supply):
            return Cause(words.without_supply(item.name), excerpt([item.supply.span], files)), ()
        return _terms(item.name, item.coil, values.holds(item.coil), values, files)
    if not on and (SignalKind.POWERED, "powered") not in values.true:
        return Cause(words.without_power(item.name), None), ()
    if isinstance(item, Output):
        if not on and signal.kind is SignalKind.OUTPUT and values.holds(Signal(SignalKind.COMMAND, item.name)):
            return Cause(words.without_feed(item.name, item.fed_by or ""), excerpt([item.span], files)), ()
        return _terms(item.name, item.command, on, values, files)
    return _terms(item.name, item.expr, on, values, files)


def _terms(name: str, expr: Expr, on: bool, values: Values, files: Mapping[str, str]) -> tuple[Cause, tuple[Leaf, ...]]:
    known = {leaf: values.holds(leaf) for leaf in leaves(expr)}
    deciding = pivots(expr, known)
    single = bool(deciding)
    deciding = deciding or tuple(speaking(expr, truth(expr, known.__getitem__), known))
    shown = excerpt(_spans(expr, deciding), files)
    return Cause(words.because(name, on, single, len(deciding)), shown), deciding


def leaves(expr: Expr) -> tuple[Leaf, ...]:
    """The terms of an expression, each once, in the order written; what remembers is one term."""
    return tuple(dict.fromkeys(_each_leaf(expr)))


def _each_leaf(expr: Expr) -> Iterator[Leaf]:
    match expr:
        case Const():
            return
        case Not(x=x):
            yield from _each_leaf(x)
        case And(parts=parts) | Or(parts=parts) | AtMostOne(parts=parts):
            for part in parts:
                yield from _each_leaf(part)
        case Xor(left=left, right=right):
            yield from _each_leaf(left)
            yield from _each_leaf(right)
        case _:
            yield expr


def pivots(expr: Expr, known: Mapping[Leaf, bool]) -> tuple[Leaf, ...]:
    """The terms each of which, were it the opposite and all others as they are, would turn the expression."""
    value = truth(expr, known.__getitem__)
    return tuple(leaf for leaf in known if _with_turned(expr, known, leaf) != value)


def _with_turned(expr: Expr, known: Mapping[Leaf, bool], turned: Leaf) -> bool:
    return truth(expr, lambda leaf: known[leaf] != (leaf == turned))


def speaking(expr: Expr, value: bool, known: Mapping[Leaf, bool]) -> Iterator[Leaf]:
    """The terms that speak for `expr` being `value`, where no single one decides."""
    match expr:
        case Const():
            return
        case Not(x=x):
            yield from speaking(x, not value, known)
        case And(parts=parts) | Or(parts=parts):
            for part in parts:
                if truth(part, known.__getitem__) == value:
                    yield from speaking(part, value, known)
        case AtMostOne() | Xor():
            yield from leaves(expr)
        case _:
            if known[expr] == value:
                yield expr


def _spans(expr: Expr, marked: Iterable[Leaf]) -> list[Span]:
    """Every place in `expr` at which one of the marked terms is written."""
    wanted = set(marked)
    return [leaf.span for leaf in _each_leaf(expr) if leaf in wanted]
