"""Why a signal is as it is at an instant: the terms of its own line that decide it, marked in the user's file.

A term decides when its opposite alone would turn the signal; of several, those that changed last in the story are
marked. Where no single term decides (two alternatives both hold), all that speak for the value are marked. Rules,
relays and outputs that decide are followed into their own lines, a few lines deep.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeAlias, assert_never

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
    Wire,
    Xor,
)
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf, truth
from logiccheck.report import words_causes as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Cause

MOST = 4  # lines shown for one story
FOLLOWED = {SignalKind.RULE, SignalKind.RELAY, SignalKind.OUTPUT}  # terms whose own line is shown as well


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


def causes(program: Program, form: Form, story: Sequence[Values], files: Mapping[str, str]) -> tuple[Cause, ...]:
    """Why the blamed signals read as they do at the end of the story; at most `MOST`, the nearest first."""
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
        cause, deciding = _cause(program, lines[signal.name], signal, story, files)
        found += [cause] if cause is not None else []
        waiting = [leaf for leaf in deciding if isinstance(leaf, Signal) and leaf.kind in FOLLOWED] + waiting
    return tuple(found)


Item: TypeAlias = Rule | Output | Relay | Wire
Found: TypeAlias = tuple[Cause | None, tuple[Leaf, ...]]  # the cause, and the terms that decide


def _lines(program: Program) -> dict[str, Item]:
    rules = program.box.rules if program.box else ()
    return {item.name: item for item in (*program.wires, *program.relays, *rules)}


def _cause(program: Program, item: Item, signal: Signal, story: Sequence[Values], files: Mapping[str, str]) -> Found:
    values = story[-1]
    match item:
        case Wire(name=name):
            return _wire(program, name, values, files) if signal.kind is SignalKind.LIVE else (None, ())
        case Relay(name=name, coil=coil, supply=supply):
            if supply is not None and not values.holds(supply):
                return Cause(words.without_supply(name), excerpt([supply.span], files)), ()
            return _terms(name, coil, values.holds(coil), story, files)
        case Rule() | Output():
            return _conclusion(item, signal, story, files)
        case _:
            assert_never(item)


def _conclusion(item: Rule | Output, signal: Signal, story: Sequence[Values], files: Mapping[str, str]) -> Found:
    values = story[-1]
    on = values.holds(signal)
    if not on and (SignalKind.POWERED, "powered") not in values.true:
        return Cause(words.without_power(item.name), None), ()
    if isinstance(item, Rule):
        return _terms(item.name, item.expr, on, story, files)
    if not on and signal.kind is SignalKind.OUTPUT and values.holds(Signal(SignalKind.COMMAND, item.name)):
        return Cause(words.without_feed(item.name, item.fed_by or ""), excerpt([item.span], files)), ()
    return _terms(item.name, item.command, on, story, files)


def _wire(program: Program, name: str, values: Values, files: Mapping[str, str]) -> Found:
    """What makes a wire live: closed contacts, diodes and outputs with something live behind them; or what is open."""
    live = values.live(name)
    spans: list[Span] = []
    deciding: list[Leaf] = []
    for contact in program.contacts:
        other = contact.right if contact.left == name else contact.left
        if name in (contact.left, contact.right) and values.live(other) and values.holds(contact.condition) == live:
            spans.append(contact.span if isinstance(contact.condition, Const) else contact.condition.span)
            deciding += leaves(contact.condition)
    spans += [diode.span for diode in program.diodes if live and diode.cathode == name and values.live(diode.anode)]
    for output in program.box.outputs if program.box and live else ():
        if output.feeds == name and (SignalKind.OUTPUT, output.name) in values.true:
            spans.append(output.span)
            deciding.append(Signal(SignalKind.OUTPUT, output.name))
    shown = excerpt(spans, files)
    return (Cause(words.wire(name, live), shown) if shown is not None else None), tuple(deciding)


def _terms(name: str, expr: Expr, on: bool, story: Sequence[Values], files: Mapping[str, str]) -> Found:
    known = {leaf: story[-1].holds(leaf) for leaf in leaves(expr)}
    deciding = _changed_last(pivots(expr, known), story)
    single = bool(deciding)
    deciding = deciding or tuple(speaking(expr, truth(expr, known.__getitem__), known))
    shown = excerpt(_spans(expr, deciding), files)
    return Cause(words.because(name, on, single, len(deciding)), shown), deciding


def _changed_last(terms: tuple[Leaf, ...], story: Sequence[Values]) -> tuple[Leaf, ...]:
    """Those of the terms whose last change is the latest; all of them where none ever changed."""
    changed = {term: _last_change(term, story) for term in terms}
    return tuple(term for term in terms if changed[term] == max(changed.values()))


def _last_change(term: Leaf, story: Sequence[Values]) -> int:
    values = [each.holds(term) for each in story]
    return max((at for at in range(1, len(values)) if values[at] != values[at - 1]), default=0)


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
