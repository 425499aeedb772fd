"""Static-1 hazards of two-level sums, made of relays: where a lamp that ought to stay on blinks for an instant.

How it was brought into the language: of the changes of one letter, from a row in which the function is true to another
one, each is asked by itself, with all other letters given. A plain letter is a contact of the world, and the stroke of
the letter that changes the contact of a relay that drops out or pulls in one reaction later. A product is a row of
contacts, the sum one wire fed by all of them; a hazard is a reaction in which the wire is dead. When the letter comes
on, both contacts are closed for a reaction, and there is none.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import pytest

from tests.logic.cubes import literals
from tests.published.written import answered, read


def contacts(product: str, moves: str) -> Iterator[str]:
    """A product such as AB' as contacts in a row; `moves` is the letter that changes."""
    for literal in literals(product):
        letter, stroke = literal[0], literal.endswith("'")
        yield f"not_{letter}" if stroke and letter == moves else f"not {letter}" if stroke else letter


def blinks(letters: str, products: list[str], pair: tuple[int, int]) -> bool:
    """Whether the wire can be dead for an instant while one contact goes over between these two rows."""
    bits = [{x: row >> (len(letters) - 1 - i) & 1 for i, x in enumerate(letters)} for row in pair]
    (moves,) = [x for x in letters if bits[0][x] != bits[1][x]]
    fixed = " and ".join(x if bits[0][x] else f"not {x}" for x in letters if x != moves)
    fed = ", ".join(f"from plus when {' and '.join(contacts(each, moves))}" for each in products)
    world = "".join(f"    {x} contact\n" for x in letters)
    found = answered(
        read(
            f'vehicle "Sum"\nworld\n{world}    at first {moves} is on\nharness\n    source plus\n'
            f"    relay not_{moves} coil not {moves}\n    wire f {fed}\ngiven\n    always {fixed}\nrequirements\n"
            f"    danger hazard never not f even for an instant\n    danger settled never not f\n"
            f"    function goes possible not {moves}\n"
        )
    )
    assert found["settled"] == found["goes"] == "proved"
    return found["hazard"] == "fails"


def hazards(letters: str, rows: list[int], products: str) -> set[tuple[int, int]]:
    """The pairs of rows between which the wire blinks."""
    pairs = [pair for pair in combinations(rows, 2) if (pair[0] ^ pair[1]).bit_count() == 1]
    return {pair for pair in pairs if blinks(letters, products.split(), pair)}


@pytest.mark.parametrize(("products", "expected"), [("AB A'C", {(0b011, 0b111)}), ("AB A'C BC", set())])
def test_multiplexer(products: str, expected: set[tuple[int, int]]) -> None:
    """D. A. Huffman, "The design and use of hazard-free switching networks", J. ACM 4(1), 1957 (from memory, and by the
    definition): AB + A'C has its static-1 hazard just where A goes over with B = C = 1; BC takes it away."""
    assert hazards("ABC", [1, 3, 6, 7], products) == expected


@pytest.mark.parametrize(
    ("products", "expected"),
    [("BCD' AC' AB'", {(0b1100, 0b1110), (0b1010, 0b1110)}), ("BCD' AC' AB' AD'", set())],
)
def test_map_with_a_race(products: str, expected: set[tuple[int, int]]) -> None:
    """Wikipedia, "Karnaugh map" (from memory, and by the definition): the minimum has race hazards, AD' takes them away.

    Which: between 1110, which is only in BCD', and its neighbours 1100, only in AC', and 1010, only in AB'.
    """
    assert hazards("ABCD", [6, 8, 9, 10, 11, 12, 13, 14], products) == expected
