"""What lint finds: a message that says what it guards against, and beside it the story and the names it rests on."""

from __future__ import annotations

from typing import ClassVar

from logiccheck.base.diagnostic import FINDING_HEADINGS, Diagnostic, Level, Message
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Expr, Guard
from logiccheck.model.story import Story


class FindingMessage(Message):
    """Something worth saying about a program although it is no mistake; `guards`: what one of this kind that nobody
    accepts guards against.

    The docstring begins with what is noticed on the vehicle; its two examples are held to be true.
    """

    __slots__ = ()
    headings = FINDING_HEADINGS
    level = Level.WARNING
    guards: ClassVar[Guard]


@frozen
class Finding:
    """`signals`: the names whose logic it rests on, the first is what it is about. `story` shows it, and plays on the
    program as written; None where no situation does. `passing`: what is so in it for an instant only, at its end.
    `guarding`: what this one guards against, where that is not the same for all of its kind."""

    diagnostic: Diagnostic
    signals: tuple[str, ...]
    story: Story | None = None
    passing: Expr | None = None
    guarding: Guard | None = None

    @property
    def message(self) -> FindingMessage:
        message = self.diagnostic.message
        assert isinstance(message, FindingMessage)
        return message

    @property
    def guards(self) -> Guard:
        """What it guards against, as long as nobody accepts it."""
        return self.message.guards if self.guarding is None else self.guarding
