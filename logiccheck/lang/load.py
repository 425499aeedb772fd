"""Loads a vehicle: its main file and all it uses become one program, or a list of all mistakes."""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.base.diagnostic import Diagnostic, in_order
from logiccheck.lang.gather import Gathered, Reader, SourceFile, gather
from logiccheck.lang.program import Program
from logiccheck.lang.resolve.vehicle import resolve_vehicle


@dataclass(frozen=True, slots=True)
class Loaded:
    """`program` is None exactly if there are `diagnostics`; `files` are all files read, the main file first."""

    program: Program | None
    diagnostics: tuple[Diagnostic, ...]
    files: tuple[SourceFile, ...]


def load(path: str, reader: Reader) -> Loaded:
    """Loads the vehicle whose main file is `path`, a POSIX path that `reader` can read."""
    gathered = gather(path, reader)
    return _resolve(gathered)


def load_text(text: str, file: str = "test.circuit") -> Loaded:
    """Loads a vehicle that is one text, called `file`; it can use checklists but no other files."""
    return load(file, {file: text.encode()}.__getitem__)


def _resolve(gathered: Gathered) -> Loaded:
    found = list(gathered.diagnostics)
    program = resolve_vehicle(gathered.written, gathered.label, found)
    return Loaded(None if found else program, in_order(found), gathered.files)
