"""The report of small edits: what stands in which section, and what the run comes to."""

from __future__ import annotations

from fractions import Fraction

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Obstacle, Trouble
from logiccheck.explain.guarding.deciding import NoEffect, Open, Unnoticed
from logiccheck.explain.guarding.guarding import Guarded, Tried
from logiccheck.explain.guarding.noticing import Noticed
from logiccheck.explain.guarding.small import Small, small_edits
from logiccheck.explain.guarding.suggesting import Suggested
from logiccheck.explain.guarding.unlike import Difference
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Const, Possible, Program
from logiccheck.model.reaction import Values
from logiccheck.model.story import Step, Story
from logiccheck.report.guarded import blocked_report, guarded_report
from logiccheck.report.report import Outcome, Report

FILE = "test.circuit"
VEHICLE = """\
vehicle "Bench"
world
    a contact
harness
    source plus
    wire a_wire from plus when a
controller "Box" powered by plus
    sense a_on from a_wire live
    output lamp when a_on
requirements
    function lit always lamp while a
    function dark possible lamp and not a
"""


def program() -> Program:
    found = load_text(VEHICLE, FILE).program
    assert found is not None
    return found


def edits() -> list[Small]:
    return [*small_edits(program(), {FILE: VEHICLE})]


def report(*tried: Tried, left: int = 0) -> Report:
    found = load_text(VEHICLE, FILE)
    return guarded_report(program(), found.files, check_program(program(), 10).verdicts, Guarded(tried, left), False)


def test_good() -> None:
    """All that has an effect is noticed; what has none is told, with the line."""
    first, second, *_ = edits()
    said = report(Tried(first, Noticed("lit")), Tried(second, NoEffect()))
    assert said.outcome is Outcome.GOOD
    assert said.why is not None
    assert [section.title for section in said.why.sections] == ["Edits without any effect"]
    assert said.why.sections[0].causes[0].excerpt is not None
    assert said.why.answer[0] == "Not proved as it is, and so not asked whether they would notice: dark."


def test_not_decided() -> None:
    """Neither noticed nor unnoticed; so the run is open, as one that was interrupted is."""
    first, *_ = edits()
    said = report(Tried(first, Open(("lit",))))
    assert said.outcome is Outcome.OPEN
    assert said.why is not None
    assert [section.title for section in said.why.sections] == ["Not decided"]
    assert report(Tried(first, Noticed("lit")), left=2).outcome is Outcome.OPEN


def test_what_cannot_be_read() -> None:
    """It is counted, and is no part of what was tried."""
    first, second, *_ = edits()
    said = report(Tried(first, None), Tried(second, Noticed("lit")))
    assert said.opening == "Small edits that no requirement would notice: 0 of 1."
    assert said.why is not None
    assert "Edits that are mistakes of the language and would be told as such: 1." in said.why.answer


def test_what_stands_in_the_way() -> None:
    """What blocks a requirement fails; what was not decided leaves all open."""
    found = load_text(VEHICLE, FILE)
    open_ = Trouble(Obstacle.UNSETTLED_UNKNOWN, None)
    stops = Trouble(Obstacle.TIME_STOPS, None)
    assert blocked_report(program(), found.files, (open_,)).outcome is Outcome.OPEN
    assert blocked_report(program(), found.files, (open_, stops)).outcome is Outcome.FAILS


def test_what_is_dropped_is_shown() -> None:
    """The line as it is, with what goes marked; of what is put in, the line as edited."""
    text = VEHICLE.replace("lamp when a_on", "lamp when on_delay((a_on or lit), 2 s) and (lit or a_on)")
    text = text.replace("    output", "    rule lit = a_on\n    output").replace("lit always", "shines always")
    found = load_text(text, FILE)
    assert found.program is not None
    tried = [Tried(small, NoEffect()) for small in small_edits(found.program, {FILE: text})]
    said = guarded_report(found.program, found.files, (), Guarded(tuple(tried), 0), False)
    assert said.why is not None
    lines = [cause.excerpt.lines[0] for cause in said.why.sections[0].causes if cause.excerpt is not None]
    marked = {(line.text, *(line.text[begin:end] for begin, end in line.marks)) for line in lines}
    line = "    output lamp when on_delay((a_on or lit), 2 s) and (lit or a_on)"
    assert (line, "and (lit or a_on)") in marked
    assert (line, "(a_on or", ")") in marked
    assert (line, "on_delay(", ", 2 s)") in marked
    assert ("    output lamp when on_delay((a_on or lit), 4 s) and (lit or a_on)", "4 s") in marked


def test_kinds_are_told_once() -> None:
    """Below all, where there is an edit without a suggestion; at the edit it is only said that there is none."""
    story = Story((Step(Fraction(0), (("a", 0),), ()),), (), False, frozenset())
    rest = Values({"a": 0}, frozenset())
    decision = Unnoticed(Difference(story, (), ("lamp",), rest, rest), shortest=True)
    first, second, *_ = edits()
    said = report(Tried(first, decision), Tried(second, decision)).why
    assert said is not None
    assert [cause.sentence for cause in said.sections[0].causes][1::2] == ["No requirement to suggest."] * 2
    assert said.counted.count("Kinds tried: `never ... while ...`;") == 1
    best = Suggested("lamp", "never lamp while not a", Possible(Const(True)))
    said = report(Tried(first, decision, best), Tried(second, decision, best)).why
    assert said is not None
    assert "Kinds" not in said.counted
