"""Lines of the world, the harness and the controller as written; part of the tree as written."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base.span import Span
from logiccheck.lang.written_conditions import (
    Amount,
    Expr,
    Name,
    Quantity,
    Quoted,
    Window,
)


@dataclass(frozen=True, slots=True)
class Constant:
    name: Name
    value: Window
    span: Span


@dataclass(frozen=True, slots=True)
class Role:
    name: Name
    label: Quoted
    span: Span


@dataclass(frozen=True, slots=True)
class First:
    facts: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Switch:
    """A `contact` has no positions written."""

    name: Name
    label: Quoted | None
    positions: tuple[Name, ...]
    one_by_one: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Number:
    name: Name
    label: Quoted | None
    low: Quantity
    high: Quantity
    span: Span


# ---------------------------------------------------------------------------------------------------------- harness


@dataclass(frozen=True, slots=True)
class Source:
    name: Name
    label: Quoted | None
    condition: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Ground:
    name: Name
    label: Quoted | None
    condition: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Connection:
    """`otherwise`: closed while none of the connections before it is."""

    end: Name
    condition: Expr | None
    otherwise: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Wire:
    name: Name
    label: Quoted | None
    connections: tuple[Connection, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Join:
    left: Name
    right: Name
    condition: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Diode:
    anode: Name
    cathode: Name
    span: Span


@dataclass(frozen=True, slots=True)
class Relay:
    name: Name
    label: Quoted | None
    coil: Expr
    supply: Name | None
    span: Span


@dataclass(frozen=True, slots=True)
class Draw:
    """One part of what a load draws; `word` is "current", "inrush", "fuse" or "wire"; `second` its time or length."""

    word: str
    amount: Amount
    second: Amount | None
    span: Span


@dataclass(frozen=True, slots=True)
class Load:
    name: Name
    label: Quoted | None
    wire: Name
    draws: tuple[Draw, ...]
    span: Span


# ------------------------------------------------------------------------------------------------------- controller


@dataclass(frozen=True, slots=True)
class Filter:
    window: Window
    span: Span


@dataclass(frozen=True, slots=True)
class Substitute:
    """`value` is a bool for `on` and `off`."""

    value: bool | Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Sense:
    """`reading` is "live" or "grounded", or None if neither was written."""

    name: Name
    label: Quoted | None
    input: Name
    reading: str | None
    parts: tuple[Filter | Substitute, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Rule:
    name: Name
    label: Quoted | None
    expr: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class Fed:
    """`fed by wire`, or with `by` false `feeds wire`."""

    by: bool
    wire: Name
    span: Span


@dataclass(frozen=True, slots=True)
class Draws:
    parts: tuple[Draw, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Output:
    name: Name
    label: Quoted | None
    command: Expr
    parts: tuple[Fed | Draws, ...]
    span: Span
