"""Checks as SARIF 2.1.0: valid by the published schema, and nothing that is not proved is left out or looks harmless."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from jsonschema import Draft4Validator, FormatChecker

from logiccheck.base.version import VERSION
from logiccheck.cli.about import texts
from logiccheck.engine.verdict import Kind
from logiccheck.render.sarif import render, uri
from logiccheck.report.report import Cause, Excerpt, Level, Line, Notice, Outcome, Report
from tests.render.machines import (
    ACCEPTED,
    BACK,
    BAD_READ,
    GOOD_READ,
    MAIN,
    MISTAKEN,
    SAMPLES,
    SCHEMAS,
    WHY,
    WORD,
    checked,
)

SCHEMA = json.loads((SCHEMAS / "sarif-schema-2.1.0.json").read_text(encoding="utf-8"))
VALIDATOR = Draft4Validator(SCHEMA, format_checker=FormatChecker())


def run_of(report: Report) -> dict[str, Any]:
    """The one run of the report, valid by the schema."""
    text = render(report, texts())
    log = json.loads(text)
    VALIDATOR.validate(log)
    assert (log["$schema"], log["version"], len(log["runs"])) == (SCHEMA["id"], "2.1.0", 1)
    assert text == render(report, texts())
    assert text.endswith("}\n")
    found: dict[str, Any] = log["runs"][0]
    for result in found["results"]:
        assert found["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
    return found


def results(report: Report, rule: str) -> list[dict[str, Any]]:
    """The results of one rule."""
    return [result for result in run_of(report)["results"] if result["ruleId"] == rule]


@pytest.mark.parametrize("report", SAMPLES.values(), ids=SAMPLES)
def test_samples(report: Report) -> None:
    """What is not proved is an error, and there is one for each; what is proved is named in the properties."""
    run = run_of(report)
    named = [
        place["logicalLocations"][0]["name"]
        for result in run["results"]
        for place in result.get("locations", ())
        if "logicalLocations" in place and result["level"] == "error" and result["kind"] == "fail"
    ]
    if report.files:
        assert named == [part.name for part in report.verdicts if part.kind is not Kind.PROVED]
    assert run["properties"]["proved"] == [part.name for part in report.verdicts if part.kind is Kind.PROVED]
    assert run["invocations"][0]["executionSuccessful"] is (report.outcome is not Outcome.MISTAKE)


@pytest.mark.parametrize("path", MAIN, ids=lambda path: path.parent.name)
def test_examples(path: Path) -> None:
    """Real checks are valid, and have a result for each requirement that is not proved and each remark on the file."""
    report = checked(path)
    left = sum(part.kind is not Kind.PROVED for part in report.verdicts)
    unmet = sum(not each.met for part in report.played for each in part.expectations)
    beside = len(report.notices) + len(report.troubles) + len(report.waived)
    assert len(run_of(report)["results"]) == left + unmet + beside


def test_a_failing_requirement() -> None:
    """Where it stands, what is wrong, and the story: first why, at the user's line, then moment by moment."""
    (result,) = results(BAD_READ, "fails")
    assert result["level"] == "error"
    assert result["message"]["text"].splitlines() == [
        "no_flat_battery: never bilge_pump while key is off for longer than 4 min",
        "Unbroken since 2 s, and so for longer than 4 min: bilge_pump, while key is off.",
        "Signals not involved, and not shown: 12.",
        "It would hold with this edit (a suggestion):",
        "boat.circuit:31:40",
        "31 |     output bilge_pump when a and not b",
    ]
    assert "fixes" not in result
    assert result["locations"] == [
        {
            "physicalLocation": {"artifactLocation": {"uri": "boat.circuit"}, "region": {"startLine": 58}},
            "logicalLocations": [{"name": "no_flat_battery", "kind": "requirement"}],
        }
    ]
    steps = [step["location"] for step in result["codeFlows"][0]["threadFlows"][0]["locations"]]
    assert [step["message"]["text"] for step in steps] == [
        "bilge_pump is on because of the marked terms together:",
        "at first: key off, engine 0 rpm, key_wire dead, bilge_pump off",
        "1 s: key run, key_wire live, bilge_pump on, timer hold runs 4 min 1 s",
        "just after 4 min 2 s: timer hold ends",
    ]
    assert [step["physicalLocation"]["region"]["startLine"] for step in steps] == [31, 58, 58, 58]


def test_a_cause_that_nobody_wrote() -> None:
    """Is not lost: it is told where the requirement stands."""
    part = BAD_READ.verdicts[0]
    assert part.shown is not None
    story = replace(part.shown, causes=(Cause("The wire is open.", None),))
    (result,) = results(replace(BAD_READ, verdicts=(replace(part, shown=story),)), "fails")
    first = result["codeFlows"][0]["threadFlows"][0]["locations"][0]["location"]
    assert first["message"]["text"] == "The wire is open."
    assert first["physicalLocation"]["region"]["startLine"] == 58


def test_causes_without_a_story() -> None:
    """Stand beside the result, each at its line."""
    part = replace(BAD_READ.verdicts[0], shown=None, causes=(WHY,))
    (result,) = results(replace(BAD_READ, verdicts=(part,)), "fails")
    (related,) = result["relatedLocations"]
    assert related["message"]["text"] == WHY.sentence
    assert related["physicalLocation"]["region"]["startLine"] == 30
    assert "codeFlows" not in result


def test_what_is_waived_is_suppressed() -> None:
    """It does not apply, so it is no failure; the reason is its justification."""
    (result,) = results(BAD_READ, "waived")
    assert (result["kind"], result["level"]) == ("notApplicable", "none")
    assert result["message"]["text"].splitlines() == [
        "boats_blower: starter only after blower has lasted 4 min",
        'Not asked, because it is waived: A diesel, so no "petrol" vapour.',
    ]
    (suppression,) = result["suppressions"]
    assert suppression == {
        "kind": "inSource", "status": "accepted", "justification": 'A diesel, so no "petrol" vapour.'
    }  # fmt: skip
    assert result["locations"][0]["physicalLocation"]["region"]["startLine"] == 5


def test_not_decided_is_an_error_too() -> None:
    """Who looks at levels alone must not take it for green."""
    (result,) = results(BAD_READ, "not-decided")
    assert (result["level"], result["kind"]) == ("error", "fail")
    (result,) = results(BAD_READ, "no-case")
    assert (result["level"], result["kind"]) == ("error", "fail")


def test_a_mistake_with_two_places() -> None:
    """The columns count code points from 1, the end is the one behind; the second place says what it is."""
    run = run_of(MISTAKEN)
    assert run["columnKind"] == "unicodeCodePoints"
    mistake, other = run["results"]
    assert mistake["message"]["text"] == "The name öl is given twice.\nRename one of them."
    assert mistake["locations"][0]["physicalLocation"] == {
        "artifactLocation": {"uri": "boat.circuit"},
        "region": {"startLine": 20, "startColumn": 5},
    }
    (related,) = mistake["relatedLocations"]
    assert related["message"]["text"] == "the first one"
    assert related["physicalLocation"] == {
        "artifactLocation": {"uri": "lights%20%26%20more.circuit"},
        "region": {"startLine": 7, "startColumn": 10, "endColumn": 12},
    }
    assert "locations" not in other
    notes = run["invocations"][0]["toolExecutionNotifications"]
    assert [(note["level"], note["message"]["text"]) for note in notes] == [("error", MISTAKEN.opening)]


def test_levels_of_remarks() -> None:
    """A warning is a warning, a note a note: they change no verdict."""
    (warning,) = [each for each in BAD_READ.notices if each.level is Level.WARNING]
    (result,) = results(BAD_READ, warning.code)
    assert result["level"] == "warning"
    note = replace(warning, level=Level.NOTE)
    (result,) = results(replace(BAD_READ, notices=(note,)), warning.code)
    assert result["level"] == "note"


def test_rules_are_explained() -> None:
    """By code and name, with the long text that `about` prints."""
    report = Report("", "", Outcome.MISTAKE, notices=(Notice(Level.MISTAKE, "unknown-name", "E301", "x", (), "", ""),))
    (rule,) = run_of(report)["tool"]["driver"]["rules"]
    text = next(text.text for text in texts() if "e301" in text.names)
    assert (rule["id"], rule["name"], rule["help"]["text"]) == ("E301", "unknown-name", text)
    rules = {rule["id"]: rule for rule in run_of(BAD_READ)["tool"]["driver"]["rules"]}
    assert all(
        "help" in rules[verdict] for verdict in ("fails", "no-case", "not-decided", "blocked", "not-as-expected")
    )


def test_an_unmet_expectation_and_an_obstacle() -> None:
    """Each is an error; the obstacle stands at the file as a whole."""
    (result,) = results(BAD_READ, "not-as-expected")
    assert result["message"]["text"] == "arrival: At 2 s not as expected: not bilge_pump"
    assert result["locations"][0]["physicalLocation"]["region"] == {"startLine": 70, "startColumn": 27}
    (why,) = result["relatedLocations"]
    assert why["message"]["text"] == "b is on because of the marked term:"
    assert why["physicalLocation"]["region"] == {"startLine": 30, "startColumn": 14, "endColumn": 15}
    (result,) = results(BAD_READ, "blocked")
    assert result["level"] == "error"
    assert result["message"]["text"].splitlines()[-1] == "never a and b"
    assert result["locations"] == [{"physicalLocation": {"artifactLocation": {"uri": "boat.circuit"}}}]


def test_caution_versions_and_hashes() -> None:
    """As in every format."""
    run = run_of(GOOD_READ)
    assert run["properties"]["caution"] == "This checks what the files say, not the vehicle."
    assert run["properties"]["notCovered"][-1] == "Nothing breaks."
    assert run["properties"]["takenAsGiven"][0] == "At first key is off."
    assert (run["tool"]["driver"]["name"], run["tool"]["driver"]["version"]) == ("logiccheck", VERSION)
    assert [(each["location"]["uri"], each["hashes"]["sha-256"]) for each in run["artifacts"]] == [
        ("boat.circuit", "0" * 64),
        ("lights%20%26%20more.circuit", "f" * 64),
    ]


def test_a_checklist_is_no_file_of_the_user() -> None:
    """It stands below a base of its own, which says what it is."""
    part = replace(BAD_READ.verdicts[0], place="checklist starting:12")
    (result,) = results(replace(BAD_READ, verdicts=(part,)), "fails")
    place = result["locations"][0]["physicalLocation"]
    assert place["artifactLocation"] == {"uri": "checklist%20starting", "uriBaseId": "CHECKLISTS"}
    assert "CHECKLISTS" in run_of(BAD_READ)["originalUriBaseIds"]


@pytest.mark.parametrize(
    ("path", "expected"),
    [
        ("van.circuit", "van.circuit"),
        ("../a b/öl.circuit", "../a%20b/%C3%B6l.circuit"),
        ("a:b.circuit", "a%3Ab.circuit"),
        ("/home/me/van.circuit", "file:///home/me/van.circuit"),
        ("C:/Users/me/van.circuit", "file:///C:/Users/me/van.circuit"),
        ("//server/share/van.circuit", "file://server/share/van.circuit"),
        ("\udcff.circuit", "%FF.circuit"),
    ],
)
def test_uris(path: str, expected: str) -> None:
    """Relative paths stay relative; whatever a URI cannot hold is encoded, and can be read back."""
    assert uri(path) == expected
    assert path in ("\udcff.circuit",) or unquote(uri(path)).endswith(path)


def test_a_cut_line_has_no_end() -> None:
    """Of a long line only a part is shown; its column is that of the file, and no end is guessed."""
    shown = Excerpt("v.circuit:3:200", (Line(3, "...x and y...", ((3, 4),)),))
    report = Report("", "", Outcome.MISTAKE, notices=(Notice(Level.MISTAKE, "n", "E999", "s", (shown,), "", ""),))
    (result,) = run_of(report)["results"]
    assert result["locations"][0]["physicalLocation"]["region"] == {"startLine": 3, "startColumn": 200}


def test_what_is_accepted_is_suppressed() -> None:
    """And what no longer is, or cannot be, is not: readers take only what is accepted for suppressed."""
    (finding,) = results(ACCEPTED, "L001")
    assert finding["suppressions"] == [{"kind": "inSource", "status": "accepted", "justification": WORD.sentence}]
    (fails,), (empty,) = results(ACCEPTED, "fails"), results(ACCEPTED, "no-case")
    assert [each["suppressions"][0]["status"] for each in (fails, empty)] == ["accepted", "rejected"]
    assert empty["message"]["text"].splitlines()[-1] == BACK.sentence
