"""Whole sentences about edits, and how the edited lines are shown."""

from __future__ import annotations

import pytest

from logiccheck.base.span import Span
from logiccheck.explain.edit import Change, Edit, EditKind
from logiccheck.explain.mending import Cut, Mending
from logiccheck.report import words_edits as words
from logiccheck.report.mended import edits_part

TEXT = """\
controller "Box" powered by plus
    output lamp when (a or b)  # by the door
    output horn when c
"""


def change(old: str, new: str, after: str = "") -> Change:
    """`old` replaced by `new`; nothing replaced: put in behind `after`."""
    begin = TEXT.index(old) if old else TEXT.index(after) + len(after)
    return Change(Span("box.circuit", begin, begin + len(old)), new)


@pytest.mark.parametrize(
    ("sentence", "expected"),
    [
        (
            words.mends(1),
            "It would hold with this edit (a suggestion; all that it can matter to was checked again, and nothing of it gets "
            "worse):",
        ),
        (
            words.mends(2),
            "It would hold with any one of these edits (suggestions; all that it can matter to was checked again, and nothing "
            "of it gets worse):",
        ),
        (
            words.calms(1),
            "All would come to rest with this edit (a suggestion; all that it can matter to was checked again, and "
            "nothing of it gets worse):",
        ),
        (
            words.calms(2),
            "All would come to rest with any one of these edits (suggestions; all that it can matter to was checked "
            "again, and nothing of it gets worse):",
        ),
        (words.mends_too("dark"), "It would hold with what is suggested for dark, too."),
        (
            words.none_mends(12, ["another duration", "one part less"]),
            "No edit to suggest: none of those tried was shown to mend it and spoil nothing. Tried: 12. Kinds: another duration; "
            "one part less.",
        ),
        (words.none_mends(0, []), "No edit to suggest: none of the kinds that are tried fits here."),
        (
            words.not_all_tried(Cut.TIME),
            "No edit to suggest: the time for looking ran out. More time: --edits SECONDS.",
        ),
        (
            words.not_all_tried(Cut.MEMORY),
            "No edit to suggest: the memory for looking ran out. More memory: --memory MB.",
        ),
        (words.not_all_tried(Cut.INTERRUPTED), "No edit to suggest: looking for one was interrupted."),
    ],
)
def test_sentences(sentence: str, expected: str) -> None:
    """Every sentence, word for word."""
    assert sentence == expected


def shown(*changes: Change) -> list[tuple[str, str, list[str]]]:
    """Each line of the one edit with these changes: its place, its text, and what is marked in it."""
    part = edits_part(Mending((Edit(EditKind.GUARD, changes),)), {"box.circuit": TEXT})
    assert part.sentence == words.mends(1)
    (edit,) = part.edits
    lines = [(excerpt.place, line) for excerpt in edit for line in excerpt.lines]
    return [(place, line.text.strip(), [line.text[a:b] for a, b in line.marks]) for place, line in lines]


def test_what_is_put_in_is_marked() -> None:
    """The line as the edit makes it, with carets under what is new."""
    assert shown(change("", " and not d", after="(a or b)")) == [
        ("box.circuit:2:31", "output lamp when (a or b) and not d  # by the door", ["and not d"])
    ]


def test_what_is_taken_out_leaves_no_mark() -> None:
    """There is nothing left to point at: the line alone is shown."""
    assert shown(change(" or b", "")) == [("box.circuit:2:5", "output lamp when (a)  # by the door", [])]


def test_several_changes_of_one_edit() -> None:
    """All lines that one edit changes are shown, one below the other."""
    assert shown(change("a or b", "d"), change("c\n", "e\n")) == [
        ("box.circuit:2:23", "output lamp when (d)  # by the door", ["d"]),
        ("box.circuit:2:23", "output horn when e", ["e"]),
    ]


def test_none_is_told_with_its_reason() -> None:
    """Each way in which a search can end without an edit."""
    files = {"box.circuit": TEXT}
    assert edits_part(Mending(like="dark"), files).sentence == words.mends_too("dark")
    assert edits_part(Mending(cut=Cut.TIME), files).sentence == words.not_all_tried(Cut.TIME)
    tried = Mending(tried=3, kinds=(EditKind.DROP,))
    assert edits_part(tried, files).sentence == words.none_mends(3, ["one part less"])
