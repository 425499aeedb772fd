"""Mistakes in the shape of a line: a word or sign that does not belong where it stands."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed


@frozen
class WrongShape(Mistake):
    """A line, or a timer or stored state in it, is not written as its kind is.

    What it means:
        Each kind of line begins with its word and then has its parts in a fixed order. Here something else was
        found than the part that comes next.

    Why it matters:
        The line was not read any further, so nothing of it would be checked.

    Instead of:
        harness
            relay lamp_relay when brake

    Write:
        harness
            relay lamp_relay coil brake
    """

    seen: str  # "" where the line ends too early
    kind: str
    shape: str
    example: str

    code, name, title = "E220", "wrong-shape", "Line of the wrong shape"

    def sentence(self) -> str:
        if not self.seen:
            return f"The line is not complete: {self.kind} is written `{self.shape}`."
        return f"{self.seen} does not belong here: {self.kind} is written `{self.shape}`."

    def hint(self) -> str:
        return f"For example `{self.example}`."


@frozen
class MissingCondition(Mistake):
    """A condition, or one side of `and`, `or` or `xor`, is missing.

    What it means:
        A name, a comparison or a bracket should stand here, and something else does, or nothing.

    Why it matters:
        Half a condition has no meaning.

    Instead of:
        harness
            wire lamp_wire from plus when brake or

    Write:
        harness
            wire lamp_wire from plus when brake or door is open
    """

    seen: str  # "" where the line ends too early

    code, name, title = "E221", "missing-condition", "Condition missing"

    def sentence(self) -> str:
        return (
            f"{self.seen} stands where a condition is missing." if self.seen else "At the end a condition is missing."
        )

    def hint(self) -> str:
        return "Write what has to be so, for example a name, or `key is run`."


@frozen
class MissingOperator(Mistake):
    """Two conditions stand side by side with nothing between them.

    What it means:
        Between two conditions there is no `and`, `or` or `xor`. Often a name was written with a space in it.

    Why it matters:
        `a and b` and `a or b` are very different things, and only you know which one is meant.

    Instead of:
        harness
            wire lamp_wire from plus when brake door is open

    Write:
        harness
            wire lamp_wire from plus when brake or door is open
    """

    left: str  # the name before it, "" if there stands something else
    right: str

    code, name, title = "E222", "missing-operator", "Nothing between two conditions"

    def sentence(self) -> str:
        return f"Nothing joins `{self.right}` to what stands before it."

    def hint(self) -> str:
        if not self.left:
            return f"Write `and {self.right}` or `or {self.right}`."
        ways = [f"`{self.left} {word} {self.right}`" for word in ("is", "and", "or")]
        return f"Write {', '.join(ways)}, or `{self.left}_{self.right}` if it is one name."


@frozen
class ForeignSign(Mistake):
    """A sign stands in the line that the language does not have in this place.

    What it means:
        The language says it in a word: `and`, `or`, `not`, `is`, `above`, `below`.

    Why it matters:
        The file is to be read aloud by somebody who never wrote a program.

    Instead of:
        harness
            wire lamp_wire from plus when brake && door is open

    Write:
        harness
            wire lamp_wire from plus when brake and door is open
    """

    sign: str
    ours: str  # what the language says instead, or ""

    code, name, title = "E223", "foreign-sign", "Sign of another language"

    def sentence(self) -> str:
        sign = "of a backquote" if self.sign == "`" else f"`{self.sign}`"
        return f"The sign {sign} has no meaning here."

    def hint(self) -> str:
        return f"Write `{self.ours}`." if self.ours else "Leave it out."


@frozen
class ForeignWord(Mistake):
    """A word stands in the line for which the language has another.

    What it means:
        The word is one of another language, or one of ours in capital letters. Ours are in small letters.

    Why it matters:
        One word for one thing keeps files alike, whoever wrote them.

    Instead of:
        harness
            wire lamp_wire from plus if brake AND door is open

    Write:
        harness
            wire lamp_wire from plus when brake and door is open
    """

    word: str
    ours: str

    code, name, title = "E224", "foreign-word", "Word of another language"

    def sentence(self) -> str:
        return f"The word `{self.word}` has no meaning here."

    def hint(self) -> str:
        return f"Write `{self.ours}`."


@frozen
class DecimalComma(Mistake):
    """A number is written with a decimal comma.

    What it means:
        A comma separates parts of a line; inside a number stands a point.

    Why it matters:
        `1,5 mm2` would be two numbers, 1 and 5.

    Instead of:
        constants
            prime_time = 2,5 s

    Write:
        constants
            prime_time = 2.5 s
    """

    whole: str
    part: str

    code, name, title = "E225", "decimal-comma", "Decimal comma"

    def sentence(self) -> str:
        return "A number is written with a decimal point, not with a comma."

    def hint(self) -> str:
        return f"Write `{self.whole}.{self.part}`."


@frozen
class MissingGuard(Mistake):
    """A requirement does not say what it guards.

    What it means:
        A requirement begins with `danger` (people could be hurt), `damage` (something breaks) or `function` (it
        should work), and then has a name.

    Why it matters:
        A report begins with what could hurt somebody.

    Instead of:
        requirements
            never brake and door is open

    Write:
        requirements
            danger doors_shut never brake and door is open
    """

    guarded: bool  # the guard is there, and the name is missing

    code, name, title = "E226", "missing-guard", "Requirement without its first words"

    def sentence(self) -> str:
        if self.guarded:
            return "The name of the requirement is missing."
        return "A requirement begins with what it guards: `danger`, `damage` or `function`."

    def hint(self) -> str:
        return "For example `danger no_key_no_spark never ignition while key is off`."


@frozen
class IsAndComparison(Mistake):
    """`is` stands before a comparison.

    What it means:
        A comparison has no `is`: the number stands right before `above`, `below`, `at least` or `at most`.

    Why it matters:
        `is` says that a number has one exact value.

    Instead of:
        harness
            wire lamp_wire from plus when engine is above 300 rpm

    Write:
        harness
            wire lamp_wire from plus when engine above 300 rpm
    """

    number: str
    word: str

    code, name, title = "E227", "is-and-comparison", "`is` before a comparison"

    def sentence(self) -> str:
        return f"Before `{self.word}` stands no `is`."

    def hint(self) -> str:
        return f"Write `{self.number} {self.word} ...`."


@frozen
class ExtraText(Mistake):
    """Something stands behind the end of a line that is complete.

    What it means:
        The line is complete, and then something follows that has no meaning there.

    Why it matters:
        What is not understood might have been meant to change something.

    Instead of:
        harness
            diode key_wire -> wake_wire always

    Write:
        harness
            diode key_wire -> wake_wire
    """

    seen: str
    expected: tuple[str, ...]

    code, name, title = "E228", "extra-text", "Text behind the end"

    def sentence(self) -> str:
        return f"The line is complete before {self.seen}."

    def hint(self) -> str:
        return f"Remove it; only {listed(self.expected, 'or')} could follow." if self.expected else "Remove it."
