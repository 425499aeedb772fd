"""Lines of the world, the harness and the controller, and what is accepted, as written."""

from __future__ import annotations

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.written_conditions import (
    Amount,
    Expr,
    Name,
    Quantity,
    Quoted,
    Window,
)


@frozen
class Constant:
    name: Name
    value: Window
    span: Span


@frozen
class Role:
    name: Name
    label: Quoted
    span: Span


@frozen
class First:
    facts: tuple[Expr, ...]
    span: Span


@frozen
class Switch:
    """A `contact` has no positions written."""

    name: Name
    label: Quoted | None
    positions: tuple[Name, ...]
    one_by_one: bool
    span: Span


@frozen
class Number:
    name: Name
    label: Quoted | None
    low: Quantity
    high: Quantity
    span: Span


# ---------------------------------------------------------------------------------------------------------- harness


@frozen
class Source:
    name: Name
    label: Quoted | None
    condition: Expr | None
    span: Span


@frozen
class Ground:
    name: Name
    label: Quoted | None
    condition: Expr | None
    span: Span


@frozen
class Connection:
    """`otherwise`: closed while none of the connections before it is."""

    end: Name
    condition: Expr | None
    otherwise: bool
    span: Span


@frozen
class Wire:
    name: Name
    label: Quoted | None
    parts: tuple[Connection | Draw | InEngineSpace, ...]
    span: Span

    @property
    def connections(self) -> tuple[Connection, ...]:
        return tuple(part for part in self.parts if isinstance(part, Connection))

    @property
    def draws(self) -> tuple[Draw | InEngineSpace, ...]:
        return tuple(part for part in self.parts if not isinstance(part, Connection))


@frozen
class Join:
    left: Name
    right: Name
    condition: Expr | None
    span: Span


@frozen
class Diode:
    anode: Name
    cathode: Name
    span: Span


@frozen
class Relay:
    name: Name
    label: Quoted | None
    coil: Expr
    supply: Name | None
    draws: Amount | None
    span: Span


@frozen
class Draw:
    """One part of what a load draws, or of how a wire lies; `word` is "current", "inrush", "fuse", "wire", "bundle" or
    "drop"; `second` its time or length."""

    word: str
    amount: Amount
    second: Amount | None
    span: Span


@frozen
class InEngineSpace:
    span: Span


@frozen
class Load:
    name: Name
    label: Quoted | None
    wire: Name
    draws: tuple[Draw | InEngineSpace, ...]
    span: Span


# ------------------------------------------------------------------------------------------------------- controller


@frozen
class Filter:
    window: Window
    span: Span


@frozen
class Substitute:
    """`value` is a bool for `on` and `off`."""

    value: bool | Amount
    span: Span


@frozen
class Sense:
    """`reading` is "live" or "grounded", or None if neither was written."""

    name: Name
    label: Quoted | None
    input: Name
    reading: str | None
    parts: tuple[Filter | Substitute, ...]
    span: Span


@frozen
class Rule:
    name: Name
    label: Quoted | None
    expr: Expr
    span: Span


@frozen
class Fed:
    """`fed by wire`, or with `by` false `feeds wire`."""

    by: bool
    wire: Name
    span: Span


@frozen
class Draws:
    parts: tuple[Draw | InEngineSpace, ...]
    span: Span


@frozen
class Output:
    name: Name
    label: Quoted | None
    command: Expr
    parts: tuple[Fed | Draws, ...]
    span: Span


@frozen
class BoxDraw:
    """What the box itself draws; `when` is the word behind it, `awake` or `asleep` if it is right."""

    amount: Amount
    when: Name
    span: Span


@frozen
class BoxDraws:
    parts: tuple[BoxDraw, ...]
    span: Span


# --------------------------------------------------------------------------------------------------------- accepted


@frozen
class Accepted:
    """`kind` of finding, or "requirement"; what it is `about`; the words `on` and `logic` as they stand."""

    kind: Name
    about: Name
    reason: Quoted
    by: Quoted
    on: Name
    logic: Name
    span: Span
