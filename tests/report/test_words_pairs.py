"""The sentences about pairs of faults, whole."""

from __future__ import annotations

from logiccheck.engine.verdict import Undecided
from logiccheck.report import words_pairs as words

COUNTED = words.PairsCounted(found=3, both_hidden=1, open=0)


def test_first_line() -> None:
    """How many, how many of them hidden, and whether more may come."""
    told = "Pairs of faults that let a requirement fail, where neither alone does:"
    assert words.counted(COUNTED) == f"{told} 3. Both hidden: 1."
    assert words.counted(words.PairsCounted(0, 0, 0)) == f"{told} 0."
    assert words.counted(words.PairsCounted(0, 0, 2)) == (
        f"{told} 0. Requirements of which not all pairs are decided: 2."
    )


def test_one_requirement() -> None:
    """The count, and whether these are all."""
    assert words.hits(3, 1, 2, words.standing(3, True, False, None)) == (
        "Pairs of faults with which it fails, though with neither alone: 3. Both hidden: 1. One hidden: 2. "
        "There are no others: proved for all situations, orders and timings."
    )
    assert words.hits(0, 0, 0, words.standing(0, True, True, None)) == (
        "No pair was found. There is none, aside from what was not asked (below): "
        "proved for all situations, orders and timings."
    )
    assert words.hits(0, 0, 0, words.standing(0, False, False, Undecided.BUDGET)) == (
        "No pair was found. Whether there is one was not decided. The time ran out; more: --budget SECONDS."
    )
    assert words.standing(1, False, False, Undecided.INTERRUPTED) == (
        "Whether there are more was not decided. The run was interrupted."
    )


def test_all_requirements() -> None:
    """Those that no pair breaks, and those that are not asked."""
    assert words.none(["a", "b"]) == (
        "Proved that no pair of the faults that were tried lets these fail unless one of the two alone does: a, b."
    )
    assert words.possible(["a"]) == "Not asked about pairs, as these say what must be possible: a."


def test_noticed() -> None:
    """Both, one, none; and what is not known."""
    assert words.pair("a open", "b live") == "a open and b live"
    assert words.noticed(["a open", "b live"], []) == "both hidden"
    assert words.noticed(["b live"], []) == "one hidden: b live"
    assert words.noticed([], []) == "both noticed"
    assert words.noticed(["a open"], ["b live"]) == "one hidden: a open; whether b live is noticed was not decided"
    assert words.noticed([], ["a open", "b live"]) == "whether a open or b live is noticed was not decided"


def test_alone_as_a_loose_contact() -> None:
    """That is no fault that stays, and is said."""
    assert words.alone_if_loose("if both are there", []) == "if both are there"
    assert words.alone_if_loose("if both are there", ["a open"]) == (
        "if both are there (a open alone, too, if it comes and goes)"
    )
