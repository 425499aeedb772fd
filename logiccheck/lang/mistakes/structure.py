"""Mistakes about how a vehicle is put together: circles, doubles, and parts that belong together."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base.diagnostic import Mistake
from logiccheck.lang.mistakes.phrases import listed


@dataclass(frozen=True, slots=True)
class RuleCircle(Mistake):
    """Rules depend on each other in a circle."""

    names: tuple[str, ...]  # each needs the next, the last needs the first

    code, name, title = "E601", "rule-circle", "Circle of rules"

    def sentence(self) -> str:
        circle = " -> ".join((*self.names, self.names[0]))
        if len(self.names) == 1:
            return f"`{self.names[0]}` needs its own value: {circle}."
        return f"These rules need each other's value: {circle}."

    def hint(self) -> str:
        return f"Cut the circle at one place, for example here: `previous({self.names[0]})` is the value it had before."

    def second(self) -> str:
        return f"here it needs `{self.names[0]}`: write `previous({self.names[0]})`"


@dataclass(frozen=True, slots=True)
class NoVehicle(Mistake):
    """The main file has no `vehicle` line."""

    code, name, title = "E602", "no-vehicle", "No vehicle line"

    def sentence(self) -> str:
        return "The file does not say which vehicle it describes."

    def hint(self) -> str:
        return 'Begin it with a line like `vehicle "Harbour coffee van"`.'


@dataclass(frozen=True, slots=True)
class TwoVehicles(Mistake):
    """A project has more than one `vehicle` line."""

    code, name, title = "E603", "two-vehicles", "Two vehicle lines"

    def sentence(self) -> str:
        return "A project has one `vehicle` line, in its main file."

    def hint(self) -> str:
        return "Remove this line."

    def second(self) -> str:
        return "the vehicle line that counts"


@dataclass(frozen=True, slots=True)
class NewerLanguage(Mistake):
    """The file is written in a later edition of the language."""

    version: str
    known: int

    code, name, title = "E604", "newer-language", "Unknown edition of the language"

    def sentence(self) -> str:
        return f"The file is written in language {self.version}; this program knows language {self.known}."

    def hint(self) -> str:
        return f"Use a newer program, or write `language {self.known}`."


@dataclass(frozen=True, slots=True)
class LanguageNotFirst(Mistake):
    """The `language` line is not the first line."""

    code, name, title = "E605", "language-not-first", "Language line not first"

    def sentence(self) -> str:
        return "The `language` line is the first line of a file."

    def hint(self) -> str:
        return "Move it to the top, or remove it."


@dataclass(frozen=True, slots=True)
class TwoControllers(Mistake):
    """There is a second controller."""

    code, name, title = "E606", "two-controllers", "Two controllers"

    def sentence(self) -> str:
        return "A vehicle has at most one controller."

    def hint(self) -> str:
        return "Put everything the box does under its one `controller` line."

    def second(self) -> str:
        return "the first controller"


@dataclass(frozen=True, slots=True)
class SaidTwice(Mistake):
    """A part of a line is written twice."""

    part: str

    code, name, title = "E607", "said-twice", "Part written twice"

    def sentence(self) -> str:
        return f"`{self.part}` is said twice."

    def hint(self) -> str:
        return "Keep one of the two."


@dataclass(frozen=True, slots=True)
class MissingReading(Mistake):
    """A sense does not say whether it looks for live or grounded."""

    wire: str

    code, name, title = "E608", "missing-reading", "Sense without live or grounded"

    def sentence(self) -> str:
        return f"A sense on the wire `{self.wire}` must say when it is on."

    def hint(self) -> str:
        return f"Write `from {self.wire} live`, or `from {self.wire} grounded` for a switch that switches ground."


@dataclass(frozen=True, slots=True)
class ReadingOfNumber(Mistake):
    """A number sense says `live` or `grounded`."""

    word: str
    reading: str

    code, name, title = "E609", "reading-of-number", "Number that is live or grounded"

    def sentence(self) -> str:
        return f"`{self.word}` is a number: it is neither live nor grounded."

    def hint(self) -> str:
        return f"Write `from {self.word}` without `{self.reading}`."


@dataclass(frozen=True, slots=True)
class WrongSubstitute(Mistake):
    """A substitute value is not of the kind of its sense."""

    wanted: str

    code, name, title = "E610", "wrong-substitute", "Substitute of another kind"

    def sentence(self) -> str:
        return "The substitute is not of the kind of this sense."

    def hint(self) -> str:
        return f"Write {self.wanted}."


@dataclass(frozen=True, slots=True)
class OtherwiseAlone(Mistake):
    """`otherwise` has no connection with a condition before it."""

    code, name, title = "E611", "otherwise-alone", "`otherwise` with nothing before it"

    def sentence(self) -> str:
        return "`otherwise` needs connections with `when` before it, and is the last one."

    def hint(self) -> str:
        return "Write for example `from main when k, otherwise from reserve`."


@dataclass(frozen=True, slots=True)
class JoinedToItself(Mistake):
    """A wire is joined to itself."""

    word: str

    code, name, title = "E612", "joined-to-itself", "Wire joined to itself"

    def sentence(self) -> str:
        return f"`{self.word}` is joined to itself."

    def hint(self) -> str:
        return "Name two different ends."


@dataclass(frozen=True, slots=True)
class NotASetting(Mistake):
    """In a scenario something is set that is no definite state of the world."""

    code, name, title = "E613", "not-a-setting", "Setting that leaves something open"

    def sentence(self) -> str:
        return "A scenario sets one definite thing at a time."

    def hint(self) -> str:
        return "Write `key is run`, `engine is 900 rpm`, `brake` or `not brake`; what should follow comes after `expect`."


@dataclass(frozen=True, slots=True)
class SetTwice(Mistake):
    """A scenario sets the same thing twice at one time."""

    word: str

    code, name, title = "E614", "set-twice", "Set twice at one time"

    def sentence(self) -> str:
        return f"`{self.word}` is set twice at the same time."

    def hint(self) -> str:
        return "Keep one of the two."

    def second(self) -> str:
        return "the other one"


@dataclass(frozen=True, slots=True)
class UnknownTimer(Mistake):
    """A scenario gives the time of a timer that does not exist."""

    word: str
    near: tuple[str, ...]

    code, name, title = "E615", "unknown-timer", "Unknown timer"

    def sentence(self) -> str:
        return f"There is no timer `{self.word}`."

    def hint(self) -> str:
        return f"Timers near it are {listed(self.near)}." if self.near else "A timer has the name of the line it stands in."


@dataclass(frozen=True, slots=True)
class OutsideTolerance(Mistake):
    """A scenario gives a timer a time that it cannot have."""

    word: str
    low: str
    high: str

    code, name, title = "E616", "outside-tolerance", "Time the timer cannot have"

    def sentence(self) -> str:
        return f"The timer `{self.word}` cannot last that long."

    def hint(self) -> str:
        if self.low == self.high:
            return f"It lasts exactly {self.low}."
        return f"It lasts from {self.low} to {self.high}."
