"""Gathers the files of a project: the main file, what it uses, what those use, and checklists."""

from __future__ import annotations

import posixpath
import re
from dataclasses import dataclass, field, replace

from logiccheck.base import limits
from logiccheck.base.assets import checklist_bytes, checklist_names
from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.base.span import Span
from logiccheck.base.suggest import near
from logiccheck.base.version import LANGUAGE
from logiccheck.lang import written as w
from logiccheck.lang.checklists import bind
from logiccheck.lang.mistakes.accepted import AcceptedElsewhere
from logiccheck.lang.mistakes.checklists import BlockOfChecklist, RoleTwice, UnknownChecklist
from logiccheck.lang.mistakes.files import ManyFiles, OutsideProject, StrangePath, UseCircle
from logiccheck.lang.mistakes.structure import LanguageNotFirst, NewerLanguage, NoVehicle, TwoVehicles
from logiccheck.lang.parse import Trees, parse
from logiccheck.lang.reading import Reader, SourceFile, decode, read


@dataclass(slots=True)
class Gathered:
    """`written` are the files in the order of use, checklists bound; `complete` says that none is missing."""

    written: list[w.File] = field(default_factory=list)
    files: list[SourceFile] = field(default_factory=list)
    found: list[Diagnostic] = field(default_factory=list)
    vehicle: w.Vehicle | None = None
    complete: bool = True


def gather(path: str, reader: Reader, also: tuple[str, ...] = (), trees: Trees | None = None) -> Gathered:
    """All files of the project whose main file is `path`; the files `also` may hold only what any file may. `trees`
    are kept from one call to the next by who reads nearly the same files again."""
    gathered = Gathered()
    project = _Project(reader, posixpath.dirname(path), gathered, {}, {} if trees is None else trees)
    whole = Span(path, 0, 0)
    if project.file(path, whole, ()) and gathered.vehicle is None and gathered.written and not _spoiled(gathered):
        gathered.found.append(Diagnostic(NoVehicle(), whole))
    for other in also:
        project.file(other, Span(other, 0, 0), ())
    return gathered


def _spoiled(gathered: Gathered) -> bool:
    """There is a `vehicle` line, and what is wrong with it was told; so it need not be asked for."""
    return bool(gathered.found) and re.search(r"^vehicle\b", gathered.files[0].text, re.MULTILINE) is not None


@dataclass(slots=True)
class _Project:
    reader: Reader
    folder: str  # of the main file
    gathered: Gathered
    prefixes: dict[str, Span]  # of the checklists in use
    trees: Trees
    read: set[str] = field(default_factory=set)  # normal paths

    def tell(self, message: Message, span: Span, other: Span | None = None) -> None:
        self.gathered.found.append(Diagnostic(message, span, other))

    def miss(self, message: Message, span: Span, other: Span | None = None) -> None:
        """Tells of a part of the project that could not be had, so that names may be unknown without fault."""
        self.gathered.complete = False
        self.tell(message, span, other)

    def file(self, path: str, at: Span, using: tuple[str, ...]) -> bool:
        """Reads one file and all it uses; `using` are the files on the way to it. False if it could not be read."""
        normal = posixpath.normpath(path)
        circle = [other for other in using if posixpath.normpath(other) == normal]
        if circle:
            self.tell(UseCircle(using[using.index(circle[0]) :]), at)
            return True
        if normal in self.read:
            return True
        if len(self.read) >= limits.FILES:
            self.miss(ManyFiles(limits.FILES), at)
            return False
        self.read.add(normal)
        source = read(path, self.reader, at)
        if isinstance(source, Diagnostic):
            self.miss(source.message, source.span)
            return False
        self.gathered.files.append(source)
        written, found = parse(source.text, path, self.trees)
        self.gathered.found.extend(found)
        if any(isinstance(block.header, w.Checklist) for block in written.blocks):
            self.tell(BlockOfChecklist("checklist", False), written.blocks[0].header.span)
            return True
        self.gathered.written.append(written)
        for i, block in enumerate(written.blocks):
            self._header(block.header, written, (*using, path), first=i == 0)
        return True

    def _header(self, header: w.Header, file: w.File, using: tuple[str, ...], first: bool) -> None:
        match header:
            case w.Language():
                self._language(header, first)
            case w.Vehicle():
                self._vehicle(header, used=len(using) > 1)
            case w.UseFile(path, span):
                self._use(path.text, span, using)
            case w.UseChecklist():
                self._checklist(header, file)
            case w.Plain("roles", span):
                self.tell(BlockOfChecklist("roles", False), span)
            case w.Plain("accepted", span) if file.path != self.gathered.files[0].path:
                self.tell(AcceptedElsewhere(), span)
            case _:
                pass

    def _language(self, header: w.Language, first: bool) -> None:
        version = header.version.number
        if version != LANGUAGE:
            self.tell(NewerLanguage(str(version), LANGUAGE), header.span)
        elif not first:
            self.tell(LanguageNotFirst(), header.span)

    def _vehicle(self, header: w.Vehicle, used: bool) -> None:
        if self.gathered.vehicle is not None:
            self.tell(TwoVehicles(), header.span, self.gathered.vehicle.span)
        elif used:
            self.tell(TwoVehicles(), header.span)
        else:
            self.gathered.vehicle = header

    def _use(self, path: str, at: Span, using: tuple[str, ...]) -> None:
        if not path.strip() or "\\" in path:
            self.miss(StrangePath(path), at)
            return
        whole = posixpath.normpath(posixpath.join(posixpath.dirname(using[-1]), path))
        if not self._inside(whole):
            self.miss(OutsideProject(path), at)
            return
        self.file(whole, at, using)

    def _inside(self, path: str) -> bool:
        """Whether a normal path lies in the folder of the main file, or below it."""
        folder = posixpath.normpath(self.folder or ".")
        begin = "" if folder == "." else folder.rstrip("/") + "/"
        rest = path.removeprefix(begin)
        return path.startswith(begin) and not rest.startswith("/") and rest != ".." and not rest.startswith("../")

    def _checklist(self, use: w.UseChecklist, file: w.File) -> None:
        name = use.name.text
        raw = checklist_bytes(name)
        if raw is None:
            self.tell(UnknownChecklist(name, checklist_names(), near(name, checklist_names())), use.name.span)
            return
        earlier = self.prefixes.setdefault(use.prefix.text, use.prefix.span)
        if earlier != use.prefix.span:
            self.tell(RoleTwice(use.prefix.text, prefix=True), use.prefix.span, earlier)
            return
        path = f"checklist {name}" if use.prefix.text == name else f"checklist {name} as {use.prefix.text}"
        source = decode(path, raw, use.span)
        assert isinstance(source, SourceFile), "a checklist that ships with the program is text"
        written, found = parse(source.text, path, self.trees)
        bound = bind(written, list(found), use, file.text)
        self.gathered.found.extend(bound.found)
        self.gathered.written.append(bound.file)
        self.gathered.files.append(replace(source, text=bound.file.text))
