"""Random sentences of the language, derived from its grammar, with names that a small vehicle knows."""

from __future__ import annotations

import random
from functools import cache

from lark import Lark
from lark.grammar import NonTerminal, Rule

from logiccheck.base.assets import grammar_text
from logiccheck.base.units import OTHER_SPELLINGS, UNITS
from logiccheck.lang.words import ITEM_WORDS
from tests.lang.vehicle import BLOCKS

NAMES = (
    *("key", "door", "brake", "engine", "plus", "feed", "key_wire", "door_wire", "wake", "wake_wire"),
    *("key_on", "revs", "lamp", "powered", "x", "y", "deadline", "off", "run", "open", "closed", "start"),
)
TRUTHS = ("brake", "plus", "feed", "key_wire", "wake", "lamp", "powered", "key_on")  # what is on or off
OF_THE_BOX = ("key_on", "lamp")
SWITCHES = {"key": ("off", "run", "start"), "door": ("closed", "open"), "brake": ("on", "off"), "lamp": ("on", "off")}
FITTING: dict[str, tuple[str, ...]] = {
    "from_": ("plus", "key_wire", "feed"),
    "to_": ("ground",),
    "otherwise": ("plus", "feed"),
    "diode": ("key_wire", "door_wire", "wake", "wake_wire"),
    "join": ("key_wire", "door_wire", "wake", "wake_wire"),
    "given_no_jumps": ("engine",),
    "given_changes": ("key", "door"),
}
ELECTRICAL = {"current": ("4 A",), "inrush": ("9 A",), "fuse": ("10 A",), "run": ("1.5 mm2", "4 m")}
COMPARED = ("above", "below", "at_least", "at_most", "above_until_below", "below_until_above")
NAMED = ("rule", "output", "sense", "wire", "source", "relay", "ground", "load", "contact", "number", "switch")
NAMED += ("requirements_item", "constants_item")
LABELS = ('"Label"', '""', '" "', '"a # b"', '"(: [x]"', '"\u6cf5 \u2193"')
NUMBERS = (
    "0",
    "1",
    "3",
    "0.5",
    "400",
    "-1",
    "10",
    "7000",
    "1000000000000",
    "0.0000001",
    "123456789012345678901234567890",
)
SIMPLE = {"LPAR": "(", "RPAR": ")", "LBRACE": "{", "RBRACE": "}", "COMMA": ",", "VBAR": "|", "EQUAL": "=", "SLASH": "/"}


@cache
def _grammar() -> tuple[dict[str, list[Rule]], dict[str, int], dict[str, str]]:
    """The rules of each symbol, how deep each symbol is at least, and the text of each fixed terminal."""
    starts = ["header", *(f"{block}_item" for block in ITEM_WORDS)]
    lark = Lark(grammar_text(), parser="lalr", start=starts, maybe_placeholders=True)
    rules: dict[str, list[Rule]] = {}
    for rule in lark.rules:
        rules.setdefault(rule.origin.name, []).append(rule)
    depth: dict[str, int] = {}
    while len(depth) < len(rules):
        for name, each in rules.items():
            known = [_depth(rule, depth) for rule in each]
            finite = [deep for deep in known if deep is not None]
            if finite:
                depth[name] = 1 + min(finite)
    words = {}
    for terminal in lark.terminals:
        pattern = terminal.pattern.value
        words[terminal.name] = pattern.removesuffix("\\b").replace("\\", "")
    return rules, depth, words


def _depth(rule: Rule, depth: dict[str, int]) -> int | None:
    parts = [depth.get(symbol.name) if isinstance(symbol, NonTerminal) else 0 for symbol in rule.expansion]
    return None if None in parts else max((part for part in parts if part is not None), default=0)


def sentence(chance: random.Random, start: str) -> str:
    """One random item (or header) of the start symbol `start`; from some depth on the shortest way out is taken.

    Most names fit where they stand.
    """
    deepest = chance.choice((3, 6, 9, 9, 12, 12, 16))
    rules, depth, words = _grammar()
    parts: list[str] = []
    todo: list[tuple[str, bool, int, tuple[str, ...]]] = [(start, True, 0, (start,))]
    while todo:
        name, inner, level, within = todo.pop()
        fitting = _fitting(chance, name, within, parts) if chance.random() < 0.97 else ""
        if fitting or not inner:
            parts.append(fitting or _token(chance, name, words))
            continue
        choices = rules[name]
        if level > deepest or chance.random() < 0.3:
            least = min(_depth(rule, depth) or 0 for rule in choices)
            choices = [rule for rule in choices if (_depth(rule, depth) or 0) == least]
        rule = chance.choice(choices)
        for symbol in reversed(rule.expansion):
            around = (*within, str(rule.alias or rule.origin.name))
            todo.append((symbol.name, isinstance(symbol, NonTerminal), level + 1, around))
    return " ".join(parts)


def _fitting(chance: random.Random, name: str, within: tuple[str, ...], before: list[str]) -> str:
    """Words that have a meaning there; "" where none are known."""
    place = next((each for each in reversed(within) if not each.startswith("_")), "")
    box = within[0] == "controller_item"
    subject = next((each for each in reversed(before) if each in SWITCHES), "lamp")
    match name:
        case "amount" | "quantity" if any(each in COMPARED or each == "number" for each in within):
            return chance.choice(("400 rpm", "0 rpm", "7000 rpm", "300 rpm"))
        case "amount" | "quantity" if any(each in ELECTRICAL for each in within):
            return chance.choice(ELECTRICAL[next(each for each in reversed(within) if each in ELECTRICAL)])
        case "amount" | "quantity":
            return chance.choice(("1 s", "3 s", "0.5 s", "4 min"))
        case "window":
            return chance.choice(("1 s", "3 s", "4 min +- 10 %", "from 2 s to 3 s"))
        case "value":
            return chance.choice(SWITCHES[subject])
        case "NAME" if place in COMPARED:
            return "revs" if box else "engine"
        case "NAME" if place in ("is_", "is_not", "in_", "becomes"):
            return chance.choice(OF_THE_BOX if box else ("key", "door", "brake"))
        case "NAME" if place == "bare":
            return chance.choice(OF_THE_BOX if box else ("brake",) if within[0] == "given_item" else TRUTHS)
        case "NAME" if place in FITTING:
            return chance.choice(FITTING[place])
        case "NAME" if place in NAMED and len(before) < 3:
            return f"new{chance.randrange(1_000)}"
        case _:
            return ""


def _token(chance: random.Random, name: str, words: dict[str, str]) -> str:
    match name:
        case "NAME":
            return chance.choice(NAMES)
        case "NUMBER":
            return chance.choice(NUMBERS)
        case "STRING":
            return chance.choice(LABELS)
        case "UNIT":
            return chance.choice(("s", "ms", "rpm", "A", "min", *UNITS, *OTHER_SPELLINGS))
        case "FINDING":
            return chance.choice(("unused-name", "W101", "requirement", "wire-x"))
        case "DATE":
            return chance.choice(("2026-11-02", "2026-02-30", "YYYY-MM-DD"))
        case "MARK":
            return chance.choice(("4f1c-9a2e", "4f1c9a2e", "x"))
        case "_PLUS_MINUS":
            return "+-"
        case _:
            return SIMPLE.get(name, words[name])


def vehicle(chance: random.Random) -> str:
    """A small vehicle, and random items of every block mixed into it."""
    lines = ['vehicle "Small"']
    blocks = {
        "constants": (),
        **BLOCKS,
        "given": (),
        "requirements": ("danger asked never lamp while key is off",),
        "accepted": (),
        "scenario drive": (),
    }
    for header, items in blocks.items():
        start = f"{header.split()[0]}_item"
        items = [*items, *(sentence(chance, start) for _ in range(chance.choice((0, 0, 0, 0, 0, 0, 1, 1, 2))))]
        if chance.random() < 0.1:
            chance.shuffle(items)
        if items:
            lines += [header, *(f"    {item}" for item in items)]
    if chance.random() < 0.1:
        lines.insert(chance.randrange(len(lines) + 1), sentence(chance, "header"))
    return "\n".join(lines) + "\n"
