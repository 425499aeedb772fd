"""Checks as JUnit XML: valid by a published schema, read by an independent parser, green only if all is proved."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import pytest
import xmlschema

from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.engine.verdict import Kind
from logiccheck.render.junit import render
from logiccheck.report.report import Outcome, Report
from tests.render.machines import (
    ACCEPTED,
    BACK,
    BAD_READ,
    GOOD_READ,
    MAIN,
    MISTAKEN,
    SAMPLES,
    SCHEMAS,
    UNKNOWN,
    WHY,
    WORD,
    checked,
)

SCHEMA = xmlschema.XMLSchema(str(SCHEMAS / "junit-10.xsd"))


def root_of(report: Report) -> Element:
    """The report as read back; valid, its counts right, and not green unless the report is."""
    text = render(report)
    SCHEMA.validate(text)
    assert text.startswith('<?xml version="1.0" encoding="UTF-8"?>\n')
    assert text.endswith("</testsuites>\n")
    root = ElementTree.fromstring(text.encode("utf-8"))
    for element in (root, *root):
        cases = element.findall(".//testcase")
        assert int(element.get("tests", "")) == len(cases)
        assert int(element.get("failures", "")) == sum(case.find("failure") is not None for case in cases)
        assert int(element.get("errors", "")) == sum(case.find("error") is not None for case in cases)
    green = root.get("failures") == root.get("errors") == "0"
    assert green is (report.outcome is Outcome.GOOD)
    return root


def became(root: Element, group: str) -> dict[str, str]:
    """The cases of one group by name: the tag that says what became of each, "passed" where there is none."""
    cases = [case for case in root.iter("testcase") if case.get("classname") == group]
    return {case.get("name", ""): case[0].tag if len(case) else "passed" for case in cases}


@pytest.mark.parametrize("report", SAMPLES.values(), ids=SAMPLES)
def test_samples(report: Report) -> None:
    """One case for each requirement; only what is proved has passed."""
    found = became(root_of(report), "requirements")
    assert set(found) == {part.name for part in (*report.verdicts, *report.waived)}
    excused = [part for part in report.verdicts if part.accepted is not None and part.accepted.excuses]
    assert {name for name, tag in found.items() if tag == "skipped"} == {
        part.name for part in (*report.waived, *excused)
    }
    assert {name for name, tag in found.items() if tag == "passed"} == {
        part.name for part in report.verdicts if part.kind is Kind.PROVED
    }


@pytest.mark.parametrize("path", MAIN, ids=lambda path: path.parent.name)
def test_examples(path: Path) -> None:
    """Real checks: one suite a file, and one case for each requirement and each expectation, met or not."""
    report = checked(path)
    root = root_of(report)
    assert [suite.get("name") for suite in root] == [file.path for file in report.files]
    scenarios = [group for group in {case.get("classname", "") for case in root.iter("testcase")} if " " in group]
    text = path.read_text(encoding="utf-8")
    assert len(scenarios) == text.count("\nscenario ")
    met = sum(tag == "passed" for group in scenarios for tag in became(root, group).values())
    assert met == sum(len(each.named) for part in report.as_expected for each in part.expectations) > 0


def test_what_becomes_of_each_kind() -> None:
    """Fails, no case and blocked are failures; not decided is an error; an expectation keeps its name."""
    root = root_of(BAD_READ)
    assert became(root, "requirements") == {
        "no_flat_battery": "failure",
        "no_crank": "failure",
        "lamps": "error",
        "no_short": "passed",
        "boats_blower": "skipped",
    }
    assert became(root, "scenario arrival") == {
        "At 1 s: lamps": "passed",
        "At 1 s: horn": "passed",
        "At 1 s as expected: lamps": "passed",
        "At 2 s: not bilge_pump": "failure",
    }
    assert became(root, "obstacles") == {BAD_READ.troubles[0].title: "failure"}
    blocked = replace(BAD_READ.verdicts[1], kind=Kind.BLOCKED)
    only = replace(BAD_READ, verdicts=(blocked,), waived=())
    assert became(root_of(only), "requirements") == {"no_crank": "failure"}


def test_what_is_said_of_a_failure() -> None:
    """In short as an attribute, and in full with the user's line and the story."""
    failure = root_of(BAD_READ).find(".//testcase[@name='no_flat_battery']/failure")
    assert failure is not None
    assert failure.get("type") == "fails"
    assert failure.get("message") == "Unbroken since 2 s, and so for longer than 4 min: bilge_pump, while key is off."
    assert (failure.text or "").splitlines() == [
        "never bilge_pump while key is off for longer than 4 min",
        "guards against damage [boat.circuit:58]",
        "Unbroken since 2 s, and so for longer than 4 min: bilge_pump, while key is off.",
        "bilge_pump is on because of the marked terms together:",
        "boat.circuit:31:40",
        '31 |     output bilge_pump "Lenzpumpe für Öl"  when a or b',
        "at first: key off, engine 0 rpm, key_wire dead, bilge_pump off",
        "1 s: key run, key_wire live, bilge_pump on, timer hold runs 4 min 1 s",
        "just after 4 min 2 s: timer hold ends",
        "Signals not involved, and not shown: 12.",
        "It would hold with this edit (a suggestion):",
        "boat.circuit:31:40",
        "31 |     output bilge_pump when a and not b",
    ]
    unmet = root_of(BAD_READ).find(".//testcase[@name='At 2 s: not bilge_pump']/failure")
    assert unmet is not None
    assert (unmet.text or "").splitlines() == [
        "At 2 s not as expected: not bilge_pump",
        "boat.circuit:70:27",
        "70 |         at 2 s expect not bilge_pump",
        "b is on because of the marked term:",
        "boat.circuit:30:14",
        "30 |     rule b = a",
    ]


def test_causes_without_a_story() -> None:
    """Are told with what is said of a requirement."""
    part = replace(BAD_READ.verdicts[0], shown=None, edits=None, causes=(WHY,))
    failure = root_of(replace(BAD_READ, troubles=(), verdicts=(part,))).find(".//failure")
    assert failure is not None
    assert (failure.text or "").splitlines()[3:] == [WHY.sentence, "boat.circuit:30:14", "30 |     rule b = a"]


def test_a_requirement_of_another_file_is_in_its_suite() -> None:
    """One suite a file, the main file first."""
    part = replace(GOOD_READ.verdicts[0], place="lights & more.circuit:7")
    root = root_of(replace(GOOD_READ, verdicts=(part, GOOD_READ.verdicts[1])))
    assert {suite.get("name"): [case.get("name") for case in suite.iter("testcase")] for suite in root} == {
        "boat.circuit": ["no_key_no_starter"],
        "lights & more.circuit": ["can_start"],
    }


def test_mistakes_are_errors() -> None:
    """Each in the suite of its file, by its code and place; a call that means nothing is an error as a whole."""
    assert became(root_of(MISTAKEN), "mistakes") == {"E300 boat.circuit:20:5": "error", "E100 boat.circuit": "error"}
    assert became(root_of(UNKNOWN), "run") == {"whole run": "error"}


@pytest.mark.parametrize(
    ("outcome", "tag"), [(Outcome.FAILS, "failure"), (Outcome.OPEN, "error"), (Outcome.MISTAKE, "error")]
)
def test_no_false_green(outcome: Outcome, tag: str) -> None:
    """Where every case has passed and yet not all is good (nothing was asked, it was interrupted), that is a case."""
    assert became(root_of(replace(GOOD_READ, outcome=outcome)), "run") == {"whole run": tag}


def test_caution_versions_and_hashes() -> None:
    """As in every format."""
    properties = [(each.get("name"), each.get("value")) for each in root_of(GOOD_READ).iter("property")]
    assert properties == [
        ("logiccheck", VERSION),
        ("language", str(LANGUAGE)),
        ("outcome", "good"),
        ("opening", GOOD_READ.opening),
        ("closing", GOOD_READ.closing),
        ("sha-256 of boat.circuit", "0" * 64),
        ("sha-256 of lights & more.circuit", "f" * 64),
        ("caution", "This checks what the files say, not the vehicle."),
        ("taken as given", "At first key is off."),
        ("taken as given", "engine is 0 rpm after not ignition has lasted 3 s"),
        ("not covered", "Reactions take no time: a pulse shorter than the scan of your box is taken as seen."),
        ("not covered", "Nothing breaks."),
    ]


def test_warnings_are_written_out() -> None:
    """They change nothing, and are not lost."""
    out = root_of(BAD_READ).findtext("testsuite/system-out") or ""
    assert out.splitlines()[0] == "warning: Nothing depends on the sense horn_key."
    assert "boat.circuit:20:5" in out


def test_letters_that_xml_has_no_way_to_write() -> None:
    """Stand as question marks; all others come back as they were."""
    part = replace(BAD_READ.verdicts[0], sentence='a\x00b\x1bc\udcffd\ufffee <&> " Öl \U0001f600 ]]>\ttab')
    failure = root_of(replace(BAD_READ, troubles=(), verdicts=(part,))).find(".//failure")
    assert failure is not None
    assert failure.get("message") == 'a?b?c?d?e <&> " Öl \U0001f600 ]]>?tab'
    assert 'a?b?c?d?e <&> " Öl \U0001f600 ]]>\ttab' in (failure.text or "")


def test_what_is_accepted_is_skipped() -> None:
    """Whose word it is stands with it; a word that no longer counts excuses nothing, and is told as well."""
    root = root_of(ACCEPTED)
    assert became(root, "findings") == {"unused-sense horn_key": "skipped"}
    assert "horn_key" not in (root.findtext("testsuite/system-out") or "")
    found = became(root, "requirements")
    assert (found["no_flat_battery"], found["no_crank"]) == ("skipped", "failure")
    skipped = root.find(".//testcase[@name='no_flat_battery']/skipped")
    assert skipped is not None
    assert skipped.get("message") == WORD.sentence
    failure = root.findtext(".//testcase[@name='no_crank']/failure") or ""
    assert failure.splitlines()[-1] == BACK.sentence
