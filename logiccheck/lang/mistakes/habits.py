"""Mistakes of people who write as they speak: the language has the thought, and says it in another way."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed, one_of


@frozen
class SaidOtherwise(Mistake):
    """Something is said in a way that the language has not, and it has another way.

    What it means:
        The words are those of the language, or near them, and their order or their place is not. What was most
        probably meant is shown as it is written.

    Why it matters:
        One way to say a thing keeps files alike, and leaves no doubt about what was checked.

    Instead of:
        requirements
            function horn_works always wake for longer than 3 s

    Write:
        requirements
            function horn_works never not wake for longer than 3 s
    """

    rule: str  # a whole sentence
    ours: str  # with its quotes, behind "Write"

    code, name, title = "E229", "said-otherwise", "Said in another way"

    def sentence(self) -> str:
        return self.rule

    def hint(self) -> str:
        return f"Write {self.ours}."


@frozen
class NoSuchLine(Mistake):
    """A line begins with a word that no line of its block begins with.

    What it means:
        The first word of a line says what it is: under `harness` a source, a ground, a wire, a join, a diode, a
        relay or a load. This word is none of these.

    Why it matters:
        The line was not read any further, so nothing of it would be checked.

    Instead of:
        harness
            cable horn_wire from plus when brake

    Write:
        harness
            wire horn_wire from plus when brake
    """

    word: str
    block: str
    meant: tuple[str, ...]
    words: tuple[str, ...]  # that lines of the block begin with

    code, name, title = "E230", "no-such-line", "Line that begins with another word"

    def sentence(self) -> str:
        return f"No line under `{self.block}` begins with `{self.word}`."

    def hint(self) -> str:
        if self.meant:
            return f"Did you mean {one_of(self.meant)}?"
        return f"Lines there begin with {listed(self.words, 'or')}."
