"""What a vehicle draws, as shown: by feed the most at once, what comes on too close together, what tables say."""

from __future__ import annotations

from logiccheck.base.frozen import frozen


@frozen
class FeedPart:
    """What a source, a wire, the box or an output gives at most: amperes as exact numbers, `least` reached and never
    more than `most`; `together` if all were on at once. `lines`: a word each, and what it stands for."""

    kind: str
    name: str
    label: str
    least: str
    most: str
    together: str
    lines: tuple[tuple[str, str], ...]


@frozen
class FitPart:
    """One load, output or wire held against a table: one word for what came of it, the sentence, how it is reckoned,
    and the numbers of the tables it rests on, from 1."""

    name: str
    label: str
    word: str
    sentence: str
    formula: str
    tables: tuple[int, ...]


@frozen
class PairPart:
    """Two that draw more at first: one word for whether they come on far enough apart, and the story where they do
    not, or why it is not known."""

    first: str
    second: str
    word: str
    sentence: str


@frozen
class CurrentsPart:
    """All of it; `answer` follows the first line of the report, `failing` come first and stand in `fits`, too."""

    answer: tuple[str, ...]
    failing: tuple[FitPart, ...]
    feeds: tuple[FeedPart, ...]
    apart: str
    pairs: tuple[PairPart, ...]
    fits: tuple[FitPart, ...]
    tables: tuple[str, ...]
    cautions: tuple[str, ...]
