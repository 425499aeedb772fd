"""Terms that never matter: whatever they say, their line says the same, in every situation that can be reached.

Each is asked of all that its line leads to. Where only what is settled counts, settled values are looked at; where an
instant is enough to be remembered, or to move copper, every reaction is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.surveyed.folding import Key, stored
from logiccheck.explain.surveyed.leading import Lines, Part, Path, Sink, Term, TooMuch, at, plain
from logiccheck.explain.surveyed.steady import Change, changeless, known
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Const,
    Edge,
    Expr,
    Impulse,
    Or,
    Output,
    Previous,
    Signal,
    Timer,
    Xor,
)
from logiccheck.lang.rebuild import replace_leaves
from logiccheck.lang.walk import children, references


@frozen
class Idle:
    """Terms of one line that never matter, in the order written, and their names."""

    line: str
    terms: tuple[Span, ...]
    names: tuple[str, ...]


def idle(survey: Survey) -> tuple[Idle, ...]:
    """The terms that never matter, a group for each line, in the order of the file; none that are so because something
    else never changes, or because their line matters to nothing.

    May raise KeyboardInterrupt, or BugMet.
    """
    lines = Lines(survey.written)
    found = tuple(each for each in changeless(survey) if each.change is not Change.INSTANT)
    still = {each.name for each in changeless(survey)}
    search = _Search(survey, lines, known(found), still)
    for part in (*sorted(lines.parts, key=lambda part: -lines.place(part.line)), *lines.coils):
        search.look(part)
    return tuple(sorted(search.groups(), key=lambda group: (group.terms[0].file, group.terms[0].begin)))


@dataclass(slots=True)
class _Search:
    """`still`: what never changes. `idle`: the terms found so far; lines that name others are looked at before."""

    survey: Survey
    lines: Lines
    known: dict[Key, bool]
    still: set[str]
    idle: list[tuple[Part, list[Path]]] = field(default_factory=list)

    def look(self, part: Part) -> None:
        if part.line in self.still or self._matters_to_nothing(part):
            return
        found = [term.path for term in self.lines.terms(part) if self._is_idle(term)]
        if found:
            self.idle.append((part, found))

    def _matters_to_nothing(self, part: Part) -> bool:
        """It is named, and only where that never matters: then nothing of it does, and that is said there."""
        mine = [(other, path) for other, path in self._found() if other.line == part.line]
        if part.stored is not None and any(at(other.expr, path) is part.stored for other, path in mine):
            return True
        if part in self.lines.coils or isinstance(self.lines.rules[part.line], Output):
            return False
        readers = list(self.lines.readers(part.line))
        return bool(readers) and all((term.part, term.path) in self._found() for term in readers)

    def _found(self) -> list[tuple[Part, Path]]:
        return [(part, path) for part, paths in self.idle for path in paths]

    def _is_idle(self, term: Term) -> bool:
        differs = difference(self.lines, term)
        if differs is None or plain(replace_leaves(Or(differs), self._constant)) == Const(False):
            return False
        return never_so(self.survey, *differs)

    def _constant(self, leaf: Expr) -> Expr:
        """What never changes as what it always is."""
        match leaf:
            case Signal(kind=kind, name=name) if (kind, name) in self.known:
                return Const(self.known[kind, name])
            case Timer() | Blink() | Bistable() | Impulse() | Edge() | Previous() if stored(leaf) in self.known:
                return Const(self.known[stored(leaf)])
            case _:
                return leaf

    def groups(self) -> Iterator[Idle]:
        """What was found, a group for each line."""
        for name in dict.fromkeys(part.line for part, _ in self.idle):
            spans, words = [], []
            for part, paths in self.idle:
                if part.line == name:
                    spans += [at(part.expr, path).span for path in _together(part.expr, set(paths), ())]
                    words += [word for path in paths for word in _words(at(part.expr, path))]
            yield Idle(name, tuple(sorted(spans, key=lambda span: span.begin)), tuple(dict.fromkeys(words)))


def difference(lines: Lines, term: Term) -> tuple[Expr, Expr] | None:
    """When it matters what the term says: to something of which only what is settled counts, and in any reaction; None
    for what leads to nothing, or cannot be asked."""
    try:
        sinks = lines.sinks(term)
    except TooMuch:
        return None
    lasting, instant = (_differ(s for s in sinks if s.lasting is which) for which in (True, False))
    return (lasting, instant) if sinks else None


def never_so(survey: Survey, lasting: Expr, instant: Expr) -> bool:
    """Whether neither is ever so: the one once all has settled, the other in any reaction."""
    if lasting != Const(False) and survey.ever(lasting) is not False:
        return False
    return instant == Const(False) or survey.passes(instant) is False


def _differ(sinks: Iterator[Sink]) -> Expr:
    """One of them says something else with the term on than with it off."""
    return plain(Or(tuple(And((*sink.while_, Xor(sink.on, sink.off))) for sink in sinks)))


def _together(expr: Expr, paths: set[Path], here: Path) -> Iterator[Path]:
    """The largest terms all of whose leaves are among these."""
    if here in paths:
        yield here
        return
    inner = [list(_together(expr, paths, (*here, number))) for number in range(len(children(at(expr, here))))]
    whole = [[(*here, number)] for number in range(len(inner))]
    if here and inner and inner == whole:
        yield here
    else:
        yield from (path for found in inner for path in found)


def _words(leaf: Expr) -> list[str]:
    """The names in it, as written."""
    return [each.name for each in references(leaf)]
