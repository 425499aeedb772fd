"""Mistakes about names: unknown, used twice, reserved, or of a kind that does not fit where it stands."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base.diagnostic import Mistake
from logiccheck.lang.mistakes.phrases import listed, one_of


@dataclass(frozen=True, slots=True)
class UnknownName(Mistake):
    """A name is used that is declared nowhere."""

    word: str
    near: tuple[str, ...]
    position_of: tuple[str, ...]  # switches that have a position of this name

    code, name, title = "E301", "unknown-name", "Unknown name"

    def sentence(self) -> str:
        return f"Nothing is named `{self.word}`."

    def hint(self) -> str:
        if self.position_of:
            return f"`{self.word}` is a position: write `{self.position_of[0]} is {self.word}`."
        if self.near:
            return f"Did you mean {one_of(self.near)}?"
        return f"Declare `{self.word}` in its block, or name something that is declared."


@dataclass(frozen=True, slots=True)
class DuplicateName(Mistake):
    """A name is declared twice."""

    word: str
    kind: str

    code, name, title = "E302", "duplicate-name", "Name declared twice"

    def sentence(self) -> str:
        return f"`{self.word}` is already the name of {self.kind}."

    def hint(self) -> str:
        return f"All names of a vehicle are in one list: give this one another name, for example `{self.word}_2`."

    def second(self) -> str:
        return f"`{self.word}` is first declared here"


@dataclass(frozen=True, slots=True)
class ReservedWord(Mistake):
    """A word of the language is declared as a name."""

    word: str

    code, name, title = "E303", "reserved-word", "Word of the language as a name"

    def sentence(self) -> str:
        return f"`{self.word}` is a word of the language and cannot be a name."

    def hint(self) -> str:
        return f"Give it another name, for example `the_{self.word}`."


@dataclass(frozen=True, slots=True)
class LongName(Mistake):
    """A name is longer than anybody can read."""

    length: int
    most: int

    code, name, title = "E304", "long-name", "Name too long"

    def sentence(self) -> str:
        return f"This name has {self.length} characters, the most is {self.most}."

    def hint(self) -> str:
        return "Take a short name, and put the long one in quotes behind it as its label."


@dataclass(frozen=True, slots=True)
class UnknownPosition(Mistake):
    """A switch has no position of the name given."""

    switch: str
    word: str
    positions: tuple[str, ...]
    elsewhere: tuple[str, ...]  # other switches that have it
    near: tuple[str, ...]

    code, name, title = "E305", "unknown-position", "Unknown position"

    def sentence(self) -> str:
        return f"`{self.switch}` has no position `{self.word}`."

    def hint(self) -> str:
        if self.near:
            return f"Did you mean `{self.switch} is {self.near[0]}`?"
        if self.elsewhere:
            return f"`{self.word}` is a position of {one_of(self.elsewhere)}: `{self.elsewhere[0]} is {self.word}`."
        return f"Its positions are {listed(self.positions)}."

    def second(self) -> str:
        return f"the positions of `{self.switch}`"


@dataclass(frozen=True, slots=True)
class SwitchAlone(Mistake):
    """A switch with positions stands where something true or false is wanted."""

    switch: str
    positions: tuple[str, ...]

    code, name, title = "E306", "switch-alone", "Switch without a position"

    def sentence(self) -> str:
        return f"`{self.switch}` is a switch with positions: by itself it is neither true nor false."

    def hint(self) -> str:
        return f"Say in which position, for example `{self.switch} is {self.positions[-1]}`."


@dataclass(frozen=True, slots=True)
class NumberAlone(Mistake):
    """A number stands where something true or false is wanted."""

    word: str
    example: str

    code, name, title = "E307", "number-alone", "Number without a comparison"

    def sentence(self) -> str:
        return f"`{self.word}` is a number: by itself it is neither true nor false."

    def hint(self) -> str:
        return f"Compare it, for example `{self.word} above {self.example}`."


@dataclass(frozen=True, slots=True)
class NotANumber(Mistake):
    """Something that is no number is compared with a quantity."""

    word: str
    kind: str
    numbers: tuple[str, ...]

    code, name, title = "E308", "not-a-number", "Comparison of something that is no number"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}, not a number: it cannot be compared with a quantity."

    def hint(self) -> str:
        return f"Numbers here are {listed(self.numbers)}." if self.numbers else "Declare a number: `engine 0 .. 7000 rpm`."


@dataclass(frozen=True, slots=True)
class ValueDoesNotFit(Mistake):
    """A word stands behind `is` that the thing before it cannot be."""

    word: str
    kind: str
    value: str
    allowed: tuple[str, ...]

    code, name, title = "E309", "value-does-not-fit", "Value that does not fit"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind} and cannot be `{self.value}`."

    def hint(self) -> str:
        return f"Write {one_of(tuple(f'{self.word} is {value}' for value in self.allowed))}."


@dataclass(frozen=True, slots=True)
class WrongKind(Mistake):
    """A name of one kind stands where a name of another kind is wanted."""

    word: str
    kind: str
    wanted: str
    choice: tuple[str, ...]

    code, name, title = "E310", "wrong-kind", "Name of another kind"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}; here {self.wanted} is wanted."

    def hint(self) -> str:
        return f"Name {one_of(self.choice)}." if self.choice else f"Declare {self.wanted} first."


@dataclass(frozen=True, slots=True)
class NotTrueOrFalse(Mistake):
    """A name that is neither true nor false stands in a condition."""

    word: str
    kind: str

    code, name, title = "E311", "not-true-or-false", "Name that is neither true nor false"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: it is neither true nor false."

    def hint(self) -> str:
        return "Name a switch, a contact, a wire, a relay, a sense, a rule or an output."


@dataclass(frozen=True, slots=True)
class SamePosition(Mistake):
    """A switch has two positions of one name."""

    word: str

    code, name, title = "E312", "same-position", "Position written twice"

    def sentence(self) -> str:
        return f"The position `{self.word}` is written twice."

    def hint(self) -> str:
        return "Each position of a switch needs a name of its own."
