"""What a term of a line leads to: an output, what something remembers, a coil; through rules without memory.

A term is a leaf of a line, at its place; what remembers is a leaf, and what it remembers is looked at by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias

from logiccheck.base.frozen import frozen
from logiccheck.explain.inside import BOX, POWERED
from logiccheck.lang.program import (
    And,
    AtMostOne,
    Compare,
    Const,
    Expr,
    Never,
    Not,
    Or,
    Output,
    Position,
    Previous,
    Program,
    Rule,
    Signal,
    SignalKind,
    Xor,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import (
    Memory,
    children,
    condition_of,
    form_expressions,
    given_expressions,
    references,
    scenario_expressions,
    subexpressions,
)
from logiccheck.model.truth import is_filter

MOST_PARTS = 2_000  # parts of all that one term is asked in

Path: TypeAlias = tuple[int, ...]


class TooMuch(Exception):
    """A term leads to more than is asked."""


@frozen
class Sink:
    """`expr` as it is with the term on, and off; `lasting`: only settled values of it count. `while_`: as far as."""

    on: Expr
    off: Expr
    lasting: bool
    while_: tuple[Expr, ...]


@frozen
class Part:
    """Something without memory of its own that a line is made of: all of it, or what `stored` remembers.

    `number` tells the parts of a line apart, outer ones first. `while_`: it counts only while these are so. `silent`:
    what remembers in it has no name by which it could be asked for.
    """

    line: str
    number: int
    expr: Expr
    stored: Expr | None
    while_: tuple[Expr, ...]
    silent: bool


@frozen
class Term:
    """A leaf at its place in a part."""

    part: Part
    path: Path

    @property
    def leaf(self) -> Expr:
        return at(self.part.expr, self.path)


class Lines:
    """The lines of a vehicle as parts, those of the box in the order in which they react, then the coils."""

    def __init__(self, program: Program) -> None:
        box = program.box
        self.rules: dict[str, Rule | Output] = {each.name: each for each in (box.rules if box is not None else ())}
        self.parts: list[Part] = []
        for rule in self.rules.values():
            self.parts += _parts(rule.name, condition_of(rule), (POWERED,), False)
        self.coils: list[Part] = []
        for relay in program.relays:
            supply = () if relay.supply is None else (relay.supply,)
            self.coils += _parts(relay.name, relay.coil, supply, True)
        self._sources = {each.name for each in program.sources}
        coils = _names(relay.coil for relay in program.relays)
        outputs = box.outputs if box is not None else ()
        forms = [each.form for each in program.requirements]
        passing = [form for form in forms if isinstance(form, Never) and form.instant]
        self._passing = _names(expr for form in passing for expr in form_expressions(form))
        looked_at = self._passing | coils
        self._plain = {each.name for each in outputs if each.feeds is None and each.name not in looked_at}
        asked = [expr for form in forms for expr in form_expressions(form)]
        given = [expr for each in program.givens for expr in given_expressions(each)]
        self._asked = _names((*asked, *given, *scenario_expressions(program)))

    def place(self, line: str) -> int:
        """Lines that name others come after them."""
        return list(self.rules).index(line)

    def terms(self, part: Part) -> Iterator[Term]:
        """The leaves of a part, in the order written."""
        return (Term(part, path) for path in _leaves(part.expr, ()))

    def readers(self, name: str) -> Iterator[Term]:
        """The places at which the box names a rule or a command."""
        return (term for part in self.parts for term in self.terms(part) if _line_of(term.leaf) == name)

    def sinks(self, term: Term) -> list[Sink]:
        """What a term leads to. Raises `TooMuch`; also where something on the way cannot be asked for."""
        part = term.part
        on, off = (plain(_with(part.expr, term.path, Const(value))) for value in (True, False))
        if part.stored is not None or part in self.coils:
            return _heard([part], [Sink(on, off, False, part.while_)])
        found, met = list(self._shown(part, on, off)), [part]
        moved = {part.line: (on, off)}
        later = self.parts[self.parts.index(part) + 1 :]
        for other in (each for each in later if each.stored is None):
            if (pair := _moved(other.expr, moved)) is not None:
                moved[other.line] = pair
                found += self._shown(other, *pair)
                met.append(other)
        for other in (each for each in self.parts if each.stored is not None):
            if (pair := _moved(other.expr, moved)) is not None:
                found.append(Sink(*pair, False, other.while_))
                met.append(other)
        return _heard(met, found)

    def _shown(self, part: Part, on: Expr, off: Expr) -> Iterator[Sink]:
        """What a line without memory shows by itself: an output is switched, or something beside the box asks for
        the rule."""
        rule = self.rules[part.line]
        if isinstance(rule, Output):
            fed = () if rule.fed_by is None else (self._feed(rule.fed_by),)
            yield Sink(on, off, part.line in self._plain, (*part.while_, *fed))
        elif part.line in self._asked:
            yield Sink(on, off, part.line not in self._passing, part.while_)

    def _feed(self, name: str) -> Signal:
        return Signal(SignalKind.SOURCE if name in self._sources else SignalKind.LIVE, name)


def _names(exprs: Iterable[Expr]) -> set[str]:
    return {leaf.name for expr in exprs for leaf in references(expr)}


def _heard(met: list[Part], sinks: list[Sink]) -> list[Sink]:
    if any(part.silent for part in met) or sum(_size(s.on) + _size(s.off) for s in sinks) > MOST_PARTS:
        raise TooMuch
    return sinks


def _parts(name: str, line: Expr, while_: tuple[Expr, ...], coil: bool) -> list[Part]:
    """What remembers inside `previous`, or inside a longer coil, cannot be asked for."""
    found: list[Part] = []

    def add(expr: Expr, stored: Expr | None, hidden: bool) -> None:
        inner = [each for each in _outermost(expr) if not is_filter(each)]
        whole = expr in inner  # all of a line, and so of that name
        if not whole or stored is not None:
            silent = bool(inner) and (hidden or coil)
            found.append(Part(name, len(found), expr, stored, while_, silent))
        for node in inner:
            for each in children(node):
                add(each, node, hidden or isinstance(node, Previous))

    add(line, None, False)
    return found


def _outermost(expr: Expr) -> Iterator[Expr]:
    """What remembers, not inside anything else that does."""
    if isinstance(expr, Memory):
        yield expr
    else:
        for each in children(expr):
            yield from _outermost(each)


def _leaves(expr: Expr, path: Path) -> Iterator[Path]:
    if isinstance(expr, Signal | Position | Compare | Memory):
        yield path
    else:
        for number, each in enumerate(children(expr)):
            yield from _leaves(each, (*path, number))


def at(expr: Expr, path: Path) -> Expr:
    """What stands there."""
    for number in path:
        expr = children(expr)[number]
    return expr


def _with(expr: Expr, path: Path, new: Expr) -> Expr:
    """The expression with something else in that place."""
    if not path:
        return new
    here, rest = path[0], path[1:]
    match expr:
        case Not(x=x):
            return Not(_with(x, rest, new))
        case And(parts=parts) | Or(parts=parts) | AtMostOne(parts=parts):
            changed = tuple(_with(each, rest, new) if n == here else each for n, each in enumerate(parts))
            return type(expr)(changed)
        case Xor(left=left, right=right):
            return Xor(_with(left, rest, new), right) if here == 0 else Xor(left, _with(right, rest, new))
        case _:
            raise AssertionError(expr)


def _moved(expr: Expr, moved: Mapping[str, tuple[Expr, Expr]]) -> tuple[Expr, Expr] | None:
    """What an expression is with the term on, and off; None where it does not lead there."""
    if not any(_line_of(at(expr, path)) in moved for path in _leaves(expr, ())):
        return None

    def side(which: int) -> Expr:
        def leaf(each: Expr) -> Expr:
            name = _line_of(each)
            return each if name is None or name not in moved else moved[name][which]

        return plain(replace_leaves(expr, leaf))

    return side(0), side(1)


def _line_of(leaf: Expr) -> str | None:
    """The rule or output that is named."""
    return leaf.name if isinstance(leaf, Signal) and leaf.kind in BOX else None


def plain(expr: Expr) -> Expr:
    """The same without constants inside."""
    match expr:
        case Not(x=x):
            inner = plain(x)
            return Const(not inner.value) if isinstance(inner, Const) else Not(inner)
        case And(parts=parts):
            return _joined(And, parts, True)
        case Or(parts=parts):
            return _joined(Or, parts, False)
        case Xor(left=left, right=right):
            one, two = plain(left), plain(right)
            if one == two:
                return Const(False)
            if isinstance(one, Const):
                return plain(Not(two)) if one.value else two
            if isinstance(two, Const):
                return plain(Not(one)) if two.value else one
            return Xor(one, two)
        case AtMostOne(parts=parts):
            return AtMostOne(tuple(plain(part) for part in parts))
        case _:
            return expr


def _joined(join: type[And] | type[Or], parts: tuple[Expr, ...], neutral: bool) -> Expr:
    found = [plain(part) for part in parts]
    if Const(not neutral) in found:
        return Const(not neutral)
    left = tuple(part for part in found if part != Const(neutral))
    if not left:
        return Const(neutral)
    return left[0] if len(left) == 1 else join(left)


def _size(expr: Expr) -> int:
    return sum(1 for _ in subexpressions(expr))
