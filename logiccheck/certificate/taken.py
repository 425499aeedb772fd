"""The certificate of a check: of all that it found, what its verdicts rest on."""

from __future__ import annotations

import posixpath

from logiccheck.audit.grounds import Happens, Never
from logiccheck.audit.relation import Shorted, Stuck, Unsettled
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.certificate.document import SHORT_CIRCUIT, Claim, Document, Within, named, names
from logiccheck.engine.verdict import Check, Kind, Verdict
from logiccheck.lang.reading import SourceFile


def taken(check: Check, sources: tuple[SourceFile, ...]) -> Document:
    """`sources` are the files read, the main file first; where it lies is left open."""
    rests = {_name(verdict) for verdict in check.verdicts if _rests(verdict)}
    claims = {}
    for found in check.grounds.found:
        claim = _claim(found)
        whose = SHORT_CIRCUIT if isinstance(found.question, Shorted) else claim.subject.requirement
        if whose in rests or isinstance(found.question, Unsettled | Stuck):
            claims[claim.subject.key] = claim
    return Document(
        main=posixpath.basename(sources[0].path),
        files=tuple(
            (name, source.sha256) for name, source in zip(names([each.path for each in sources]), sources, strict=True)
        ),
        verdicts=tuple((_name(verdict), verdict.kind.value) for verdict in check.verdicts),
        repeats=check.grounds.repeats,
        claims=tuple(claims.values()),
        tool=VERSION,
        language=LANGUAGE,
    )


def _rests(verdict: Verdict) -> bool:
    """Whether it rests on proofs, or on stories that are no failure."""
    never_possible = verdict.kind is Kind.FAILS and verdict.story is None
    return never_possible or verdict.kind in (Kind.PROVED, Kind.NO_CASE)


def _name(verdict: Verdict) -> str:
    return SHORT_CIRCUIT if verdict.builtin else verdict.requirement.name


def _claim(found: Never | Happens) -> Claim:
    match found:
        case Never(question, certificate):
            return Claim(named(question), certificate)
        case Happens(question, moments):
            return Claim(named(question), Within(moments))
