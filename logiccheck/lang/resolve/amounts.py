"""Quantities as written become exact values: units bound, constants put in, durations in whole microseconds."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.base import limits
from logiccheck.base.suggest import near
from logiccheck.base.units import (
    OTHER_SPELLINGS,
    UNITS,
    Dimension,
    Quantity,
    Unit,
    quantity,
    show_number,
    units_of,
)
from logiccheck.lang import program as p
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.durations import NotAboveZero, ToleranceHere, TooFine, WideTolerance
from logiccheck.lang.mistakes.names import WrongKind
from logiccheck.lang.mistakes.quantities import (
    ConstantOfConstant,
    DividedByZero,
    EmptyRange,
    LongNumber,
    MissingUnit,
    UnknownUnit,
    WrongUnit,
)
from logiccheck.lang.mistakes.scenes import NegativeTime
from logiccheck.lang.resolve.scope import Kind, Scope


def unit(scope: Scope, number: w.Quantity, dimension: Dimension | None) -> Unit | None:
    """The unit written behind a number; `dimension` is what is wanted, if that is known."""
    wanted = units_of(dimension) if dimension else tuple(UNITS)
    if number.unit is None:
        shown = show_number(number.number) if number.number is not None else "0"
        scope.tell(MissingUnit(shown, wanted if dimension else ()), number.span)
        return None
    found = UNITS.get(number.unit)
    if found is None:
        meant = OTHER_SPELLINGS.get(number.unit)
        close = (meant,) if meant else near(number.unit, wanted)
        scope.tell(UnknownUnit(number.unit, close, wanted), number.span)
    return found


def plain(scope: Scope, number: w.Quantity, dimension: Dimension | None) -> Quantity | None:
    """A number with its unit, whatever it measures."""
    if number.digits > limits.DIGITS:
        scope.tell(LongNumber(number.digits, limits.DIGITS), number.span)
        return None
    if number.number is None:
        scope.tell(DividedByZero(), number.span)
        return None
    bound = unit(scope, number, dimension)
    return quantity(number.number, bound) if bound else None


def _constant(scope: Scope, name: w.Name) -> Quantity | p.Window | None:
    """What a name stands for where a quantity may stand."""
    entry = scope.find(name)
    if entry is None:
        return None
    if entry.kind is not Kind.CONSTANT:
        choice = tuple(scope.names([Kind.CONSTANT]))
        scope.tell(WrongKind(name.text, entry.kind.value, "a quantity or a constant", choice), name.span)
        return None
    return scope.constants.get(name.text)


def amount(scope: Scope, written: w.Amount, dimension: Dimension, subject: str) -> Quantity | None:
    """One exact quantity that measures `dimension`; `subject` is for the sentence "..., but `subject` is a time"."""
    if isinstance(written, w.Name):
        found = _constant(scope, written)
        if isinstance(found, p.Window):
            scope.tell(ToleranceHere(), written.span)
            return None
    else:
        found = plain(scope, written, dimension)
    if found is not None and found.dimension is not dimension:
        wrong = WrongUnit(found.dimension.value, dimension.value, subject, units_of(dimension))
        scope.tell(wrong, written.span)
        return None
    return found


def above_zero(scope: Scope, written: w.Amount, dimension: Dimension, what: str) -> Fraction | None:
    """One exact quantity above 0, in its base unit; `what` begins its sentence: "The current"."""
    found = amount(scope, written, dimension, what[0].lower() + what[1:])
    if found is not None and found.value <= 0:
        scope.tell(NotAboveZero(what), written.span)
        return None
    return found.value if found else None


def _micros(scope: Scope, time: Fraction, span_of: w.Window) -> int | None:
    if time.denominator != 1:
        scope.tell(TooFine(f"{show_number(time)} us"), span_of.span)
        return None
    return int(time)


def duration(scope: Scope, written: w.Amount) -> p.Micros | None:
    """One exact duration above 0, in microseconds."""
    found = above_zero(scope, written, Dimension.TIME, "A duration")
    return None if found is None else _micros(scope, found, written)


def window(scope: Scope, written: w.Window) -> p.Window | None:
    """A duration with or without tolerance."""
    match written:
        case w.Name():
            found = _constant(scope, written)
            if isinstance(found, p.Window):
                return found
            exact = duration(scope, written) if found else None
        case w.Quantity():
            exact = duration(scope, written)
        case w.Tolerance():
            return _tolerance(scope, written)
        case w.Between(low, high):
            return _between(scope, written, duration(scope, low), duration(scope, high))
    return None if exact is None else p.Window(exact, exact, exact)


def _tolerance(scope: Scope, written: w.Tolerance) -> p.Window | None:
    nominal = duration(scope, written.nominal)
    percent = isinstance(written.margin, w.Quantity) and written.margin.unit == "%"
    dimension = Dimension.RATIO if percent else Dimension.TIME
    margin = amount(scope, written.margin, dimension, "a tolerance here")
    if nominal is None or margin is None:
        return None
    width = nominal * margin.value / 100 if percent else margin.value
    if not 0 <= width < nominal:
        scope.tell(WideTolerance(), written.span)
        return None
    low = _micros(scope, nominal - width, written)
    return None if low is None else p.Window(low, nominal + int(width), nominal)


def _between(scope: Scope, written: w.Between, low: int | None, high: int | None) -> p.Window | None:
    if low is None or high is None:
        return None
    if low > high:
        scope.tell(EmptyRange(_shown(written.low), _shown(written.high)), written.span)
        return None
    return p.Window(low, high, (low + high) // 2)


def _shown(written: w.Amount) -> str:
    if isinstance(written, w.Name):
        return written.text
    return f"{show_number(written.number or 0)} {written.unit or ''}".strip()


def value(scope: Scope, written: w.Window) -> Quantity | p.Window | None:
    """What a constant stands for: any quantity, or a duration with tolerance."""
    if isinstance(written, w.Quantity):
        return plain(scope, written, None)
    if isinstance(written, w.Name):
        scope.tell(ConstantOfConstant(written.text), written.span)
        return None
    return window(scope, written)


def time_of_scenario(scope: Scope, written: w.Amount) -> Fraction | None:
    """A time from 0 on, in microseconds, as fine as one likes."""
    found = amount(scope, written, Dimension.TIME, "a time of a scenario")
    if found is not None and found.value < 0:
        scope.tell(NegativeTime(), written.span)
        return None
    return found.value if found else None
