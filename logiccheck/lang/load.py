"""Loads a vehicle: its main file and all it uses become one program, or a list of all mistakes."""

from __future__ import annotations

import posixpath
from collections.abc import Mapping

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic, in_order
from logiccheck.base.frozen import frozen
from logiccheck.lang.gather import Gathered, gather
from logiccheck.lang.mistakes.layout import TooManyMistakes
from logiccheck.lang.mistakes.names import UnknownName
from logiccheck.lang.parse import Trees
from logiccheck.lang.program import Program
from logiccheck.lang.reading import Reader, SourceFile, Unreadable
from logiccheck.lang.resolve.vehicle import resolve_vehicle

__all__ = ["Loaded", "Reader", "SourceFile", "Unreadable", "load", "load_text"]


@frozen
class Loaded:
    """`program` is None exactly if there are `diagnostics`; `files` are all files read, the main file first."""

    program: Program | None
    diagnostics: tuple[Diagnostic, ...]
    files: tuple[SourceFile, ...]

    @property
    def texts(self) -> Mapping[str, str]:
        """The text of each file by its path: what every span points into."""
        return {file.path: file.text for file in self.files}


def load(path: str, reader: Reader, also: tuple[str, ...] = (), trees: Trees | None = None) -> Loaded:
    """Loads the vehicle whose main file is `path`, a POSIX path that `reader` can read.

    The files `also`, for example a saved story with its scenario, are read as if the main file used them; they may lie
    anywhere. `trees` are kept from one call to the next by who reads nearly the same files again.
    """
    gathered = gather(path, reader, also, trees)
    found = gathered.found
    program = _program(gathered, found, path)
    if not gathered.complete:  # names of a missing file are unknown without anybody's fault
        found = [d for d in found if not isinstance(d.message, UnknownName)]
    return Loaded(None if found else program, _at_most(in_order(found)), tuple(gathered.files))


def load_text(text: str, file: str = "test.circuit") -> Loaded:
    """Loads a vehicle that is one text, called `file`; it can use checklists but no other files."""
    raw = text.encode(errors="surrogatepass")
    return load(file, lambda path: raw if path == file else Unreadable.MISSING)


def _program(gathered: Gathered, found: list[Diagnostic], path: str) -> Program | None:
    """The vehicle is called by its label, or by the name of its file where that is blank."""
    if not gathered.written:
        return None
    label = (gathered.vehicle.label.text.strip() if gathered.vehicle else "") or posixpath.basename(path)
    return resolve_vehicle(gathered.written, label, found)


def _at_most(diagnostics: tuple[Diagnostic, ...]) -> tuple[Diagnostic, ...]:
    """The first diagnostics, and how many more there are."""
    more = len(diagnostics) - limits.MISTAKES
    if more <= 0:
        return diagnostics
    shown = diagnostics[: limits.MISTAKES]
    return (*shown, Diagnostic(TooManyMistakes(more), shown[-1].span))
