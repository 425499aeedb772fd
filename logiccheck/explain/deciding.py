"""Which terms of an expression decide it at an instant.

A term decides when its opposite alone would turn the expression; of several, those that changed last in the story are
taken. Where no single term decides (two alternatives both hold), all that speak for the value are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from logiccheck.lang.program import And, AtMostOne, Const, Expr, Not, Or, Xor
from logiccheck.model.reaction import Values
from logiccheck.model.truth import Leaf, truth


@dataclass(frozen=True, slots=True)
class Deciding:
    """`single`: each of the terms alone decides; else they do only together. None where the expression is constant."""

    terms: tuple[Leaf, ...]
    single: bool


def deciding(expr: Expr, story: Sequence[Values], latest: bool = True) -> Deciding:
    """What decides `expr` at the end of the story; raises LookupError for memory that is not of box or relays.

    `latest`: of single terms only those that changed last.
    """
    known = {leaf: story[-1].holds(leaf) for leaf in leaves(expr)}
    single = pivots(expr, known)
    if latest:
        single = _changed_last(single, story)
    return Deciding(single or tuple(speaking(expr, truth(expr, known.__getitem__), known)), bool(single))


def _changed_last(terms: tuple[Leaf, ...], story: Sequence[Values]) -> tuple[Leaf, ...]:
    """Those of the terms whose last change is the latest; all of them where none ever changed."""
    changed = {term: _last_change(term, story) for term in terms}
    return tuple(term for term in terms if changed[term] == max(changed.values()))


def _last_change(term: Leaf, story: Sequence[Values]) -> int:
    values = [each.holds(term) for each in story]
    return max((at for at in range(1, len(values)) if values[at] != values[at - 1]), default=0)


def leaves(expr: Expr) -> tuple[Leaf, ...]:
    """The terms of an expression, each once, in the order written; what remembers is one term."""
    return tuple(dict.fromkeys(each_leaf(expr)))


def each_leaf(expr: Expr) -> Iterator[Leaf]:
    """The terms of an expression, each as often as it is written."""
    match expr:
        case Const():
            return
        case Not(x=x):
            yield from each_leaf(x)
        case And(parts=parts) | Or(parts=parts) | AtMostOne(parts=parts):
            for part in parts:
                yield from each_leaf(part)
        case Xor(left=left, right=right):
            yield from each_leaf(left)
            yield from each_leaf(right)
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
