"""Records become plain values and come back as they were; what is not understood is said, never guessed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from logiccheck.base.records import KIND, Unfit, plain, shapes, typed
from logiccheck.base.schema import definitions, reference


class Colour(Enum):
    RED = "red"
    BLUE = "blue"


@dataclass(frozen=True, slots=True)
class Leaf:
    """A leaf.

    And more about it.
    """

    text: str


@dataclass(frozen=True, slots=True)
class Branch:
    parts: tuple[Leaf | Branch, ...]
    colour: Colour | None = None


@dataclass(frozen=True, slots=True)
class Whole:
    """One field of each shape there is."""

    count: int
    yes: bool
    exact: Fraction
    time: int | Fraction | None
    pair: tuple[str, int]
    tree: Leaf | Branch
    by_name: Mapping[str, Leaf]
    late: Leaf | None = None


LEAVES = st.builds(Leaf, st.text())
TREES = st.recursive(
    LEAVES,
    lambda inner: st.builds(Branch, st.lists(inner, max_size=3).map(tuple), st.sampled_from([None, *Colour])),
    max_leaves=6,
)
WHOLES = st.builds(
    Whole,
    st.integers(),
    st.booleans(),
    st.fractions(),
    st.none() | st.integers() | st.fractions(),
    st.tuples(st.text(), st.integers()),
    TREES,
    st.dictionaries(st.text(), LEAVES),
    st.none() | LEAVES,
)


@given(WHOLES)
def test_there_and_back(whole: Whole) -> None:
    """What comes back is equal, and what stands between meets the schema."""
    there = plain(whole)
    assert typed(Whole, there) == whole
    Draft202012Validator({**reference(Whole), "$defs": definitions(Whole)}).validate(there)


WHOLE = Whole(1, True, Fraction(1, 3), 2, ("a", 1), Branch((Leaf("x"),), Colour.RED), {"l": Leaf("y")})


def test_plain() -> None:
    """All fields in the order written, exact numbers as texts, and what a part is where it may be one of several."""
    assert list(shapes(Whole)) == ["count", "yes", "exact", "time", "pair", "tree", "by_name", "late"]
    assert plain(WHOLE) == {
        "count": 1,
        "yes": True,
        "exact": "1/3",
        "time": "2",
        "pair": ["a", 1],
        "tree": {KIND: "Branch", "parts": [{KIND: "Leaf", "text": "x"}], "colour": "red"},
        "by_name": {"l": {"text": "y"}},
        "late": None,
    }


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"count": "1"}, "count: int is meant"),
        ({"count": True}, "count: int is meant"),
        ({"count": 1.5}, "count: int is meant"),
        ({"yes": 1}, "yes: bool is meant"),
        ({"exact": 0.5}, 'exact: a number such as "3" or "1/3" is meant'),
        ({"exact": "1/0"}, 'exact: a number such as "3" or "1/3" is meant'),
        ({"pair": ["a"]}, "pair: 2 items is meant"),
        ({"tree": {"text": "x"}}, "tree: an object that says what it is is meant"),
        ({"tree": {KIND: "Branch", "parts": [1]}}, "tree.parts[0]: an object that says what it is is meant"),
        ({"tree": {KIND: "Branch", "parts": [], "colour": "green"}}, "tree.colour: one of red, blue is meant"),
        ({"by_name": {"l": {}}}, "by_name.l: text is missing"),
        ({"late": []}, "late: an object is meant"),
    ],
)
def test_what_does_not_fit(change: dict[str, object], why: str) -> None:
    """Where it is and what was meant; the schema refuses it as well."""
    there = {**plain(WHOLE), **change}  # type: ignore[dict-item]
    with pytest.raises(Unfit) as caught:
        typed(Whole, there)
    assert str(caught.value) == why
    assert not Draft202012Validator({**reference(Whole), "$defs": definitions(Whole)}).is_valid(there)


def test_what_is_missing_and_what_is_not_known() -> None:
    """What is missing takes its default, if it has one; what is not known is passed over."""
    there = plain(WHOLE)
    assert isinstance(there, dict)
    assert typed(Whole, {**there, "new": 1}) == WHOLE
    assert typed(Whole, {name: value for name, value in there.items() if name != "late"}) == WHOLE
    with pytest.raises(Unfit, match="count is missing"):
        typed(Whole, {name: value for name, value in there.items() if name != "count"})


def test_a_value_that_is_not_what_its_hint_says() -> None:
    """Is a mistake of whoever made the record, found when it is written."""
    with pytest.raises(TypeError):
        plain(Leaf(1))  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True)
class Rounded:
    size: float


@dataclass(frozen=True, slots=True)
class Mixed:
    either: str | int


@dataclass(frozen=True, slots=True)
class Loose:
    parts: list[str] = field(default_factory=list)


@pytest.mark.parametrize(
    ("kind", "where"), [(Rounded, "Rounded.size"), (Mixed, "Mixed.either"), (Loose, "Loose.parts")]
)
def test_hints_without_a_shape(kind: type, where: str) -> None:
    """Are refused by name, and with what there is instead."""
    with pytest.raises(TypeError, match=where):
        definitions(kind)


def test_two_types_of_one_name() -> None:
    """Could not be told apart in a schema."""
    other = dataclass(frozen=True)(type("Leaf", (), {"__annotations__": {"text": str}}))

    @dataclass(frozen=True)
    class Both:
        one: Leaf
        two: other  # type: ignore[valid-type]

    Both.__annotations__ = {"one": Leaf, "two": other}
    with pytest.raises(TypeError, match="two types are called Leaf"):
        definitions(Both)


def test_schema() -> None:
    """Each type once, with the first paragraph of what it says of itself, if somebody wrote it."""
    made = definitions(Branch)
    assert list(made) == ["Branch", "Colour", "Leaf"]
    assert made["Leaf"] == {
        "description": "A leaf.",
        "type": "object",
        "properties": {"text": {"type": "string"}},
        "required": ["text"],
    }
    assert made["Colour"] == {"enum": ["red", "blue"]}
