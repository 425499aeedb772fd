"""The long text of each mistake: complete, under the fixed headings, its examples true."""

from __future__ import annotations

import pytest

from logiccheck.base.diagnostic import HEADINGS, Mistake, long_text
from logiccheck.lang.load import load_text
from logiccheck.lang.mistakes.catalogue import MISTAKES
from tests.lang.showing import show_all
from tests.lang.vehicle import around

WITH_EXAMPLE = [kind for kind in MISTAKES if len(long_text(kind).parts) == len(HEADINGS)]


@pytest.mark.parametrize("kind", MISTAKES, ids=lambda kind: kind.name)
def test_every_mistake_explains_itself(kind: type[Mistake]) -> None:
    """A lead sentence, what it means, why it matters; an example comes with its remedy or not at all."""
    text = long_text(kind)
    assert text.lead.endswith(".")
    assert "\n" not in text.lead
    assert [heading for heading, _ in text.parts] in (list(HEADINGS), list(HEADINGS[:2]))
    assert all(body for _, body in text.parts)


def test_codes_and_names_are_unique() -> None:
    """A code or a name says which message it is."""
    assert len({kind.code for kind in MISTAKES}) == len(MISTAKES)
    assert len({kind.name for kind in MISTAKES}) == len(MISTAKES)
    assert len({kind.title for kind in MISTAKES}) == len(MISTAKES)


@pytest.mark.parametrize("kind", WITH_EXAMPLE, ids=lambda kind: kind.name)
def test_the_wrong_example_has_this_mistake_and_no_other(kind: type[Mistake]) -> None:
    """What stands under "Instead of" is told as this mistake."""
    loaded = load_text(around(dict(long_text(kind).parts)["Instead of"]))
    assert {diagnostic.name for diagnostic in loaded.diagnostics} == {kind.name}, show_all(loaded)


@pytest.mark.parametrize("kind", WITH_EXAMPLE, ids=lambda kind: kind.name)
def test_the_right_example_has_no_mistake(kind: type[Mistake]) -> None:
    """What stands under "Write" can be written."""
    loaded = load_text(around(dict(long_text(kind).parts)["Write"]))
    assert loaded.diagnostics == (), show_all(loaded)
