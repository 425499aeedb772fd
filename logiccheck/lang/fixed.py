"""All files of a vehicle with their spelling and their layout put right, and nothing else."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.span import Span
from logiccheck.lang.load import load
from logiccheck.lang.reading import Reader, Unreadable, decode
from logiccheck.lang.spelling import over, respelled
from logiccheck.lang.tidy.tidied import Tidied, Untrue, in_bytes, tidied


def fixed(path: str, reader: Reader) -> Iterator[tuple[str, Tidied | Untrue]]:
    """Each file that changes, of the vehicle whose main file is `path`: what it is, and what it is to be.

    A file in which mistakes are left keeps its layout. In place of a file that would no longer say the same comes why.
    """
    new = respelled(path, reader)
    mended = over(reader, new)
    for file in load(path, mended).texts:
        raw = reader(file)
        if isinstance(raw, Unreadable):  # a checklist, which is no file of the user
            continue
        source = decode(file, raw, Span(file, 0, 0))
        if isinstance(source, Diagnostic):
            continue
        try:
            laid_out = tidied(file, mended)
        except Untrue as untrue:
            yield file, untrue
            continue
        after = laid_out.after if isinstance(laid_out, Tidied) else new.get(file, source.text)
        if after != source.text:
            yield file, Tidied(source.text, after, in_bytes(after, raw))
