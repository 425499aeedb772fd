"""Reports as JSON: nothing is lost on the way there and back, and the schema that ships is theirs."""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from logiccheck.base.assets import report_schema
from logiccheck.base.records import (
    ByName,
    Choice,
    Exact,
    Fixed,
    Many,
    Maybe,
    OneOf,
    Record,
    Scalar,
    Shape,
    Unfit,
    shapes,
)
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.render.as_json import NUMBER, read, render, schema
from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import render as as_text
from logiccheck.report.report import Outcome, Report
from tests.calling import EXAMPLES
from tests.render.machines import ALL, MAIN, SAMPLES, checked, mistakes, played, shown

AGAIN = "a part of the report has changed: python -m tests.render.write_schema"
PLAIN = Look(width=None, colour=False, ascii=False)
VALIDATOR = Draft202012Validator(json.loads(schema()))


def holds(report: Report) -> None:
    """There and back it is the same, it meets its schema, and reads the same as text."""
    text = render(report)
    again = read(text)
    assert again == report
    assert as_text(again, PLAIN) == as_text(report, PLAIN)
    assert render(again) == text
    VALIDATOR.validate(json.loads(text, parse_float=lambda number: pytest.fail(f"a float: {number}")))
    assert text.endswith("}\n")


def test_the_schema_is_that_of_the_report() -> None:
    """Whoever changes a part of the report writes the schema anew; a field of a kind that JSON has no shape for is
    refused with what there is instead, see `base/records.py`.
    """
    assert report_schema() == schema(), AGAIN
    Draft202012Validator.check_schema(json.loads(schema()))


@pytest.mark.parametrize("report", SAMPLES.values(), ids=SAMPLES)
def test_samples(report: Report) -> None:
    """Made-up reports of every outcome."""
    holds(report)


@pytest.mark.parametrize("path", MAIN, ids=lambda path: path.parent.name)
def test_checks_of_examples(path: Path) -> None:
    """Real checks."""
    holds(checked(path))


@pytest.mark.slow
@pytest.mark.parametrize("name", mistakes())
def test_checks_of_planted_mistakes(name: str) -> None:
    """Real checks of what fails and is blocked where something is wrong."""
    holds(checked(EXAMPLES / "planted-mistakes" / f"{name}.circuit", only=tuple(mistakes()[name].get("fails", ()))))


@pytest.mark.parametrize("path", ALL, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_plays_and_rules_of_examples(path: Path) -> None:
    """All scenarios, with every signal in time, and all rules."""
    holds(played(path))
    holds(shown(path))


def anything(shape: Shape) -> st.SearchStrategy[Any]:
    """Values of the shape."""
    match shape:
        case Scalar(kind=kind):
            return {str: st.text(max_size=5), int: st.integers(), bool: st.booleans()}[kind]
        case Exact():
            return st.fractions()
        case Choice(kind=kind):
            return st.sampled_from(kind)
        case Record(kind=kind):
            return st.deferred(lambda: st.builds(kind, *map(anything, shapes(kind).values())))
        case OneOf(kinds=kinds):
            return st.one_of([anything(Record(kind)) for kind in kinds])
        case Many(item=item):
            return st.lists(anything(item), max_size=2).map(tuple)
        case Fixed(items=items):
            return st.tuples(*map(anything, items))
        case ByName(item=item):
            return st.dictionaries(st.text(max_size=5), anything(item), max_size=2)
        case Maybe(inner=inner):
            return st.none() | anything(inner)


@settings(max_examples=40, suppress_health_check=list(HealthCheck), deadline=None)
@given(anything(Record(Report)))
def test_any_report(report: Report) -> None:
    """Whatever its type hints allow, to the last part that somebody adds."""
    text = render(report)
    assert read(text) == report
    VALIDATOR.validate(json.loads(text))


def test_each_field_is_there() -> None:
    """Every field of every part stands in the text, in the order in which the parts are written."""

    def compare(part: Any, value: Any) -> None:
        if is_dataclass(part):
            names = [field.name for field in fields(part)]
            assert [name for name in value if name != "is"] == names
            for name in names:
                compare(getattr(part, name), value[name])
        elif isinstance(part, tuple):
            assert len(part) == len(value)
            for each, inner in zip(part, value, strict=True):
                compare(each, inner)

    for report in SAMPLES.values():
        compare(report, json.loads(render(report))["report"])


def test_head() -> None:
    """What made it stands before the report."""
    document = json.loads(render(SAMPLES["good"]))
    assert list(document) == ["format", "number", "tool", "report"]
    assert document["tool"] == {"name": "logiccheck", "version": VERSION, "language": LANGUAGE}


def test_caution_and_hash_are_kept() -> None:
    """As in every format."""
    report = json.loads(render(SAMPLES["bad, read"]))["report"]
    assert report["basis"]["caution"] == "This checks what the files say, not the vehicle."
    assert report["files"][0] == {"path": "boat.circuit", "sha256": "0" * 64}


def test_letters_and_half_characters() -> None:
    """Letters stand as they are; half a character, which a broken file name may hold, comes back, too."""
    report = Report("Öl \udcff \x00 \u2028 \U0001f600", "", Outcome.GOOD)
    text = render(report)
    assert "Öl \\udcff \\u0000" in text
    assert text.encode("utf-8").decode("utf-8") == text
    assert read(text) == report


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "this is no JSON"),
        ("[]", '"format" is not "logiccheck report"'),
        ('{"format": "logiccheck report", "number": 999}', f'"number" is not {NUMBER}'),
        (f'{{"format": "logiccheck report", "number": {NUMBER}}}', "Report: an object is meant"),
        (
            f'{{"format": "logiccheck report", "number": {NUMBER}, "report": {{"opening": "", "closing": 1}}}}',
            "closing: str is meant",
        ),
    ],
)
def test_what_is_no_report(text: str, why: str) -> None:
    """Is refused in a sentence."""
    with pytest.raises(Unfit, match=why):
        read(text)
