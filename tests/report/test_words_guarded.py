"""The sentences about small edits, whole."""

from __future__ import annotations

from logiccheck.explain.guarding.small import Does
from logiccheck.report import words_guarded as words

ALL = words.Tally(noticed=25, no_effect=1, unnoticed=33, undecided=0, skipped=0, left=0)


def test_first_and_last_line() -> None:
    """What came of all of them."""
    assert words.opening(ALL) == "Small edits that no requirement would notice: 33 of 59."
    assert words.closing(ALL) == (
        "tried 59, noticed 25, no effect 1, nobody would notice 33, not decided 0, skipped 0: require more"
    )
    good = words.Tally(noticed=4, no_effect=0, unnoticed=0, undecided=0, skipped=1, left=0)
    assert words.closing(good) == (
        "tried 4, noticed 4, no effect 0, nobody would notice 0, not decided 0, skipped 1: "
        "every edit with an effect is noticed"
    )
    open_ = words.Tally(noticed=4, no_effect=0, unnoticed=0, undecided=2, skipped=0, left=0)
    assert words.closing(open_).endswith("not decided 2, skipped 0: not all decided")


def test_interrupted() -> None:
    """What was not tried is said first and last."""
    cut = words.Tally(noticed=4, no_effect=0, unnoticed=0, undecided=0, skipped=0, left=9)
    assert words.opening(cut) == (
        "Small edits that no requirement would notice: 0 of 4. "
        "The run was interrupted: what was not tried is not known."
    )
    assert words.closing(cut).endswith("not decided 0, skipped 0, interrupted before 9")


def test_one_edit() -> None:
    """What it does, what comes of it, and what would notice."""
    assert words.unnoticed(3, Does.WORD, "at 4 s", ["lamp"], ["horn", "hold"]) == (
        "3. With `and` and `or` exchanged here, nobody would notice. In its story, at 4 s, on as it is and off as edited: "
        "lamp; off as it is and on as edited: horn, hold."
    )
    assert words.unnoticed(1, Does.DIODE, words.at_first(), [], ["horn"]) == (
        "1. Without the diode, nobody would notice. In its story, at first, off as it is and on as edited: horn."
    )
    assert words.suggested("never lamp while a", 0) == "This would notice, and is proved as it is: never lamp while a"
    assert words.suggested("never lamp while a", 7) == "What is suggested for 7 would notice this, too."
    assert words.kinds_tried(["never ...", "... lasting ..."]) == (
        "Where there is none to suggest, of those tried none is proved and would notice. "
        "Kinds tried: `never ...`; `... lasting ...`."
    )


def test_without_effect() -> None:
    """A term that is dropped is without effect; of all else it is said that it makes no difference."""
    assert words.without_effect(Does.DROPS) == (
        "With this dropped, nothing ever comes to rest otherwise: the term is without effect."
    )
    assert words.without_effect(Does.HALF) == (
        "With half the time, nothing ever comes to rest otherwise: it makes no difference."
    )


def test_not_decided() -> None:
    """What is open."""
    assert words.undecided(Does.PLAIN, []) == (
        "With nothing stored: all that is asked still holds; whether it has an effect was not decided."
    )
    assert words.undecided(Does.WINS, ["a", "b"]) == (
        "With the other side winning: whether these would notice was not decided: a, b."
    )


def test_what_was_not_asked() -> None:
    """Mistakes, and requirements that do not hold anyway."""
    assert words.skipped(2) == "Edits that are mistakes of the language and would be told as such: 2."
    assert words.unproved(["a", "b"]) == "Not proved as it is, and so not asked whether they would notice: a, b."
    assert words.no_case(["a", "b"]) == "No case as it is, and so asked only whether they would fail: a, b."


def test_stories() -> None:
    """The title says if a shorter one may be."""
    assert words.story(4, shortest=True) == "Story of 4, as it is"
    assert words.story(4, shortest=False) == "A story of 4, as it is (there may be a shorter one)"
