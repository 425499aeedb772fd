"""Assumptions, requirements and scenarios as written; part of the tree as written."""

from __future__ import annotations

from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.written_conditions import (
    Amount,
    Expr,
    Name,
    Quoted,
)


@frozen
class GivenNever:
    p: Expr
    r: Expr | None
    always: bool
    span: Span


@frozen
class GivenLasts:
    p: Expr
    at_least: bool
    time: Amount
    span: Span


@frozen
class GivenAfter:
    c: Expr
    p: Expr
    time: Amount
    span: Span


@frozen
class GivenChanges:
    name: Name
    y: Expr
    span: Span


@frozen
class GivenNoJumps:
    name: Name
    span: Span


Given: TypeAlias = GivenNever | GivenLasts | GivenAfter | GivenChanges | GivenNoJumps


@frozen
class Never:
    """`longer` is the time of `for longer than`; `instant`: `even for an instant`."""

    p: Expr
    r: Expr | None
    always: bool
    longer: Amount | None
    instant: bool
    span: Span


@frozen
class Calls:
    """`lasting` false: `no later than`."""

    p: Expr
    q: Expr
    lasting: bool
    time: Amount
    excused: Expr | None
    span: Span


@frozen
class OnlyAfter:
    q: Expr
    p: Expr
    lasted: Amount | None
    since: Expr | None
    span: Span


@frozen
class WaitsFor:
    q: Expr
    r: Expr
    after: Expr | None
    span: Span


@frozen
class Possible:
    q: Expr
    span: Span


Form: TypeAlias = Never | Calls | OnlyAfter | WaitsFor | Possible


@frozen
class Requirement:
    """`guard` is "danger", "damage" or "function"."""

    guard: str
    name: Name
    label: Quoted | None
    form: Form
    span: Span


# -------------------------------------------------------------------------------------------------------- scenarios


@frozen
class FactSet:
    fact: Expr
    span: Span


@frozen
class FactLasts:
    """`timer` is an expression where the key is a name, and quoted where it is more than a name."""

    timer: Expr | Quoted
    time: Amount
    span: Span


@frozen
class Scene:
    """`begin` is None for `at first`; `end` is the end of `from ... to ...`, None for `at`."""

    begin: Amount | None
    end: Amount | None
    facts: tuple[FactSet | FactLasts, ...]
    expected: tuple[Expr, ...]
    span: Span


@frozen
class Until:
    time: Amount
    span: Span
