"""A check as SARIF 2.1.0 (OASIS), as editors and code hosts read it: one result for all that is not as it should be.

What is not proved is an error, whatever the reason, as most readers look at the level alone; so is a finding because of
which the run is not good. Requirements that are proved are no results; they are named in the properties of the run,
beside caution, assumptions and limits.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, TypeAlias
from urllib.parse import quote

from logiccheck.base.json_text import json_text
from logiccheck.base.place import column_of, line_of
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.engine.verdict import Kind
from logiccheck.report import words_formats as words
from logiccheck.report.long_texts import LongText
from logiccheck.report.report import (
    AcceptedPart,
    Cause,
    Excerpt,
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
from logiccheck.report.told import edits_told, told

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
LEVELS = {Level.MISTAKE: "error", Level.WARNING: "warning", Level.NOTE: "note"}
UNEXPECTED = "not-as-expected"
SHIPPED, CHECKLIST = "CHECKLISTS", "checklist "

Object: TypeAlias = dict[str, Any]


def render(report: Report, explained: Iterable[LongText]) -> str:
    """The check as one run; `explained` are the long texts, of which those of the results' rules are taken along."""
    results = [*_results(report)]
    rules = list(dict.fromkeys(result["ruleId"] for result in results))
    for result in results:
        result["ruleIndex"] = rules.index(result["ruleId"])
    texts = {name: text for text in explained for name in text.names}
    driver = {
        "name": "logiccheck",
        "version": VERSION,
        "rules": [_rule(each, texts.get(each.casefold())) for each in rules],
        "properties": {"language": LANGUAGE},
    }
    run = {
        "tool": {"driver": driver},
        "invocations": [_invocation(report)],
        "artifacts": [_artifact(file.path, file.sha256) for file in report.files],
        "originalUriBaseIds": {SHIPPED: {"description": _message(words.CHECKLISTS)}},
        "columnKind": "unicodeCodePoints",
        "results": results,
        "properties": _properties(report),
    }
    return json_text({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]})


def _rule(name: str, text: LongText | None) -> Object:
    """By its code, or for verdicts by the word for it; `name` is what `about` takes as well."""
    if text is None:
        return {"id": name}
    first = text.text.split("\n", 1)[0]
    return {"id": name, "name": text.names[0], "shortDescription": _message(first), "help": _message(text.text)}


def _invocation(report: Report) -> Object:
    """Where the files or the call have no meaning nothing was checked, and that there are no results says nothing."""
    notes = [("error", report.opening)] if report.outcome is Outcome.MISTAKE else []
    notes += [("warning", f"{part.name}: {remark}") for part in report.played for remark in part.remarks]
    return {
        "executionSuccessful": report.outcome is not Outcome.MISTAKE,
        "toolExecutionNotifications": [{"level": level, "message": _message(text)} for level, text in notes],
    }


def _artifact(path: str, sha256: str) -> Object:
    return {"location": _file(path), "encoding": "UTF-8", "hashes": {"sha-256": sha256}}


def _properties(report: Report) -> Object:
    found: Object = {"outcome": report.outcome.value, "opening": report.opening, "closing": report.closing}
    found["proved"] = [part.name for part in report.verdicts if part.kind is Kind.PROVED]
    if report.basis is not None:
        found["caution"] = report.basis.caution
        found["takenAsGiven"] = list(report.basis.assumptions)
        found["notCovered"] = list(report.basis.limits)
        found["colophon"] = list(report.basis.colophon)
    return found


# ------------------------------------------------------------------------------------------------------- the results


def _results(report: Report) -> Iterator[Object]:
    main = report.files[0].path if report.files else None
    for notice in report.notices:
        yield _notice(notice)
    for trouble in report.troubles:
        yield _trouble(trouble, main)
    for part in report.verdicts:
        if part.kind is not Kind.PROVED:
            yield _verdict(part, main)
    for waived in report.waived:
        yield _waived(waived)
    for played in report.played:
        yield from _unexpected(played)


def _notice(notice: Notice) -> Object:
    level = "error" if notice.counts else LEVELS[notice.level]
    lines = (notice.sentence, notice.guards, notice.advice, *_remarks(notice.shown), _said(notice.accepted))
    found = _result(notice.code, level, lines)
    where = _location(notice.excerpts[0]) if notice.excerpts else {}
    if where:
        found["locations"] = [where]
    if notice.excerpts[1:]:
        found["relatedLocations"] = [_location(each, notice.second) for each in notice.excerpts[1:]]
    if notice.shown is not None:
        found["codeFlows"] = [_flow(notice.shown, where)]
    if notice.about:
        found["properties"] = {"about": list(notice.about)}
    return _with_word(found, notice.accepted)


def _said(accepted: AcceptedPart | None) -> str:
    return accepted.sentence if accepted is not None else ""


def _with_word(found: Object, accepted: AcceptedPart | None) -> Object:
    """The result with whose word it is. What cannot be excused, or no longer is, is no suppression to any reader: that
    it was asked for and refused is said."""
    if accepted is not None:
        status = "accepted" if accepted.excuses else "rejected"
        found["suppressions"] = [{"kind": "inSource", "status": status, "justification": accepted.sentence}]
    return found


def _trouble(trouble: TroublePart, main: str | None) -> Object:
    lines = (trouble.title, *trouble.sentences, *trouble.givens, *_remarks(trouble.shown), *edits_told(trouble.edits))
    found = _result("blocked", "error", lines)
    where = _whole(main)
    if where:
        found["locations"] = [where]
    if trouble.shown is not None:
        found["codeFlows"] = [_flow(trouble.shown, where)]
    return found


def _verdict(part: VerdictPart, main: str | None) -> Object:
    edits = edits_told(part.edits)  # in words: a reader could take a `fix` of SARIF for one that is right
    said = (f"{part.name}: {part.text}", part.sentence)
    lines = (*said, *part.remarks, *_remarks(part.shown), *edits, _said(part.accepted))
    found = _result(part.kind.value.replace(" ", "-"), "error", lines)
    where = _line(part.place) if part.place else _whole(main)
    if where:
        found["locations"] = [{**where, "logicalLocations": [{"name": part.name, "kind": "requirement"}]}]
    if part.shown is not None:
        found["codeFlows"] = [_flow(part.shown, where)]
    if part.causes:
        found["relatedLocations"] = [_cause(cause, where) for cause in part.causes]
    found["partialFingerprints"] = {"requirement/v1": part.name}
    found["properties"] = {"label": part.label, "guards": part.guards}
    return _with_word(found, part.accepted)


def _waived(part: WaivedPart) -> Object:
    found = _result("waived", "none", (f"{part.name}: {part.text}", part.sentence))
    found["kind"] = "notApplicable"
    if part.place:
        found["locations"] = [{**_line(part.place), "logicalLocations": [{"name": part.name, "kind": "requirement"}]}]
    found["suppressions"] = [{"kind": "inSource", "status": "accepted", "justification": part.reason}]
    found["partialFingerprints"] = {"requirement/v1": part.name}
    found["properties"] = {"label": part.label, "guards": part.guards}
    return found


def _unexpected(part: PlayedPart) -> Iterator[Object]:
    for each in part.expectations:
        if not each.met:
            found = _result(UNEXPECTED, "error", (f"{part.name}: {each.sentence}",))
            found["locations"] = [_location(each.excerpt)] if each.excerpt else []
            found["relatedLocations"] = [_cause(cause, {}) for cause in each.causes]
            yield found


def _remarks(shown: Shown | None) -> Sequence[str]:
    return shown.remarks if shown is not None else ()


def _flow(shown: Shown, where: Object) -> Object:
    """The causes first, each at its own line, then the story moment by moment, told where the requirement stands."""
    steps = [_cause(cause, where) for cause in shown.causes]
    steps += [{**where, "message": _message(f"{title}: {facts}")} for title, facts in told(shown.table)]
    return {"threadFlows": [{"locations": [{"location": step} for step in steps]}]}


def _result(rule: str, level: str, lines: Iterable[str]) -> Object:
    return {"ruleId": rule, "kind": "fail", "level": level, "message": _message("\n".join(filter(None, lines)))}


def _message(text: str) -> Object:
    return {"text": text}


# --------------------------------------------------------------------------------------------------------- the places


def _cause(cause: Cause, where: Object) -> Object:
    """What a cause says, at its own line; at `where` if it has none."""
    return _location(cause.excerpt, cause.sentence) if cause.excerpt else {**where, "message": _message(cause.sentence)}


def _location(excerpt: Excerpt, message: str = "") -> Object:
    """Where the excerpt begins to point at something, from one column up to another where it says so."""
    file, line, column = column_of(excerpt.place)
    region = {"startLine": line, "startColumn": column}
    ends = [end for begin, end in excerpt.lines[0].marks if begin + 1 == column]  # not so where a long line was cut
    if ends:
        region["endColumn"] = ends[0] + 1
    found: Object = {"physicalLocation": {"artifactLocation": _file(file), "region": region}}
    return {**found, "message": _message(message)} if message else found


def _line(place: str) -> Object:
    file, line = line_of(place)
    return {"physicalLocation": {"artifactLocation": _file(file), "region": {"startLine": line}}}


def _whole(path: str | None) -> Object:
    return {"physicalLocation": {"artifactLocation": _file(path)}} if path is not None else {}


def _file(path: str) -> Object:
    """A file of the user by its path; a checklist, which is none, by its name below a base of its own."""
    return {"uri": uri(path), **({"uriBaseId": SHIPPED} if path.startswith(CHECKLIST) else {})}


def uri(path: str) -> str:
    """A path with "/" between folders as a URI: relative ones stay relative, what is no letter of a URI is encoded."""
    quoted = quote(path.encode("utf-8", "surrogateescape"), safe="/:" if _absolute(path) else "/")
    if not _absolute(path):
        return quoted
    return f"file:{quoted}" if quoted.startswith("//") else f"file:///{quoted.removeprefix('/')}"


def _absolute(path: str) -> bool:
    return path.startswith("/") or re.match(r"[A-Za-z]:/", path) is not None
