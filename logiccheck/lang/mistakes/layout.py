"""Mistakes in the layout of a file: lines, indentation, quotes, brackets and blocks."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed, one_of


@frozen
class UnclosedQuote(Mistake):
    """A quoted text does not end on its line.

    What it means:
        A label begins with a quote, and the line ends before a second quote closes it. The line was not read any
        further.

    Why it matters:
        Without the second quote nobody can tell where the label ends and the rest of the line begins.

    Instead of:
        world
            door "Driver's door closed | open

    Write:
        world
            door "Driver's door" closed | open
    """

    code, name, title = "E201", "unclosed-quote", "Unclosed quote"

    def sentence(self) -> str:
        return "This quoted text does not end on its line."

    def hint(self) -> str:
        return 'Close it with a second " on the same line.'


@frozen
class TabIndent(Mistake):
    """A line is indented with a tab.

    What it means:
        The blanks before the first word of the line hold a tab.

    Why it matters:
        Indentation says what belongs to which block, and a tab is as wide as each editor likes: two people would
        see two different files.
    """

    code, name, title = "E202", "tab-indent", "Tab at the begin of a line"

    def sentence(self) -> str:
        return "This line is indented with a tab."

    def hint(self) -> str:
        return "Indent it with four spaces instead."


@frozen
class BadIndent(Mistake):
    """A line is indented less than the first line of its block.

    What it means:
        The first line of a block says how far its lines are indented. A deeper line continues the line above; a
        line further left has no meaning.

    Why it matters:
        It could be a new line of the block or the continuation of another: a guess could change what is proved.

    Instead of:
        world
            door closed | open
          brake contact

    Write:
        world
            door closed | open
            brake contact
    """

    expected: int

    code, name, title = "E203", "bad-indent", "Uneven indentation"

    def sentence(self) -> str:
        return "This line is indented less than the first line of its block."

    def hint(self) -> str:
        return f"Indent it with {self.expected} spaces, as the first line of the block is."

    def second(self) -> str:
        return "the first line of the block"


@frozen
class OutsideBlock(Mistake):
    """A line stands under no block.

    What it means:
        The line is indented, but above it stands no header such as `world`, `harness` or `requirements`.

    Why it matters:
        Where a thing lives (hands and physics, copper, the box) is said by its block, and changes what it means.

    Instead of:
        # hands and physics
            door closed | open

    Write:
        world
            door closed | open
    """

    code, name, title = "E204", "outside-block", "Line outside every block"

    def sentence(self) -> str:
        return "This line is indented, but no block begins above it."

    def hint(self) -> str:
        return "Put the header of its block above it, for example `world`, at the very begin of a line."


@frozen
class UnknownBlock(Mistake):
    """A line in column 0 begins with a word that opens no block.

    What it means:
        A line that is not indented is the header of a block, or one of the lines `vehicle`, `use`, `language`.

    Why it matters:
        Nothing under an unknown header is read, so nothing in it would be checked.

    Instead of:
        worlds
            door closed | open

    Write:
        world
            door closed | open
    """

    word: str
    near: tuple[str, ...]
    block: str  # the block in which lines with this first word stand, or ""

    code, name, title = "E205", "unknown-block", "Unknown block"

    def sentence(self) -> str:
        if self.block:
            return f"`{self.word}` begins a line of the block `{self.block}`, but this line is not indented."
        return f"`{self.word}` opens no block." if self.word else "A line that is not indented opens a block."

    def hint(self) -> str:
        if self.block:
            return f"Indent it with four spaces under `{self.block}`."
        if self.near:
            return f"Did you mean {one_of(self.near)}?"
        blocks = ("constants", "world", "harness", "controller", "electrics", "given", "requirements", "scenario")
        return f"Blocks are {listed(blocks)}."


@frozen
class IndentedHeader(Mistake):
    """The header of a block is indented.

    What it means:
        The line begins with a word that opens a block, but it stands inside another block.

    Why it matters:
        Headers stand in the first column, so that one sees at once which lines are whose.

    Instead of:
        world
            door closed | open
            harness
            wire lamp_wire from plus

    Write:
        world
            door closed | open
        harness
            wire lamp_wire from plus
    """

    word: str

    code, name, title = "E206", "indented-header", "Indented header"

    def sentence(self) -> str:
        return f"`{self.word}` begins a block and is not indented."

    def hint(self) -> str:
        return "Move it to the very begin of the line."


@frozen
class WrongBlock(Mistake):
    """A line stands in a block it does not belong to.

    What it means:
        Each kind of line has its block: wires and relays are copper and stand under `harness`, senses and rules are
        of the box and stand under `controller`.

    Why it matters:
        What lives where decides who can know of it, and what goes on when the box sleeps.

    Instead of:
        world
            wire lamp_wire from plus

    Write:
        harness
            wire lamp_wire from plus
    """

    word: str
    here: str
    block: str

    code, name, title = "E207", "wrong-block", "Line in the wrong block"

    def sentence(self) -> str:
        return f"A line that begins with `{self.word}` does not belong under `{self.here}`."

    def hint(self) -> str:
        if self.word == "load" and self.here == "controller":
            return "Indent it deeper than its `output`, or put it under `harness` if it hangs on a wire."
        return f"Put it under `{self.block}`."


@frozen
class UnclosedBracket(Mistake):
    """A bracket is opened and not closed.

    What it means:
        The line ends before the bracket is closed.

    Why it matters:
        Where the bracket ends decides what belongs together: `a and (b or c)` is not `(a and b) or c`.

    Instead of:
        harness
            wire lamp_wire from plus when (brake or door is open

    Write:
        harness
            wire lamp_wire from plus when (brake or door is open)
    """

    bracket: str
    closing: str

    code, name, title = "E208", "unclosed-bracket", "Unclosed bracket"

    def sentence(self) -> str:
        return f"This `{self.bracket}` is not closed."

    def hint(self) -> str:
        return f"Close it with `{self.closing}`."

    def second(self) -> str:
        return "up to here"


@frozen
class StrayBracket(Mistake):
    """A bracket is closed that is not open.

    What it means:
        A closing bracket stands where no bracket of its kind is open.

    Why it matters:
        Either it is one too many, or the opening one was lost, and with it what belongs together.

    Instead of:
        harness
            wire lamp_wire from plus when brake or door is open)

    Write:
        harness
            wire lamp_wire from plus when (brake or door is open)
    """

    bracket: str

    code, name, title = "E209", "stray-bracket", "Bracket that closes nothing"

    def sentence(self) -> str:
        return f"This `{self.bracket}` closes nothing."

    def hint(self) -> str:
        return "Remove it, or open the bracket further left."


@frozen
class StrangeCharacter(Mistake):
    """A character stands in the file that nobody can see.

    What it means:
        The line holds a control character, or a blank that is no ordinary space. They come in by copying from other
        programs.

    Why it matters:
        What one cannot see one cannot check.
    """

    number: int

    code, name, title = "E210", "strange-character", "Invisible character"

    def sentence(self) -> str:
        return f"Here stands an invisible character (U+{self.number:04X})."

    def hint(self) -> str:
        return "Delete it, or type a space in its place."


@frozen
class LongLine(Mistake):
    """A line is longer than is read.

    What it means:
        The line has more characters than the limit.

    Why it matters:
        No person writes such a line; it is far more often a file of another kind.
    """

    length: int
    most: int

    code, name, title = "E211", "long-line", "Line too long"

    def sentence(self) -> str:
        return f"This line has {self.length} characters, the most is {self.most}."

    def hint(self) -> str:
        return "Break it: a line that is indented deeper continues the one above."


@frozen
class TooDeep(Mistake):
    """Brackets or operators are nested deeper than is read.

    What it means:
        One condition stands inside another, inside another, and so on, more often than the limit.

    Why it matters:
        Nobody can follow it. With names for its parts it becomes readable, and its explanation does too.
    """

    most: int

    code, name, title = "E212", "too-deep", "Nested too deeply"

    def sentence(self) -> str:
        return f"This is nested deeper than {self.most} levels."

    def hint(self) -> str:
        return "Give its parts names, with a `rule` for each."


@frozen
class TooManyMistakes(Mistake):
    """There are more mistakes than are shown.

    What it means:
        Only the first mistakes are listed; the rest is counted.

    Why it matters:
        A long list often has one cause near its begin: mend that first.
    """

    more: int

    code, name, title = "E213", "too-many-mistakes", "More mistakes than are shown"

    def sentence(self) -> str:
        return f"There are {self.more} more mistakes." if self.more != 1 else "There is one more mistake."

    def hint(self) -> str:
        return "Mend the ones above first."
