"""Mistakes about quantities: units, ranges, thresholds and constants."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed, one_of


@frozen
class MissingUnit(Mistake):
    """A number has no unit.

    What it means:
        Every quantity is a number and a unit, 0 too.

    Why it matters:
        5 could be seconds or minutes; the battery would notice the difference, and the file would not.

    Instead of:
        constants
            prime_time = 3

    Write:
        constants
            prime_time = 3 s
    """

    number: str
    units: tuple[str, ...]

    code, name, title = "E401", "missing-unit", "Number without a unit"

    def sentence(self) -> str:
        return f"The number {self.number} has no unit."

    def hint(self) -> str:
        return f"Write {one_of(tuple(f'{self.number} {unit}' for unit in self.units[:3]))}."


@frozen
class UnknownUnit(Mistake):
    """A unit is not known.

    What it means:
        The word behind the number is no unit of the language. Units are written exactly as in the list: capitals
        count, `mA` is not `MA`.

    Why it matters:
        A guess could be wrong by a factor of a thousand.

    Instead of:
        constants
            prime_time = 3 seconds

    Write:
        constants
            prime_time = 3 s
    """

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


@frozen
class WrongUnit(Mistake):
    """A quantity measures something else than what is wanted.

    What it means:
        The unit is known, but it measures another kind of thing: a temperature where an engine speed is wanted.

    Why it matters:
        The two cannot be compared.

    Instead of:
        harness
            wire lamp_wire from plus when engine above 95 degC

    Write:
        harness
            wire lamp_wire from plus when engine above 3000 rpm
    """

    found: str  # what the quantity is: "a temperature"
    wanted: str  # what is wanted: "an engine speed"
    subject: str  # whom it is compared with or what it is for
    units: tuple[str, ...]

    code, name, title = "E403", "wrong-unit", "Unit of another kind"

    def sentence(self) -> str:
        return f"This is {self.found}, but {self.subject} is {self.wanted}."

    def hint(self) -> str:
        return f"Give a quantity in {one_of(self.units)}."

    def second(self) -> str:
        return "the other end"


@frozen
class OutOfRange(Mistake):
    """A number of the world is held against a value that it can never have.

    What it means:
        The world says from where to where the number goes, and the quantity lies outside.

    Why it matters:
        The comparison would always give the same answer. Either the range is too narrow, and proofs would leave out
        what can happen, or the threshold is a slip.

    Instead of:
        harness
            wire lamp_wire from plus when engine above 9000 rpm

    Write:
        harness
            wire lamp_wire from plus when engine above 6000 rpm
    """

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


@frozen
class CrossedThresholds(Mistake):
    """Two thresholds are written in an order in which both hold at once.

    What it means:
        `above a until below b` begins above a and ends below b, so b cannot be the higher one. Between the two it
        stays as it was.

    Why it matters:
        Crossed, both ends would hold at once between them, and nobody could say what it is there.

    Instead of:
        harness
            relay lamp_relay coil engine above 300 rpm until below 400 rpm

    Write:
        harness
            relay lamp_relay coil engine above 400 rpm until below 300 rpm
    """

    rising: bool
    begin: str
    end: str

    code, name, title = "E407", "crossed-thresholds", "Crossed thresholds"

    def sentence(self) -> str:
        if self.rising:
            return f"It begins above {self.begin} but ends below {self.end}, which is higher: both can hold at once."
        return f"It begins below {self.begin} but ends above {self.end}, which is lower: both can hold at once."

    def hint(self) -> str:
        first, second = ("above", "below") if self.rising else ("below", "above")
        return f"Write `{first} {self.end} until {second} {self.begin}`."

    def second(self) -> str:
        return "the other end"


@frozen
class EmptyRange(Mistake):
    """A range ends at or below its begin.

    What it means:
        In `0 .. 7000 rpm` and in `from 3 s to 5 s` the lower end comes first.

    Why it matters:
        Nothing lies in such a range.

    Instead of:
        world
            speed 120 .. 0 km/h

    Write:
        world
            speed 0 .. 120 km/h
    """

    low: str
    high: str

    code, name, title = "E408", "empty-range", "Empty range"

    def sentence(self) -> str:
        return f"A range goes upwards, but {self.high} is not above {self.low}."

    def hint(self) -> str:
        return "Write the lower end first." if self.low != self.high else "Write two different ends."


@frozen
class LongNumber(Mistake):
    """A number has more digits than any quantity of a vehicle.

    What it means:
        The number has more digits than the limit.

    Why it matters:
        It is far more often a slip of the keyboard.
    """

    digits: int
    most: int

    code, name, title = "E411", "long-number", "Number too long"

    def sentence(self) -> str:
        return f"This number has {self.digits} digits, the most is {self.most}."

    def hint(self) -> str:
        return "Use a larger unit, or round."


@frozen
class DividedByZero(Mistake):
    """A fraction has the denominator 0.

    What it means:
        A number may be a fraction such as `1/3 s`, but not over 0.

    Why it matters:
        It has no value.

    Instead of:
        constants
            prime_time = 3/0 s

    Write:
        constants
            prime_time = 1/2 s
    """

    code, name, title = "E412", "divided-by-zero", "Divided by zero"

    def sentence(self) -> str:
        return "This number is divided by zero."

    def hint(self) -> str:
        return "Write a decimal number, for example `0.3 s`."


@frozen
class ConstantOfConstant(Mistake):
    """A constant is written with the name of another constant.

    What it means:
        Behind `=` stands a quantity. There is no arithmetic, and no second name for one thing.

    Why it matters:
        Whoever reads the line sees the value at once.

    Instead of:
        constants
            prime_time = 3 s
            purge_time = prime_time

    Write:
        constants
            prime_time = 3 s
            purge_time = 3 s
    """

    word: str

    code, name, title = "E414", "constant-of-constant", "Constant made of a name"

    def sentence(self) -> str:
        return f"A constant is a quantity; `{self.word}` is a name."

    def hint(self) -> str:
        return "Write the quantity itself, for example `3 s`."
