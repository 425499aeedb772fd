"""What somebody takes responsibility for, as parts of a report."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.diagnostic import Diagnostic
from logiccheck.explain.accepting import Accepting, Word
from logiccheck.lang.mistakes.accepted import AcceptedInVain
from logiccheck.report import words_accepted as words
from logiccheck.report.excerpt import where
from logiccheck.report.notices import notices
from logiccheck.report.report import AcceptedPart, Notice, ToAccept


def accepted_part(word: Word, files: Mapping[str, str], danger: bool = False) -> AcceptedPart | None:
    """Whose word it is; None if it is nobody's. `danger`: no word can excuse it."""
    line = word.line
    if line is None:
        return None
    said = words.holds(line) if word.holds else words.lapsed(line)
    return AcceptedPart(
        reason=line.reason,
        by=line.by,
        on=line.on,
        place=where(line.span, files),
        sentence=f"{said} {words.DANGER_ALL_THE_SAME}" if danger and word.holds else said,
        excuses=word.holds and not danger,
        lapsed=not word.holds,
    )


def to_accept(word: Word, kind: str, about: str, danger: bool = False) -> ToAccept | None:
    """The line that would accept it; None where it is accepted, or cannot be. `danger`: no word can excuse it, so the
    line is shown only to who has begun one."""
    if word.holds or not word.mark or (danger and word.line is None):
        return None
    return ToAccept(words.TO_ACCEPT_DANGER if danger else words.TO_ACCEPT, words.ready(kind, about, word.mark))


def in_vain(accepting: Accepting, files: Mapping[str, str]) -> tuple[Notice, ...]:
    """A mistake for each line that accepts what is not so."""
    found = (Diagnostic(AcceptedInVain(line.kind, line.about), line.span) for line in accepting.vain)
    return notices(found, files)


def accepted_notes(accepting: Accepting) -> Iterator[str]:
    """What is to be said beside the parts themselves."""
    count = accepted_findings(accepting)
    if count:
        yield words.accepted(count)
    if accepting.unseen:
        yield words.unseen(accepting.unseen)
        for line in accepting.unseen:
            yield words.unseen_line(line)


def accepted_requirements(accepting: Accepting) -> int:
    """The requirements that do not hold, and that somebody accepts."""
    return sum(word.holds for word in (accepting.requirements or {}).values())


def accepted_findings(accepting: Accepting) -> int:
    """The findings that somebody accepts."""
    return sum(word.holds for word in accepting.findings)
