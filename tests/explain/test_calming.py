"""Edits with which a chase comes to rest: each was checked on the files as edited, and none spoils anything."""

from __future__ import annotations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.explain.calming import look_for_calm
from logiccheck.explain.edit import edited
from logiccheck.explain.mending import Cut, Mending
from logiccheck.explain.trial import Trial
from logiccheck.lang.load import load_text
from logiccheck.session.checking import check
from tests.explain.test_edits import FILE, checked, new_lines, vehicle

EACH_OTHER = "output lamp when a_on and not previous(horn)\noutput horn when b_on and not previous(lamp)"

DARK = "danger dark never (lamp and not a) or (horn and not b)"


def calm(text: str, seconds: float = 60) -> Mending | None:
    """What the search finds."""
    program, found = checked(text)
    return look_for_calm(program, FILE, {FILE: text}, found, seconds, 10, lambda _: None)


def lines(found: Mending | None, text: str) -> list[list[str]]:
    """What each edit puts in place of other lines."""
    assert found is not None
    return [new_lines(edit, text) for edit in found.edits]


def test_one_that_no_longer_waits_for_the_other() -> None:
    """Each of two edits would do; typed, all is proved."""
    text = vehicle("", EACH_OTHER, "always lamp or horn while a or b", DARK)
    found = calm(text)
    assert lines(found, text) == [["output lamp when a_on"], ["output horn when b_on"]]
    assert found is not None
    for edit in found.edits:
        _, check_ = checked(edited(edit, {FILE: text}).files[FILE])
        assert check_.troubles == ()
        assert {verdict.kind for verdict in check_.verdicts} == {Kind.PROVED}


def test_what_spoils_a_requirement_is_not_told() -> None:
    """Whatever is asked was blocked, and has to be so with the edit."""
    text = vehicle("", EACH_OTHER, "lamp calls for lamp lasting 1 s, excused by not a", DARK)
    told = lines(calm(text), text)
    assert told[0] == ["output lamp when a_on"]
    assert ["output horn when b_on"] not in told


def test_what_can_never_be_on_is_spoilt() -> None:
    """`flip` alone could rest by never being on, and so could never be on."""
    text = vehicle("", "rule flip = a_on and not previous(flip)\noutput lamp when flip", "never lamp while not a", "")
    for line in (line for each in lines(calm(text), text) for line in each):
        edit_text = text.replace("rule flip = a_on and not previous(flip)", line)
        loaded = load_text(edit_text)
        assert loaded.program is not None
        assert check_program(loaded.program).troubles == ()


def test_without_a_chase_there_is_nothing_to_calm() -> None:
    """Nothing in the way; and something else in the way."""
    assert calm(vehicle("", "output lamp when a_on", "never lamp while b", "")) is None
    text = vehicle("", EACH_OTHER, "never lamp while b", "") + "given\n    never not a\n"
    assert checked(text)[1].troubles
    assert calm(text) is None


@pytest.mark.parametrize(("error", "cut"), [(KeyboardInterrupt, Cut.INTERRUPTED), (MemoryError, Cut.MEMORY)])
def test_what_ends_the_search_is_said(monkeypatch: pytest.MonkeyPatch, error: type[BaseException], cut: Cut) -> None:
    """And so is that there was no time."""
    text = vehicle("", EACH_OTHER, "always lamp or horn while a or b", "")
    late = calm(text, seconds=1e-9)
    assert late is not None
    assert (late.edits, late.cut) == ((), Cut.TIME)

    def broken(*_: object) -> None:
        raise error

    monkeypatch.setattr(Trial, "read", broken)
    found = calm(text)
    assert found is not None
    assert (found.edits, found.cut) == ((), cut)


def test_it_is_told_under_the_chase() -> None:
    """In the report, beside the story; not where nobody wants edits."""
    raw = vehicle("", EACH_OTHER, "always lamp or horn while a or b", DARK).encode()
    told = check(FILE, lambda _: raw, 60.0, (), None, edits=60.0).report.troubles
    assert [part.edits.sentence for part in told if part.edits is not None] == [
        "All would come to rest with any one of these edits (suggestions; all that it can matter to was checked again, "
        "and nothing of it gets worse):"
    ]
    assert all(part.edits is None for part in check(FILE, lambda _: raw, 60.0, (), None).report.troubles)
