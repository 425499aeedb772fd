"""Beyond a limit the reader is told so, quickly; no text whatever makes an exception."""

from __future__ import annotations

import time

import pytest

from logiccheck.base import limits
from logiccheck.lang.load import load_text
from tests.lang.showing import show_all, told
from tests.lang.vehicle import around

RULE = 'controller "Box" powered by feed\n    rule deep = '


def _lines(words: str) -> str:
    """The words in lines short enough, each a continuation of the first."""
    lines: list[str] = []
    line = ""
    for word in words.split(" "):
        if len(line) + len(word) > 100:
            lines.append(line)
            line = ""
        line += word + " "
    return "\n            ".join([*lines, line])


NESTED = {
    "brackets": _lines("( " * 100_000 + "key_on" + " )" * 100_000),
    "brackets never closed": _lines("( " * 100_000 + "key_on"),
    "not": _lines("not " * 100_000 + "key_on"),
    "timers": _lines("on_delay( " * 45_000 + "key_on" + ", 1 s )" * 45_000),
    "previous": _lines("previous( " * 70_000 + "key_on" + " )" * 70_000),
}


@pytest.mark.parametrize("text", NESTED.values(), ids=NESTED)
def test_nesting_is_told_quickly(text: str) -> None:
    """As many levels as a file can hold are one message, within seconds and without a long recursion."""
    begun = time.monotonic()
    names = told(around(RULE + text + "\n"))
    assert names == ["too-deep"]
    assert time.monotonic() - begun < 10


@pytest.mark.parametrize("opening", ["not ", "(", "previous(", "on_delay(", "bistable(set ", "rises("])
def test_as_deep_as_the_limit(opening: str) -> None:
    """Up to the limit everything is read; the resolved tree can be walked."""
    levels = limits.NESTING - 2
    closing = {"not ": "", "on_delay(": ", 1 s)"}.get(opening, ")")
    assert told(around(f"{RULE}{opening * levels}key_on{closing * levels}\n")) == []
    levels = limits.NESTING + 10
    assert told(around(f"{RULE}{_lines(opening * levels + 'key_on' + closing * levels)}\n")) == ["too-deep"]


@pytest.mark.parametrize(("word", "names"), [("and", []), ("or", []), ("xor", ["too-deep"])])
def test_a_long_chain(word: str, names: list[str]) -> None:
    """Ten thousand operands side by side are fine, but for `xor`, which is read two by two."""
    assert told(around(RULE + _lines(f" {word} ".join(["key_on"] * 10_000)) + "\n")) == names


def test_a_long_line() -> None:
    """A line over the limit is told by its length and not read."""
    text = around(f"world\n    horn contact  {' ' * limits.LINE_CHARACTERS}|\n")
    assert show_all(load_text(text)).startswith("test.circuit:2:5 E211 long-line\n")
    assert "This line has 1019 characters, the most is 1000." in show_all(load_text(text))
    assert told(around(f"world\n    horn contact  {' ' * 500}\n")) == []


def test_many_mistakes_are_counted() -> None:
    """After the limit the rest is counted."""
    text = around('controller "Box" powered by feed\n' + "    rule = key_on\n" * (limits.MISTAKES + 5))
    diagnostics = load_text(text).diagnostics
    assert len(diagnostics) == limits.MISTAKES + 1
    assert diagnostics[-1].name == "too-many-mistakes"
    assert diagnostics[-1].sentence == "There are 5 more mistakes."


def test_no_number_is_too_long_for_a_message() -> None:
    """Nine hundred digits are one message."""
    assert told(around(f"{RULE}on_delay(key_on, {'9' * 900} s)\n")) == ["long-number"]


def test_many_open_brackets_take_no_long_time() -> None:
    """Each line opens a bracket: each is told, and none joins what follows."""
    begun = time.monotonic()
    text = around('controller "Box" powered by feed\n' + "    x(\n" * 20_000)
    assert load_text(text).program is None
    assert time.monotonic() - begun < 20


TOLD = {"too-deep", "long-line", "too-many-mistakes", "long-number"}


def test_a_long_list_is_not_deep() -> None:
    """A step of a scenario may set a hundred things, and a checklist or a load have as many parts as they like."""
    switches = "".join(f"    s{i} contact\n" for i in range(100))
    step = ",\n        ".join(f"s{i} is on" for i in range(100))
    assert told(around(f"world\n{switches}scenario s\n    at 1 s {step}\n    at first {step}\n")) == []
