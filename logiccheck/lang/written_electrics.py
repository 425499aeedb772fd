"""Lines of the block `electrics`, as written; part of the tree as written."""

from __future__ import annotations

from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.written_conditions import Amount, Expr, Name, Quoted


@frozen
class Setting:
    """`word` is "nominal", "ambient", "engine space" or "apart"."""

    word: str
    amount: Amount
    span: Span


@frozen
class Parked:
    condition: Expr
    span: Span


@frozen
class BatteryPart:
    """`word` is "capacity", "reserve", "cranks" or "loses"."""

    word: str
    amount: Amount
    span: Span


@frozen
class Battery:
    source: Name
    parts: tuple[BatteryPart, ...]
    span: Span


@frozen
class Dip:
    source: Name
    p: Expr
    time: Amount
    span: Span


@frozen
class TellTale:
    p: Expr
    label: Quoted | None
    r: Expr | None
    time: Amount
    span: Span


ElectricsItem: TypeAlias = Setting | Parked | Battery | Dip | TellTale
