"""What a message repeats of the user's text is cut where it is long; all of it stands in the line that is shown."""

from __future__ import annotations

import pytest

from logiccheck.lang.load import load_text

HEAD = 'vehicle "Van"\nworld\n    door contact\n'
LONG = " and ".join(["door"] * 100)


@pytest.mark.parametrize(
    ("text", "begin"),
    [
        (f"scenario day\n    at 1 s {LONG}\n", "`door and door and "),
        (f'scenario day\n    at 1 s "{LONG}" lasts 3 s\n', "There is no timer `door and door and "),
        (f'requirements\n    danger a "{"l" * 300}" never "{"l" * 300}"\n', '`"lllllll'),
        (f"requirements\n    danger a never door door{'r' * 300}\n", "Nothing joins `doorrrrr"),
    ],
    ids=["setting", "timer", "label", "name"],
)
def test_a_long_text_is_cut(text: str, begin: str) -> None:
    """The sentence repeats its begin."""
    told = load_text(HEAD + text).diagnostics[0]
    assert told.sentence.startswith(begin)
    assert "...`" in told.sentence
    assert max(len(told.sentence), len(told.hint)) < 350


def test_a_backquote_is_named() -> None:
    """Between backquotes it could not be read."""
    (told,) = load_text('vehicle "Van"\nworld\n    door ` contact\n').diagnostics
    assert told.sentence == "The sign of a backquote has no meaning here."


def test_a_long_circle_is_shown_by_its_ends() -> None:
    """Three hundred rules in a circle are one sentence that can be read."""
    rules = "".join(f"    rule r{number} = r{(number + 1) % 300}\n" for number in range(300))
    head = f"{HEAD}harness\n    source plus\n    wire feed from plus\ncontroller powered by feed\n"
    (told,) = load_text(head + rules).diagnostics
    assert "-> (289 more) ->" in told.sentence
    assert len(told.sentence) < 250
