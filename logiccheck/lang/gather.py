"""Gathers the files of a project: the main file, what it uses, and what those use."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.span import Span
from logiccheck.lang import written as w
from logiccheck.lang.mistakes.structure import NoVehicle
from logiccheck.lang.parse import parse


@dataclass(frozen=True, slots=True)
class SourceFile:
    """A file as it was read: `text` is decoded, with "\\n" line ends; `sha256` is of the bytes, in hexadecimal."""

    path: str
    text: str
    sha256: str


Reader: TypeAlias = Callable[[str], bytes]


@dataclass(frozen=True, slots=True)
class Gathered:
    written: tuple[w.File, ...]
    files: tuple[SourceFile, ...]
    label: str
    diagnostics: tuple[Diagnostic, ...]


def gather(path: str, reader: Reader) -> Gathered:
    """All files of the project whose main file is `path`."""
    raw = reader(path)
    text = raw.decode().replace("\r\n", "\n")
    written, found = parse(text, path)
    labels = [block.header.label.text for block in written.blocks if isinstance(block.header, w.Vehicle)]
    diagnostics = list(found)
    if not labels:
        diagnostics.append(Diagnostic(NoVehicle(), Span(path, 0, 0)))
    source = SourceFile(path, text, hashlib.sha256(raw).hexdigest())
    return Gathered((written,), (source,), labels[0] if labels else path, tuple(diagnostics))
