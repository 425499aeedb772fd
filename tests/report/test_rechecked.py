"""What is said of a certificate that is proved again: whole first and last lines, and the worst first."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.audit.check import Flaw
from logiccheck.certificate.document import About, Document, Subject
from logiccheck.certificate.judged import Judged, Rechecked, Standing, Stands, State
from logiccheck.lang.load import load_text
from logiccheck.report.rechecked import changed, rechecked_report
from logiccheck.report.report import Outcome

LOADED = load_text(
    'vehicle "Van"\nworld\n    a contact\nrequirements\n    danger x "X" never a\n    danger y "Y" never a\n'
)
DOCUMENT = Document("van.circuit", (("test.circuit", LOADED.files[0].sha256),), (), 1, (), "0.1.0", 1)
CLAUSE = (("k.run", False),)
WRONG = Judged(Subject(About.CASE, "y", case=1), State.REFUSED, Flaw.CLOSURE, CLAUSE)
BASE = Stands("", "", Standing.SHOWN)
ALL = Rechecked(
    requirements=(Stands("x", "X", Standing.SHOWN, "proved"), Stands("y", "Y", Standing.SHOWN, "proved")),
    settling=BASE,
    begins=BASE,
    time=BASE,
    shorts=BASE,
    strange=(),
    held=9,
    claims=9,
)


def with_y(standing: Standing, *refused: Judged) -> Rechecked:
    return replace(ALL, requirements=(ALL.requirements[0], Stands("y", "Y", standing, "proved", refused)))


def without(name: str, standing: Standing) -> Rechecked:
    """All requirements rest on what is not shown."""
    rest = tuple(replace(each, standing=Standing.BASELESS) for each in ALL.requirements)
    bases = {name: replace(BASE, standing=standing)}
    return replace(ALL, requirements=rest, **bases)


PROVED = "Van: PROVED AGAIN. Requirements that a second solver proves from the rules alone: 2 of 2."
SOME = "Van: NOT ALL PROVED. Requirements that this certificate does not prove: 1 of 2."
REFUSED = "Van: NOT PROVED. Claims of this certificate that are not so, or do not follow from the rules: 1."
BASELESS = "Van: NOT PROVED. All rests on this, and it is not shown: "
CONTRADICTION = (
    "Van: NOT PROVED. What is given contradicts itself at time 0, so nothing that rests on it says anything."
)
UNDECIDED = "Van: NOT DECIDED. Requirements not proved again in the time and memory given: 1 of 2."


@pytest.mark.parametrize(
    ("found", "opening", "outcome"),
    [
        (ALL, PROVED, Outcome.GOOD),
        (with_y(Standing.MISSING), SOME, Outcome.FAILS),
        (with_y(Standing.CASE_MISSING), SOME, Outcome.FAILS),
        (with_y(Standing.NO_CASE), SOME, Outcome.FAILS),
        (with_y(Standing.FAILS), SOME, Outcome.FAILS),
        (with_y(Standing.OTHERWISE), SOME, Outcome.FAILS),
        (with_y(Standing.OPEN), UNDECIDED, Outcome.OPEN),
        (with_y(Standing.FULL), UNDECIDED, Outcome.OPEN),
        (without("time", Standing.FULL), UNDECIDED.replace("1 of", "2 of"), Outcome.OPEN),
        (replace(with_y(Standing.OPEN), interrupted=True), f"{UNDECIDED} This run was interrupted.", Outcome.OPEN),
        (with_y(Standing.REFUSED, WRONG), REFUSED, Outcome.FAILS),
        (replace(ALL, strange=("z",)), REFUSED, Outcome.FAILS),
        (replace(ALL, shorts=replace(BASE, standing=Standing.MISSING)), SOME.replace("2", "3"), Outcome.FAILS),
        (without("settling", Standing.MISSING), f"{BASELESS}every moment settles.", Outcome.FAILS),
        (without("time", Standing.REFUSED), f"{BASELESS}what is given lets time go on.", Outcome.FAILS),
        (without("begins", Standing.FAILS), CONTRADICTION, Outcome.FAILS),
        (without("time", Standing.OPEN), UNDECIDED.replace("1 of", "2 of"), Outcome.OPEN),
        (
            replace(ALL, requirements=()),
            "Van: NOTHING IS PROVED. The rules have no requirement of their own.",
            Outcome.FAILS,
        ),
    ],
)
def test_the_first_line(found: Rechecked, opening: str, outcome: Outcome) -> None:
    """It alone says whether all is proved."""
    assert LOADED.program is not None
    report = rechecked_report("van.certificate", DOCUMENT, LOADED.program, LOADED.files, found)
    assert (report.opening, report.outcome) == (opening, outcome)
    assert ("proved again 2 of 2: everything required holds" in report.closing) == (outcome is Outcome.GOOD)


def test_the_worst_comes_first_and_a_refused_claim_is_told() -> None:
    """With its clause as it stands in the file."""
    assert LOADED.program is not None
    missing, refused = Stands("x", "X", Standing.MISSING, "fails"), Stands("y", "Y", Standing.REFUSED, "", (WRONG,))
    found = replace(ALL, requirements=(missing, refused))
    report = rechecked_report("van.certificate", DOCUMENT, LOADED.program, LOADED.files, found)
    assert [(part.word, part.name) for part in report.rechecked] == [("REFUSED", "y"), ("NOT IN IT", "x")]
    assert report.rechecked[0].sentences == (
        "What the certificate claims of it is not so, or does not follow.",
        'The claim about situation 2 without which it says nothing: a moment leads out of the clauses: ["-k.run"].',
    )
    assert report.rechecked[1].sentences[-1] == "The check that wrote the certificate said of it: fails."


def test_other_rules() -> None:
    """Only what was read counts, and how the main file is called does not."""
    assert changed("van.certificate", DOCUMENT, LOADED.files) is None
    renamed = replace(DOCUMENT, files=(("old.circuit", LOADED.files[0].sha256),))
    assert changed("van.certificate", renamed, LOADED.files) is None
    other = replace(DOCUMENT, files=(("test.circuit", "0" * 64), ("lights.circuit", "1" * 64)))
    report = changed("van.certificate", other, LOADED.files)
    assert report is not None
    assert report.outcome is Outcome.FAILS
    assert report.opening == "test.circuit: NOT PROVED. The certificate is about other rules. Files that differ: 2."
    assert report.notes[:2] == (
        f"test.circuit: sha256 {'0' * 16} in the certificate, {LOADED.files[0].sha256[:16]} as it is now.",
        "lights.circuit: the certificate is about it, and the rules do not read it now.",
    )
