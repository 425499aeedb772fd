"""Near names are near, in a fixed order, and few."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logiccheck.base.suggest import distance, is_slip, near


@pytest.mark.parametrize(
    ("left", "right", "steps"),
    [
        ("", "", 0),
        ("a", "", 1),
        ("key_on", "key_no", 1),
        ("kitten", "sitting", 3),
        ("abcd", "badc", 2),
        ("abc", "ac", 1),
    ],
)
def test_distance(left: str, right: str, steps: int) -> None:
    """Inserted, dropped, replaced and swapped letters count one each."""
    assert distance(left, right) == steps


@given(st.text(max_size=8), st.text(max_size=8))
def test_distance_is_a_distance(left: str, right: str) -> None:
    """The same both ways, nothing only between equals, never more than the longer word has letters."""
    assert distance(left, right) == distance(right, left)
    assert (distance(left, right) == 0) == (left == right)
    assert distance(left, right) <= max(len(left), len(right))


@pytest.mark.parametrize(
    ("name", "known", "found"),
    [
        ("key_om", ["key_on", "lamp"], ("key_on",)),
        ("KeyOn", ["key_on", "key_off"], ("key_on",)),
        ("fuelpumpz", ["fuel_pump", "fuel_pumps"], ("fuel_pump", "fuel_pumps")),
        ("x", ["a", "b"], ()),
        ("moonlight", ["key_on"], ()),
        ("abcd", ["abce", "abcf", "abcg", "abch"], ("abce", "abcf", "abcg")),
    ],
)
def test_near(name: str, known: list[str], found: tuple[str, ...]) -> None:
    """Nearest first, then by the alphabet, three at most; capitals and underscores do not count."""
    assert near(name, known) == found


@pytest.mark.parametrize(
    ("word", "meant", "slip"),
    [
        ("keyon", "key_on", True),
        ("KEY_ON", "key_on", True),
        ("form_wire", "from_wire", True),
        ("fuel_pmup", "fuel_pump", True),
        ("fuel_pumps", "fuel_pump", True),
        ("fuel_pomp", "fuel_pump", True),
        ("dor_open", "door_open", True),
        ("lamp_l", "lamp_r", False),
        ("in_left", "on_left", False),
        ("left_off", "left_on", False),
        ("wire_12", "wire_21", False),
        ("a1", "a2", False),
        ("mA", "A", False),
        ("fuel_lump", "fuel_plumb", False),
        ("fuel_pump_on", "fuel_pump", False),
    ],
)
def test_slips(word: str, meant: str, slip: bool) -> None:
    """Which word may be another with a slip in it."""
    assert is_slip(word, meant) is slip
