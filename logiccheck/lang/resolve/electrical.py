"""What a load draws, what protects it, and how its wire, or a wire of the harness, lies."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.base.units import Dimension, Quantity, show_number, units_of
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.durations import NotAboveZero
from logiccheck.lang.mistakes.electrics import BundleCount, CurrentOfWire, InrushBelow, OutsidePercent
from logiccheck.lang.mistakes.parts import SaidTwice
from logiccheck.lang.resolve.amounts import above_zero, amount, duration
from logiccheck.lang.resolve.scope import Kind, Scope

ENGINE_SPACE = "in engine space"


def electrical(scope: Scope, draws: tuple[w.Draw | w.InEngineSpace, ...]) -> p.Electrical:
    """The data of a load; a part said twice is told."""
    parts: dict[str, w.Draw | w.InEngineSpace] = {}
    for draw in draws:
        word = draw.word if isinstance(draw, w.Draw) else ENGINE_SPACE
        if word in parts:
            scope.tell(SaidTwice(word), draw.span, parts[word].span)
        parts.setdefault(word, draw)
    said = {word: part for word, part in parts.items() if isinstance(part, w.Draw)}
    inrush, run, lost = said.get("inrush"), said.get("wire"), said.get("drop")
    data = p.Electrical(
        current=_current(scope, said.get("current"), "The current"),
        inrush=_current(scope, inrush, "The inrush current"),
        inrush_time=duration(scope, inrush.second) if inrush and inrush.second else None,
        fuse=_current(scope, said.get("fuse"), "The fuse rating"),
        wire_size=_size(scope, run.amount) if run else None,
        wire_length=above_zero(scope, run.second, Dimension.LENGTH, "The wire length") if run and run.second else None,
        bundle=_count(scope, said["bundle"].amount) if "bundle" in said else None,
        engine_space=ENGINE_SPACE in parts,
        drop=percent(scope, lost.amount, "the voltage drop") if lost else None,
    )
    if inrush and data.inrush is not None and data.current is not None and data.inrush < data.current:
        shown = (f"{show_number(data.inrush)} A", f"{show_number(data.current)} A")
        scope.tell(InrushBelow(*shown), inrush.amount.span, said["current"].span)
    return data


def laid(scope: Scope, wire: w.Wire) -> p.Electrical:
    """How a wire of the harness lies and what protects it; that it draws a current is told."""
    for draw in wire.draws:
        if isinstance(draw, w.Draw) and draw.word in ("current", "inrush"):
            scope.tell(CurrentOfWire(wire.name.text), draw.span)
    kept = tuple(d for d in wire.draws if not (isinstance(d, w.Draw) and d.word in ("current", "inrush")))
    return electrical(scope, kept)


def percent(scope: Scope, written: w.Amount, what: str) -> Fraction | None:
    """A percentage from 0 to 100; `what` is its subject in a sentence."""
    found = amount(scope, written, Dimension.RATIO, what)
    if found is not None and not 0 <= found.value <= 100:
        scope.tell(OutsidePercent(f"{show_number(found.value)} %", what), written.span)
        return None
    return found.value if found else None


def current(scope: Scope, written: w.Amount, what: str) -> Fraction | None:
    """A current above 0, in A; `what` begins its sentence."""
    return above_zero(scope, written, Dimension.CURRENT, what)


def _current(scope: Scope, draw: w.Draw | None, what: str) -> Fraction | None:
    return current(scope, draw.amount, what) if draw else None


def _count(scope: Scope, written: w.Amount) -> int | None:
    """The conductors of a bundle: a bare whole number."""
    number = written.number if isinstance(written, w.Quantity) and written.unit is None else None
    if number is None or number.denominator != 1 or not 1 <= number <= MOST_IN_BUNDLE:
        scope.tell(BundleCount(MOST_IN_BUNDLE), written.span)
        return None
    return int(number)


MOST_IN_BUNDLE = 1000


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
