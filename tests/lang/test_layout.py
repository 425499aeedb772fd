"""The cut into blocks and items: what continues what, and what a comment is."""

from __future__ import annotations

import pytest

from logiccheck.lang.layout import lay_out


def cut(text: str) -> list[list[str]]:
    """The header and the items of each block, white space folded."""
    layout = lay_out(text, "test.circuit")
    return [[" ".join(piece.text.split()) for piece in (block.header, *block.items)] for block in layout.blocks]


@pytest.mark.parametrize(
    ("text", "blocks"),
    [
        ("", []),
        ("\n  \n# only a comment\n", []),
        ("world\n", [["world"]]),
        ("world\n  a contact\n  b contact\n", [["world", "a contact", "b contact"]]),
        ("world\n  a\n    contact\n  b contact\n", [["world", "a contact", "b contact"]]),
        ("world\n  a\n\n# c\n\n      contact # c\n", [["world", "a contact"]]),
        ("given\n  never (a or\n  b)\n  never c\n", [["given", "never (a or b)", "never c"]]),
        ("harness\n  wire a when (b\n  wire c\n", [["harness", "wire a when (b", "wire c"]]),
        ("given\n  never (a\n  b\n  c\n", [["given", "never (a", "b", "c"]]),
        ('world\n  a "# no comment" contact # one\n', [["world", 'a "# no comment" contact']]),
        ('vehicle\n    "Van"\nworld\n', [['vehicle "Van"'], ["world"]]),
        ("use checklist x with\n  a = b,\n  c = d\nworld\n", [["use checklist x with a = b, c = d"], ["world"]]),
        ("world\n  a contact\n  harness\n  wire b\n", [["world", "a contact"], ["harness", "wire b"]]),
    ],
)
def test_blocks_and_items(text: str, blocks: list[list[str]]) -> None:
    """Deeper lines and lines in open brackets continue an item; a bracket never closed continues nothing."""
    assert cut(text) == blocks


def test_pieces_stand_where_they_were_written() -> None:
    """The text of a piece is that of the file, character for character, with comments blanked out."""
    text = "world   # hands\n    a   # first\n        contact\n"
    (block,) = lay_out(text, "test.circuit").blocks
    (item,) = block.items
    assert item.begin == text.index("a   #")
    assert item.end == text.index("contact") + len("contact")
    assert item.text == text[item.begin : item.end].replace("# first\n", " " * 8)
