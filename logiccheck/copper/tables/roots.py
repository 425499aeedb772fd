"""Roots and broken powers of exact numbers, as close as wanted and on the side that is wanted."""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

PLACES = 12  # decimal places to which a root is reckoned
PI = Fraction("3.14159265358979323846")


def root(value: Fraction, degree: int, places: int = PLACES, up: bool = False) -> Fraction:
    """The root of a number that is not negative, cut after this many decimal places, or with `up` the next above it
    where it is not met exactly."""
    assert value >= 0
    assert degree > 0
    scale = 10**places
    top = value.numerator * scale**degree
    found = _whole_root(top // value.denominator, degree)
    exact = found**degree * value.denominator == top
    return Fraction(found + (up and not exact), scale)


def power(base: Fraction, exponent: Fraction, up: bool = False) -> Fraction:
    """The base, above 0, to the power of a fraction, cut or raised like a root."""
    return root(base**exponent.numerator, exponent.denominator, up=up)


def _whole_root(value: int, degree: int) -> int:
    """The greatest whole number whose power is not above the value."""
    if degree == 2:
        return isqrt(value)
    guess = 1 << (value.bit_length() // degree + 1)
    while (better := ((degree - 1) * guess + value // guess ** (degree - 1)) // degree) < guess:
        guess = better
    return guess
