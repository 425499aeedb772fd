"""Mistakes about what is accepted: where it stands, what it names, and what is missing of it."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import begin, one_of


@frozen
class AcceptedElsewhere(Mistake):
    """A file that is used by another accepts findings.

    What it means:
        The block `accepted` stands in the main file only.

    Why it matters:
        Whoever reads the main file should see all that somebody took responsibility for.
    """

    code, name, title = "E701", "accepted-elsewhere", "Accepted in another file than the main file"

    def sentence(self) -> str:
        return "`accepted` stands in the main file only."

    def hint(self) -> str:
        return "Move its lines there."


@frozen
class BadDate(Mistake):
    """What stands behind `on` is not a date.

    What it means:
        A date is written as year, month and day: `2026-11-02`. The day has to be one that there is.

    Why it matters:
        Other ways to write a date mean one day in one country and another day in the next.
    """

    word: str

    code, name, title = "E702", "bad-date", "Not a date"

    def sentence(self) -> str:
        return f"`{begin(self.word)}` is not a date."

    def hint(self) -> str:
        return "Write year, month and day, for example `2026-11-02`."


@frozen
class BadMark(Mistake):
    """What stands behind `logic` is not the mark of any logic.

    What it means:
        The mark is two times four digits or letters from `a` to `f`. The check prints it below each finding, in a line
        that is ready to be copied.

    Why it matters:
        By its mark it is seen that the logic has changed since a finding was accepted.
    """

    word: str

    code, name, title = "E703", "bad-mark", "Not the mark of any logic"

    def sentence(self) -> str:
        return f"`{begin(self.word)}` is not the mark of any logic."

    def hint(self) -> str:
        return "Copy the line that the check prints below the finding; a mark looks like `4f1c-9a2e`."


@frozen
class AcceptedWithout(Mistake):
    """A finding is accepted without a reason, or by nobody.

    What it means:
        One of the texts in quotes is empty, or still `REASON` or `NAME` as in the line that is printed to be copied:
        the reason, or behind `by` the name of whoever accepts it.

    Why it matters:
        Both stand in every report. Whoever reads it later has nothing else to judge by.
    """

    what: str  # "a reason", "a name"

    code, name, title = "E704", "accepted-without", "Accepted without a reason or a name"

    def sentence(self) -> str:
        return f"This is accepted without {self.what}."

    def hint(self) -> str:
        if self.what == "a reason":
            return "Say in your own words why it does no harm."
        return "Say who takes responsibility for it."


@frozen
class AcceptedTwice(Mistake):
    """The same is accepted twice.

    What it means:
        Two lines accept the same finding about the same name and the same logic.

    Why it matters:
        Reports show one reason, and the other would be lost.
    """

    kind: str
    about: str

    code, name, title = "E705", "accepted-twice", "Accepted twice"

    def sentence(self) -> str:
        return f"`{self.kind}` of `{self.about}` is accepted twice."

    def hint(self) -> str:
        return "Keep one of the two."

    def second(self) -> str:
        return "the first one"


@frozen
class UnknownFinding(Mistake):
    """What is accepted is no kind of finding.

    What it means:
        A line under `accepted` begins with the name or the code of a finding, or with `requirement` for a requirement
        that fails.

    Why it matters:
        What was meant would not be accepted, and nobody would see why.
    """

    word: str
    near: tuple[str, ...]

    code, name, title = "E706", "unknown-finding", "Unknown kind of finding"

    def sentence(self) -> str:
        return f"There is no finding named `{begin(self.word)}`."

    def hint(self) -> str:
        return f"Did you mean {one_of(self.near)}?" if self.near else "`logiccheck about` lists the names of all."


@frozen
class AcceptedInVain(Mistake):
    """Something is accepted that is not so.

    What it means:
        Nothing of this kind was found about this name, or the requirement holds. It may have been mended.

    Why it matters:
        A line that accepts nothing today would silently accept what comes back tomorrow.
    """

    kind: str
    about: str

    code, name, title = "E707", "accepted-in-vain", "Accepted although there is nothing to accept"

    def sentence(self) -> str:
        if self.kind == "requirement":
            return f"The requirement `{self.about}` is accepted, but it holds."
        return f"`{self.kind}` of `{self.about}` is accepted, but nothing of the kind is found."

    def hint(self) -> str:
        return "Remove the line."
