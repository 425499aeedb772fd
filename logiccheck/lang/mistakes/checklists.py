"""Mistakes about checklists: their roles and what plays them, and requirements of them that are waived."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import listed, one_of


@frozen
class UnknownChecklist(Mistake):
    """There is no checklist of this name.

    What it means:
        `use checklist` names one of the checklists that come with the program.

    Why it matters:
        Requirements that are not found are not checked.

    Instead of:
        use checklist startings with starter = lamp

    Write:
        requirements
            danger no_lamp_shut never wake_wire while door is closed and not brake
    """

    word: str
    known: tuple[str, ...]
    near: tuple[str, ...]

    code, name, title = "E110", "unknown-checklist", "Unknown checklist"

    def sentence(self) -> str:
        return f"There is no checklist `{self.word}`."

    def hint(self) -> str:
        if self.near:
            return f"Did you mean {one_of(self.near)}?"
        return f"There are {listed(self.known)}." if self.known else "No checklist came with this program."


@frozen
class UnknownRole(Mistake):
    """A checklist has no role of this name.

    What it means:
        Before each `=` behind `with` stands a role of the checklist.

    Why it matters:
        The name on the right would play no part.
    """

    word: str
    checklist: str
    near: tuple[str, ...]
    roles: tuple[str, ...]

    code, name, title = "E111", "unknown-role", "Unknown role"

    def sentence(self) -> str:
        return f"The checklist `{self.checklist}` has no role `{self.word}`."

    def hint(self) -> str:
        if self.near:
            return f"Did you mean {one_of(self.near)}?"
        return f"Its roles are {listed(self.roles, most=20)}."


@frozen
class UnboundRole(Mistake):
    """A role of a checklist is bound to nothing.

    What it means:
        A checklist speaks of roles, and the project says behind `with` what plays each of them.

    Why it matters:
        A requirement about nothing cannot be checked, and one that is left out in silence looks as if it held.
    """

    role: str
    meaning: str
    checklist: str

    code, name, title = "E112", "unbound-role", "Role that nobody plays"

    def sentence(self) -> str:
        return f"Nothing plays the role `{self.role}` ({self.meaning}) of the checklist `{self.checklist}`."

    def hint(self) -> str:
        return f"Add `{self.role} = ...` with a name, a condition or a quantity of the vehicle."

    def second(self) -> str:
        return "the role in the checklist"


@frozen
class RoleTwice(Mistake):
    """A role is bound twice, or two uses of checklists have one prefix.

    What it means:
        The same word is given twice where it can mean one thing only.

    Why it matters:
        Only one of the two would count.
    """

    word: str
    prefix: bool  # two uses have the same prefix

    code, name, title = "E113", "role-twice", "Role or prefix given twice"

    def sentence(self) -> str:
        if self.prefix:
            return f"Two checklists in use put the prefix `{self.word}` before their requirements."
        return f"The role `{self.word}` is bound twice."

    def hint(self) -> str:
        if self.prefix:
            return f"Give one of them another prefix: `use checklist NAME as {self.word}_2 with ...`."
        return "Keep one of the two."

    def second(self) -> str:
        return "the first one"


@frozen
class RoleDoesNotFit(Mistake):
    """A role is bound to something of a kind that the checklist cannot use.

    What it means:
        The checklist compares the role, or asks for a position of it, or takes it as a quantity; what it is bound
        to allows none of this.

    Why it matters:
        The requirement would have no meaning.
    """

    role: str
    wanted: str  # "a name", "a quantity", "a condition"

    code, name, title = "E114", "role-does-not-fit", "Role bound to something of another kind"

    def sentence(self) -> str:
        return f"The role `{self.role}` needs {self.wanted}."

    def hint(self) -> str:
        return f"Write `{self.role} = ` and {self.wanted} of the vehicle."

    def second(self) -> str:
        return "how the checklist uses it"


@frozen
class BlockOfChecklist(Mistake):
    """A checklist has a block that has no place in it, or a project file has one that belongs in a checklist.

    What it means:
        A checklist has `roles`, `given` and `requirements`, and nothing else; `roles` stands in checklists only.

    Why it matters:
        A checklist is about every vehicle, so it says nothing about the copper of one.

    Instead of:
        roles
            starter "the starter motor"

    Write:
        world
            starter "the starter motor" contact
    """

    word: str
    checklist: bool

    code, name, title = "E115", "block-of-checklist", "Block in the wrong kind of file"

    def sentence(self) -> str:
        if self.checklist:
            return f"A checklist has no block `{self.word}`."
        return f"`{self.word}` belongs in a checklist, not in the file of a vehicle."

    def hint(self) -> str:
        if self.checklist:
            return "A checklist has `roles`, `given` and `requirements`."
        return "To use a checklist write `use checklist NAME with ROLE = NAME`."


@frozen
class UnknownWaiver(Mistake):
    """A checklist has no requirement of the name that is waived.

    What it means:
        Behind `waive` stands a requirement of the checklist, by the name that it has there: without the prefix that
        stands before it in reports.

    Why it matters:
        The requirement that was meant would still be asked, or a mistyped one would look as if it were waived.
    """

    word: str
    checklist: str
    near: tuple[str, ...]
    requirements: tuple[str, ...]

    code, name, title = "E116", "unknown-waiver", "Waived requirement that is not in the checklist"

    def sentence(self) -> str:
        return f"The checklist `{self.checklist}` has no requirement `{self.word}`."

    def hint(self) -> str:
        if self.near:
            return f"Did you mean {one_of(self.near)}?"
        return f"Its requirements are {listed(self.requirements, most=20)}."


@frozen
class WaivedTwice(Mistake):
    """A requirement of a checklist is waived twice.

    What it means:
        The same requirement stands behind `waive` twice in one use of a checklist.

    Why it matters:
        Reports show one reason, and the other would be lost.
    """

    word: str

    code, name, title = "E117", "waived-twice", "Requirement waived twice"

    def sentence(self) -> str:
        return f"The requirement `{self.word}` is waived twice."

    def hint(self) -> str:
        return "Keep one of the two."

    def second(self) -> str:
        return "the first one"


@frozen
class WaiverWithoutReason(Mistake):
    """A requirement is waived without a reason.

    What it means:
        The text in quotes behind the waived requirement is empty.

    Why it matters:
        The reason stands in every report. Whoever reads it later has nothing else to judge by whether the requirement
        does not apply or was only in the way.
    """

    word: str

    code, name, title = "E118", "waiver-without-reason", "Waived without a reason"

    def sentence(self) -> str:
        return f"The requirement `{self.word}` is waived without a reason."

    def hint(self) -> str:
        return f'Say why, for example `waive {self.word} "The vehicle has none."`.'
