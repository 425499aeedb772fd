"""No text whatever makes an exception: random bytes, random words of the language, and good files with a slip."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.lang.load import Loaded, Unreadable, load, load_text
from logiccheck.lang.words import RESERVED
from tests.lang.showing import show_all
from tests.lang.whole import WHOLE_VEHICLE

WORDS = [
    *sorted(RESERVED),
    *("key_on", "lamp", "plus", "feed", "door", "engine", "revs", "x", "400", "3 s", "rpm", "0", "-1", "1/0", "%"),
    *("(", ")", "{", "}", ",", "|", "=", "->", "..", "+-", '"', '"Label"', "#", "é", "\x00"),
    *("\n", "\n    ", "\n\t", "\n        "),
]


def check(loaded: Loaded) -> None:
    """Either a program or mistakes, never both; every mistake can be shown and lies in its file."""
    assert (loaded.program is None) == bool(loaded.diagnostics)
    for diagnostic in loaded.diagnostics:
        for span in diagnostic.spans:
            text = loaded.texts.get(span.file, "")
            assert 0 <= span.begin <= span.end <= len(text) + 1
    assert show_all(loaded).count("\n  ") >= len(loaded.diagnostics)


@given(st.binary(max_size=400))
def test_random_bytes(raw: bytes) -> None:
    """Bytes of any kind are told, not thrown."""
    check(load("van.circuit", lambda path: raw if path == "van.circuit" else Unreadable.MISSING))


@given(st.text(max_size=400))
def test_random_text(text: str) -> None:
    """Letters of any kind are told, not thrown."""
    check(load_text(text))


@given(st.lists(st.sampled_from(WORDS), max_size=60))
def test_random_words(words: list[str]) -> None:
    """Words of the language in any order are told, not thrown."""
    check(load_text(" ".join(words)))


@settings(max_examples=100)
@given(st.integers(0, 2**32), st.integers(1, 4))
def test_a_good_file_with_slips(seed: int, slips: int) -> None:
    """A good file with words left out, doubled, swapped or replaced is read or told."""
    chance = random.Random(seed)
    parts = WHOLE_VEHICLE.split(" ")
    for _ in range(slips):
        at = chance.randrange(len(parts))
        match chance.randrange(5):
            case 0:
                del parts[at]
            case 1:
                parts.insert(at, parts[at])
            case 2:
                other = chance.randrange(len(parts))
                parts[at], parts[other] = parts[other], parts[at]
            case 3:
                parts[at] = chance.choice(WORDS)
            case _:
                parts[at] = parts[at][: len(parts[at]) // 2]
    check(load_text(" ".join(parts)))


@settings(max_examples=100)
@given(st.integers(0, 2**32))
def test_a_good_file_with_a_letter_changed(seed: int) -> None:
    """A letter less, more or other is read or told."""
    chance = random.Random(seed)
    at = chance.randrange(len(WHOLE_VEHICLE))
    middle = chance.choice(["", "x", '"', "#", "(", ")", "\n", "\t", " ", "\x1b", "9", "."])
    check(load_text(WHOLE_VEHICLE[:at] + middle + WHOLE_VEHICLE[at + chance.randrange(2) :]))
