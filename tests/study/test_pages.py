"""The page of each finding: complete, under the fixed headings, and its two examples do what it says."""

from __future__ import annotations

import pytest

from logiccheck.base.diagnostic import FINDING_HEADINGS, long_text
from logiccheck.explain.finding import FindingMessage
from logiccheck.lang.mistakes.catalogue import MISTAKES
from logiccheck.study.findings import MESSAGES
from tests.study.linting import all_found, completed


@pytest.mark.parametrize("kind", MESSAGES, ids=lambda kind: kind.name)
def test_every_finding_explains_itself(kind: type[FindingMessage]) -> None:
    """A sentence about the vehicle, then all headings, each with something below it."""
    text = long_text(kind)
    assert text.lead.endswith(".")
    assert "\n" not in text.lead
    assert [heading for heading, _ in text.parts] == list(FINDING_HEADINGS)
    assert all(body for _, body in text.parts)


@pytest.mark.parametrize("kind", MESSAGES, ids=lambda kind: kind.name)
def test_the_faulty_example_shows_this_finding_and_no_other(kind: type[FindingMessage]) -> None:
    """What stands under "Instead of" is found, once, and nothing else is."""
    text = completed(dict(long_text(kind).parts)["Instead of"])
    assert [finding.diagnostic.name for finding in all_found(text).findings] == [kind.name], text


@pytest.mark.parametrize("kind", MESSAGES, ids=lambda kind: kind.name)
def test_in_the_mended_example_nothing_is_found(kind: type[FindingMessage]) -> None:
    """What stands under "Write" is silent."""
    text = completed(dict(long_text(kind).parts)["Write"])
    assert [finding.diagnostic.sentence for finding in all_found(text).findings] == [], text


def test_codes_and_names_are_unique() -> None:
    """A code or a name says which finding it is, and is that of no mistake."""
    kinds = [*MESSAGES, *MISTAKES]
    assert len({kind.code for kind in kinds}) == len(kinds)
    assert len({kind.name for kind in kinds}) == len(kinds)
    assert all(kind.code.startswith("W") for kind in MESSAGES)
