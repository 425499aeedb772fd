"""Misspelled words of a vehicle's files put right, where a mistake has exactly one word that comes near."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from logiccheck.base import limits
from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.base.span import Span
from logiccheck.base.suggest import is_slip
from logiccheck.lang.load import Loaded, Reader, load
from logiccheck.lang.mistakes.layout import UnknownBlock
from logiccheck.lang.reading import Unreadable
from logiccheck.lang.tidy.tidied import in_bytes

MOST_ROUNDS = 5  # a word put right may let the next one be read


def respelled(path: str, reader: Reader) -> Mapping[str, str]:
    """The new text of each file, of the vehicle whose main file is `path`, in which a word was put right; none where
    nothing was.

    A word is put right only if the files then make fewer mistakes, and none that they did not make before. Where the
    word opens a block, what is in that is only read then, and may make mistakes of its own.
    """
    new: dict[str, str] = {}
    for _ in range(MOST_ROUNDS):
        better = _better(path, over(reader, new))
        if not better:
            break
        new |= better
    return new


def over(reader: Reader, new: Mapping[str, str]) -> Reader:
    """Reads these texts in place of the files, with the line ends that those have."""

    def read(path: str) -> bytes | Unreadable:
        raw = reader(path)
        return raw if path not in new or isinstance(raw, Unreadable) else in_bytes(new[path], raw)

    return read


def _better(path: str, reader: Reader) -> dict[str, str]:
    """The texts with one word after the other put right, each only if that helps."""
    new: dict[str, str] = {}
    loaded = load(path, reader)
    known = len(loaded.diagnostics)
    words = sorted(
        _misspelled(loaded), key=lambda each: (each[0].file, -each[0].begin)
    )  # a change moves what is behind
    for span, word, mistake in words:
        before = new.get(span.file, loaded.texts[span.file])
        trial = new | {span.file: before[: span.begin] + word + before[span.end :]}
        found = load(path, over(reader, trial)).diagnostics
        fewer = len(found) < known and _are_old(found, loaded.diagnostics)
        opened = isinstance(mistake, UnknownBlock) and mistake not in [each.message for each in found]
        if fewer or opened:
            new, known = trial, len(found)
    return new


def _are_old(found: Iterable[Diagnostic], before: Iterable[Diagnostic]) -> bool:
    return {each.message for each in found} <= {each.message for each in before}


def _misspelled(loaded: Loaded) -> list[tuple[Span, str, Message]]:
    """Each place at which the word stands that a mistake is about, the only word that comes near and of which it is a
    slip, and the mistake."""
    if len(loaded.diagnostics) > limits.MISTAKES:  # what is behind them is not known
        return []
    found = []
    for diagnostic in loaded.diagnostics:
        data, span = diagnostic.data, diagnostic.span
        near, text = data.get("near"), loaded.texts.get(span.file, "")[span.begin : span.end]
        if not isinstance(near, tuple) or len(near) != 1:
            continue
        for word in data.values():
            if not isinstance(word, str) or not word or not is_slip(word, near[0]):
                continue
            if re.search(rf"(?<!\w){re.escape(word)}\Z", text):
                found.append((Span(span.file, span.end - len(word), span.end), str(near[0]), diagnostic.message))
                break
    return found
