"""Near names: what somebody may have meant who wrote a name that does not exist."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST = 60  # names above this length are compared by equality only
_MOST = 3_000  # so are all, if there are more than so many
_SLIP = 3  # letters that a part of a name has to have before a slip in it can be told from another name


def distance(left: str, right: str) -> int:
    """How many letters to insert, drop, replace or swap with their neighbour to get from one to the other."""
    before: list[int] = []
    row = list(range(len(right) + 1))
    for i, a in enumerate(left, 1):
        oldest, before = before, row
        row = [i] + [0] * len(right)
        for j, b in enumerate(right, 1):
            row[j] = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and left[i - 2] == b:
                row[j] = min(row[j], oldest[j - 2] + 1)
    return row[-1]


def near(name: str, known: Iterable[str], most: int = 3) -> tuple[str, ...]:
    """The known names close to `name`, nearest first, then in alphabetical order; at most `most` of them.

    Capitals and underscores do not count; names that differ in nothing else are the only ones.
    """
    folded = name.casefold().replace("_", "")
    allowed = 1 + len(folded) // 4
    found: list[tuple[int, str]] = []
    candidates = set(known)
    longest = _LONGEST if len(candidates) <= _MOST else 0
    for candidate in sorted(candidates):
        other = candidate.casefold().replace("_", "")
        if other == folded:
            found.append((0, candidate))
        elif abs(len(other) - len(folded)) <= allowed and max(len(other), len(folded)) <= longest:
            steps = distance(folded, other)
            if steps <= allowed and steps < max(len(folded), len(other)):
                found.append((steps, candidate))
    found.sort()
    same = [candidate for steps, candidate in found if steps == 0]
    return tuple(same or [candidate for _, candidate in found])[:most]


def is_slip(word: str, meant: str) -> bool:
    """Whether a slip in writing `meant` may have made `word` of it: one letter too much, too few or another, two that
    changed places, or capitals and underscores.

    Not in a number, and not in a short part between underscores: `lamp_l` is not `lamp_r`, and `mA` is not `A`.
    """
    left, right = word.casefold(), meant.casefold()
    if left.replace("_", "") == right.replace("_", ""):
        return True
    parts = left.split("_"), right.split("_")
    if len(parts[0]) != len(parts[1]):
        return False
    unlike = [(a, b) for a, b in zip(*parts, strict=True) if a != b]
    (a, b), *more = unlike
    return not more and min(len(a), len(b)) >= _SLIP and (a + b).isalpha() and distance(a, b) == 1
