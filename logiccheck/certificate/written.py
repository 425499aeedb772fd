"""A certificate as text: JSON laid out so that each clause is a line of its own. FORMAT.md describes it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any, assert_never

from logiccheck.audit.certificate import Ahead, Certificate, Clause, Cover, Name
from logiccheck.audit.given import LineName
from logiccheck.certificate.document import FORMAT, About, Claim, Document, Subject, Within


def written(document: Document) -> str:
    """The whole text, with its last line ended; the same document is always the same text."""
    lines = [
        f'"logiccheck certificate": {FORMAT},',
        f'"tool": {_json(document.tool)},',
        f'"language": {document.language},',
        f'"file": {_json(document.main)},',
        '"files": {',
        *_rows(f"{_json(name)}: {_json(digest)}" for name, digest in document.files),
        "},",
        f'"repeats": {document.repeats},',
        '"verdicts": {',
        *_rows(f"{_json(name)}: {_json(verdict)}" for name, verdict in document.verdicts),
        "},",
        '"claims": [',
        *_rows("\n".join(_claim(claim)) for claim in document.claims),
        "]",
    ]
    return "\n".join(["{", *lines, "}", ""])


def _json(value: Any) -> str:
    """Letters as they are; only what no text may hold (a path that is no text) is escaped."""
    plain = json.dumps(value, ensure_ascii=False)
    return plain if plain.isprintable() else json.dumps(value)


def _rows(items: Iterator[str]) -> list[str]:
    """Items of a list or object, a comma after each but the last."""
    found = list(items)
    return [item + "," for item in found[:-1]] + found[-1:]


def _claim(claim: Claim) -> Iterator[str]:
    subject = {"about": claim.subject.about.value, **_subject(claim.subject)}
    head = ", ".join(f"{_json(key)}: {_json(value)}" for key, value in subject.items())
    match claim.proof:
        case Within(moments):
            yield f'{{{head}, "happens within": {moments}}}'
        case Certificate():
            yield f'{{{head}, "never": {{'
            yield from _never(claim.proof)
            yield "}}"
        case _:
            assert_never(claim.proof)


def _never(proof: Certificate) -> Iterator[str]:
    """Covers are written only where there are any."""
    yield f'"given": {_json([line_text(line) for line in sorted(proof.lines, key=str)])},'
    yield '"clauses": ['
    yield from _rows(clause_text(clause) for clause in proof.clauses)
    if not proof.covers:
        yield "]"
        return
    yield '], "covers": ['
    yield from _rows("\n".join(_cover(cover)) for cover in proof.covers)
    yield "]"


def _cover(cover: Cover) -> Iterator[str]:
    yield '{"choices": ['
    yield from _rows(_json(list(choice)) for choice in cover.choices)
    yield '], "parts": ['
    yield from _rows(_json([part.sort, *(_literal(name, so) for name, so in part.apart)]) for part in cover.parts)
    yield "]}"


def _subject(subject: Subject) -> dict[str, Any]:
    match subject.about:
        case About.UNSETTLED | About.SHORT:
            return {}
        case About.STUCK:
            lines = [line_text(line) for line in sorted(subject.lines, key=str)]
            return {"plans": [[dict(moves) for moves in plan] for plan in subject.plans], "lines": lines}
        case About.BROKEN:
            return {"requirement": subject.requirement}
        case About.CASE:
            return {"requirement": subject.requirement, "case": subject.case}
        case About.ON:
            return {"requirement": subject.requirement, "output": subject.output}


def line_text(line: LineName) -> str:
    """A line of what is given: "given 3", "at first 0", "steps key"."""
    kind, which = line
    return f"{kind} {which}"


def clause_text(clause: Clause) -> str:
    """A clause as it stands in the text."""
    return _json([_literal(name, positive) for name, positive in clause])


def _literal(name: Name, positive: bool) -> str | list[Any]:
    sign = "+" if positive else "-"
    if not isinstance(name, Ahead):
        return sign + name
    return [sign, name.timer, ">=" if name.or_same else ">", name.bound, name.other]
