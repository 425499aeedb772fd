"""A check as JUnit XML, as build servers read it: one suite a file, one case a requirement and an expectation.

Nobody ever standardised this format; written is what the schema of a widely used reader takes (tests/render/schemas).
A case passes only if its requirement is proved or its expectation met: what fails, has no case or is blocked is a
failure, what is not decided an error; what is waived, or is so and accepted, is skipped. A report that is not all good
always has one of both.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from logiccheck.base.place import column_of, line_of
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.engine.verdict import Kind
from logiccheck.report.plain import printable
from logiccheck.report.report import (
    Cause,
    Level,
    Notice,
    Outcome,
    PlayedPart,
    Report,
    Shown,
    TroublePart,
    VerdictPart,
    WaivedPart,
)
from logiccheck.report.told import edits_told, excerpts_told, told

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
NO_XML = re.compile("[^\\t\\n\\x20-\\ud7ff\\ue000-\\ufffd\\U00010000-\\U0010ffff]")  # XML 1.0 has no way to write these
FAILURE, ERROR, SKIPPED = "failure", "error", "skipped"


@dataclass(frozen=True, slots=True)
class Case:
    """`tag` is None for what passed; `type`, `message` and `lines` say what became of anything else."""

    file: str
    group: str
    name: str
    tag: str | None = None
    type: str = ""
    message: str = ""
    lines: tuple[str, ...] = ()


def render(report: Report) -> str:
    """The whole check as XML; two runs over the same files write the same text."""
    cases = [*_cases(report)]
    if report.outcome is not Outcome.GOOD and all(case.tag in (None, SKIPPED) for case in cases):
        tag = FAILURE if report.outcome is Outcome.FAILS else ERROR
        cases.append(Case(_main(report), "run", "whole run", tag, report.outcome.value, report.opening))
    root = Element("testsuites", {"name": "logiccheck", **_counts(cases)})
    for file in dict.fromkeys([_main(report), *(case.file for case in cases)]):
        _suite(root, report, file, [case for case in cases if case.file == file])
    indent(root)
    return HEAD + tostring(root, encoding="unicode") + "\n"


def _main(report: Report) -> str:
    """The file that the check was called with, where it could be read."""
    return report.files[0].path if report.files else "call"


def _counts(cases: list[Case]) -> dict[str, str]:
    tags = [case.tag for case in cases]
    return {"tests": str(len(tags)), "failures": str(tags.count(FAILURE)), "errors": str(tags.count(ERROR))}


def _suite(root: Element, report: Report, file: str, cases: list[Case]) -> None:
    skipped = str(sum(case.tag == SKIPPED for case in cases))
    suite = SubElement(root, "testsuite", {"name": _attribute(file), **_counts(cases), "skipped": skipped})
    properties = SubElement(suite, "properties")
    for name, value in _properties(report):
        SubElement(properties, "property", name=_attribute(name), value=_attribute(value))
    for case in cases:
        element = SubElement(suite, "testcase", classname=_attribute(case.group), name=_attribute(case.name))
        if case.tag is not None:
            told_of = {"type": _attribute(case.type), "message": _attribute(case.message)}
            SubElement(element, case.tag, told_of).text = _text("\n".join(case.lines)) or None
    remarks = [line for notice in report.notices if _stands_beside(notice, report, file) for line in _remarked(notice)]
    if remarks:
        SubElement(suite, "system-out").text = _text("\n".join(remarks))


def _properties(report: Report) -> Iterator[tuple[str, str]]:
    yield "logiccheck", VERSION
    yield "language", str(LANGUAGE)
    yield "outcome", report.outcome.value
    yield "opening", report.opening
    yield "closing", report.closing
    for file in report.files:
        yield f"sha-256 of {file.path}", file.sha256
    if report.basis is not None:
        yield "caution", report.basis.caution
        for line in report.basis.assumptions:
            yield "taken as given", line
        for line in report.basis.limits:
            yield "not covered", line


# --------------------------------------------------------------------------------------------------------- the cases


def _cases(report: Report) -> Iterator[Case]:
    for notice in report.notices:
        if notice.level is Level.MISTAKE:
            place = notice.excerpts[0].place if notice.excerpts else _main(report)
            lines = (notice.sentence, *excerpts_told(notice.excerpts), notice.advice)
            name = f"{notice.code} {place}"
            yield Case(_file(notice, report), "mistakes", name, ERROR, notice.name, notice.sentence, lines)
        elif notice.counts:
            yield _finding(notice, report, FAILURE, notice.sentence)
        elif notice.accepted is not None and notice.accepted.excuses:
            yield _finding(notice, report, SKIPPED, notice.accepted.sentence)
    for trouble in report.troubles:
        yield _trouble(trouble, _main(report))
    for part in report.verdicts:
        yield _verdict(part, _main(report))
    for waived in report.waived:
        yield _waived(waived, _main(report))
    for played in (*report.as_expected, *report.played):
        yield from _expected(played, _main(report))


def _stands_beside(notice: Notice, report: Report, file: str) -> bool:
    """It is said of this file, and no case says that somebody accepts it."""
    return _file(notice, report) == file and not (notice.accepted is not None and notice.accepted.excuses)


def _finding(notice: Notice, report: Report, tag: str, message: str) -> Case:
    name = " ".join((notice.name, *notice.about[:1]))
    return Case(_file(notice, report), "findings", name, tag, notice.name, message, tuple(_remarked(notice)))


def _file(notice: Notice, report: Report) -> str:
    return column_of(notice.excerpts[0].place)[0] if notice.excerpts else _main(report)


def _trouble(trouble: TroublePart, main: str) -> Case:
    lines = (*trouble.sentences, *trouble.givens, *_shown(trouble.shown), *edits_told(trouble.edits))
    return Case(main, "obstacles", trouble.title, FAILURE, Kind.BLOCKED.value, trouble.title, lines)


def _verdict(part: VerdictPart, main: str) -> Case:
    file = line_of(part.place)[0] if part.place else main
    tag = {Kind.PROVED: None, Kind.NOT_DECIDED: ERROR}.get(part.kind, FAILURE)
    place = f" [{part.place}]" if part.place else ""
    said = (part.text, f"{part.guards}{place}", part.sentence)
    lines = (*said, *_causes(part.causes), *_shown(part.shown), *part.remarks, *edits_told(part.edits))
    if part.accepted is not None:
        lines = (*lines, part.accepted.sentence)
        if part.accepted.excuses:
            return Case(file, "requirements", part.name, SKIPPED, part.kind.value, part.accepted.sentence, lines)
    return Case(file, "requirements", part.name, tag, part.kind.value, part.sentence, lines)


def _waived(part: WaivedPart, main: str) -> Case:
    file = line_of(part.place)[0] if part.place else main
    lines = (part.text, f"{part.guards} [{part.place}]", part.sentence)
    return Case(file, "requirements", part.name, SKIPPED, "waived", part.sentence, lines)


def _expected(part: PlayedPart, main: str) -> Iterator[Case]:
    file = line_of(part.place)[0] if part.place else main
    group = f"scenario {part.name}"
    for each in part.expectations:
        for name in each.named or (each.sentence,):
            if each.met:
                yield Case(file, group, name)
            else:
                lines = (each.sentence, *excerpts_told((each.excerpt,) if each.excerpt else ()), *_causes(each.causes))
                yield Case(file, group, name, FAILURE, "not as expected", each.sentence, lines)


def _remarked(notice: Notice) -> Iterator[str]:
    """What is said of a file although nothing fails because of it."""
    if notice.level is not Level.MISTAKE:
        yield f"{notice.level.value}: {notice.sentence}"
        yield from excerpts_told(notice.excerpts)
        yield from filter(None, (notice.guards, notice.advice))
        yield from _shown(notice.shown)
        if notice.accepted is not None:
            yield notice.accepted.sentence


def _shown(shown: Shown | None) -> Iterator[str]:
    if shown is None:
        return
    yield from _causes(shown.causes)
    for title, facts in told(shown.table):
        yield f"{title}: {facts}"
    yield from shown.remarks


def _causes(causes: tuple[Cause, ...]) -> Iterator[str]:
    for cause in causes:
        yield cause.sentence
        yield from excerpts_told((cause.excerpt,) if cause.excerpt else ())


def _text(text: str) -> str:
    return NO_XML.sub("?", text)


def _attribute(text: str) -> str:
    return _text(printable(text))
