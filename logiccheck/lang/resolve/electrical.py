"""What a load draws and what protects it."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.base.units import Dimension, Quantity, show_number, units_of
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.durations import NotAboveZero
from logiccheck.lang.mistakes.parts import SaidTwice
from logiccheck.lang.resolve.amounts import above_zero, amount, duration
from logiccheck.lang.resolve.scope import Kind, Scope


def electrical(scope: Scope, draws: tuple[w.Draw, ...]) -> p.Electrical:
    """The data of a load; a part said twice is told."""
    parts: dict[str, w.Draw] = {}
    for draw in draws:
        if draw.word in parts:
            scope.tell(SaidTwice(draw.word), draw.span)
        parts[draw.word] = draw
    inrush, run = parts.get("inrush"), parts.get("wire")
    return p.Electrical(
        current=_current(scope, parts.get("current"), "The current"),
        inrush=_current(scope, inrush, "The inrush current"),
        inrush_time=duration(scope, inrush.second) if inrush and inrush.second else None,
        fuse=_current(scope, parts.get("fuse"), "The fuse rating"),
        wire_size=_size(scope, run.amount) if run else None,
        wire_length=above_zero(scope, run.second, Dimension.LENGTH, "The wire length") if run and run.second else None,
    )


def _current(scope: Scope, draw: w.Draw | None, what: str) -> Fraction | None:
    return above_zero(scope, draw.amount, Dimension.CURRENT, what) if draw else None


def _size(scope: Scope, written: w.Amount) -> str | None:
    """A cross-section in mm2 or a gauge number, as text: "1.5 mm2", "14 AWG"."""
    gauge = _is_gauge(scope, written)
    size = amount(scope, written, Dimension.GAUGE if gauge else Dimension.SECTION, "a wire size")
    if size is None:
        return None
    if size.value <= 0 and not gauge:
        scope.tell(NotAboveZero("The wire size"), written.span)
        return None
    return f"{show_number(size.value)} {size.unit.name}"


def _is_gauge(scope: Scope, written: w.Amount) -> bool:
    if isinstance(written, w.Quantity):
        return written.unit in units_of(Dimension.GAUGE)
    entry = scope.declared.get(written.text)
    constant = scope.constants.get(written.text) if entry and entry.kind is Kind.CONSTANT else None
    return isinstance(constant, Quantity) and constant.dimension is Dimension.GAUGE
