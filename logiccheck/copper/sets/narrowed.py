"""A requirement that only fails while something stays so: what it is asked for when only some faults may be there.

`kept` is of the world and never comes true again once it was false, at no moment: so a story in which the narrowed
requirement fails is one in which the requirement itself fails while `kept` has been true all along, and the other way
round.
"""

from __future__ import annotations

from dataclasses import replace
from typing import assert_never

from logiccheck.lang.program import (
    And,
    CallsLasting,
    CallsWithin,
    Expr,
    Form,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Or,
    Possible,
    WaitsFor,
)


def narrowed(form: Form, kept: Expr) -> Form:
    """The form, which only what happens while `kept` is true can break. Not for `possible`, which nothing breaks."""
    match form:
        case Never() | NeverLonger():
            return replace(form, r=kept if form.r is None else And((form.r, kept)))
        case CallsWithin() | CallsLasting():
            return replace(form, r=Not(kept) if form.r is None else Or((form.r, Not(kept))))
        case OnlyAfter() | WaitsFor():
            return replace(form, q=And((form.q, kept)))
        case Possible():
            raise ValueError("nothing that happens breaks a `possible`")
        case _:
            assert_never(form)
