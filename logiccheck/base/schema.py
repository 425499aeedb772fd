"""The JSON Schema (draft 2020-12) of what `base.records` makes of a record and of all that stands in it."""

from __future__ import annotations

import inspect
from enum import Enum
from typing import assert_never

from logiccheck.base.records import (
    EXACT,
    KIND,
    ByName,
    Choice,
    Exact,
    Fixed,
    Many,
    Maybe,
    OneOf,
    Plain,
    Record,
    Scalar,
    Shape,
    shapes,
)

DRAFT = "https://json-schema.org/draft/2020-12/schema"
TYPES = {str: "string", int: "integer", bool: "boolean"}


def definitions(kind: type) -> dict[str, Plain]:
    """A schema for this record and every record and enum in it, by name in alphabetical order.

    Raises TypeError for a hint that has no shape, and for two types of the same name.
    """
    known: dict[str, type] = {}
    _collect(Record(kind), known)
    return {name: _definition(known[name]) for name in sorted(known)}


def reference(kind: type) -> dict[str, Plain]:
    """What stands for a value of this kind."""
    return {"$ref": f"#/$defs/{kind.__name__}"}


def _collect(shape: Shape, known: dict[str, type]) -> None:
    match shape:
        case Choice(kind=kind):
            _note(kind, known)
        case Record(kind=kind):
            is_new = kind.__name__ not in known
            _note(kind, known)
            for inner in shapes(kind).values() if is_new else ():
                _collect(inner, known)
        case OneOf(kinds=kinds):
            for each in kinds:
                _collect(Record(each), known)
        case Many(item=item) | ByName(item=item) | Maybe(inner=item):
            _collect(item, known)
        case Fixed(items=items):
            for item in items:
                _collect(item, known)
        case Scalar() | Exact():
            pass
        case _:
            assert_never(shape)


def _note(kind: type, known: dict[str, type]) -> None:
    before = known.setdefault(kind.__name__, kind)
    if before is not kind:
        raise TypeError(f"two types are called {kind.__name__}; in a schema each has a name of its own")


def _definition(kind: type) -> Plain:
    said = _said(kind)
    if issubclass(kind, Enum):
        return {**said, "enum": [str(each.value) for each in kind]}
    named = {name: _schema(inner) for name, inner in shapes(kind).items()}
    return {**said, "type": "object", "properties": {**named}, "required": [*named]}


def _said(kind: type) -> dict[str, Plain]:
    """The first paragraph of what the type says about itself, if somebody wrote it."""
    text = inspect.cleandoc(vars(kind).get("__doc__") or "").split("\n\n")[0]
    made = text.startswith(f"{kind.__name__}(")  # what a dataclass is given where nobody wrote anything
    return {"description": " ".join(text.split())} if text and not made else {}


def _schema(shape: Shape) -> Plain:
    match shape:
        case Scalar(kind=kind):
            return {"type": TYPES[kind]}
        case Exact():
            return {"type": "string", "pattern": f"^{EXACT}$"}
        case Choice(kind=kind) | Record(kind=kind):
            return {**reference(kind)}
        case OneOf(kinds=kinds):
            return {"oneOf": [_tagged(kind) for kind in kinds]}
        case Many(item=item):
            return {"type": "array", "items": _schema(item)}
        case Fixed(items=items):
            return {
                "type": "array",
                "prefixItems": [_schema(item) for item in items],
                "minItems": len(items),
                "items": False,
            }
        case ByName(item=item):
            return {"type": "object", "additionalProperties": _schema(item)}
        case Maybe(inner=inner):
            return {"anyOf": [_schema(inner), {"type": "null"}]}
        case _:
            assert_never(shape)


def _tagged(kind: type) -> Plain:
    return {**reference(kind), "properties": {KIND: {"const": kind.__name__}}, "required": [KIND]}
