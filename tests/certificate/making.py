"""What the tests of certificates share: the certificate of a program, and what became of it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from logiccheck.certificate.document import Claim, Document
from logiccheck.certificate.judged import Rechecked
from logiccheck.certificate.reading import read
from logiccheck.certificate.recheck import recheck
from logiccheck.certificate.taken import taken
from logiccheck.certificate.written import written
from logiccheck.engine.check import check_program
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.verdict import Check
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Program

SECONDS = 60.0


def certified(text: str, engines: Collection[Engine] = BOTH) -> tuple[Program, Check, Document]:
    """The program of a text, its check by these engines, and the certificate of that as it comes back from its own
    text."""
    loaded = load_text(text)
    assert loaded.program is not None, [str(each) for each in loaded.diagnostics]
    check = check_program(loaded.program, SECONDS, engines=engines)
    document = taken(check, loaded.files)
    again = read(written(document).encode())
    assert again == document
    return loaded.program, check, again


def proved_again(document: Document, program: Program) -> Rechecked:
    return recheck(document, program, SECONDS, lambda _: None)


def standings(found: Rechecked) -> dict[str, str]:
    """What all rests on, and the requirements, by name."""
    return {each.name: each.standing.value for each in (*found.bases, found.shorts, *found.requirements)}


def with_claim(document: Document, claim: Claim) -> Document:
    """The certificate with this claim in the place of the one with its key, or as one more."""
    others = [other for other in document.claims if other.subject.key != claim.subject.key]
    return replace(document, claims=(*others, claim))
