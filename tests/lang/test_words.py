"""The words of the language are written down once, and the grammar has no others."""

from __future__ import annotations

import re

import pytest

from logiccheck.base.assets import grammar_text
from logiccheck.lang.words import FREE, HEADERS, ITEM_WORDS, RESERVED
from tests.lang.showing import told
from tests.lang.vehicle import around

KEPT_FOR_LATER = {"level", "counter", "cut_out"}


def test_reserved_words_are_the_words_of_the_grammar() -> None:
    """Every word of the grammar that is not free is reserved, and nothing else but what is kept for later."""
    words = re.findall(r"^_?[A-Z_]+\.2: +/(\w+)\\b.*/$", grammar_text(), re.MULTILINE)
    assert set(words) | KEPT_FOR_LATER == RESERVED | FREE
    assert not RESERVED & FREE
    assert len(words) == len(set(words))


def test_each_word_of_an_item_has_one_block() -> None:
    """By its first word one can tell where an item belongs, but for `at`, `from` and `until`."""
    words = [word for block in ITEM_WORDS.values() for word in block]
    assert {word for word in words if words.count(word) > 1} == {"at"}
    assert not HEADERS & set(words)


@pytest.mark.parametrize("word", sorted(RESERVED))
def test_no_word_of_the_language_is_a_name(word: str) -> None:
    """Declared as a switch or a rule, it is told."""
    names = told(around(f'controller "Box" powered by feed\n    rule {word} = key_on\n'))
    assert names == ["reserved-word"]


@pytest.mark.parametrize("word", sorted(FREE))
def test_a_free_word_is_a_name_anywhere(word: str) -> None:
    """It can be declared, read, bound to a role, expected and required."""
    text = f"""\
world
    {word} "A switch" contact
    {word}_number 0 .. 100 rpm
harness
    wire {word}_wire from plus when {word}
given
    {word} lasts at least 1 s
requirements
    danger {word}_is_fine  {word} calls for {word}_wire no later than 1 s
scenario s
    at 1 s {word} is on
    at 1 s expect {word}, {word}_wire
controller "Box" powered by feed
    sense {word}_sense from {word}_wire live
    sense revs from {word}_number
    rule {word}_rule = {word}_sense
"""
    assert told(around(text)) == []


@pytest.mark.parametrize("word", sorted(RESERVED - {"contact", "not"}))
def test_a_position_may_have_any_name(word: str) -> None:
    """Positions are local to their switch: there even words of the language are names."""
    text = f"world\n    lever resting | {word}\nharness\n    wire lever_wire from plus when lever is {word}\n"
    assert told(around(text)) == []
