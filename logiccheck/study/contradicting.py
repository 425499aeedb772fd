"""Conditions that contradict themselves, whatever the vehicle is: all that their parts may be is tried."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from itertools import pairwise, product
from math import prod
from typing import TypeAlias

from logiccheck.lang.program import And, AtMostOne, Compare, Const, Expr, Not, Or, Position, Program, Signal, Xor
from logiccheck.lang.walk import children
from logiccheck.model.truth import Leaf, compare, truth

MOST_TRIED = 4096  # combinations of what the parts may be; of more it is not said

Value: TypeAlias = bool | int | Fraction
Values: TypeAlias = Mapping[Hashable, Value]  # by what the leaves hang on


def cannot_be(program: Program, condition: Expr) -> bool:
    """Nothing that its parts may be makes it true: a switch has one position, a number one value, the rest is on or
    off. False where something does, and where it would be too much to try. Two that remember are two."""
    leaves = [*_leaves(condition)]
    ranges = {_about(leaf): _range(program, leaf, leaves) for leaf in leaves}
    if prod(map(len, ranges.values())) > MOST_TRIED:
        return False
    tried = (dict(zip(ranges, values, strict=True)) for values in product(*ranges.values()))
    return not any(truth(condition, partial(_value, values)) for values in tried)


def _leaves(expr: Expr) -> Iterator[Expr]:
    if isinstance(expr, Not | And | Or | Xor | AtMostOne):
        for child in children(expr):
            yield from _leaves(child)
    elif not isinstance(expr, Const):
        yield expr


def _about(leaf: Expr) -> Hashable:
    """What its value hangs on alone. A number sense reads false for every comparison while the box sleeps, so each of
    its comparisons is a thing of its own; so is whatever remembers."""
    match leaf:
        case Signal(kind=kind, name=name):
            return kind, name
        case Position(name=name) | Compare(name=name, sense=False):
            return "world", name
        case Compare(name=name, op=op, bound=bound):
            return "sense", name, op, bound
        case _:
            return "memory", id(leaf)


def _range(program: Program, leaf: Expr, leaves: Sequence[Expr]) -> Sequence[Value]:
    """All that this may be: each position; a number at, between and beyond the bounds that are named; on and off."""
    match leaf:
        case Position(name=name):
            return next(range(len(each.positions)) for each in program.switches if each.name == name)
        case Compare(name=name, sense=False):
            same = (each for each in leaves if isinstance(each, Compare) and _about(each) == _about(leaf))
            bounds = sorted({each.bound for each in same})
            return (*bounds, *((low + high) / 2 for low, high in pairwise(bounds)), bounds[0] - 1, bounds[-1] + 1)
        case _:
            return False, True


def _value(values: Values, leaf: Leaf) -> bool:
    value = values[_about(leaf)]
    match leaf:
        case Position(indices=indices):
            return value in indices
        case Compare(op=op, bound=bound, sense=False):
            return compare(value, op, bound)
        case _:
            return bool(value)
