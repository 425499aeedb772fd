"""Diagnostics as values: what is wrong (a message class with its data) and where (one place or two)."""

from __future__ import annotations

import inspect
import re
from abc import ABC, abstractmethod
from dataclasses import fields
from enum import Enum
from textwrap import dedent
from typing import ClassVar

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span

HEADINGS = ("What it means", "Why it matters", "Instead of", "Write")
"""The parts of the long text of a message, in this order, each a line of its own in its docstring."""

FINDING_HEADINGS = ("What it means", "Write", "Instead of", "When to accept it")
"""Those of a finding, whose first sentence says what is noticed on the vehicle."""


_LONG_WORD = re.compile(r"([^\s`]{60})[^\s`]+")


class Level(Enum):
    MISTAKE = "mistake"  # the text has no meaning; nothing is checked
    WARNING = "warning"
    NOTE = "note"


class Message(ABC):
    """One kind of message; a subclass is a frozen dataclass that holds exactly the data of its sentence.

    `code` never changes and is never used again, `name` is for people to type, `title` is the name in words. The
    docstring begins with one sentence and goes on under `headings`.
    """

    __slots__ = ()
    headings: ClassVar[tuple[str, ...]] = HEADINGS
    code: ClassVar[str]
    name: ClassVar[str]
    title: ClassVar[str]
    level: ClassVar[Level]

    @abstractmethod
    def sentence(self) -> str:
        """What is wrong, one sentence."""

    def hint(self) -> str:
        """What to type, or what to do; empty if there is nothing to add."""
        return ""

    def second(self) -> str:
        """What the second place is, if the diagnostic has one."""
        return ""

    def data(self) -> dict[str, object]:
        """The fields of the message by name."""
        return {f.name: getattr(self, f.name) for f in fields(self)}  # type: ignore[arg-type]


class Mistake(Message):
    """A message about a text that has no meaning as it stands."""

    __slots__ = ()
    level = Level.MISTAKE


@frozen
class Diagnostic:
    """A message at a place; `other` is a second place that explains the first. `sentence` and `hint` are those of the
    message, endless words of the user cut: they stand in the line that is shown."""

    message: Message
    span: Span
    other: Span | None = None

    @property
    def code(self) -> str:
        return self.message.code

    @property
    def name(self) -> str:
        return self.message.name

    @property
    def title(self) -> str:
        return self.message.title

    @property
    def level(self) -> Level:
        return self.message.level

    @property
    def sentence(self) -> str:
        return _LONG_WORD.sub(r"\1...", self.message.sentence())

    @property
    def hint(self) -> str:
        return _LONG_WORD.sub(r"\1...", self.message.hint())

    @property
    def spans(self) -> tuple[Span, ...]:
        return (self.span,) if self.other is None else (self.span, self.other)

    @property
    def data(self) -> dict[str, object]:
        return self.message.data()


def in_order(diagnostics: list[Diagnostic]) -> tuple[Diagnostic, ...]:
    """The diagnostics by file in the order first seen, then by place, each once."""
    rank: dict[str, int] = {}
    for diagnostic in diagnostics:
        rank.setdefault(diagnostic.span.file, len(rank))
    once = dict.fromkeys(diagnostics)
    return tuple(sorted(once, key=lambda d: (rank[d.span.file], d.span.begin, d.span.end, d.code)))


@frozen
class LongText:
    """The docstring of a message class, taken apart: a lead sentence, then a text for each of its headings."""

    lead: str
    parts: tuple[tuple[str, str], ...]


def long_text(kind: type[Message]) -> LongText:
    """The long text of a message class, for `about NAME`."""
    text = inspect.cleandoc(kind.__doc__ or "")
    heads = "|".join(map(re.escape, kind.headings))
    pieces = re.split(rf"^({heads}):?\n", text, flags=re.MULTILINE)
    parts = tuple((pieces[i], dedent(pieces[i + 1]).strip("\n")) for i in range(1, len(pieces) - 1, 2))
    return LongText(pieces[0].strip(), parts)
