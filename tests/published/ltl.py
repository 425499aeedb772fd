"""Formulas of linear temporal logic over the steps of a course, just as they are published; no code of the package.

A course is a list of steps, each the set of letters that are true; the last step goes on for ever. A formula is a
function of the course and the number of a step.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

Course = Sequence[frozenset[str]]
Formula = Callable[[Course, int], bool]


def letter(name: str) -> Formula:
    return lambda course, i: name in course[min(i, len(course) - 1)]


def no(a: Formula) -> Formula:
    return lambda course, i: not a(course, i)


def both(*parts: Formula) -> Formula:
    return lambda course, i: all(each(course, i) for each in parts)


def either(*parts: Formula) -> Formula:
    return lambda course, i: any(each(course, i) for each in parts)


def implies(a: Formula, b: Formula) -> Formula:
    return either(no(a), b)


def _from(course: Course, i: int) -> range:
    """The steps from i on; those after the last one are like it."""
    return range(i, max(i, len(course) - 1) + 1)


def always(a: Formula) -> Formula:
    """G a."""
    return lambda course, i: all(a(course, j) for j in _from(course, i))


def some_time(a: Formula) -> Formula:
    """<> a."""
    return lambda course, i: any(a(course, j) for j in _from(course, i))


def until(a: Formula, b: Formula) -> Formula:
    """a U b: b comes, and a holds up to just before."""
    return lambda course, i: any(b(course, j) and all(a(course, k) for k in range(i, j)) for j in _from(course, i))


def unless(a: Formula, b: Formula) -> Formula:
    """a W b: a U b, or a for ever."""
    return either(until(a, b), always(a))


def within(t: int, a: Formula) -> Formula:
    """F[0,t] a: now or at most t steps later."""
    return lambda course, i: any(a(course, j) for j in range(i, i + t + 1))


def throughout(t: int, a: Formula) -> Formula:
    """G[0,t] a: now and up to t steps later."""
    return lambda course, i: all(a(course, j) for j in range(i, i + t + 1))
