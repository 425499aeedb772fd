"""Frozen dataclasses with slots, whose methods are made only when a class is first used.

A check imports some four hundred classes of values and uses less than half of them. `dataclass` writes and compiles six
methods for each as soon as it is defined, which was three fifths of the time that all our imports took. Nothing else is
different: `fields`, `replace`, `is_dataclass`, `match`, copying and pickling work as they do there.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field
from reprlib import recursive_repr
from typing import Any, NoReturn, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(kind: type[T]) -> type[T]:
    """`@frozen` before a class is `@dataclass(frozen=True, slots=True)`, for classes that inherit no fields; a field
    may have a default, or be `field(default=..., compare=False)`."""
    if any("__dataclass_fields__" in vars(base) for base in kind.__mro__[1:]):
        raise TypeError(f"{kind.__name__} would inherit fields")
    names = tuple(name for name, hint in kind.__annotations__.items() if "ClassVar[" not in str(hint))
    body = {name: value for name, value in vars(kind).items() if name not in ("__dict__", "__weakref__")}
    given = {name: body.pop(name) for name in names if name in body}
    fixed = {"__slots__": names, "__match_args__": names, "__qualname__": kind.__qualname__}
    metaclass: Any = type(kind)
    made: type[T] = metaclass(kind.__name__, kind.__bases__, {**_SHARED, **body, **fixed})
    for name, write in _WRITTEN.items():
        if name not in body:
            setattr(made, name, _first(made, name, write, given))
    made.__dataclass_fields__ = _Fields(names, given)  # type: ignore[attr-defined]
    return made


def _first(
    kind: type[Any], name: str, write: Callable[[tuple[str, ...], dict[str, Any]], str], given: dict[str, Any]
) -> Callable[..., Any]:
    """A method of this name that, when it is first called, puts the real one in its own place."""

    def method(self: Any, *args: Any, **named: Any) -> Any:
        space: dict[str, Any] = {f"_set_{each}": getattr(kind, each).__set__ for each in kind.__slots__}
        space |= {f"_default_{each}": default for each, default in _defaults(given).items()}
        exec(write(kind.__slots__, given), space)
        real = space[name]
        real.__qualname__ = f"{kind.__qualname__}.{name}"
        setattr(kind, name, real)
        return real(self, *args, **named)

    return method


def _init(names: tuple[str, ...], given: dict[str, Any]) -> str:
    """The text of `__init__`: the value of each field put where it belongs, which is in no other way allowed."""
    defaults = _defaults(given)
    takes = [f"{name}=_default_{name}" if name in defaults else name for name in names]
    puts = [f"    _set_{name}(self, {name})" for name in names]
    return "\n".join([f"def __init__({', '.join(['self', *takes])}):", *(puts or ["    pass"])])


def _defaults(given: dict[str, Any]) -> dict[str, Any]:
    found = {name: value.default if isinstance(value, Field) else value for name, value in given.items()}
    return {name: value for name, value in found.items() if value is not MISSING}


def _eq(names: tuple[str, ...], given: dict[str, Any]) -> str:
    return (
        "def __eq__(self, other):\n"
        "    if other.__class__ is not self.__class__:\n"
        "        return NotImplemented\n"
        f"    return {_compared(names, given, 'self')} == {_compared(names, given, 'other')}"
    )


def _hash(names: tuple[str, ...], given: dict[str, Any]) -> str:
    return f"def __hash__(self):\n    return hash({_compared(names, given, 'self')})"


def _compared(names: tuple[str, ...], given: dict[str, Any], of: str) -> str:
    left_out = {name for name, value in given.items() if isinstance(value, Field) and not value.compare}
    return f"({''.join(f'{of}.{name}, ' for name in names if name not in left_out)})"


_WRITTEN = {"__init__": _init, "__eq__": _eq, "__hash__": _hash}


@recursive_repr()
def _repr(self: Any) -> str:
    values = (f"{name}={getattr(self, name)!r}" for name in type(self).__slots__)
    return f"{type(self).__qualname__}({', '.join(values)})"


def _kept(self: object, name: str, value: object = None) -> NoReturn:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


def _reduce(self: Any) -> tuple[type[Any], tuple[Any, ...]]:
    return type(self), tuple(getattr(self, name) for name in type(self).__slots__)


_SHARED = {"__repr__": _repr, "__setattr__": _kept, "__delattr__": _kept, "__reduce__": _reduce}


class _Fields:
    """Stands where the fields of a dataclass are, until somebody wants them: `dataclass` itself then finds them."""

    def __init__(self, names: tuple[str, ...], given: dict[str, Any]) -> None:
        self.names, self.given = names, given

    def __get__(self, _: object, kind: type[Any]) -> dict[str, Field[Any]]:
        hints = {name: kind.__annotations__[name] for name in self.names}
        body = {"__annotations__": hints, "__module__": kind.__module__, "__doc__": "fields", **self.given}
        plain: Any = dataclass(init=False, repr=False, eq=False)(type(kind.__name__, (), body))
        found: dict[str, Field[Any]] = plain.__dataclass_fields__
        kind.__dataclass_fields__ = found
        return found
