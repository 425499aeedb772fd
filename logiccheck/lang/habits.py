"""What people write who have read the reference once: recognised by the words before the place, and those at it."""

from __future__ import annotations

import re

from logiccheck.base.diagnostic import Message
from logiccheck.base.frozen import frozen
from logiccheck.base.suggest import near
from logiccheck.base.units import UNITS
from logiccheck.lang.layout import Piece
from logiccheck.lang.mistakes.habits import NoSuchLine, SaidOtherwise
from logiccheck.lang.mistakes.phrases import listed
from logiccheck.lang.mistakes.quantities import MissingUnit
from logiccheck.lang.mistakes.syntax import ForeignSign, ForeignWord
from logiccheck.lang.stop import Stop
from logiccheck.lang.words import ITEM_WORDS, RESERVED

Found = tuple[Message, int, int]
"""A mistake, and where it begins and ends in its piece."""

# A word or sign of ours, or near one, where this terminal could have stood, and the words for that place.
IN_PLACE: tuple[tuple[str, str, str], ...] = (
    ("when", "_WHILE", "while"), ("if", "_WHILE", "while"), ("during", "_WHILE", "while"), ("while", "_WHEN", "when"),
    ("=", "_WHEN", "when"), ("when", "EQUAL", "="), (":", "EQUAL", "="), ("within", "_NO", "no later than"),
    ("for", "_LASTING", "lasting"), ("lasts", "_LASTING", "lasting"), ("for", "_HAS", "has lasted"),
    ("lasted", "_HAS", "has lasted"), ("lasts", "_HAS", "has lasted"), ("until", "TO", "to"),
    ("moves", "_CHANGES", "changes"), ("jump", "_JUMPS", "jumps"), ("no", "_WITHOUT", "without"),
)  # fmt: skip

# First words of other tongues, and the words of ours that may be meant.
FIRST_WORDS: dict[str, tuple[str, ...]] = {
    "input": ("sense",), "sensor": ("sense",), "cable": ("wire",), "contact": ("wire", "join"),
    "switch": ("wire", "join"), "connect": ("join",), "motor": ("load",), "battery": ("source",),
    "after": ("at",), "expect": ("at",), "then": ("at",), "wait": ("at",),
}  # fmt: skip

# Each timer and stored state as it is written, and the names that other tongues have for them.
FORMS: dict[str, str] = {
    "on_delay": "on_delay(CONDITION, TIME)", "off_delay": "off_delay(CONDITION, TIME)",
    "one_shot": "one_shot(CONDITION, TIME)", "blink": "blink(CONDITION, on TIME, off TIME)",
    "bistable": "bistable(set CONDITION, reset CONDITION)", "impulse_relay": "impulse_relay(CONDITION)",
    "rises": "rises(CONDITION)", "falls": "falls(CONDITION)", "previous": "previous(CONDITION)",
}  # fmt: skip
OTHER_FORMS: dict[str, tuple[str, ...]] = {
    "timer": ("on_delay", "off_delay", "one_shot"), "delay": ("on_delay", "off_delay"), "ton": ("on_delay",),
    "tof": ("off_delay",), "tp": ("one_shot",), "pulse": ("one_shot",), "hold": ("off_delay",), "latch": ("bistable",),
    "flipflop": ("bistable",), "sr": ("bistable",), "rs": ("bistable",), "toggle": ("impulse_relay",),
    "flasher": ("blink",), "flash": ("blink",), "rising": ("rises",), "falling": ("falls",), "edge": ("rises", "falls"),
    "last": ("previous",), "was": ("previous",),
}  # fmt: skip

NUMBERS: dict[str, str] = {
    "half": "0.5", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10", "twelve": "12", "fifteen": "15", "twenty": "20", "thirty": "30",
    "forty": "40", "fifty": "50", "sixty": "60",
}  # fmt: skip

TIMERS = (
    "`on_delay(CONDITION, TIME)` for what has lasted so long, or `off_delay(CONDITION, TIME)` for what goes on so "
    "long afterwards"
)


SOME_TIME = r"\d[\d.]*\s*(?:us|ms|s|min|h)\b"

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
        ("requirements",), r"\bnever\s+(?P<p>[\w ]{1,60}?)\s+(?:for\s+(?:longer\s+)?)?",
        rf"(?:(?:longer\s+|more\s+)?than\s+|longer\s+|over\s+)?(?P<time>{SOME_TIME})\s*\Z", "",
        "How long it may last is said with `for longer than`.", "`never {p} for longer than {time}`",
    ),
    Habit(
        ("requirements",), r"\bnever\b.*", r"longer\b(?:\s+than\b)?", "",
        "How long it may last is said with `for longer than`.", "`never P for longer than TIME`",
    ),
    Habit(
        ("requirements",), r"\b(?P<name>\w+)\s+",
        r"(?:(?:must|shall|should|may)\s+(?:never|not)|cannot|can\s+never)\s+be\s+(?P<value>\w+)", "",
        "A requirement begins with what is never or always so.", "`never {name} is {value}`",
    ),
    Habit(
        ("requirements",), r"\b(?P<name>\w+)\s+", r"(?:must|shall|should)\s+(?:always\s+)?be\s+(?P<value>\w+)", "",
        "A requirement begins with what is never or always so.", "`always {name} is {value}`",
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
        ("harness",), r"\Adiode\s+(?P<anode>\w+)\s*", r"(?:[-=>]+|to\b|into\b|from\b)\s*(?P<cathode>\w+)", "",
        "Between the two wires of a diode stands an arrow, the way the current goes.", "`diode {anode} -> {cathode}`",
    ),
    Habit(
        ("harness",), r"\Adiode\s+\w+\s*->\s*(?P<wire>\w+)\s*", r"(?:->|to\b|,)\s*(?P<next>\w+)", "",
        "A diode joins two wires; the next one is a line of its own.", "the line `diode {wire} -> {next}`",
    ),
    Habit(
        ("harness",), r"\Awire\s+(?P<name>\w+)\b.*\bfrom\s+(?P<end>\w+)\s+", r"to\s+ground\b", "",
        "What a wire comes from, and that it goes to ground, are two connections of it.",
        "`wire {name} from {end} when CONDITION, to ground when CONDITION`",
    ),
    Habit(
        ("harness",), r"\Awire\s+(?P<name>\w+)\b.*\bfrom\s+(?P<end>\w+)\s+", r"to\s+(?P<other>\w+)", "",
        "The line of a wire says what it comes from, and not where it leads.",
        "`wire {name} from {end}`, and another line: `join {name} with {other}`",
    ),
    Habit(
        ("harness",), r"\A(?:source|ground|wire|join)\b.*", r"(?:is\s+)?always\b.*", "_WHEN",
        "What is always so has no `when` and no other word for it.", "the line without it",
    ),
    Habit(
        ("harness",), r"\A", r"(?:\w+\s+)?fuse\b", "",
        "A fuse has no line of its own: it is noted with the wire, the load or the output that it protects.",
        "it there: `wire feed from plus, fuse 30 A`, or `load bilge_pump on pump_wire 4 A, fuse 10 A`",
    ),
    Habit(
        ("harness",), r"\Awire\b.*", r"(?P<part>fuse|wire|bundle|drop)\b", "",
        "Before the fuse of a wire, and before each word on how it lies, stands a comma.", "`, {part}`",
    ),
    Habit(
        ("harness",), r"\Arelay\b.*", r"draws\b", "", "Before what the coil draws stands a comma.", "`, draws 0.15 A`",
    ),
    Habit(
        ("harness", "controller", "electrics"), r"\A(?:load|output|battery)\b.*",
        r"(?P<part>inrush|fuse|wire|bundle|in|drop|reserve|cranks|loses)\b", "COMMA",
        "Between the parts of the line stand commas.", "`, {part}`",
    ),
    Habit(
        ("harness", "controller"), r",\s*engine\s+", r"space\b", "",
        "A wire lies in the engine space.", "`in engine space`",
    ),
    Habit(
        ("harness", "controller"), r"\bbundle\s+", r"(?P<count>\d+)\b", "",
        "A bundle is so many conductors that lie together.", "`bundle of {count}`",
    ),
    Habit(
        ("electrics",), r"\bloses\s+(?P<part>[\d.]+\s*%)\s*", r"(?:per\b|each\b|every\b|in\b|/).*", "",
        "What a battery loses by itself is said for a month.", "`loses {part} a month`",
    ),
    Habit(
        ("electrics",), r"\A(?P<word>nominal|ambient|engine\s+space|apart)\s+", r"(?:=|is\b|at\b|of\b|by\b)", "",
        "Behind the word stands the quantity itself.", "`{word} QUANTITY`",
    ),
    Habit(("electrics",), r"\A", r"engine_space\b", "", "Here these are two words.", "`engine space`"),
    Habit(
        ("harness",), r"\Arelay\s+(?P<name>\w+)\b.*", r"(?:contacts?|switches|from|feeds|closes|joins)\b", "$END",
        "The contact of a relay is a wire or a join of its own.",
        "a line of its own: `wire NAME from END when {name}`, or `join WIRE with WIRE when {name}`",
    ),
    Habit(
        ("header",), r"\bchecklist\b.*", r"waive\s+(?P<name>\w+)", "$END",
        "Before `waive` stands a comma, as between all that stands behind `with`.", "`, waive {name}`",
    ),
    Habit(
        ("header",), r"\bwaive\s+(?P<name>\w+)\s*", r"(?:=|:|because\b|as\b)", "",
        "Behind a requirement that is waived stands the reason, in quotes.", "`waive {name} \"REASON\"`",
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
        or _figures(stop, piece)
        or _without_unit(stop, piece, block)
        or _in_place(stop)
        or _said(stop, piece, block)
        or _form(stop, piece)
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


def _figures(stop: Stop, piece: Piece) -> Found | None:
    """`five s`, `three minutes`"""
    units = {**{unit: unit for unit in UNITS}, "second": "s", "minute": "min", "hour": "h"}
    number = rf"\b({'|'.join(NUMBERS)})\s+({'|'.join(map(re.escape, units))})s?(?!\w)"
    for found in re.finditer(number, piece.text):
        if found.start() <= stop.at <= found.end():
            ours = f"`{NUMBERS[found[1]]} {units[found[2]]}`"
            return SaidOtherwise("A number is written in figures.", ours), found.start(), found.end()
    return None


def _without_unit(stop: Stop, piece: Piece, block: str) -> Found | None:
    """`at 5 door is open`: the thing reads as the unit of the time, and the parser stops behind it."""
    found = re.match(r"(?:at|from)\s+(\d+(?:\.\d+)?)\s+(\w+)\s+(?:is|above|below|at|in)\b", piece.text)
    if block != "scenario" or found is None or found[2] in UNITS or stop.at < found.end(1):
        return None
    return MissingUnit(found[1], ("s", "min", "h")), found.start(1), found.end(1)


def _form(stop: Stop, piece: Piece) -> Found | None:
    """`timer(x, 3 s)`"""
    before = re.search(r"\b([A-Za-z]\w*)\Z", piece.text[: stop.at])
    if stop.text != "(" or before is None or before[1] in RESERVED:
        return None
    meant = OTHER_FORMS.get(before[1].lower()) or near(before[1], list(FORMS)) or tuple(FORMS)
    ours = listed([FORMS[name] for name in meant], "or", len(FORMS))
    return SaidOtherwise(f"There is no timer and no stored state `{before[1]}`.", ours), before.start(), before.end()


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
