"""What stands in column 0, as written: headers of blocks and single lines; part of the tree as written."""

from __future__ import annotations

from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.written_conditions import (
    Expr,
    Name,
    Quantity,
    Quoted,
    Window,
)


@frozen
class Language:
    version: Quantity
    span: Span


@frozen
class Vehicle:
    label: Quoted
    span: Span


@frozen
class UseFile:
    path: Quoted
    span: Span


@frozen
class Binding:
    role: Name
    value: Expr | Window
    span: Span


@frozen
class Waiver:
    """A requirement of a checklist, by its name there, that is not asked, and why."""

    requirement: Name
    reason: Quoted
    span: Span


@frozen
class UseChecklist:
    name: Name
    prefix: Name  # its requirements are named prefix_requirement
    bindings: tuple[Binding, ...]
    waivers: tuple[Waiver, ...]
    span: Span


@frozen
class Checklist:
    name: Name
    label: Quoted | None
    span: Span


@frozen
class Plain:
    """The header of a block that is one word; also stands for a header that could not be read."""

    word: str
    span: Span


@frozen
class Controller:
    label: Quoted | None
    feed: Name
    delay: Window | None
    span: Span


@frozen
class ScenarioHead:
    name: Name
    label: Quoted | None
    span: Span


Header: TypeAlias = Language | Vehicle | UseFile | UseChecklist | Checklist | Plain | Controller | ScenarioHead
