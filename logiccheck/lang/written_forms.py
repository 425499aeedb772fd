"""Assumptions, requirements and scenarios as written; part of the tree as written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from logiccheck.base.span import Span
from logiccheck.lang.written_conditions import (
    Amount,
    Expr,
    Name,
    Quoted,
)


@dataclass(frozen=True, slots=True)
class GivenNever:
    p: Expr
    r: Expr | None
    always: bool
    span: Span


@dataclass(frozen=True, slots=True)
class GivenLasts:
    p: Expr
    at_least: bool
    time: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class GivenAfter:
    c: Expr
    p: Expr
    time: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class GivenChanges:
    name: Name
    y: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class GivenNoJumps:
    name: Name
    span: Span


Given: TypeAlias = GivenNever | GivenLasts | GivenAfter | GivenChanges | GivenNoJumps


@dataclass(frozen=True, slots=True)
class Never:
    """`longer` is the time of `for longer than`; `instant`: `even for an instant`."""

    p: Expr
    r: Expr | None
    always: bool
    longer: Amount | None
    instant: bool
    span: Span


@dataclass(frozen=True, slots=True)
class Calls:
    """`lasting` false: `no later than`."""

    p: Expr
    q: Expr
    lasting: bool
    time: Amount
    excused: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class OnlyAfter:
    q: Expr
    p: Expr
    lasted: Amount | None
    since: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class WaitsFor:
    q: Expr
    r: Expr
    after: Expr | None
    span: Span


@dataclass(frozen=True, slots=True)
class Possible:
    q: Expr
    span: Span


Form: TypeAlias = Never | Calls | OnlyAfter | WaitsFor | Possible


@dataclass(frozen=True, slots=True)
class Requirement:
    """`guard` is "danger", "damage" or "function"."""

    guard: str
    name: Name
    label: Quoted | None
    form: Form
    span: Span


# -------------------------------------------------------------------------------------------------------- scenarios


@dataclass(frozen=True, slots=True)
class FactSet:
    fact: Expr
    span: Span


@dataclass(frozen=True, slots=True)
class FactLasts:
    """`timer` is an expression where the key is a name, and quoted where it is more than a name."""

    timer: Expr | Quoted
    time: Amount
    span: Span


@dataclass(frozen=True, slots=True)
class Scene:
    """`begin` is None for `at first`; `end` is the end of `from ... to ...`, None for `at`."""

    begin: Amount | None
    end: Amount | None
    facts: tuple[FactSet | FactLasts, ...]
    expected: tuple[Expr, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Until:
    time: Amount
    span: Span
