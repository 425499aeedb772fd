"""Of stories that are equally short, which one is told; worked out by hand, the same for every order of the names."""

from __future__ import annotations

from itertools import permutations

import pytest

from logiccheck.engine.check import check_program
from logiccheck.model.story import Story
from tests.model.driven import seconds
from tests.oracle.loading import loaded


def story(asked: str, *world: str, first: str = "", given: str = "", box: str = "") -> Story:
    """The story of the one requirement; the box senses nothing and is always on."""
    lines = ["vehicle", "world", *(f"    {line}" for line in world)]
    lines[0] += ' "T"'
    lines += [f"    at first {first}"] if first else []
    lines += ["harness", "    source plus", "controller powered by plus", f"    {box}"] if box else []
    lines += ["given", f"    {given}"] if given else []
    lines += ["requirements", f"    danger d {asked}"]
    found = check_program(loaded("\n".join(lines) + "\n"), seconds_each=20).verdicts[0].story
    assert found is not None
    return found


def times(told: Story) -> str:
    return " ".join(seconds(step.time) for step in told.steps)


def worlds(told: Story) -> list[dict[str, int]]:
    return [dict(step.world) for step in told.steps]


@pytest.mark.parametrize("lasting", list(permutations((2, 5, 9))))
def test_the_end_is_the_earliest(lasting: tuple[int, ...]) -> None:
    """Three hands that take different times; the quickest is told."""
    ways = " or ".join(f"on_delay({name}, {time} s)" for name, time in zip("abc", lasting, strict=True))
    told = story(f"never {ways}", "a contact", "b contact", "c contact", given="never a and b or a and c or b and c")
    assert times(told) == "0 2"
    assert worlds(told)[0] == {name: int(time == 2) for name, time in zip("abc", lasting, strict=True)}


@pytest.mark.parametrize("lasting", list(permutations((2, 5, 9))))
def test_the_moments_before_it_are_as_early_as_they_can_be(lasting: tuple[int, ...]) -> None:
    """The end is at 20 s anyhow."""
    ways = " or ".join(f"on_delay({name}, {time} s)" for name, time in zip("abc", lasting, strict=True))
    told = story(
        f"never bistable(set {ways}) and on_delay(true, 20 s)",
        *("a contact", "b contact", "c contact"),
        given="never a and b or a and c or b and c",
    )
    assert times(told) == "0 2 20"


@pytest.mark.parametrize("names", list(permutations("abc")))
def test_the_first_name_in_the_alphabet_changes(names: tuple[str, ...]) -> None:
    """Wherever it stands in the file."""
    told = story("never a or b or c", *(f"{name} contact" for name in names), first="a is off, b is off, c is off")
    assert worlds(told) == [{"a": 0, "b": 0, "c": 0}, {"a": 1, "b": 0, "c": 0}]


@pytest.mark.parametrize("names", list(permutations("abc")))
def test_the_first_position_of_each_name_comes_first(names: tuple[str, ...]) -> None:
    """Of two keys that must be away from their first position, and one that need not."""
    told = story("never not a is low and not b is low", *(f"{name} low | middle | high" for name in names))
    assert {name: worlds(told)[0][name] for name in "ab"} == {"a": 1, "b": 1}


BETWEEN = """output u when on_delay(not w, 4 s +- 2 s)
    output v when off_delay(not w, 4 s +- 2 s)
    output w when on_delay(true, 4 s +- 1 s)
    output t when blink(true, on 4 s +- 2 s, off 1 s)"""


@pytest.mark.parametrize(
    ("wanted", "due"),
    [
        ("(w or not w or v or u or t)", ()),
        ("not w and not (u and t and v)", ()),
        ("(u or v or not t or w or not w)", ()),
        ("(not u or not v or t or not w)", ()),
        ("w", ("w",)),
        ("u", ("u",)),
        ("(a or u)", ("u",)),
    ],
)
def test_nothing_falls_due_that_need_not(wanted: str, due: tuple[str, ...]) -> None:
    """Each of these timers may fall due at 4 s; with hands that stay where they are first, then without any timer that
    need not."""
    told = story(f"never on_delay(true, 4 s) and {wanted}", "a contact", box=BETWEEN)
    assert times(told) == "0 4"
    assert told.steps[-1].due == ("d", *due)


def test_just_after_a_time_at_which_something_falls_due() -> None:
    """It is told at that time, after the moment that is there; and brings nothing."""
    told = story("never a and (w or not w) for longer than 4 s", "a contact", box="output w when on_delay(true, 4 s)")
    assert told.overdue
    assert times(told) == "0 4 4"
    assert told.steps[-1].due == ()
