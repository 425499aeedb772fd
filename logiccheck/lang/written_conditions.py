"""Conditions as written: names, quantities, and what is made of them; part of the tree as written."""

from __future__ import annotations

from fractions import Fraction
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span


@frozen
class Name:
    """A word where a name stands; not necessarily a name that exists."""

    text: str
    span: Span


@frozen
class Quoted:
    """What stands between quotes; the span includes the quotes."""

    text: str
    span: Span


@frozen
class Quantity:
    """A number and the unit behind it, if one was written."""

    number: Fraction | None  # None: divided by zero
    digits: int  # how many digits the longest of its numbers has
    unit: str | None
    span: Span


Amount: TypeAlias = Quantity | Name


@frozen
class Tolerance:
    """`nominal +- margin`, the margin a percentage or a quantity of the same kind."""

    nominal: Amount
    margin: Amount
    span: Span


@frozen
class Between:
    """`from low to high`"""

    low: Amount
    high: Amount
    span: Span


Window: TypeAlias = Quantity | Name | Tolerance | Between

# ----------------------------------------------------------------------------------------------------- expressions


@frozen
class Bare:
    name: Name
    span: Span


@frozen
class Truth:
    value: bool
    span: Span


@frozen
class Is:
    name: Name
    value: Amount
    negated: bool
    span: Span


@frozen
class In:
    name: Name
    values: tuple[Amount, ...]
    span: Span


@frozen
class Becomes:
    name: Name
    value: Amount
    span: Span


@frozen
class Held:
    """`name above amount`; `word` is one of "above", "below", "at least", "at most"."""

    name: Name
    word: str
    amount: Amount
    span: Span


@frozen
class Thresholds:
    """`name above begin until below end`, or with `rising` false `name below begin until above end`."""

    name: Name
    rising: bool
    begin: Amount
    end: Amount
    until: Span  # what stands behind `until`
    span: Span


@frozen
class Negation:
    x: Expr
    span: Span


@frozen
class Chain:
    """Two or more parts (of "xor" two) joined by the same `word`: "and", "or", "xor", or "at most one"."""

    word: str
    parts: tuple[Expr, ...]
    span: Span


@frozen
class Timed:
    """`word` is "on_delay", "off_delay" or "one_shot"."""

    word: str
    x: Expr
    window: Window
    span: Span


@frozen
class Blink:
    x: Expr
    on: Window
    off: Window
    span: Span


@frozen
class Reset:
    x: Expr
    span: Span


@frozen
class Option:
    """`word` is "set wins", "reset wins" or "retained"."""

    word: str
    span: Span


@frozen
class Stored:
    """`word` is "bistable" (x sets it) or "impulse_relay" (x turns it over)."""

    word: str
    x: Expr
    parts: tuple[Reset | Option, ...]
    span: Span


@frozen
class Edge:
    rising: bool
    x: Expr
    span: Span


@frozen
class Previous:
    x: Expr
    span: Span


Expr: TypeAlias = (
    Bare | Truth | Is | In | Becomes | Held | Thresholds | Negation | Chain | Timed | Blink | Stored | Edge | Previous
)
