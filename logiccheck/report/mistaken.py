"""The report of files or a call that have no meaning as they stand: nothing was checked."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.base.suggest import near
from logiccheck.lang.load import Loaded
from logiccheck.report import words_mistaken as words
from logiccheck.report.basis import files_read
from logiccheck.report.notices import notices
from logiccheck.report.report import Level, Outcome, Report


def mistaken(file: str, loaded: Loaded) -> Report:
    """All mistakes of the files."""
    found = notices(loaded.diagnostics, loaded.texts)
    count = sum(notice.level is Level.MISTAKE for notice in found)
    return Report(
        words.opening(file, count), words.closing(count), Outcome.MISTAKE, notices=found, files=files_read(loaded.files)
    )


def unknown(what: str, name: str, known: Sequence[str]) -> Report:
    """The call names something that the file does not have; `known` is what it has."""
    return Report(words.unknown(what, name, near(name, known), known), "", Outcome.MISTAKE)
