"""Requirements of checklists that are waived, as every report shows them."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.lang.program import Program
from logiccheck.report import words_waived as words
from logiccheck.report.excerpt import where
from logiccheck.report.report import Outcome, Report, WaivedPart
from logiccheck.report.words_verdict import GUARDS


def waived_parts(program: Program, files: Mapping[str, str]) -> tuple[WaivedPart, ...]:
    """All that are waived, in the order of the checklists."""
    return tuple(
        WaivedPart(
            name=each.name,
            label=each.label,
            guards=GUARDS[each.guard],
            text=each.text,
            place=where(each.span, files),
            reason=each.reason,
            sentence=words.because(each.reason),
        )
        for each in program.waived
    )


def waived_asked(program: Program, name: str) -> Report | None:
    """What is said where a call asks for a requirement that is waived; None if it is not."""
    reason = next((each.reason for each in program.waived if each.name == name), None)
    return None if reason is None else Report(words.not_checked(name, reason), "", Outcome.MISTAKE)
