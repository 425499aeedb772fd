"""Mistakes about names: unknown, used twice, reserved, or of a kind that does not fit where it stands."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed, one_of


@frozen
class UnknownName(Mistake):
    """A name is used that is declared nowhere.

    What it means:
        Every name is declared once, in its block: a switch in the world, a wire in the harness, a sense or a rule
        in the controller. This one is not.

    Why it matters:
        A name that is not known cannot be true or false. Were it taken for false, a spelling mistake could prove
        anything.

    Instead of:
        harness
            wire lamp_wire from plus when brakes

    Write:
        harness
            wire lamp_wire from plus when brake
    """

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


@frozen
class DuplicateName(Mistake):
    """A name is declared twice.

    What it means:
        All names of a vehicle are in one list, whatever they stand for; only the positions of a switch are its own.

    Why it matters:
        One of the two would be taken for the other.

    Instead of:
        world
            horn contact
        harness
            wire horn from plus when horn

    Write:
        world
            horn contact
        harness
            wire horn_wire from plus when horn
    """

    word: str
    kind: str
    again: str  # the kind of the second

    code, name, title = "E302", "duplicate-name", "Name declared twice"

    def sentence(self) -> str:
        return f"`{self.word}` is already the name of {self.kind}."

    def hint(self) -> str:
        if self.kind == self.again == "a wire":
            return (
                f"For another contact of the same wire write `join {self.word} with OTHER when CONDITION`; for another "
                f"wire take another name, for example `{self.word}_2`."
            )
        return f"All names of a vehicle are in one list: give this one another name, for example `{self.word}_2`."

    def second(self) -> str:
        return f"`{self.word}` is first declared here"


@frozen
class ReservedWord(Mistake):
    """A word of the language is declared as a name.

    What it means:
        The words of the language, and a few that are kept for later (`level`, `counter`, `cut_out`), cannot be
        names. Positions of switches may be called so: `off | on` is fine.

    Why it matters:
        A line could be read in two ways.

    Instead of:
        world
            filter contact

    Write:
        world
            air_filter contact
    """

    word: str

    code, name, title = "E303", "reserved-word", "Word of the language as a name"

    def sentence(self) -> str:
        return f"`{self.word}` is a word of the language and cannot be a name."

    def hint(self) -> str:
        return f"Give it another name, for example `the_{self.word}`."


@frozen
class LongName(Mistake):
    """A name is longer than anybody can read.

    What it means:
        The name has more characters than the limit.

    Why it matters:
        Names stand in every sentence of a report. What is long belongs in the label.
    """

    length: int
    most: int

    code, name, title = "E304", "long-name", "Name too long"

    def sentence(self) -> str:
        return f"This name has {self.length} characters, the most is {self.most}."

    def hint(self) -> str:
        return "Take a short name, and put the long one in quotes behind it as its label."


@frozen
class NumberAlone(Mistake):
    """A number stands where something true or false is wanted.

    What it means:
        A number becomes true or false only by being compared with a quantity.

    Why it matters:
        From which value on it counts is for you to say.

    Instead of:
        harness
            wire lamp_wire from plus when engine

    Write:
        harness
            wire lamp_wire from plus when engine above 0 rpm
    """

    word: str
    example: str

    code, name, title = "E307", "number-alone", "Number without a comparison"

    def sentence(self) -> str:
        return f"`{self.word}` is a number: by itself it is neither true nor false."

    def hint(self) -> str:
        return f"Compare it, for example `{self.word} above {self.example}`."


@frozen
class NotANumber(Mistake):
    """Something that is no number is compared with a quantity.

    What it means:
        Before `above`, `below`, `at least`, `at most`, and before `is` with a quantity, stands a number of the
        world or a number sense.

    Why it matters:
        A switch or a wire has no value to compare.

    Instead of:
        harness
            wire lamp_wire from plus when door above 3 rpm

    Write:
        harness
            wire lamp_wire from plus when engine above 3 rpm
    """

    word: str
    kind: str
    numbers: tuple[str, ...]

    code, name, title = "E308", "not-a-number", "Comparison of something that is no number"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}, not a number: it cannot be compared with a quantity."

    def hint(self) -> str:
        return (
            f"Numbers here are {listed(self.numbers)}." if self.numbers else "Declare a number: `engine 0 .. 7000 rpm`."
        )


@frozen
class ValueDoesNotFit(Mistake):
    """A word stands behind `is` that the thing before it cannot be.

    What it means:
        A wire is `live` or `grounded`; a relay, a sense, a rule or an output is `on` or `off`; a switch is in one
        of its positions.

    Why it matters:
        A wire that is not live is not simply off: it may be grounded or open, and old circuits use all three.

    Instead of:
        harness
            relay lamp_relay coil key_wire is on

    Write:
        harness
            relay lamp_relay coil key_wire is live
    """

    word: str
    kind: str
    value: str
    allowed: tuple[str, ...]

    code, name, title = "E309", "value-does-not-fit", "Value that does not fit"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind} and cannot be `{self.value}`."

    def hint(self) -> str:
        ways = [f"{self.word} is {value}" for value in self.allowed]
        if "live" in self.allowed and "off" not in self.allowed:  # a wire that is not live has no word of its own
            ways.append(f"not {self.word}")
        return f"Write {one_of(ways)}."


@frozen
class WrongKind(Mistake):
    """A name of one kind stands where a name of another kind is wanted.

    What it means:
        The name is declared, but as something else: a switch where a wire is wanted, a wire where a constant is
        wanted.

    Why it matters:
        Copper joins copper, and a box is fed by copper: mixed up, the drawing would not be the vehicle.

    Instead of:
        harness
            wire lamp_wire from brake

    Write:
        harness
            wire lamp_wire from plus when brake
    """

    word: str
    kind: str
    wanted: str
    choice: tuple[str, ...]

    code, name, title = "E310", "wrong-kind", "Name of another kind"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}; here {self.wanted} is wanted."

    def hint(self) -> str:
        return f"Name {one_of(self.choice)}." if self.choice else f"Declare {self.wanted} first."


@frozen
class NotTrueOrFalse(Mistake):
    """A name that is neither true nor false stands in a condition.

    What it means:
        A constant, a requirement or a scenario has a name too, but is nothing that could be so or not so.

    Why it matters:
        The condition would have no meaning.

    Instead of:
        constants
            idle = 400 rpm
        harness
            wire lamp_wire from plus when idle

    Write:
        constants
            idle = 400 rpm
        harness
            wire lamp_wire from plus when engine above idle
    """

    word: str
    kind: str

    code, name, title = "E311", "not-true-or-false", "Name that is neither true nor false"

    def sentence(self) -> str:
        return f"`{self.word}` is {self.kind}: it is neither true nor false."

    def hint(self) -> str:
        return "Name a switch, a contact, a wire, a relay, a sense, a rule or an output."
