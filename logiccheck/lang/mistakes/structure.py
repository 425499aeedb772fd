"""Mistakes about how a vehicle is put together: circles of rules, its name, its edition, its one box."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import way


@frozen
class RuleCircle(Mistake):
    """Rules depend on each other in a circle.

    What it means:
        A rule needs the value of another, which needs the value of the first, in one and the same reaction. A timer
        or a stored state between them does not cut the circle.

    Why it matters:
        Which of them is worked out first would decide what happens. `previous(x)` says it: the value of the
        reaction before.

    Instead of:
        controller "Box" powered by feed
            rule run_on = key_on or off_delay(run_on, 3 s)

    Write:
        controller "Box" powered by feed
            rule run_on = key_on or off_delay(previous(run_on), 3 s)
    """

    names: tuple[str, ...]  # each needs the next, the last needs the first

    code, name, title = "E601", "rule-circle", "Circle of rules"

    def sentence(self) -> str:
        circle = way((*self.names, self.names[0]))
        if len(self.names) == 1:
            return f"`{self.names[0]}` needs its own value: {circle}."
        return f"These rules need each other's value: {circle}."

    def hint(self) -> str:
        return f"Cut the circle at one place, for example here: `previous({self.names[0]})` is the value it had before."

    def second(self) -> str:
        return f"here it needs `{self.names[0]}`: write `previous({self.names[0]})`"


@frozen
class NoVehicle(Mistake):
    """The main file has no `vehicle` line.

    What it means:
        The main file of a project says once which vehicle it describes.

    Why it matters:
        The name stands on every report and on every sheet; and a file without it is perhaps only a part of a
        project.
    """

    code, name, title = "E602", "no-vehicle", "No vehicle line"

    def sentence(self) -> str:
        return "The file does not say which vehicle it describes."

    def hint(self) -> str:
        return 'Begin it with a line like `vehicle "Harbour coffee van"`.'


@frozen
class TwoVehicles(Mistake):
    """A project has more than one `vehicle` line, or one in a used file.

    What it means:
        The `vehicle` line stands in the main file, once.

    Why it matters:
        A file with a vehicle of its own describes another vehicle.

    Instead of:
        vehicle "Harbour coffee van"
        vehicle "Coffee van"

    Write:
        vehicle "Harbour coffee van"
    """

    code, name, title = "E603", "two-vehicles", "Two vehicle lines"

    def sentence(self) -> str:
        return "A project has one `vehicle` line, in its main file."

    def hint(self) -> str:
        return "Remove this line."

    def second(self) -> str:
        return "the vehicle line that counts"


@frozen
class NewerLanguage(Mistake):
    """The file is written in another edition of the language.

    What it means:
        The number behind `language` is not one that this program knows.

    Why it matters:
        Words may mean something else there.

    Instead of:
        language 2

    Write:
        language 1
    """

    version: str
    known: int

    code, name, title = "E604", "newer-language", "Unknown edition of the language"

    def sentence(self) -> str:
        return f"The file is written in language {self.version}; this program knows language {self.known}."

    def hint(self) -> str:
        return f"Use a newer program, or write `language {self.known}`."


@frozen
class LanguageNotFirst(Mistake):
    """The `language` line is not the first line.

    What it means:
        Which language a file is written in is said before anything else in it.

    Why it matters:
        What stands above it would have been read in another language.

    Instead of:
        world
            horn contact
        language 1

    Write:
        language 1
        world
            horn contact
    """

    code, name, title = "E605", "language-not-first", "Language line not first"

    def sentence(self) -> str:
        return "The `language` line is the first line of a file."

    def hint(self) -> str:
        return "Move it to the top, or remove it."


@frozen
class TwoControllers(Mistake):
    """There is a second controller.

    What it means:
        A vehicle has one box with rules, or none. A second one is kept for later.

    Why it matters:
        Two boxes do not react together, and how they talk to each other cannot be said yet.

    Instead of:
        controller "Second box" powered by feed
        controller "Box" powered by feed

    Write:
        controller "Box" powered by feed
    """

    code, name, title = "E606", "two-controllers", "Two controllers"

    def sentence(self) -> str:
        return "A vehicle has at most one controller."

    def hint(self) -> str:
        return "Put everything the box does under its one `controller` line."

    def second(self) -> str:
        return "the first controller"
