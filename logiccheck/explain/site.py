"""What edits are made for: a vehicle as written, a story in which it goes wrong, and the lines that are to blame."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.blame import Blame
from logiccheck.explain.blame import Item as Blamed
from logiccheck.explain.spots import with_another, with_brackets
from logiccheck.lang.matters import Item, Names, named
from logiccheck.lang.program import Expr, Form, Output, Program, Relay, Rule, SignalKind
from logiccheck.lang.walk import form_expressions
from logiccheck.model.reaction import Values


@frozen
class Site:
    """`story` ends where it goes wrong; `lines` are to blame for that, the nearest first. What the program itself
    brings with it is not in `files`. `asked`: what the requirement names beside what is to blame."""

    program: Program
    files: Mapping[str, str]
    story: Sequence[Values]
    lines: Sequence[Blame]
    asked: frozenset[Item]
    names: Names

    @property
    def end(self) -> Values:
        return self.story[-1]

    def text(self, span: Span) -> str:
        return self.files[span.file][span.begin : span.end]

    def is_written(self, span: Span) -> bool:
        """Whether it stands in a file of the user."""
        return span != NOWHERE and span.file in self.files

    def outer(self, span: Span) -> Span:
        """The span with the brackets around it."""
        return with_brackets(span, self.files[span.file])

    def is_related(self, term: Expr) -> bool:
        """Whether the term can have to do with what the requirement names, the power of the box aside; where it names
        nothing else, any can."""
        return not self.asked or not self.asked.isdisjoint(self._behind(term))

    def _behind(self, term: Expr) -> set[Item]:
        """All that the term rests on, and itself."""
        found: set[Item] = set()
        waiting = [*named([term])]
        while waiting:
            item = waiting.pop()
            if item not in found and item[0] != SignalKind.POWERED.value:
                found.add(item)
                waiting += self.names.needs(item)
        return found


def site(
    program: Program, files: Mapping[str, str], form: Form, story: Sequence[Values], lines: Sequence[Blame]
) -> Site:
    """The site of the edits for a requirement with this form."""
    names = Names(program)
    blamed = {line.name for line in lines}
    asked = frozenset(item for item in named(form_expressions(form)) if item[1] not in blamed)
    return Site(program, files, story, lines, asked, names)


def line_of(item: Blamed) -> Expr | None:
    """What decides a rule, an output or a relay."""
    match item:
        case Rule(expr=expr):
            return expr
        case Output(command=command):
            return command
        case Relay(coil=coil):
            return coil
        case _:
            return None


def with_line(program: Program, item: Blamed, old: Expr, new: Expr) -> Program:
    """The program with a part of the line of that item replaced; it is not resolved anew."""
    box = program.box
    match item:
        case Relay():
            turned = replace(item, coil=with_another(item.coil, old, new))
            return replace(program, relays=tuple(turned if each is item else each for each in program.relays))
        case Rule() if box is not None:
            rule: Rule | Output = replace(item, expr=with_another(item.expr, old, new))
        case Output() if box is not None:
            rule = replace(item, command=with_another(item.command, old, new))
        case _:
            return program
    rules = tuple(rule if each is item else each for each in box.rules)
    return replace(program, box=replace(box, rules=rules))
