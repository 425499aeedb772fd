"""Frozen dataclasses as plain values of JSON and back, by their type hints alone: nothing is lost, no float is used.

A record becomes an object of all its fields, in the order in which they are written; an enum its value; a `Fraction`
a text such as "3" or "1/3"; a tuple a list; what may be None null. Where one of several records may stand, the key
`KIND` says which it is.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import MISSING, Field, dataclass, fields, is_dataclass
from enum import Enum
from fractions import Fraction
from types import NoneType, UnionType
from typing import Any, TypeAlias, TypeVar, Union, assert_never, get_args, get_origin, get_type_hints

Plain: TypeAlias = bool | int | str | list["Plain"] | dict[str, "Plain"] | None

KIND = "is"
EXACT = r"-?[0-9]+(/[1-9][0-9]*)?"

_R = TypeVar("_R")


class Unfit(ValueError):
    """A plain value that is not of the type asked for; the text says where and what was meant."""


@dataclass(frozen=True, slots=True)
class Scalar:
    kind: type[str] | type[int] | type[bool]


@dataclass(frozen=True, slots=True)
class Exact:
    """A `Fraction`, or an int where either may stand: read back as a `Fraction`, which is equal."""


@dataclass(frozen=True, slots=True)
class Choice:
    kind: type[Enum]


@dataclass(frozen=True, slots=True)
class Record:
    kind: type


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of several records, of different names."""

    kinds: tuple[type, ...]


@dataclass(frozen=True, slots=True)
class Many:
    item: Shape


@dataclass(frozen=True, slots=True)
class Fixed:
    items: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class ByName:
    """A mapping from texts."""

    item: Shape


@dataclass(frozen=True, slots=True)
class Maybe:
    inner: Shape


Shape: TypeAlias = Scalar | Exact | Choice | Record | OneOf | Many | Fixed | ByName | Maybe


# ------------------------------------------------------------------------------------------------ from hints to shapes


_SHAPES: dict[type, Mapping[str, Shape]] = {}  # worked out once, as looking at hints takes its time


def shapes(kind: type) -> Mapping[str, Shape]:
    """The shape of each field of a record, in the order written. Raises TypeError for a hint that has no shape."""
    if kind not in _SHAPES:
        _SHAPES[kind] = _shapes(kind)
    return _SHAPES[kind]


def _shapes(kind: type) -> Mapping[str, Shape]:
    hints = get_type_hints(kind)
    found = {}
    for field in fields(kind):
        try:
            found[field.name] = shape(hints[field.name])
        except TypeError as error:
            raise TypeError(f"{kind.__name__}.{field.name}: {error}") from None
    return found


def shape(hint: Any) -> Shape:
    """The shape that a type hint asks for. Raises TypeError where there is none."""
    if hint in (str, int, bool):
        return Scalar(hint)
    if hint is Fraction:
        return Exact()
    if get_origin(hint) in (Union, UnionType):
        return _union(get_args(hint))
    if get_origin(hint) is tuple:
        items = get_args(hint)
        return Many(shape(items[0])) if items[1:] == (...,) else Fixed(tuple(map(shape, items)))
    if get_origin(hint) is Mapping and get_args(hint)[0] is str:
        return ByName(shape(get_args(hint)[1]))
    if isinstance(hint, type) and issubclass(hint, Enum) and all(isinstance(each.value, str) for each in hint):
        return Choice(hint)
    if isinstance(hint, type) and is_dataclass(hint):
        return Record(hint)
    raise TypeError(
        f"no shape for {hint!r}; there are shapes for str, int, bool, Fraction, enums of texts, dataclasses, "
        "tuple[X, ...], tuple[X, Y], Mapping[str, X], X | None, and unions of dataclasses"
    )


def _union(members: tuple[Any, ...]) -> Shape:
    some = tuple(member for member in members if member is not NoneType)
    if set(some) == {int, Fraction}:
        inner: Shape = Exact()
    elif len(some) == 1:
        inner = shape(some[0])
    elif all(isinstance(member, type) and is_dataclass(member) for member in some):
        inner = OneOf(some)
    else:
        raise TypeError("a union is of dataclasses only, or of one type and None")
    return inner if len(some) == len(members) else Maybe(inner)


# ---------------------------------------------------------------------------------------------------- there and back


def plain(record: object) -> Plain:
    """The record as a plain value. Raises TypeError where a value is not of the type that its hint says."""
    return _plain(record, Record(type(record)))


def _plain(value: Any, as_shape: Shape) -> Plain:
    match as_shape:
        case Scalar(kind=kind) if type(value) is kind:
            return value
        case Exact() if type(value) in (int, Fraction):
            return str(value)
        case Choice(kind=kind) if isinstance(value, kind):
            return str(value.value)
        case Record(kind=kind) if type(value) is kind:
            return {name: _plain(getattr(value, name), inner) for name, inner in shapes(kind).items()}
        case OneOf(kinds=kinds) if type(value) in kinds:
            return {
                KIND: type(value).__name__,
                **{n: _plain(getattr(value, n), s) for n, s in shapes(type(value)).items()},
            }
        case Many(item=item) if isinstance(value, tuple):
            return [_plain(each, item) for each in value]
        case Fixed(items=items) if isinstance(value, tuple) and len(value) == len(items):
            return [_plain(each, item) for each, item in zip(value, items, strict=True)]
        case ByName(item=item) if isinstance(value, Mapping):
            return {str(name): _plain(each, item) for name, each in value.items()}
        case Maybe(inner=inner):
            return None if value is None else _plain(value, inner)
        case _:
            raise TypeError(f"{value!r} is no {as_shape}")


def typed(kind: type[_R], value: Any, place: str = "") -> _R:
    """The record of this kind that `plain` made `value` of. What is not known is passed over, what is missing takes
    its default. Raises Unfit for a value of another type, or one that is missing and has none.
    """
    if not isinstance(value, dict):
        raise Unfit(f"{place or kind.__name__}: an object is meant")
    given = {}
    by_name: dict[str, Field[Any]] = {field.name: field for field in fields(kind)}  # type: ignore[arg-type]
    for name, inner in shapes(kind).items():
        if name in value:
            given[name] = _typed(value[name], inner, f"{place}.{name}" if place else name)
        elif by_name[name].default is MISSING:
            raise Unfit(f"{place or kind.__name__}: {name} is missing")
    return kind(**given)


def _typed(value: Any, as_shape: Shape, place: str) -> Any:
    match as_shape:
        case Scalar(kind=kind):
            return value if type(value) is kind else _unfit(place, kind.__name__)
        case Exact():
            fits = isinstance(value, str) and re.fullmatch(EXACT, value)
            return Fraction(value) if fits else _unfit(place, 'a number such as "3" or "1/3"')
        case Choice(kind=kind):
            found = next((each for each in kind if each.value == value), None)
            return found or _unfit(place, f"one of {', '.join(each.value for each in kind)}")
        case Record(kind=kind):
            return typed(kind, value, place)
        case OneOf(kinds=kinds):
            said = value.get(KIND) if isinstance(value, dict) else None
            chosen = next((kind for kind in kinds if kind.__name__ == said), None)
            return typed(chosen, value, place) if chosen else _unfit(place, "an object that says what it is")
        case Many(item=item):
            items = value if isinstance(value, list) else _unfit(place, "a list")
            return tuple(_typed(each, item, f"{place}[{at}]") for at, each in enumerate(items))
        case Fixed(items=inner):
            items = (
                value if isinstance(value, list) and len(value) == len(inner) else _unfit(place, f"{len(inner)} items")
            )
            return tuple(
                _typed(each, item, f"{place}[{at}]") for at, (each, item) in enumerate(zip(items, inner, strict=True))
            )
        case ByName(item=item):
            table = value if isinstance(value, dict) else _unfit(place, "an object")
            return {name: _typed(each, item, f"{place}.{name}") for name, each in table.items()}
        case Maybe(inner=inner):
            return None if value is None else _typed(value, inner, place)
        case _:
            assert_never(as_shape)


def _unfit(place: str, meant: str) -> Any:
    raise Unfit(f"{place}: {meant} is meant")
