"""Diagnostics of the files as notices of a report."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.diagnostic import Level as Severity
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Level, Notice

LEVELS = {Severity.MISTAKE: Level.MISTAKE, Severity.WARNING: Level.WARNING, Severity.NOTE: Level.NOTE}


def notice(diagnostic: Diagnostic, files: Mapping[str, str]) -> Notice:
    """The sentence, the lines it speaks of (both, where there are two), and what to do."""
    shown = []
    for span in diagnostic.spans:
        part = excerpt([span], files)
        if part is not None and part not in shown:
            shown.append(part)
    second = diagnostic.message.second() if diagnostic.other is not None else ""
    return Notice(
        level=LEVELS[diagnostic.level],
        name=diagnostic.name,
        code=diagnostic.code,
        sentence=diagnostic.sentence,
        excerpts=tuple(shown),
        second=second,
        advice=diagnostic.hint,
    )


def notices(diagnostics: Iterable[Diagnostic], files: Mapping[str, str]) -> tuple[Notice, ...]:
    """One notice a diagnostic, in the same order."""
    return tuple(notice(diagnostic, files) for diagnostic in diagnostics)
