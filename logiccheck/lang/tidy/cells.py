"""Where the parts of an item begin that stand in columns: its label, what it hangs on, when it is so, and so on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.lang.tidy.tokens import Token

_STAGED = ("fed", "feeds", "load")
_LAID = ("fuse", "wire", "bundle", "in", "drop")  # what begins a part that says how a wire lies
_ELECTRICS = {"engine": 2, "battery": 2, "dip": 2}  # lines that begin with two words


@frozen
class Cell:
    """Part of an item from token `at` on. Cells of the same `column` in a block stand under one another, but for "",
    which is none; columns of a lower `rank` stand further left. `gap` blanks stand before it where nothing else asks
    for more; a line may be broken there if `breaks`.
    """

    at: int
    column: str
    rank: int
    gap: int = 2
    breaks: bool = True


def cells_of(word: str, header: bool, tokens: Sequence[Token]) -> list[Cell]:
    """The cells of an item, or of a header, of the block that `word` opens: from left to right, also their ranks."""
    found = _cells(word, header, [token.text for token in tokens])
    done: list[Cell] = []
    rank = 0
    for cell in sorted((cell for cell in found if cell.at < len(tokens)), key=lambda cell: cell.at):
        done.append(cell if cell.rank > rank or header else replace(cell, column=""))
        rank = max(rank, cell.rank)
    return done


def _cells(word: str, header: bool, texts: list[str]) -> list[Cell]:
    if header:
        return list(_bindings(texts)) if word == "use" else []
    match word:
        case "constants":
            return [Cell(1, "=", 2, gap=1, breaks=False)]
        case "roles":
            return [Cell(1, "label", 1)]
        case "world":
            return list(_world(texts))
        case "harness":
            return list(_harness(texts))
        case "electrics":
            return [Cell(_ELECTRICS.get(texts[0], 1), "what", 1, breaks=False)]
        case "controller":
            return list(_controller(texts))
        case "requirements":
            label = _is_label(texts, 2)
            more = [Cell(2, "label", 2)] if label else []
            return [Cell(1, "name", 1, gap=1, breaks=False), *more, Cell(3 if label else 2, "form", 3)]
        case "accepted":
            parts = ("about", "reason", "by", "on", "logic")
            return [Cell(at, part, rank) for rank, (at, part) in enumerate(zip((1, 2, 3, 5, 7), parts, strict=True), 1)]
        case "scenario" if texts[0] == "at":
            return [Cell(2 if texts[1] == "first" else _quantity_end(texts, 1), "what", 1, breaks=False)]
        case _:
            return []


def _bindings(texts: list[str]) -> Iterator[Cell]:
    """`role = value` and `waive requirement "reason"` behind `use checklist`; each mostly begins a line."""
    depth = 0
    for at, text in enumerate(texts):
        depth += _deeper(text)
        if text == "=" and depth == 0:
            yield Cell(at, "=", 2, gap=1, breaks=False)
        elif text == "waive" and depth == 0:
            yield Cell(at + 2, "reason", 2)


def _world(texts: list[str]) -> Iterator[Cell]:
    if texts[:2] == ["at", "first"]:
        return
    label = _is_label(texts, 1)
    if label:
        yield Cell(1, "label", 1)
    yield Cell(2 if label else 1, "values", 2, breaks=label)
    if texts[-3:] == ["one", "by", "one"]:
        yield Cell(len(texts) - 3, "one by one", 3)


def _harness(texts: list[str]) -> Iterator[Cell]:
    kind = texts[0]
    if kind in ("diode", "join"):
        yield from _after(texts, "->", "diode", 1, gap=1)
        yield from _after(texts, "when", "join", 2)
        return
    label = _is_label(texts, 2)
    if label:
        yield Cell(2, "second", 1)
    at = 3 if label else 2
    match kind:
        case "wire" if at < len(texts):
            yield from _wire(texts, at, label)
        case "source" | "ground" if at < len(texts):
            yield Cell(at, f"{kind} when", 2, breaks=label)
        case "relay":
            yield Cell(at, "coil", 2, breaks=label)
            outside = _outside(texts)
            drawn = (i for i in range(1, len(texts)) if outside[i] == "draws" and outside[i - 1] == ",")
            draws = next(drawn, len(texts) + 1)
            if texts[draws - 3] == "supply":
                yield Cell(draws - 3, "supply", 3)
            yield Cell(draws, "draws", 4)
        case "load":
            yield Cell(at, "on", 2, breaks=label)
            if at + 2 < len(texts):
                yield Cell(at + 2, "amounts", 3)
        case _:
            pass


def _wire(texts: list[str], at: int, label: bool) -> Iterator[Cell]:
    """The connections of a wire, and behind them how it lies."""
    outside = _outside(texts)
    begins = (i for i in range(at, len(texts)) if outside[i] in _LAID and (i == at or outside[i - 1] == ","))
    laid = next(begins, len(texts))
    if texts[at] != "," and laid > at:
        yield Cell(at, "wire from" if label else "second", 1 if not label else 2, breaks=label)
    if "," not in outside[at : laid - 1]:
        yield from (cell for cell in _after(texts, "when", "wire when", 3 if label else 2) if cell.at < laid)
    if laid < len(texts):
        yield Cell(laid, "laid", 4)


def _controller(texts: list[str]) -> Iterator[Cell]:
    kind = texts[0]
    if kind == "draws":
        return
    label = _is_label(texts, 2)
    at = 3 if label else 2
    if kind == "rule":
        if label:
            yield Cell(2, "rule label", 1)
        yield Cell(at, "=", 2, gap=1, breaks=False)
    elif kind == "sense":
        if label:
            yield Cell(2, "sense second", 1)
        yield Cell(at, "sense from" if label else "sense second", 2 if label else 1, breaks=label)
        if at + 2 < len(texts) and texts[at + 2] in ("live", "grounded"):
            yield Cell(at + 2, "reading", 3)
        yield from _after(texts, "filter", "filter", 4, at + 2)
        yield from _after(texts, "substitute", "substitute", 5, at + 2)
    else:
        if label:
            yield Cell(2, "output label", 1)
        yield Cell(at, "output when", 2, breaks=label)
        for rank, word in enumerate(_STAGED, 3):
            yield from _after(texts, word, word, rank, at + 1)


def _after(texts: list[str], word: str, column: str, rank: int, begin: int = 1, gap: int = 2) -> Iterator[Cell]:
    """The cell that begins with the first `word` outside brackets from token `begin` on; none if there is none."""
    outside = _outside(texts)
    if word in outside[begin:]:
        yield Cell(outside.index(word, begin), column, rank, gap)


def _outside(texts: list[str]) -> list[str]:
    """The tokens, those inside brackets blanked."""
    depth = 0
    found: list[str] = []
    for text in texts:
        depth += _deeper(text)
        found.append("" if depth else text)
    return found


def _deeper(text: str) -> int:
    return (text in ("(", "{")) - (text in (")", "}"))


def _is_label(texts: list[str], at: int) -> bool:
    return at < len(texts) and texts[at].startswith('"')


def _quantity_end(texts: list[str], at: int) -> int:
    """The token after the quantity, or the name of a constant, that begins at token `at`."""
    if not texts[at][-1:].isdigit() or texts[at][0].isalpha():
        return at + 1
    for _ in ("number", "unit"):
        at += 3 if texts[at + 1 : at + 2] == ["/"] else 1
    return at
