"""A rule for people: as written, with shared rules unfolded, and simplified, in the words of the language."""

from __future__ import annotations

from collections.abc import Callable

from sympy import Symbol
from sympy.logic.boolalg import And as SymAnd
from sympy.logic.boolalg import Not as SymNot

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.program import And, AtMostOne, Expr, Not, Or, Output, Program, Rule, Signal, SignalKind, Xor
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import children, condition_of
from logiccheck.logic.form import Form, form_of, lift
from logiccheck.logic.simplify import simplified
from logiccheck.logic.ways import ways

TextOf = Callable[[Span], str]

MOST_WAYS = 12
MOST_UNFOLDED = 400  # names in an unfolded rule; nobody reads more
TOO_LARGE = "left as written: too large"
_OR, _XOR, _AND, _NOT, _NAME = range(5)


@frozen
class Phrase:
    """A piece of an expression and how tightly its outermost connective binds."""

    text: str
    binding: int


@frozen
class Shown:
    """One rule or output to be read; `unfolded` and `simplified` may be `TOO_LARGE`. `ways`: minimal terms, any one of
    which makes it true, shortest first, at most MOST_WAYS of `all_ways` (None: too many to find)."""

    written: str
    unfolded: str
    simplified: str
    ways: tuple[str, ...]
    all_ways: int | None


class _Phrases:
    """The algebra of texts, with brackets only where they are needed."""

    def constant(self, value: bool) -> Phrase:
        return Phrase("true" if value else "false", _NAME)

    def negate(self, x: Phrase) -> Phrase:
        return Phrase(f"not {self._inside(x, _NOT)}", _NOT)

    def all_of(self, parts: list[Phrase]) -> Phrase:
        return self._join(parts, " and ", _AND)

    def any_of(self, parts: list[Phrase]) -> Phrase:
        return self._join(parts, " or ", _OR)

    def differ(self, left: Phrase, right: Phrase) -> Phrase:
        return self._join([left, right], " xor ", _XOR)

    def _join(self, parts: list[Phrase], word: str, binding: int) -> Phrase:
        return Phrase(word.join(self._inside(p, binding) for p in parts), binding)

    @staticmethod
    def _inside(x: Phrase, binding: int) -> str:
        return x.text if x.binding >= binding else f"({x.text})"


def show(program: Program, name: str, text_of: TextOf) -> Shown:
    """Shows a rule or output by name; `text_of` gives the user's text of a place. Raises KeyError for other names."""
    rules = {r.name: r for r in (program.box.rules if program.box else ())}
    expr = condition_of(rules[name])
    written = _folded(text_of(expr.span))
    if unfolded_size(expr, rules) > MOST_UNFOLDED:
        return Shown(written, TOO_LARGE, TOO_LARGE, (), None)
    unfolded = unfold(expr, rules)
    return Shown(
        written,
        phrase(form_of(unfolded), text_of).text,
        simplify_text(unfolded, text_of),
        *ways_texts(unfolded, text_of),
    )


def _folded(text: str) -> str:
    return " ".join(text.split())


def phrase(form: Form, text_of: TextOf) -> Phrase:
    """A form as text, its places in the order in which they were written."""
    return lift(form, lambda place: Phrase(_folded(text_of(place.span)), _NAME), _Phrases())


def unfolded_size(expr: Expr, rules: dict[str, Rule | Output]) -> int:
    """How many names the expression has when it is unfolded: counted, not made, because it may double at each rule."""
    known: dict[str, int] = {}

    def size(e: Expr) -> int:
        if isinstance(e, Signal) and e.kind in (SignalKind.RULE, SignalKind.COMMAND):
            if e.name not in known:
                known[e.name] = size(condition_of(rules[e.name]))
            return known[e.name]
        operands = children(e) if isinstance(e, Not | And | Or | Xor | AtMostOne) else ()
        return sum(size(operand) for operand in operands) if operands else 1

    return size(expr)


def unfold(expr: Expr, rules: dict[str, Rule | Output]) -> Expr:
    """The expression with every rule and output that it names replaced by what that says; timers stay closed."""

    def inside(e: Expr) -> Expr:
        if isinstance(e, Signal) and e.kind in (SignalKind.RULE, SignalKind.COMMAND):
            return unfold(condition_of(rules[e.name]), rules)
        return e

    return replace_leaves(expr, inside)


def simplify_text(expr: Expr, text_of: TextOf) -> str:
    """The expression simplified, each thing that it names taken as one unknown wherever it stands."""
    form = _merged(form_of(expr))
    shorter = simplified(form.expr)
    return TOO_LARGE if shorter is None else phrase(Form(shorter, form.places), text_of).text


def ways_texts(expr: Expr, text_of: TextOf) -> tuple[tuple[str, ...], int | None]:
    """The ways in which the expression is true, as far as they are shown, and how many there are."""
    form = _merged(form_of(expr))
    found = ways(form.expr)
    if found is None:
        return (), None
    texts = []
    for term in found[:MOST_WAYS]:
        parts = [symbol if positive else SymNot(symbol) for symbol, positive in sorted(term, key=str)]
        texts.append(phrase(Form(SymAnd(*parts), form.places), text_of).text)
    return tuple(texts), len(found)


def _merged(form: Form) -> Form:
    """The form in which each thing that is named several times is one symbol, that of its first place."""
    first: dict[Expr, int] = {}
    for i, place in enumerate(form.places):
        first.setdefault(place, i)
    same = {Symbol(f"p{i:05d}"): Symbol(f"p{first[place]:05d}") for i, place in enumerate(form.places)}
    return Form(form.expr.xreplace(same), form.places)
