"""Words put right: which, and when they are left as they are."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from logiccheck.lang.fixed import fixed
from logiccheck.lang.reading import Reader, Unreadable
from logiccheck.lang.spelling import respelled
from logiccheck.lang.tidy.tidied import Tidied

GOOD = """\
vehicle "Bench"
constants
    long = 3 s
world
    key "Key" off | run | start
    engine 0 .. 7000 rpm
harness
    source plus
    wire feed from plus
    wire key_wire from plus when key is run
controller "Box" powered by feed
    sense key_on from key_wire live
    sense revs from engine
    output pump when on_delay(key_on, long) and revs above 300 rpm
requirements
    danger a never pump while key is off
"""


def files(**texts: str) -> Reader:
    """Reads these texts; the file is called as the name with the ending."""
    raw = {f"{name}.circuit": text.encode() for name, text in texts.items()}
    return lambda path: raw.get(path, Unreadable.MISSING)


def mended(text: str) -> Mapping[str, str]:
    return respelled("main.circuit", files(main=text))


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("never pump while", "never pumpp while"),
        ("key is run", "key is rum"),
        ("0 .. 7000 rpm", "0 .. 7000 rmp"),
        ("requirements\n", "requirments\n"),
        ("from engine", "from engien"),
        ("on_delay(key_on, long)", "on_delay(key_on, lomg)"),
    ],
)
def test_a_word_that_comes_near_one_other(right: str, wrong: str) -> None:
    """It is put right, and nothing else of the text is touched."""
    text = GOOD.replace(right, wrong, 1)
    assert text != GOOD
    assert mended(text) == {"main.circuit": GOOD}


def test_several_at_once() -> None:
    """Also those that are only read once another is right."""
    text = (
        GOOD.replace("requirements\n", "requirments\n").replace("never pump", "never pumpp").replace("is run", "is rum")
    )
    assert mended(text) == {"main.circuit": GOOD}


@pytest.mark.parametrize(
    ("right", "wrong"),
    [
        ("never pump while", "never nothing while"),  # no word comes near
        ("danger a never", "a never"),  # not a word
        ("    source plus\n", "    source plus when key is rnu or pumpp\n"),
    ],
)
def test_what_is_left(right: str, wrong: str) -> None:
    """What cannot be put right for certain stays as it is."""
    text = GOOD.replace(right, wrong, 1)
    after = mended(text).get("main.circuit", text)
    assert after in (text, text.replace("key is rnu", "key is run"))


def test_a_word_that_comes_near_two_others() -> None:
    """Nobody knows which is meant."""
    text = GOOD.replace("    sense revs", "    sense key_in from key_wire live\n    sense revs").replace(
        "delay(key_on", "delay(key_xn"
    )
    assert mended(text) == {}


def test_a_good_text_is_left_alone() -> None:
    """Nothing to do."""
    assert mended(GOOD) == {}


def test_other_files_of_the_vehicle() -> None:
    """The word stands in a file that the main file uses."""
    head, tail = GOOD.split("requirements\n")
    reader = files(main=f'{head}use "asked.circuit"\n', asked=f"requirements\n{tail}".replace("pump", "pumpp"))
    assert respelled("main.circuit", reader) == {"asked.circuit": f"requirements\n{tail}"}


def test_a_file_that_is_read_only_then() -> None:
    """It is among those put right, with what it was before."""
    head, asked = GOOD.split("requirements\n")
    before = f"requirements\n{asked}".replace("never pump", "never   pumpp")
    reader = files(main=f'{head}usee "more.circuit"\n', more=before)
    found = dict(fixed("main.circuit", reader))
    assert list(found) == ["main.circuit", "more.circuit"]
    told = found["more.circuit"]
    assert isinstance(told, Tidied)
    assert (told.before, told.after) == (before, "requirements\n    danger a  never pump while key is off\n")
