"""Sentences about minimal cut sets, whole."""

from __future__ import annotations

import pytest

from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.report import words_cut_sets as words
from logiccheck.report.words_cut_sets import Counted


def counted(none: int = 0, one: int = 0, more: int = 0, open_: int = 0, order: int = 2, late: bool = False) -> Counted:
    return Counted(5, none, one, more, open_, order, late)


@pytest.mark.parametrize(
    ("what", "first", "last"),
    [
        (
            counted(one=2, more=1),
            "Van: Requirements asked what makes them fail: 5. Fail with one fault: 2. "
            "Fail only with several, at most 2: 1.",
            "asked 5, no fault 0, one fault 2, several 1, not all decided 0: one fault is enough",
        ),
        (
            counted(none=1, one=1),
            "Van: Requirements asked what makes them fail: 5. Fail with nothing broken: 1. Fail with one fault: 1. "
            "Fail only with several, at most 2: 0.",
            "asked 5, no fault 1, one fault 1, several 0, not all decided 0: "
            "what fails with nothing broken is to be mended first",
        ),
        (
            counted(order=1, open_=3),
            "Van: Requirements asked what makes them fail: 5. Fail with one fault: 0. Not all decided: 3.",
            "asked 5, no fault 0, one fault 0, several 0, not all decided 3: not all decided",
        ),
        (
            counted(order=1, late=True),
            "Van: Requirements asked what makes them fail: 5. Fail with one fault: 0. This run was interrupted.",
            "asked 5, no fault 0, one fault 0, several 0, not all decided 0: interrupted",
        ),
        (
            counted(more=4),
            "Van: Requirements asked what makes them fail: 5. Fail with one fault: 0. "
            "Fail only with several, at most 2: 4.",
            "asked 5, no fault 0, one fault 0, several 4, not all decided 0: no single fault of these is enough",
        ),
        (
            Counted(0, 0, 0, 0, 0, 1, False),
            "Van: Requirements asked what makes them fail: 0. Fail with one fault: 0.",
            "asked 0, no fault 0, one fault 0, several 0, not all decided 0: nothing was asked",
        ),
    ],
)
def test_first_and_last_line(what: Counted, first: str, last: str) -> None:
    """Each alone says what the run came to."""
    assert words.opening("Van", what) == first
    assert words.closing(what) == last


PROVED = "Proved for all situations, orders and timings."


@pytest.mark.parametrize(
    ("counts", "complete", "why", "sentence"),
    [
        (
            (0, 3, 12),
            2,
            None,
            f"Sets of 1 fault: 3. Sets of 2 faults: 12. There are no others of at most 2 faults. {PROVED}",
        ),
        ((0, 0, 0), 2, None, f"No set of at most 2 faults lets it fail. {PROVED}"),
        ((0, 0), 1, None, f"No set of at most 1 fault lets it fail. {PROVED}"),
        (
            (0, 3, 1),
            1,
            Undecided.BUDGET,
            "At least these. Sets of 1 fault: 3. Sets of 2 faults: 1. Those of at most 1 fault are all: proved. "
            "Whether there are more was not decided. The time ran out; more: --budget SECONDS.",
        ),
        (
            (0, 2, 0),
            0,
            Undecided.INTERRUPTED,
            "At least these. Sets of 1 fault: 2. It does not fail with nothing broken: proved. "
            "Whether there are more sets was not decided. The run was interrupted.",
        ),
        (
            (0, 0, 0),
            0,
            Undecided.MEMORY,
            "It does not fail with nothing broken: proved. Whether any set lets it fail was not decided. "
            "The memory ran out; more: --memory MB.",
        ),
        (
            (0, 0, 0),
            1,
            Undecided.TIMER_ARITHMETIC,
            "No set of at most 1 fault lets it fail: proved. Whether a larger one does was not decided. "
            "The answer hangs on how long several timers take together.",
        ),
        (
            (0, 0, 0),
            None,
            Obstacle.UNSETTLED,
            "Whether it fails with nothing broken was not decided. The rules or relays can chase each other for ever.",
        ),
    ],
)
def test_how_many_sets(
    counts: tuple[int, ...], complete: int | None, why: Undecided | Obstacle | None, sentence: str
) -> None:
    """How many there are, and whether these are all."""
    assert words.found(counts, len(counts) - 1, complete, why) == sentence


def test_what_was_left_out_is_not_promised() -> None:
    """Neither beside sets, nor where there are none."""
    assert words.found((0, 1, 0), 2, 2, None, aside=True) == (
        f"Sets of 1 fault: 1. There are no others of at most 2 faults, aside from what was not asked (below). {PROVED}"
    )
    assert words.found((0, 0, 0), 2, 2, None, aside=True) == (
        f"No set of at most 2 faults lets it fail, aside from what was not asked (below). {PROVED}"
    )
    assert words.found((0, 0, 0), 2, 1, Undecided.BUDGET, aside=True) == (
        "No set of at most 1 fault lets it fail, aside from what was not asked (below): proved. Whether a larger one "
        "does was not decided. The time ran out; more: --budget SECONDS."
    )
    assert words.found((0, 1, 0), 2, 1, Undecided.BUDGET, aside=True) == (
        "At least these. Sets of 1 fault: 1. Those of at most 1 fault are all, aside from what was not asked (below): "
        "proved. Whether there are more was not decided. The time ran out; more: --budget SECONDS."
    )


def test_what_was_not_asked() -> None:
    """Each with its reason."""
    assert words.left_out(["hold welded"], Obstacle.UNSETTLED) == (
        "Not asked: sets that hold hold welded. With this, the rules or relays can chase each other for ever."
    )
    assert words.left_out(["a open", "b open"], Obstacle.TIME_STOPS) == (
        "Not asked: sets that hold a open and b open. With this, what is given brings time to a stop."
    )
    assert words.possible(["can_start", "can_stop"]) == (
        "Not asked, as it says what must be possible, and a fault that may also stay away never ends that: "
        "can_start, can_stop."
    )
    assert words.nothing_asked("my van.circuit") == (
        "No requirement guards against danger to people, so there is nothing to ask. "
        'Others: logiccheck faults "my van.circuit" --sets 2 --requirement NAME'
    )
    assert words.fails_whole() == "It fails with nothing broken, so no fault is needed."


def test_every_reason_has_its_sentence() -> None:
    """None of them is a word of the search."""
    for why in (*Undecided, *Obstacle):
        assert words.reason(why).endswith(".")
    assert words.reason(Undecided.LOST) == "The reason: the process that looked at it ended."


def test_several_faults_in_a_row() -> None:
    """As people list things."""
    assert words.together(["a open"]) == "a open"
    assert words.together(["a open", "b live", "c dead"]) == "a open, b live and c dead"
