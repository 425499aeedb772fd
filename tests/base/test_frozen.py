"""A frozen class is in all respects the dataclass that it stands for."""

from __future__ import annotations

import copy
import pickle
from abc import ABC, abstractmethod
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields, is_dataclass, replace
from typing import Any, ClassVar

import pytest

from logiccheck.base.frozen import frozen


class Named(ABC):
    __slots__ = ()
    title: ClassVar[str]

    @abstractmethod
    def sentence(self) -> str: ...


@frozen
class Lamp(Named):
    """A lamp."""

    name: str
    watts: int = 21
    place: tuple[int, ...] = field(default=(0, 0), compare=False)
    sort: ClassVar[str] = "lamp"

    title = "Lamp"

    def sentence(self) -> str:
        return f"{self.name} takes {self.watts} W."


@dataclass(frozen=True, slots=True)
class Plain:
    name: str
    watts: int = 21
    place: tuple[int, ...] = field(default=(0, 0), compare=False)
    sort: ClassVar[str] = "lamp"


@frozen
class Aside:
    value: int = field(compare=False)


@frozen
class Nothing:
    pass


@frozen
class Own:
    value: int

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Own)

    def __hash__(self) -> int:
        return 7

    def __repr__(self) -> str:
        return "own"


def test_it_is_made_of_values_defaults_and_names_as_a_dataclass_is() -> None:
    for kind in (Lamp, Plain):
        made = [kind("a"), kind("a", 5), kind(watts=5, name="a"), kind("a", place=(3,))]
        assert [(each.name, each.watts, each.place) for each in made] == [
            ("a", 21, (0, 0)),
            ("a", 5, (0, 0)),
            ("a", 5, (0, 0)),
            ("a", 21, (3,)),
        ]
        assert kind("a").sort == kind.sort == "lamp"


@pytest.mark.parametrize("wrong", [((), {}), (("a",), {"name": "b"}), (("a", 1, (), 2), {}), ((), {"nothing": 1})])
def test_wrong_arguments_are_refused_also_the_second_time(wrong: tuple[Any, Any]) -> None:
    arguments, named = wrong
    for _ in range(2):
        with pytest.raises(TypeError, match=r"Lamp\.__init__"):
            Lamp(*arguments, **named)


def test_what_is_compared_is_equal_and_hashes_alike() -> None:
    assert Lamp("a", 5, (1,)) == Lamp("a", 5, (2,))
    assert Lamp("a", 5) != Lamp("a", 6)
    assert Lamp("a", 5).__eq__(Plain("a", 5)) is NotImplemented
    assert hash(Lamp("a", 5, (1,))) == hash(Lamp("a", 5, (2,))) == hash(Plain("a", 5))
    assert {Lamp("a"), Lamp("a"), Lamp("b")} == {Lamp("b"), Lamp("a")}
    assert Nothing() == Nothing()


def test_what_is_not_compared_need_not_have_a_default() -> None:
    assert Aside(1) == Aside(2)
    with pytest.raises(TypeError, match="value"):
        Aside()  # type: ignore[call-arg]


def test_the_first_that_is_done_with_a_class_may_be_anything() -> None:
    for first in (lambda x, y: x == y, lambda x, y: hash(x) == hash(y), lambda x, y: fields(x) == fields(y)):

        @frozen
        class Fresh:
            value: int

        assert first(Fresh(1), Fresh(1))
        assert Fresh(1) == Fresh(1) != Fresh(2)


def test_nothing_of_it_changes() -> None:
    lamp = Lamp("a")
    with pytest.raises(FrozenInstanceError):
        lamp.watts = 3  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del lamp.watts
    with pytest.raises(FrozenInstanceError):
        lamp.other = 3  # type: ignore[attr-defined]
    assert not hasattr(lamp, "__dict__")
    assert lamp == Lamp("a", 21)


def test_it_prints_as_a_dataclass() -> None:
    assert repr(Lamp("a", 5)) == repr(Plain("a", 5)).replace("Plain", "Lamp")
    assert repr(Nothing()) == "Nothing()"


def test_its_fields_are_those_of_a_dataclass() -> None:
    assert is_dataclass(Lamp)
    assert is_dataclass(Lamp("a"))
    found = [(each.name, each.type, each.default, each.compare) for each in fields(Lamp)]
    assert found == [(each.name, each.type, each.default, each.compare) for each in fields(Plain)]
    assert found[0][2] is MISSING
    assert Lamp.__match_args__ == Plain.__match_args__


def test_replace_copy_pickle_and_match_work() -> None:
    lamp = Lamp("a", 5, (1,))
    assert replace(lamp, watts=6) == Lamp("a", 6)
    assert replace(lamp, watts=6).place == (1,)
    for other in (copy.copy(lamp), copy.deepcopy(lamp), pickle.loads(pickle.dumps(lamp))):
        assert other == lamp
        assert other.place == (1,)
    match lamp:
        case Lamp(name, watts=5):
            assert name == "a"
        case _:
            pytest.fail("it does not match")


def test_methods_of_its_own_stay() -> None:
    assert (Own(1) == Own(2), hash(Own(3)), repr(Own(1))) == (True, 7, "own")


def test_an_abstract_class_is_still_one() -> None:
    @frozen
    class Half(Named):
        name: str

    with pytest.raises(TypeError, match="abstract"):
        Half("a")
    assert isinstance(Lamp("a"), Named)
    assert Lamp("a").sentence() == "a takes 21 W."


def test_fields_are_not_inherited() -> None:
    with pytest.raises(TypeError, match="inherit"):

        @frozen
        class Sub(Lamp):
            more: int
