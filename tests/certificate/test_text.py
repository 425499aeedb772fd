"""A certificate comes back from its text as it was; whatever else a file holds is told in one sentence."""

from __future__ import annotations

import json
from dataclasses import replace
from random import Random
from typing import Any

import pytest

from logiccheck.audit.certificate import Ahead, Certificate, Choice, Cover, Part
from logiccheck.certificate.document import About, Claim, Document, Subject, Within, names
from logiccheck.certificate.reading import Unfit, read
from logiccheck.certificate.written import written
from tests.certificate.making import certified
from tests.examples.reading import Example, examples

HOLD, PRIME = Ahead("hold", "prime", -3_000_000, or_same=True), Ahead("hold", None, 5, or_same=False)
LINES = frozenset({("given", 0), ("at first", 12), ("steps", "key")})
PLAN = ((("key", 2), ("door", 0)), (), (("key", 3),))
ALL_KINDS = Document(
    main="../vans/van.circuit",
    files=(("van.circuit", "0" * 64), ("lights/rear.circuit", "ab" * 32), ("checklist starting", "9" * 64)),
    verdicts=(("spark", "proved"), ("pump", "not decided"), ("short circuit", "proved")),
    repeats=3,
    claims=(
        Claim(Subject(About.UNSETTLED), Certificate(((("hold.run", False), ("hold.on", True)),))),
        Claim(Subject(About.STUCK, plans=(PLAN, ((("door", 1),),)), lines=LINES), Certificate()),
        Claim(Subject(About.SHORT), Certificate()),
        Claim(Subject(About.BROKEN, "spark"), Certificate((((HOLD, True), (PRIME, False)), ()), LINES)),
        Claim(
            Subject(About.BROKEN, "pump"),
            Certificate(covers=(Cover((Choice("begun", 1, 0),), (Part(2, ((HOLD, False),)), Part(0))),)),
        ),
        Claim(Subject(About.CASE, "spark", case=1), Within(4)),
        Claim(Subject(About.ON, "spark", output="ignition"), Within(0)),
    ),
    tool="0.1.0",
    language=1,
)
TEXT = written(ALL_KINDS)


def test_every_kind_of_claim_comes_back() -> None:
    """Also with a byte order mark, as editors leave one."""
    assert read(TEXT.encode()) == ALL_KINDS
    assert read(TEXT.encode("utf-8-sig")) == ALL_KINDS
    assert written(read(TEXT.encode())) == TEXT


@pytest.mark.parametrize("example", examples(), ids=lambda example: example.name)
def test_examples_come_back(example: Example) -> None:
    """The certificate of each example (`certified` compares it with itself, read again); a clause is a line."""
    _, _, document = certified(example.file.read_text(encoding="utf-8"))
    assert document.claims
    clauses = [c for claim in document.claims if isinstance(claim.proof, Certificate) for c in claim.proof.clauses]
    lines = written(document).splitlines()
    assert sum(line.startswith("[") for line in lines) == len(clauses)


def test_names_that_are_no_plain_text_come_back() -> None:
    """A path is whatever the machine has."""
    strange = replace(ALL_KINDS, main='a "b"\\c\n\u2028\udc80.circuit', files=(("v\u00e4n.circuit", "0" * 64),))
    assert read(written(strange).encode()) == strange


def test_names_of_files() -> None:
    """They are seen from the folder of the main file."""
    assert names(["van.circuit", "lights.circuit", "checklist starting"]) == [
        "van.circuit",
        "lights.circuit",
        "checklist starting",
    ]
    assert names(["./a/b/van.circuit", "a/b/c/x.circuit"]) == ["van.circuit", "c/x.circuit"]
    assert names(["/van.circuit", "/c/x.circuit"]) == ["van.circuit", "c/x.circuit"]


def changed(**fields: Any) -> str:
    """The text with these fields of the whole put in; None takes one away."""
    top = {**json.loads(TEXT), **fields}
    return json.dumps({key: value for key, value in top.items() if value is not None})


def claimed(claim: dict[str, Any]) -> str:
    return changed(claims=[claim])


BROKEN = {"about": "broken", "requirement": "spark"}


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("", "It does not begin as a certificate does"),
        ("{}", "It does not begin as a certificate does"),
        ('vehicle "Van"\n', "It does not begin as a certificate does"),
        (TEXT[:-20], "It is damaged or cut off: it cannot be read on from line"),
        (TEXT.replace("3,", "3", 1), "It is damaged or cut off"),
        (
            TEXT.replace('certificate": 1', 'certificate": 2'),
            "It is of format 2, written by logiccheck 0.1.0; this one",
        ),
        (TEXT.replace('certificate": 1', 'certificate": 0'), "It is damaged: there is no format 0."),
        (TEXT.replace('certificate": 1', 'certificate": "1"'), "is not what belongs there"),
        (TEXT.replace('certificate": 1', 'certificate": true'), "is not what belongs there"),
        (changed(language=2), "It is about rules in language 2; this logiccheck reads language 1. Update."),
        (changed(claims=None), '"claims" is missing in the whole'),
        (changed(more=1), '"more" has no meaning in the whole'),
        (changed(files={}), "it names no file of rules"),
        (changed(files={"van.circuit": "0" * 63}), "is no sha256 of a file"),
        (changed(repeats=-1), '-1 is no number for "repeats"'),
        (changed(repeats=10**9), '1000000000 is no number for "repeats"'),
        (changed(verdicts=[]), 'what stands at "verdicts" is not what belongs there'),
        (changed(claims=[1]), 'what stands at "a claim" is not what belongs there'),
        (claimed({"about": "weather"}), 'It claims something unknown: "weather".'),
        (claimed(BROKEN), '"happens within" is missing in a claim about broken'),
        (claimed({**BROKEN, "case": 1, "happens within": 1}), '"case" has no meaning in a claim about broken'),
        (claimed({**BROKEN, "happens within": 1.5}), "1.5 is no whole number"),
        (claimed({**BROKEN, "happens within": 10**5}), 'is no number for "happens within"'),
        (claimed({**BROKEN, "never": {"given": []}}), '"clauses" is missing in never'),
        (
            claimed({**BROKEN, "never": {"given": ["given x"], "clauses": []}}),
            '"given x" names no line of what is given',
        ),
        (claimed({**BROKEN, "never": {"given": [], "clauses": [["k.run"]]}}), '"k.run" says nothing in a clause'),
        (
            claimed({**BROKEN, "never": {"given": [], "clauses": [[["+", "k", "=", 1, None]]]}}),
            "says nothing in a clause",
        ),
        (
            claimed({**BROKEN, "never": {"given": [], "clauses": [[["+", "k", ">", True, None]]]}}),
            "such a bound of time",
        ),
        (
            claimed({**BROKEN, "never": {"given": [], "clauses": [[["+", "k", ">", 10**30, None]]]}}),
            "such a bound of time",
        ),
        (changed(claims=[{**BROKEN, "happens within": 1}] * 2), "it claims one thing twice"),
        (TEXT.replace('"tool"', '"repeats"', 1), '"repeats" stands twice'),
        (TEXT.replace('"repeats": 3', '"repeats": NaN'), "NaN is no whole number"),
        (TEXT.replace('"repeats": 3', f'"repeats": {"9" * 5000}'), "such numbers, or so many brackets"),
        (TEXT.replace('"repeats": 3', f'"repeats": {"[" * 100_000}'), "such numbers, or so many brackets"),
    ],
)
def test_what_cannot_be_read_is_told(text: str, sentence: str) -> None:
    """One sentence, that says what is wrong and where."""
    with pytest.raises(Unfit) as told:
        read(text.encode())
    assert sentence in str(told.value)


def test_no_damage_ends_in_a_crash() -> None:
    """Cut off anywhere, a byte changed, a stretch taken out or doubled: it is told, or it is another certificate."""
    random, raw, told = Random(3), TEXT.encode(), list[str]()
    for _ in range(3_000):
        at, length = random.randrange(len(raw)), random.randrange(1, 30)
        kind = random.randrange(4)
        damaged = (
            raw[:at]
            if kind == 0
            else raw[:at] + bytes([random.randrange(256)]) + raw[at + 1 :]
            if kind == 1
            else raw[:at] + raw[at + length :]
            if kind == 2
            else raw[: at + length] + raw[at:]
        )
        try:
            again = read(damaged)
        except Unfit as why:
            told.append(str(why))
        else:
            assert isinstance(again, Document)
    assert len(told) > 2_000
    assert all(sentence.endswith(".") for sentence in told)
