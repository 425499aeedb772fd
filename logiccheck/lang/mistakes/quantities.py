"""Mistakes about quantities: units, ranges, durations and tolerances."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base.diagnostic import Mistake
from logiccheck.lang.mistakes.phrases import listed, one_of


@dataclass(frozen=True, slots=True)
class MissingUnit(Mistake):
    """A number has no unit."""

    number: str
    units: tuple[str, ...]

    code, name, title = "E401", "missing-unit", "Number without a unit"

    def sentence(self) -> str:
        return f"The number {self.number} has no unit."

    def hint(self) -> str:
        return f"Write {one_of(tuple(f'{self.number} {unit}' for unit in self.units[:3]))}."


@dataclass(frozen=True, slots=True)
class UnknownUnit(Mistake):
    """A unit is not known."""

    unit: str
    near: tuple[str, ...]
    units: tuple[str, ...]

    code, name, title = "E402", "unknown-unit", "Unknown unit"

    def sentence(self) -> str:
        return f"`{self.unit}` is not a unit."

    def hint(self) -> str:
        if self.near:
            return f"Did you mean {one_of(self.near)}?"
        return f"Units here are {listed(self.units)}."


@dataclass(frozen=True, slots=True)
class WrongUnit(Mistake):
    """A quantity measures something else than what is wanted."""

    found: str  # what the quantity is: "a temperature"
    wanted: str  # what is wanted: "an engine speed"
    subject: str  # whom it is compared with or what it is for
    units: tuple[str, ...]

    code, name, title = "E403", "wrong-unit", "Unit of another kind"

    def sentence(self) -> str:
        return f"This is {self.found}, but {self.subject} is {self.wanted}."

    def hint(self) -> str:
        return f"Give a quantity in {one_of(self.units)}."


@dataclass(frozen=True, slots=True)
class NotAboveZero(Mistake):
    """A duration, or what a load draws, is zero or less."""

    what: str

    code, name, title = "E404", "not-above-zero", "Quantity that is not above zero"

    def sentence(self) -> str:
        return f"{self.what} must be above 0."

    def hint(self) -> str:
        return "Write a quantity above 0, or leave this part out."


@dataclass(frozen=True, slots=True)
class TooFine(Mistake):
    """A duration is finer than one microsecond."""

    time: str

    code, name, title = "E405", "too-fine", "Duration finer than a microsecond"

    def sentence(self) -> str:
        return f"Durations are whole microseconds; {self.time} is not."

    def hint(self) -> str:
        return "Round it to whole microseconds (us)."


@dataclass(frozen=True, slots=True)
class OutOfRange(Mistake):
    """A number of the world is held against a value that it can never have."""

    word: str
    value: str
    low: str
    high: str

    code, name, title = "E406", "out-of-range", "Value outside the range"

    def sentence(self) -> str:
        return f"{self.value} is outside the range of `{self.word}`."

    def hint(self) -> str:
        return f"Take a value from {self.low} to {self.high}, or widen the range of `{self.word}`."

    def second(self) -> str:
        return f"the range of `{self.word}`"


@dataclass(frozen=True, slots=True)
class CrossedThresholds(Mistake):
    """Two thresholds are written in an order in which they switch at once there and back."""

    rising: bool
    begin: str
    end: str

    code, name, title = "E407", "crossed-thresholds", "Crossed thresholds"

    def sentence(self) -> str:
        if self.rising:
            return f"It begins above {self.begin} but ends only below {self.end}, which is not lower."
        return f"It begins below {self.begin} but ends only above {self.end}, which is not higher."

    def hint(self) -> str:
        first, second = ("above", "below") if self.rising else ("below", "above")
        if self.begin == self.end:
            return f"The two must differ: with one threshold write only `{first} {self.begin}`."
        return f"Write `{first} {self.end} until {second} {self.begin}`."


@dataclass(frozen=True, slots=True)
class EmptyRange(Mistake):
    """A range ends at or below its begin."""

    low: str
    high: str

    code, name, title = "E408", "empty-range", "Empty range"

    def sentence(self) -> str:
        return f"A range goes upwards, but {self.high} is not above {self.low}."

    def hint(self) -> str:
        return "Write the lower end first." if self.low != self.high else "Write two different ends."


@dataclass(frozen=True, slots=True)
class WideTolerance(Mistake):
    """A tolerance reaches down to zero or below."""

    code, name, title = "E409", "wide-tolerance", "Tolerance as wide as the duration"

    def sentence(self) -> str:
        return "With this tolerance the duration could be 0 or less."

    def hint(self) -> str:
        return "Write a smaller tolerance, for example `+- 10 %`."


@dataclass(frozen=True, slots=True)
class ToleranceHere(Mistake):
    """A duration with a tolerance stands where one exact quantity is wanted."""

    code, name, title = "E410", "tolerance-here", "Tolerance where an exact quantity is wanted"

    def sentence(self) -> str:
        return "Here one exact quantity is wanted, not one with a tolerance."

    def hint(self) -> str:
        return "Write the exact quantity itself, for example `4 min`."


@dataclass(frozen=True, slots=True)
class LongNumber(Mistake):
    """A number has more digits than any quantity of a vehicle."""

    digits: int
    most: int

    code, name, title = "E411", "long-number", "Number too long"

    def sentence(self) -> str:
        return f"This number has {self.digits} digits, the most is {self.most}."

    def hint(self) -> str:
        return "Use a larger unit, or round."


@dataclass(frozen=True, slots=True)
class DividedByZero(Mistake):
    """A fraction has the denominator 0."""

    code, name, title = "E412", "divided-by-zero", "Divided by zero"

    def sentence(self) -> str:
        return "This number is divided by zero."

    def hint(self) -> str:
        return "Write a decimal number, for example `0.3 s`."


@dataclass(frozen=True, slots=True)
class NegativeTime(Mistake):
    """A scenario names a time before its begin, or times that run backwards."""

    code, name, title = "E413", "negative-time", "Time before the begin"

    def sentence(self) -> str:
        return "This time lies before the begin."

    def hint(self) -> str:
        return "A scenario begins at 0 s; in `from ... to ...` the later time comes second."


@dataclass(frozen=True, slots=True)
class ConstantOfConstant(Mistake):
    """A constant is written with the name of another constant."""

    word: str

    code, name, title = "E414", "constant-of-constant", "Constant made of a name"

    def sentence(self) -> str:
        return f"A constant is a quantity; `{self.word}` is a name."

    def hint(self) -> str:
        return "Write the quantity itself, for example `3 s`."
