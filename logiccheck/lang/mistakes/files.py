"""Mistakes about files: what cannot be read, and what is used in a circle."""

from __future__ import annotations

from logiccheck.base.diagnostic import Mistake
from logiccheck.base.frozen import frozen
from logiccheck.lang.mistakes.phrases import one_of, way


@frozen
class CannotOpen(Mistake):
    """A file cannot be read.

    What it means:
        There is no file of this name, or it is a folder, or it may not be read.

    Why it matters:
        Nothing can be said about a vehicle of which a part is missing.
    """

    path: str
    why: str  # "there is no such file"
    near: tuple[str, ...]

    code, name, title = "E101", "cannot-open", "File that cannot be read"

    def sentence(self) -> str:
        return f"`{self.path}` cannot be read: {self.why}."

    def hint(self) -> str:
        return f"Did you mean {one_of(self.near)}?" if self.near else "Name a file with the ending .circuit."


@frozen
class NotUtf8(Mistake):
    """A file is not text in the encoding UTF-8.

    What it means:
        The bytes of the file are not UTF-8, the one encoding that is read. A byte order mark at its begin is
        allowed.

    Why it matters:
        Names with letters beyond a to z would be read wrongly.
    """

    path: str
    guess: str  # what it seems to be, or ""
    offset: int  # of the first byte that is not UTF-8, from 1
    byte: int
    line: int

    code, name, title = "E102", "not-utf-8", "File that is not UTF-8"

    def sentence(self) -> str:
        if self.guess:
            return f"`{self.path}` is not text in UTF-8; it seems to be {self.guess}."
        where = f"in line {self.line} stands a byte that belongs to no letter (byte {self.offset} of the file"
        return f"`{self.path}` is not text in UTF-8: {where}, {self.byte:02X} in hexadecimal)."

    def hint(self) -> str:
        return "Save it again with the encoding UTF-8: every editor can."


@frozen
class BigFile(Mistake):
    """A file is larger than is read.

    What it means:
        The file has more bytes than the limit.

    Why it matters:
        No person writes such a file; it is far more often a file of another kind.
    """

    path: str
    most: int

    code, name, title = "E103", "big-file", "File too large"

    def sentence(self) -> str:
        return f"`{self.path}` is larger than {self.most} bytes and was not read."

    def hint(self) -> str:
        return "Cut it into several files and join them with `use`."


@frozen
class OutsideProject(Mistake):
    """A used file lies outside the folder of the main file.

    What it means:
        The path behind `use` leads out of the folder in which the main file lies.

    Why it matters:
        A project is its folder: whoever gets a copy of it gets all of it.
    """

    path: str

    code, name, title = "E104", "outside-project", "File outside the project"

    def sentence(self) -> str:
        return f"`{self.path}` lies outside the folder of the main file."

    def hint(self) -> str:
        return "Copy the file into the folder, and use it by its name there."


@frozen
class StrangePath(Mistake):
    """A path is written in a way that does not read the same on every machine.

    What it means:
        The path is empty, or holds a backslash. Folders are separated by `/`, on every machine.

    Why it matters:
        The project should open on the computer in the garage as it does on the one at home.
    """

    path: str

    code, name, title = "E105", "strange-path", "Path for one kind of machine"

    def sentence(self) -> str:
        if not self.path.strip():
            return "Behind `use` stands no file."
        return f"`{self.path}` is not a path that reads the same on every machine."

    def hint(self) -> str:
        better = self.path.replace("\\", "/")
        return f'Write `use "{better}"`.' if better.strip() else 'Write for example `use "lights.circuit"`.'


@frozen
class UseCircle(Mistake):
    """Files use each other in a circle.

    What it means:
        A file uses a file that uses it again, perhaps over others.

    Why it matters:
        Each name would be declared twice. A file is read once; those that need its names need not use it
        themselves.
    """

    files: tuple[str, ...]  # each uses the next, the last uses the first

    code, name, title = "E106", "use-circle", "Files that use each other"

    def sentence(self) -> str:
        return f"These files use each other: {way((*self.files, self.files[0]))}."

    def hint(self) -> str:
        return "Remove this line: all files of a project see each other's names."


@frozen
class ManyFiles(Mistake):
    """A project has more files than are read.

    What it means:
        More files are used than the limit.

    Why it matters:
        What is not read is not checked.
    """

    most: int

    code, name, title = "E107", "many-files", "Too many files"

    def sentence(self) -> str:
        return f"The project has more than {self.most} files."

    def hint(self) -> str:
        return "Put several of them together."
