"""The report of a certificate that is proved again: what it proves of the rules, and what it does not."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from logiccheck.certificate.document import Document, names
from logiccheck.certificate.judged import Judged, Rechecked, Standing, Stands
from logiccheck.certificate.written import clause_text
from logiccheck.lang.program import Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_recheck as words
from logiccheck.report.basis import basis, files_read, texts
from logiccheck.report.report import Outcome, RecheckedPart, Report
from logiccheck.report.waived import waived_parts

OPEN = (Standing.SHOWN, Standing.OPEN, Standing.FULL)  # more time, or memory, may show it
UNDECIDED = (*OPEN, Standing.BASELESS)  # no worse than what all rests on


def rechecked_report(
    path: str, document: Document, program: Program, sources: tuple[SourceFile, ...], found: Rechecked
) -> Report:
    """`path` is that of the certificate; `sources` are the files of rules, the main file first."""
    asked = _asked(found)
    shown = sum(each.standing is Standing.SHOWN for each in asked)
    says, outcome = _comes_to(found, len(asked) - shown, len(asked))
    ground = basis(program, sources)
    baseless = sum(each.standing is Standing.BASELESS for each in asked)
    return Report(
        words.opening(program.label, says, found.interrupted),
        words.closing(shown, len(asked), words.COMES_TO[outcome.value]),
        outcome,
        rechecked=tuple(_parts(found)),
        notes=(*words.rest_on_it(baseless, len(asked)), *words.strange(found.strange), *_always(found)),
        basis=replace(ground, colophon=(*ground.colophon, words.written_by(path, document.tool))),
        files=files_read(sources),
        waived=waived_parts(program, texts(sources)),
    )


def _asked(found: Rechecked) -> tuple[Stands, ...]:
    """The requirements; with them the built-in one, where the check had to ask it."""
    built_in = (found.shorts,) if found.shorts.said or found.shorts.standing is not Standing.SHOWN else ()
    return (*found.requirements, *built_in)


def _always(found: Rechecked) -> tuple[str, ...]:
    return words.held(found.held, found.claims), words.SECOND, words.MORE


def _comes_to(found: Rechecked, left: int, total: int) -> tuple[str, Outcome]:
    """The first line without its label, and the outcome; the worst comes first."""
    lacking = [what for each, what in _bases(found) if each.standing not in OPEN]
    refused = [each for stands in _all(found) for each in stands.refused]
    bad = [each for each in _asked(found) if each.standing not in UNDECIDED]
    if found.begins.standing is Standing.FAILS:
        return words.contradiction(), Outcome.FAILS
    if lacking:
        return words.baseless(lacking[0]), Outcome.FAILS
    if refused or found.strange:
        return words.refused(len(refused) + len(found.strange)), Outcome.FAILS
    if not found.requirements:
        return words.nothing_asked(), Outcome.FAILS
    if bad:
        return words.not_all(left, total), Outcome.FAILS
    if left or found.interrupted:
        return words.undecided(left, total), Outcome.OPEN
    return words.all_again(total), Outcome.GOOD


def _all(found: Rechecked) -> tuple[Stands, ...]:
    return (*found.bases, found.shorts, *found.requirements)


def _bases(found: Rechecked) -> tuple[tuple[Stands, str], ...]:
    sentences = (words.SETTLING, words.BEGINNING, words.TIME)
    return tuple(zip(found.bases, sentences, strict=True))


def _parts(found: Rechecked) -> Iterator[RecheckedPart]:
    """All that is not as it should be: what others rest on first, then the worst."""
    for stands, what in (*_bases(found), (found.shorts, words.SHORTS)):
        if stands.standing is not Standing.SHOWN:
            yield _part(stands, what, "")
    for stands in sorted(found.requirements, key=lambda each: list(Standing).index(each.standing)):
        if stands.standing not in (Standing.SHOWN, Standing.BASELESS):
            yield _part(stands, stands.name, stands.label)


def _part(stands: Stands, name: str, label: str) -> RecheckedPart:
    sentences = [words.SENTENCES[stands.standing]]
    sentences += [words.wrong(_about(each), each.why, _clause(each)) for each in stands.refused if each.why is not None]
    if stands.said:
        sentences.append(words.said(stands.said))
    return RecheckedPart(name, label, words.WORDS[stands.standing], tuple(sentences))


def _about(judged: Judged) -> str:
    return words.about(judged.subject.about, judged.subject.case, judged.subject.output)


def _clause(judged: Judged) -> str:
    return clause_text(judged.clause) if judged.clause is not None else ""


# -------------------------------------------------------------------------------------------------- before any proof


def unfit(path: str, why: str) -> Report:
    """The certificate cannot be read; `why` is a sentence."""
    return Report(words.unfit(path, why), "", Outcome.MISTAKE)


def not_there(main: str, why: str, path: str) -> Report:
    """The rules are not where the certificate says; nobody named another place."""
    return Report(words.not_there(main, why, path), "", Outcome.MISTAKE)


def changed(path: str, document: Document, sources: tuple[SourceFile, ...]) -> Report | None:
    """What is said where the rules are not those of the certificate; None where they are."""
    read = dict(zip(names([source.path for source in sources]), (source.sha256 for source in sources), strict=True))
    certified = _renamed(document, next(iter(read)))
    differing = [name for name in {**certified, **read} if certified.get(name) != read.get(name)]
    if not differing:
        return None
    main = sources[0].path
    notes = [words.differs(name, certified.get(name), read.get(name)) for name in differing]
    return Report(
        words.changed(main, len(differing)),
        words.CHANGED,
        Outcome.FAILS,
        notes=(*notes, words.written_by(path, document.tool), words.check_again(main)),
    )


def _renamed(document: Document, main: str) -> Mapping[str, str]:
    """The files of the certificate; its main file under the name that it has now."""
    (_, first), *rest = document.files
    return {main: first, **dict(rest)}
