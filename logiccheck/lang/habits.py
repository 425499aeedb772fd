"""What people write who have read the reference once: recognised by the words before the place, and those at it."""

from __future__ import annotations

import re

from logiccheck.base.diagnostic import Message
from logiccheck.base.frozen import frozen
from logiccheck.base.suggest import near
from logiccheck.lang.layout import Piece
from logiccheck.lang.mistakes.habits import NoSuchLine, SaidOtherwise
from logiccheck.lang.mistakes.syntax import ForeignSign, ForeignWord
from logiccheck.lang.stop import Stop
from logiccheck.lang.words import ITEM_WORDS

Found = tuple[Message, int, int]
"""A mistake, and where it begins and ends in its piece."""

# A word or sign of ours, or near one, where this terminal could have stood, and the words for that place.
IN_PLACE: tuple[tuple[str, str, str], ...] = (
    ("when", "_WHILE", "while"), ("if", "_WHILE", "while"), ("during", "_WHILE", "while"), ("while", "_WHEN", "when"),
    ("=", "_WHEN", "when"), ("when", "EQUAL", "="), (":", "EQUAL", "="), ("within", "_NO", "no later than"),
    ("for", "_LASTING", "lasting"), ("lasts", "_LASTING", "lasting"), ("for", "_HAS", "has lasted"),
    ("until", "TO", "to"), ("moves", "_CHANGES", "changes"),
)  # fmt: skip

# First words of other tongues, and the words of ours that may be meant.
FIRST_WORDS: dict[str, tuple[str, ...]] = {
    "input": ("sense",), "sensor": ("sense",), "cable": ("wire",), "contact": ("wire", "join"),
    "switch": ("wire", "join"), "connect": ("join",), "motor": ("load",), "battery": ("source",),
    "after": ("at",), "expect": ("at",), "then": ("at",), "wait": ("at",),
}  # fmt: skip

TIMERS = (
    "`on_delay(CONDITION, TIME)` for what has lasted so long, or `off_delay(CONDITION, TIME)` for what goes on so "
    "long afterwards"
)


CONDITION = r"\A(?:relay\b.*\bcoil\b|(?:source|ground|wire|join|output)\b.*\bwhen\b|rule\b.*=)(?:(?!\bload\b).)*"
"""A line of copper or box up to somewhere in its condition."""


@frozen
class Habit:
    """In these blocks, with `before` up to the place and `at` from it on, where the terminal `expected` could have
    stood: the rule, and what is written instead. Named groups may stand in braces in both.
    """

    blocks: tuple[str, ...]
    before: str
    at: str
    expected: str
    rule: str
    ours: str


HABITS: tuple[Habit, ...] = (
    Habit(
        ("requirements",), r"\balways\b.*", r"for\s+longer\s+than\b", "_EVEN",
        "`for longer than` goes with `never`, not with `always`.", "`never not P while R for longer than TIME`",
    ),
    Habit(
        ("requirements",), r"\bonly\s+", r"(?P<word>while|when|if)\b", "_AFTER",
        "No requirement is written with `only {word}`.", "`never Q while not R`",
    ),
    Habit(
        ("requirements",), r"", r"lasts\s+at\s+most\b", "_CALLS",
        "`lasts at most` is for what is given; a requirement says it with `never`.", "`never P for longer than TIME`",
    ),
    Habit(
        ("requirements",), r"", r"while\b", "_CALLS",
        "A requirement with `while` begins with `never` or `always`.", "`always P while R`, or `never P while R`",
    ),
    Habit(
        ("requirements",), r"", r"(?P<word>never|always)\b", "_CALLS",
        "`{word}` stands before all that it speaks of.", "`{word} P while R`, or `never P for longer than TIME`",
    ),
    Habit(
        ("given",), r"\b(?P<name>\w+)\s+becomes\s+\w+\s+", r"only\s+(?:while|when)\b", "",
        "There is no line for one direction of a change, only for every change of a thing.",
        "`{name} changes only while CONDITION`",
    ),
    Habit(
        ("given",), r"\A(?P<name>\w+)\s+", r"(?:rises|falls|goes|turns|opens|closes)\b.*?\bonly\s+(?:while|when)\b", "",
        "There is no line for one direction of a change, only for every change of a thing.",
        "`{name} changes only while CONDITION`",
    ),
    Habit(
        ("given",), r"", r"(?P<time>\d[\d.]*\s*\w+)\s+after\b", "",
        "Behind `after` stands how long it has lasted.", "`FACT after CONDITION has lasted {time}`",
    ),
    Habit(
        ("given",), r"", r"calls\s+for\b", "",
        "`calls for` is for requirements; what is given says when it is so at the latest.",
        "`FACT after CONDITION has lasted TIME`",
    ),
    Habit(
        ("world",), r"(?P<low>-?\d[\d.]*)(?:\s*\w+)?\s+", r"to\s+(?P<high>-?\d[\d.]*\s*\S+)", "",
        "Between the lowest and the highest value of a number stand two dots.", "`{low} .. {high}`",
    ),
    Habit(
        ("constants",), r"(?P<low>\d[\d.]*)(?:\s*\w+)?\s*", r"\.\.\s*(?P<high>\d[\d.]*)\s*(?P<unit>\w+)", "",
        "A duration between two is said in words.", "`from {low} {unit} to {high} {unit}`",
    ),
    Habit(
        ("controller", "harness"), CONDITION, r"(?:for|after|within)\b", "$END",
        "A time belongs to a timer.", TIMERS,
    ),
    Habit(
        ("harness",), r"\A(?:wire\b.*)?", r"(?:\w+\s+)?fuse\b", "",
        "A wire has no fuse of its own: it is noted with the load or the output behind the wire.",
        "it there: `load bilge_pump on pump_wire 4 A, fuse 10 A`",
    ),
    Habit(
        ("harness",), r"\Arelay\s+(?P<name>\w+)\b.*", r"(?:contacts?|switches|from|feeds|closes|joins)\b", "$END",
        "The contact of a relay is a wire or a join of its own.",
        "a line of its own: `wire NAME from END when {name}`, or `join WIRE with WIRE when {name}`",
    ),
    Habit(
        ("scenario",), r"\d", r":\d", "",
        "A time is one number and its unit.", "it so, for example `5 s` or `2.5 min`",
    ),
)  # fmt: skip


def habit(stop: Stop, piece: Piece, block: str) -> Found | None:
    """What was probably meant, if the place looks like something that people write often."""
    return (
        _first_word(stop, block)
        or _in_place(stop)
        or _said(stop, piece, block)
        or _choice(stop, piece)
        or _or(stop, piece)
    )


def _first_word(stop: Stop, block: str) -> Found | None:
    """The first word of a line in a block whose lines begin with words of the language."""
    words = sorted(ITEM_WORDS.get(block, ()))
    if block not in ("harness", "controller", "scenario") or stop.at > 0 or stop.kind in ("", "$END"):
        return None
    if stop.text.lower() in words or stop.text == "fuse":
        return None
    meant = FIRST_WORDS.get(stop.text) or near(stop.text, words)
    return NoSuchLine(stop.text, block, meant, tuple(words)), 0, len(stop.text)


def _in_place(stop: Stop) -> Found | None:
    for typed, terminal, ours in IN_PLACE:
        if stop.text == typed and terminal in stop.expected:
            kind = ForeignWord if typed.isalpha() else ForeignSign
            return kind(typed, ours), stop.at, stop.at + len(typed)
    return None


def _said(stop: Stop, piece: Piece, block: str) -> Found | None:
    for known in HABITS:
        if block not in known.blocks or (known.expected and known.expected not in stop.expected):
            continue
        before = re.search(f"(?:{known.before})\\Z", piece.text[: stop.at], re.DOTALL)
        at = re.compile(known.at).match(piece.text, stop.at)
        if before is not None and at is not None:
            groups = before.groupdict() | at.groupdict()
            return SaidOtherwise(known.rule.format(**groups), known.ours.format(**groups)), stop.at, at.end()
    return None


def _choice(stop: Stop, piece: Piece) -> Found | None:
    """`key is accessory, run or start`"""
    before = re.search(r"\b(\w+)\s+is\s+(\w+)\s*,?\s*\Z", piece.text[: stop.at])
    after = re.compile(r"(?:,\s*)?(\w+(?:,\s*\w+)*,?\s+or\s+\w+)(?!\s+(?:is|in|above|below|at)\b)\b").match(
        piece.text, stop.at
    )
    if before is None or after is None:
        return None
    rest = re.split(r",?\s+or\s+|,\s*", after[1])
    ours = f"`{before[1]} in {{{', '.join([before[2], *rest])}}}`"
    return SaidOtherwise("Several positions of one switch stand in braces.", ours), before.start(), after.end()


def _or(stop: Stop, piece: Piece) -> Found | None:
    """`above or equal`, and `sometimes` for `possible`."""
    begin = re.search(r"\b(above|below)\s+or\s+\Z", piece.text[: stop.at])
    if begin is not None and stop.text == "equal":
        end = stop.at + len("equal")
        ours = {"above": "at least", "below": "at most"}[begin[1]]
        return ForeignWord(piece.text[begin.start() : end], ours), begin.start(), end
    begin = re.search(r"\b(sometimes|eventually)\s+\Z", piece.text[: stop.at])
    if begin is not None:
        return ForeignWord(begin[1], "possible"), begin.start(), begin.end(1)
    return None
