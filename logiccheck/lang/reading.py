"""Bytes become text: the port through which files are read, and the encodings that are understood."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from enum import Enum
from typing import TypeAlias

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.lang.mistakes.files import BigFile, CannotOpen, NotUtf8


class Unreadable(Enum):
    """Why a file could not be read; the value ends the sentence "it cannot be read: ..."."""

    MISSING = "there is no such file"
    FOLDER = "it is a folder"
    NO_FILE = "it is a pipe or a device, not a file"
    FORBIDDEN = "you are not allowed to read it"
    LOOP = "its links lead in a circle"
    OUTSIDE = "it is a link that leads out of the folder of the main file"
    BROKEN = "the machine could not read it"


Reader: TypeAlias = Callable[[str], bytes | Unreadable]
"""Reads the file at a POSIX path as the user wrote it; of a larger file at least `limits.FILE_BYTES` + 1 bytes."""


@frozen
class SourceFile:
    """A file as it was read: `text` is decoded, with "\\n" line ends; `sha256` is of its bytes, in hexadecimal."""

    path: str
    text: str
    sha256: str


_MARKS = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
    (b"PK", "a packed file"),
    (b"%PDF", "a PDF file"),
)


def read(path: str, reader: Reader, at: Span) -> SourceFile | Diagnostic:
    """The file at `path`; or what is wrong with it, told at `at`."""
    raw = reader(path)
    if isinstance(raw, Unreadable):
        return Diagnostic(CannotOpen(path, raw.value, ()), at)
    return decode(path, raw, at)


def decode(path: str, raw: bytes, at: Span) -> SourceFile | Diagnostic:
    """The text of the bytes of a file; or why they are none."""
    if len(raw) > limits.FILE_BYTES:
        return Diagnostic(BigFile(path, limits.FILE_BYTES), at)
    marked = next((name for mark, name in _MARKS if raw.startswith(mark)), "")
    guess = marked or ("UTF-16" if _zeros(raw) else "")
    try:
        text = raw.decode("utf-8")
        if _zeros(raw):
            return Diagnostic(NotUtf8(path, guess, 1, raw[0], 1), at)
    except UnicodeDecodeError as error:
        line = _line_ends(raw[: error.start].decode("utf-8")).count("\n") + 1
        return Diagnostic(NotUtf8(path, guess, error.start + 1, raw[error.start], line), at)
    return SourceFile(path, _line_ends(text.removeprefix("\ufeff")), hashlib.sha256(raw).hexdigest())


def _zeros(raw: bytes) -> bool:
    """Every second byte of plain words in UTF-16 is zero, and they may begin without a mark."""
    begin = raw[:1_000]
    return len(begin) >= 8 and begin.count(0) * 3 > len(begin)


def _line_ends(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")
