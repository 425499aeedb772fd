"""A rule as written, unfolded and simplified: the texts mean what the rule means when they are read again."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from logiccheck.logic.show import TOO_LARGE
from tests.logic.random_rules import BARE, WORDED, chains
from tests.logic.rules import all_facts, box


def same_meaning(rules: dict[str, str]) -> None:
    """The last rule, unfolded and simplified, read again as two further rules."""
    last = list(rules)[-1]
    shown = box(rules).show(last)
    again = box({**rules, "unfolded": shown.unfolded, "simplified": shown.simplified})
    for facts in all_facts():
        value = again.value(last, facts)
        assert again.value("unfolded", facts) is value, (shown, facts)
        assert again.value("simplified", facts) is value, (shown, facts)


@settings(max_examples=100, deadline=None)
@given(chains(BARE | WORDED))
def test_what_is_shown_means_the_same(rules: dict[str, str]) -> None:
    """Three rules, each of which may name the ones before."""
    same_meaning(rules)


SAID = ["a is on", "a is not off", "a is off", "a is not on", "m is not 10 V", "a is off or a and b", "not a is off"]


@pytest.mark.parametrize("text", SAID)
def test_what_is_said_of_a_name_means_the_same(text: str) -> None:
    """Not only the bare name can be said."""
    same_meaning({"r": text})


AS_WRITTEN = [
    "b and a and b or a",
    "not a and (b or not (c and d)) xor e",
    "a xor b and (c or d)",
    "(a xor b) and not (a or b)",
    "on_delay(b and a, 1 s) or m above 10 V until below 5 V",
    "previous(b) and rises(a or b)",
]


@pytest.mark.parametrize("text", AS_WRITTEN)
def test_as_it_was_written(text: str) -> None:
    """A rule that names no other is unfolded to itself: places in their order, brackets where they are needed."""
    shown = box({"r": text}).show("r")
    assert (shown.written, shown.unfolded) == (text, text)


UNFOLDED = [
    ({"r": "a or b", "s": "r and not r"}, ("r and not r", "(a or b) and not (a or b)", "false")),
    ({"r": "a", "s": "not r", "t": "s or r and b"}, ("s or r and b", "not a or a and b", "not a or b")),
    ({"r": "a  or\n        b", "s": "r\n        and c"}, ("r and c", "(a or b) and c", "(a or b) and c")),
    ({"r": "a or b", "s": "on_delay(r, 1 s) or r"}, ("on_delay(r, 1 s) or r", *["on_delay(r, 1 s) or a or b"] * 2)),
    ({"r": "not (a and b)", "s": "r and r"}, ("r and r", "not (a and b) and not (a and b)", "not (a and b)")),
]


@pytest.mark.parametrize(("rules", "shown"), UNFOLDED, ids=[row[1][0] for row in UNFOLDED])
def test_rules_are_unfolded(rules: dict[str, str], shown: tuple[str, str, str]) -> None:
    """All that a rule names is replaced by what it says; timers stay closed; blanks are folded."""
    found = box(rules).show(list(rules)[-1])
    assert (found.written, found.unfolded, found.simplified) == shown


def test_other_names_are_refused() -> None:
    """A sense is no rule."""
    with pytest.raises(KeyError):
        box({"r": "a"}).show("a")


def test_rules_that_double_are_not_unfolded() -> None:
    """Each rule names the one before twice: thirty of them would be read as a thousand million names."""
    rules = {"r0": "a"} | {f"r{i}": f"r{i - 1} and b or not r{i - 1}" for i in range(1, 31)}
    shown = box(rules, ("a", "b")).show("r30")
    assert (shown.written, shown.unfolded, shown.simplified) == ("r29 and b or not r29", TOO_LARGE, TOO_LARGE)
