"""Turns the place where the parser could not go on into the mistake that was most probably made."""

from __future__ import annotations

import re

from logiccheck.base.diagnostic import Diagnostic, Message
from logiccheck.base.span import Span
from logiccheck.lang.brackets import brackets_open_at
from logiccheck.lang.habits import Found, habit
from logiccheck.lang.layout import Piece, block_of
from logiccheck.lang.mistakes.layout import WrongBlock
from logiccheck.lang.mistakes.phrases import begin
from logiccheck.lang.mistakes.syntax import (
    DecimalComma,
    ExtraText,
    ForeignSign,
    ForeignWord,
    IsAndComparison,
    MissingCondition,
    MissingGuard,
    MissingOperator,
    WrongShape,
)
from logiccheck.lang.shapes import FUNCTIONS, shape_of_line
from logiccheck.lang.stop import Stop
from logiccheck.lang.words import ITEM_WORDS, RESERVED

# Each sign of other languages with the word of ours; the longer sign first.
SIGNS: dict[str, str] = {
    "&&": "and", "||": "or", "==": "is", "!=": "is not", "<>": "is not", "<=": "at most", ">=": "at least",
    "=>": "calls for", "->": "calls for", "+/-": "+-", "...": "..", "&": "and", "*": "and", "∧": "and", "|": "or",
    "∨": "or", "!": "not", "~": "not", "¬": "not", "^": "xor", "=": "is", "≠": "is not", "<": "below", ">": "above",
    "≤": "at most", "≥": "at least", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"', "'": '"', "’": '"', "`": '"',
    "–": "-", "−": "-", "→": "->", "[": "(", "]": ")", ";": "", ":": "", "?": "", "@": "", "\\": "", "$": "",
}  # fmt: skip

WORDS: dict[str, str] = {
    "if": "when", "then": "calls for", "equals": "is", "equal": "is", "greater": "above", "less": "below",
    "over": "above", "under": "below", "isn't": "is not", "yes": "true", "no": "false", "unless": "and not",
    "delay": "on_delay", "ton": "on_delay", "tof": "off_delay", "tp": "one_shot", "latch": "bistable",
    "flipflop": "bistable", "toggle": "impulse_relay", "pulse": "one_shot", "nor": "or", "but": "and",
}  # fmt: skip

_ELECTRICS = re.compile(
    r"(?:(?:nominal|ambient|apart)\s+\d|engine\s+space\b|parked\s+when\b|tell_tale\b"
    r"|battery\s+\w+\s+(?:\d|reserve|cranks|loses)|dip\s+\w+\s+while\b)"
)
_ATOMS = frozenset({"NAME", "TRUE", "FALSE", "LPAR", "ON_DELAY", "OFF_DELAY", "ONE_SHOT", "_BLINK", "_BISTABLE"}) | {
    "_IMPULSE_RELAY", "RISES", "FALLS", "_PREVIOUS", "_NOT",
}  # fmt: skip
_STATES = frozenset({"ON", "OFF", "LIVE", "GROUNDED"})
_JOINING = frozenset({"and", "or", "xor", "is", "above", "below"})
_COMPARISONS = ("above", "below", "at least", "at most")


def explain(stop: Stop, piece: Piece, block: str, file: str) -> Diagnostic:
    """The mistake of a piece of block `block` ("header" for column 0)."""
    found = habit(stop, piece, block)
    for guess in (_sign, _word, _comma, _is_comparison, _condition, _operator):
        found = found or guess(stop, piece)
    if found is not None:
        message, begin, end = found
        return Diagnostic(message, Span(file, piece.begin + begin, piece.begin + end))
    end = stop.at + len(stop.text) if stop.kind != "$END" else stop.at
    span = Span(file, piece.begin + stop.at, piece.begin + end)
    return Diagnostic(_shape(stop, piece, block), span)


def misplaced(piece: Piece, block: str, file: str) -> Diagnostic | None:
    """The mistake of an item that belongs in another block."""
    wanted = block_of(piece.word) or ("electrics" if _of_electrics(piece, block) else "")
    if not wanted or piece.word in ITEM_WORDS[block] or (block == "requirements" and wanted == "given"):
        return None  # a requirement without its first words looks like an assumption
    return Diagnostic(WrongBlock(piece.word, block, wanted), Span(file, piece.begin, piece.begin + len(piece.word)))


def _of_electrics(piece: Piece, block: str) -> bool:
    """Whether the item, where none begins with a name, begins like a line of `electrics`."""
    return block in ("harness", "controller", "requirements") and bool(_ELECTRICS.match(piece.text))


def seen(stop: Stop) -> str:
    """What stands at the place, as the subject of a sentence; "" at the end."""
    return "" if stop.kind == "$END" else f"`{begin(stop.text)}`"


def _sign(stop: Stop, piece: Piece) -> Found | None:
    """A sign of another language, perhaps begun by the token before."""
    for back in (1, 0):
        begin = stop.at - back
        for sign, ours in SIGNS.items():
            longer = len(sign) > 1 if back else True
            if begin >= 0 and longer and piece.text.startswith(sign, begin):
                if sign == "==" and piece.text[:begin].count("=") == 0 and piece.word == "rule":
                    ours = "="
                return ForeignSign(sign, ours), begin, begin + len(sign)
    return None


def _word(stop: Stop, piece: Piece) -> Found | None:
    """A word of another language, or one of ours in capitals."""
    end = stop.at + len(stop.text)
    if stop.text.lower() != stop.text and stop.text.lower() in RESERVED:
        return ForeignWord(stop.text, stop.text.lower()), stop.at, end
    ours = WORDS.get(stop.text.lower())
    if ours is not None and stop.kind == "NAME":
        return ForeignWord(stop.text, ours), stop.at, end
    return None


def _comma(stop: Stop, piece: Piece) -> Found | None:
    """`2,5`: the parser stops at the comma, or behind it."""
    for found in re.finditer(r"(\d+),(\d+)", piece.text):
        if found.start() <= stop.at <= found.end():
            return DecimalComma(found[1], found[2]), found.start(), found.end()
    return None


def _is_comparison(stop: Stop, piece: Piece) -> Found | None:
    """`x is above 3 rpm`: after `is` the comparison reads as a value, and the parser stops behind it."""
    before = piece.text[: stop.at].split()
    for word in _COMPARISONS:
        parts = word.split()
        said = before[-len(parts) :]
        if said == parts and before[-len(parts) - 1 : -len(parts)] == ["is"] and len(before) > len(parts) + 1:
            begin = piece.text.rindex("is", 0, stop.at)
            if len(parts) == 2:
                begin = piece.text.rindex("is", 0, piece.text.rindex("at", 0, stop.at))
            return IsAndComparison(before[-len(parts) - 2].lstrip("("), word), begin, stop.at - 1
    if before[-2:] == ["is", "at"] and stop.text in ("least", "most") and len(before) > 2:
        begin = piece.text.rindex("is", 0, stop.at)
        end = stop.at + len(stop.text)
        return IsAndComparison(before[-3].lstrip("("), f"at {stop.text}"), begin, end
    return None


def _condition(stop: Stop, piece: Piece) -> Found | None:
    """A place where only a condition could stand; also where a word such as `and` was read as a name there."""
    before = re.search(r"(\w+)\s+\Z", piece.text[: stop.at])
    if before is not None and before[1] in _JOINING and "_AND" in stop.expected:
        return MissingCondition(f"`{before[1]}`"), before.start(1), before.end(1)
    choices = stop.expected & {"_NEVER", "_EXPECT"}  # where a line may also go on in another way
    if "_NOT" not in stop.expected or "LPAR" not in stop.expected or choices:
        return None
    end = stop.at + (len(stop.text) if stop.kind != "$END" else 0)
    return MissingCondition(seen(stop)), stop.at, end


def _operator(stop: Stop, piece: Piece) -> Found | None:
    """A second condition right behind the first."""
    if stop.kind in _ATOMS | _STATES and "_AND" in stop.expected:
        before = re.search(r"(\w+)\s+\Z", piece.text[: stop.at])
        name = stop.kind in _STATES | {"NAME"} and before is not None and before[1] not in RESERVED
        left = before[1] if before is not None and name else ""
        return MissingOperator(left, stop.text), stop.at, stop.at + len(stop.text)
    return None


def _shape(stop: Stop, piece: Piece, block: str) -> Message:
    """What the line, or the innermost timer or stored state around the place, is written like."""
    if block == "requirements":
        words = piece.text[: stop.at].split()
        if not words or (len(words) == 1 and words[0] in ITEM_WORDS[block]):
            return MissingGuard(guarded=bool(words))
    inner = brackets_open_at(piece.text, stop.at)
    last = re.search(r"(\w+)\s*\Z", piece.text[: stop.at])
    words_around = [inner[-1].before] if inner else []
    position = last is not None and last[1] == "in" and "LBRACE" not in stop.expected  # a switch may have one so named
    if last is not None and not inner and not position:
        words_around.append(last[1])
    for word in words_around:
        for shape in FUNCTIONS:
            if word == shape.words[-1] and re.search(r"\s+".join(shape.words), piece.text[: stop.at]):
                return WrongShape(seen(stop), shape.kind, shape.shape, shape.example)
    if "$END" in stop.expected:
        return ExtraText(seen(stop), _readable(stop.expected))
    shape = shape_of_line(block, re.findall(r"\w+", piece.text[:200]))
    return WrongShape(seen(stop), shape.kind, shape.shape, shape.example)


def _readable(expected: frozenset[str]) -> tuple[str, ...]:
    """The words among the terminals, in alphabetical order; none if there are many."""
    words = {name.strip("_").lower() for name in expected if name not in ("$END", "NAME", "UNIT", "STRING", "NUMBER")}
    return tuple(sorted(words & RESERVED)) if len(words & RESERVED) <= 4 else ()
