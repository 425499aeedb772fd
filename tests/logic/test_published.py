"""Published facts about boolean functions: identities, prime implicants and minimum covers.

Each is held against the truth tables and the simplifier, and put to the engine as requirements of a vehicle whose
inputs are free. Not stated: the hazards of a multiplexer and of the map with BCD', AC', AB' (static-1 hazards need
gates that take time, and a reaction takes none); how SymPy prints a function with don't-cares (the simplifier has no
don't-cares: such functions are asked under what is given).
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from sympy import Symbol

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.logic.simplify import Columns, simplified, size
from tests.logic.cubes import Sums, cost, cube_of, formula, literals, words
from tests.oracle.loading import loaded

HUNTINGTON = 'E. V. Huntington, "Sets of independent postulates for the algebra of logic", Trans. AMS 5, 1904'
OWN = "from memory, and counted here"


def kinds(letters: str, requirements: list[str], given: str = "false") -> list[Kind]:
    """The verdicts on requirements about contacts with these names."""
    world = "".join(f"    {letter} contact\n" for letter in letters)
    lines = "".join(f"    danger d{i} {line}\n" for i, line in enumerate(requirements))
    text = f'vehicle "T"\nworld\n{world}given\n    never {given}\nrequirements\n{lines}'
    return [verdict.kind for verdict in check_program(loaded(text)).verdicts]


# ------------------------------------------------------------------------------------------------------ identities


@dataclass(frozen=True)
class Identity:
    number: str
    source: str
    left: str
    right: str
    counterexamples: int = 0


IDENTITIES = [
    Identity("1.01-consensus", HUNTINGTON, "a and b or not a and c or b and c", "a and b or not a and c"),
    Identity(
        "1.01-consensus-of-sums",
        HUNTINGTON,
        "(a or b) and (not a or c) and (b or c)",
        "(a or b) and (not a or c)",
    ),
    Identity("1.01-absorption", HUNTINGTON, "a or a and b", "a"),
    Identity("1.01-absorption-of-a-complement", HUNTINGTON, "a or not a and b", "a or b"),
    Identity("1.01-de-morgan", HUNTINGTON, "not (a and b)", "not a or not b"),
    Identity("1.01-exclusive-or", HUNTINGTON, "a xor b", "a and not b or not a and b"),
    Identity(
        "1.01-majority", HUNTINGTON, "not at most one of (a, b, c)", "a and b or b and c or c and a"
    ),  # more than one of three
    Identity("1.01-majority-by-xor", HUNTINGTON, "not at most one of (a, b, c)", "a and b xor b and c xor c and a"),
    Identity("1.01-not-de-morgan", HUNTINGTON, "not (a and b)", "not a and not b", 2),
    Identity("1.01-or-is-not-xor", HUNTINGTON, "a xor b", "a or b", 1),
]


@pytest.mark.parametrize("row", IDENTITIES, ids=lambda row: row.number)
def test_identities_and_their_counterexamples(row: Identity) -> None:
    """Each counterexample that is found is excluded, and it is asked again, until there is none."""
    excluded: list[str] = []
    asked = f"never ({row.left}) xor ({row.right})"
    world = "".join(f"    {letter} contact\n" for letter in "abc")
    while True:
        given = "".join(f"    never {each}\n" for each in excluded)
        text = f'vehicle "T"\nworld\n{world}{"given" if given else ""}\n{given}requirements\n    danger d {asked}\n'
        (verdict,) = check_program(loaded(text)).verdicts
        if verdict.kind is Kind.PROVED:
            break
        assert verdict.story is not None
        assert verdict.story.moments == 1
        facts = verdict.story.steps[0].world
        excluded.append(" and ".join(name if value else f"not {name}" for name, value in facts))
        assert len(excluded) == len(set(excluded)) <= row.counterexamples
    assert len(excluded) == row.counterexamples


# ------------------------------------------------------------------------------------- two-level minimisation


@dataclass(frozen=True)
class Function:
    """A function by the rows in which it is true and those that do not matter; `covers` are its minimum sums."""

    number: str
    source: str
    letters: str
    rows: tuple[int, ...]
    free: tuple[int, ...]
    primes: str
    essential: str
    covers: tuple[str, ...]

    def sums(self, rows: tuple[int, ...]) -> list[str]:
        return [cube_of(row, self.letters) for row in rows]


def _counted(letters: str, counts: set[int]) -> tuple[int, ...]:
    return tuple(row for row in range(1 << len(letters)) if row.bit_count() in counts)


FUNCTIONS = [
    Function(
        "1.02",
        '"Quine-McCluskey algorithm", Wikipedia; primes counted here',
        "ABCD",
        (4, 8, 10, 11, 12, 15),
        (9, 14),
        "BC'D' AD' AC AB'",
        "BC'D' AC",
        ("BC'D' AC AB'", "BC'D' AC AD'"),
    ),
    Function(
        "1.03",
        "C. H. Roth, L. L. Kinney, Fundamentals of Logic Design, ch. 6",
        "abcd",
        (0, 1, 2, 5, 6, 7, 8, 9, 10, 14),
        (),
        "b'c' b'd' cd' a'c'd a'bd a'bc",
        "b'c' cd'",
        ("b'c' cd' a'bd",),
    ),
    Function(
        "1.05",
        f"M. Mano, Digital Design, exercise 3-13 ({OWN})",
        "wxyz",
        (0, 1, 2, 8, 10, 11, 14, 15),
        (),
        "w'x'y' x'z' wy",
        "w'x'y' x'z' wy",
        ("w'x'y' x'z' wy",),
    ),
    Function(
        "1.06",
        "slideplayer.com/amp/4920589, module M4.3",
        "WXYZ",
        (0, 1, 2, 3, 5, 7, 8, 10, 14, 15),
        (),
        "W'X' X'Z' W'Z WYZ' XYZ WXY",
        "X'Z' W'Z",
        ("W'Z X'Z' WXY",),
    ),
    Function("1.07", "ee.sunysb.edu/~adoboli/ESE318/CL8.htm", "XYZ", (1, 2, 3, 6, 7), (), "X'Z Y", "X'Z Y", ("Y X'Z",)),
    Function(
        "1.09",
        f'"Karnaugh map", Wikipedia ({OWN})',
        "ABCD",
        (6, 8, 9, 10, 11, 12, 13, 14),
        (),
        "BCD' AC' AB' AD'",
        "BCD' AC' AB'",
        ("BCD' AC' AB'",),
    ),
    Function(
        "1.09-free",
        f'"Karnaugh map", Wikipedia ({OWN})',
        "ABCD",
        (6, 8, 9, 10, 11, 12, 13, 14),
        (15,),
        "A BCD'",
        "A BCD'",
        ("A BCD'",),
    ),
    Function(
        "1.10",
        "SymPy documentation, SOPform",
        "wxyz",
        (1, 3, 7, 11, 15),
        (0, 2, 5),
        "yz w'z w'x'",
        "yz",
        ("yz w'x'", "yz w'z"),
    ),
    Function(
        "1.12",
        f"C. H. Roth, Fundamentals of Logic Design ({OWN})",
        "ABCD",
        (2, 3, 7, 9, 11, 13),
        (1, 10, 15),
        "CD B'D B'C AD",
        "CD B'C AD",
        ("CD B'C AD",),
    ),
    Function(
        "1.13",
        f"seven segments, the uppermost, of decimal digits ({OWN})",
        "ABCD",
        (0, 2, 3, 5, 6, 7, 8, 9),
        (10, 11, 12, 13, 14, 15),
        "A C BD B'D'",
        "A C BD B'D'",
        ("A C BD B'D'",),
    ),
    Function(
        "1.14",
        f'D. A. Huffman, "The design and use of hazard-free switching networks", J. ACM 4(1), 1957 ({OWN})',
        "ABC",
        (1, 3, 6, 7),
        (),
        "AB A'C BC",
        "AB A'C",
        ("AB A'C",),
    ),
    Function("1.15-majority", OWN, "abc", _counted("abc", {2, 3}), (), "ab ac bc", "ab ac bc", ("ab ac bc",)),
    Function(
        "1.15-odd",
        OWN,
        "abc",
        _counted("abc", {1, 3}),
        (),
        "ab'c' a'bc' a'b'c abc",
        "ab'c' a'bc' a'b'c abc",
        ("ab'c' a'bc' a'b'c abc",),
    ),
    Function(
        "1.15-one-of-four",
        OWN,
        "abcd",
        _counted("abcd", {1}),
        (),
        "ab'c'd' a'bc'd' a'b'cd' a'b'c'd",
        "ab'c'd' a'bc'd' a'b'cd' a'b'c'd",
        ("ab'c'd' a'bc'd' a'b'cd' a'b'c'd",),
    ),
    Function(
        "1.15-two-of-four",
        OWN,
        "abcd",
        _counted("abcd", {2, 3, 4}),
        (),
        "ab ac ad bc bd cd",
        "ab ac ad bc bd cd",
        ("ab ac ad bc bd cd",),
    ),
]

functions = pytest.mark.parametrize("row", FUNCTIONS, ids=lambda row: row.number)


@functions
def test_primes_and_covers_by_the_tables(row: Function) -> None:
    """All products that there are, by their tables: the primes, those that are essential, the minimum sums."""
    sums = Sums(row.letters)
    wanted = sums.of(row.sums(row.rows))
    assert wanted.bit_count() == len(row.rows)
    primes = sums.primes(wanted | sums.of(row.sums(row.free)))
    assert primes == set(row.primes.split())
    assert sums.essential(primes, wanted) == set(row.essential.split())
    assert set(sums.covers(primes, wanted)) == {frozenset(cover.split()) for cover in row.covers}


@functions
def test_simplified_is_no_longer_than_the_minimum_sum(row: Function) -> None:
    """From the rows, and from all primes (some of which add nothing); what does not matter counts as false."""
    columns = Columns([Symbol(x) for x in row.letters])
    rows = row.sums(row.rows)
    starts = [rows] if row.free else [rows, row.primes.split()]
    for start in starts:
        shorter = simplified(formula(start))
        assert shorter is not None
        assert columns.table(shorter) == Sums(row.letters).of(rows)
        if not row.free:
            assert size(shorter) <= cost(row.covers[0].split())


@functions
def test_covers_and_primes_by_the_engine(row: Function) -> None:
    """Each minimum sum is the function where that matters, with every product in it; each prime is inside, and it is
    not with any letter less."""
    rows, inside = words(row.sums(row.rows)), words(row.sums(row.rows + row.free))
    free = words(row.sums(row.free))
    covers = [cover.split() for cover in row.covers]
    same = [f"never {rows} xor {words(cover)}" for cover in covers]
    less = [f"never {rows} xor {words(c for c in cover if c != left)}" for cover in covers for left in cover]
    assert kinds(row.letters, same + less, given=free) == [Kind.PROVED] * len(same) + [Kind.FAILS] * len(less)
    primes = row.primes.split()
    implied = [f"never {words([prime])} and not {inside}" for prime in primes]
    wider = [
        f"never {words([''.join(x for x in literals(prime) if x != left)])} and not {inside}"
        for prime in primes
        for left in literals(prime)
        if len(literals(prime)) > 1
    ]
    assert kinds(row.letters, implied + wider) == [Kind.PROVED] * len(implied) + [Kind.FAILS] * len(wider)
