"""Finds bistables whose set and reset can come together, where nothing is required that says who is to win."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, ClassVar

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.explain.surveyed.probed import Note
from logiccheck.explain.surveyed.waking import POWERED
from logiccheck.lang.matters import Names
from logiccheck.lang.program import And, Bistable, Guard, Output, Possible, Program, Rule, SignalKind
from logiccheck.lang.walk import form_expressions

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey


@frozen
class SetMeetsReset(FindingMessage):
    """A crash is forgotten while it still lasts, because what resets it was so at that moment, too.

    What it means
    What sets the bistable and what resets it can be so at the same time. Unless `set wins` is written reset wins: the
    bistable is off for as long as both are so. No requirement speaks of anything that depends on it, other than a
    `possible`, which does not say who is to win.

    Write
    output alarm "Alarm" when bistable(set door_open, reset not key_on, set wins)

    Instead of
    output alarm "Alarm" when bistable(set door_open, reset not key_on)

    When to accept it
    Where reset is to win.
    """

    item: str

    code: ClassVar[str] = "W150"
    name: ClassVar[str] = "set-meets-reset"
    title: ClassVar[str] = "Set and reset come together"
    guards: ClassVar[Guard] = Guard.FUNCTION

    def sentence(self) -> str:
        return (
            f"What sets the bistable in `{self.item}` and what resets it can be so together: then reset wins, and it is"
            " off."
        )

    def hint(self) -> str:
        return "Write `set wins` if set is to win; if not, accept this, or require what has to be so then."


def find(program: Program, survey: Survey) -> Iterator[Finding]:
    """One finding for each, with the story in which both are so; none where `set wins` says that it was thought of, and
    of one that is never set another speaks."""
    forms = [each.form for each in program.requirements if not isinstance(each.form, Possible)]  # says not who wins
    asked = [expr for form in forms for expr in form_expressions(form)]
    required = Names(program).matter(asked).items
    for watched in survey.watched:
        node = watched.node
        if not isinstance(node, Bistable) or node.set_wins or _spoken_of(watched.item, required):
            continue
        both = And((POWERED, watched.inside, watched.reset))
        if survey.ever(both) and survey.ever(watched.noted(Note.WAS_ON)):
            name = watched.item.name
            yield Finding(Diagnostic(SetMeetsReset(name), node.span), (name,), survey.story(both))


def _spoken_of(item: Rule | Output, required: frozenset[tuple[str, str]]) -> bool:
    kind = SignalKind.RULE if isinstance(item, Rule) else SignalKind.COMMAND
    return (kind.value, item.name) in required
