"""Mistakes in the layout and in the shape of a line: what could not be read at all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from logiccheck.base.diagnostic import Mistake


@dataclass(frozen=True, slots=True)
class UnclosedQuote(Mistake):
    """A quoted text does not end on its line."""

    code: ClassVar[str] = "E201"
    name: ClassVar[str] = "unclosed-quote"
    title: ClassVar[str] = "Unclosed quote"

    def sentence(self) -> str:
        return "This quoted text does not end on its line."

    def hint(self) -> str:
        return 'Close it with a second " on the same line.'


@dataclass(frozen=True, slots=True)
class TabIndent(Mistake):
    """A line is indented with a tab."""

    code: ClassVar[str] = "E202"
    name: ClassVar[str] = "tab-indent"
    title: ClassVar[str] = "Tab at the begin of a line"

    def sentence(self) -> str:
        return "This line is indented with a tab."

    def hint(self) -> str:
        return "Indent with four spaces: a tab is as wide as each editor likes, so the blocks could not be told apart."


@dataclass(frozen=True, slots=True)
class BadIndent(Mistake):
    """A line is indented less than the first line of its block."""

    expected: int
    code: ClassVar[str] = "E203"
    name: ClassVar[str] = "bad-indent"
    title: ClassVar[str] = "Uneven indentation"

    def sentence(self) -> str:
        return "This line is indented less than the first line of its block."

    def hint(self) -> str:
        return f"Indent it with {self.expected} spaces, as the first line of the block is."

    def second(self) -> str:
        return "the first line of the block"


@dataclass(frozen=True, slots=True)
class OutsideBlock(Mistake):
    """A line is indented although no block has begun."""

    code: ClassVar[str] = "E204"
    name: ClassVar[str] = "outside-block"
    title: ClassVar[str] = "Line outside every block"

    def sentence(self) -> str:
        return "This line is indented, but no block begins above it."

    def hint(self) -> str:
        return "Put the header of its block above it, for example `world` or `harness`, at the very begin of a line."


@dataclass(frozen=True, slots=True)
class CannotRead(Mistake):
    """A line does not have the shape of its kind."""

    seen: str
    expected: tuple[str, ...]
    code: ClassVar[str] = "E210"
    name: ClassVar[str] = "cannot-read"
    title: ClassVar[str] = "Line not understood"

    def sentence(self) -> str:
        return f"{self.seen} cannot stand here."

    def hint(self) -> str:
        return f"Here may stand: {', '.join(self.expected)}." if self.expected else ""
