"""The report of files and their layout."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import unified_diff

from logiccheck.lang.tidy.tidied import Tidied, Unread
from logiccheck.report import words_tidy as words
from logiccheck.report.notices import notices
from logiccheck.report.report import Outcome, Report, TidiedPart


def tidied_report(found: Mapping[str, Tidied | Unread], files: int, written: bool, check: bool) -> Report:
    """What became of each file by its path; so many were asked for. `written`: those that changed were written;
    `check`: that one should change is a fault."""
    parts = tuple(tidied_part(file, each) for file, each in found.items() if isinstance(each, Tidied))
    unread = {file: each for file, each in found.items() if isinstance(each, Unread)}
    texts = {file: each.source.text for file, each in unread.items() if each.source is not None}
    changed = [each for each in parts if each.diff]
    return Report(
        words.opening(len(changed), files, written, len(unread)),
        "",
        Outcome.MISTAKE if unread else Outcome.FAILS if check and changed else Outcome.GOOD,
        notices=notices((diagnostic for each in unread.values() for diagnostic in each.diagnostics), texts),
        notes=tuple(words.laid_out(each.file, written) for each in changed),
        tidied=parts,
    )


def tidied_part(file: str, each: Tidied) -> TidiedPart:
    """The file and the lines that change."""
    lines = unified_diff(_lines(each.before), _lines(each.after), file, file)
    return TidiedPart(file, "".join(line if line.endswith("\n") else line + _NO_END for line in lines))


def _lines(text: str) -> list[str]:
    """The lines with their ends, as a diff wants them; other characters that part lines elsewhere part none here."""
    lines = [line + "\n" for line in text.split("\n")]
    last = lines.pop().removesuffix("\n")
    return [*lines, last] if last else lines


_NO_END = "\n\\ No newline at end of file\n"
