"""Parses the pieces of a layout with Lark into the tree as written; the only module that knows Lark."""

from __future__ import annotations

import re
from functools import cache
from hashlib import sha256
from io import BytesIO
from typing import Any, TypeAlias

from lark import Lark, Tree, UnexpectedCharacters, UnexpectedInput, UnexpectedToken
from lark import Token as LarkToken
from lark import __version__ as lark_version

from logiccheck.base import limits
from logiccheck.base.assets import grammar_tables, grammar_text
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.span import Span
from logiccheck.lang import written as w
from logiccheck.lang.brackets import bracket_mistake
from logiccheck.lang.build import BUILDERS, Token
from logiccheck.lang.layout import Piece, RawBlock, lay_out
from logiccheck.lang.lost import lost_names
from logiccheck.lang.mistakes.layout import TooDeep
from logiccheck.lang.stop import Stop
from logiccheck.lang.unexpected import explain, misplaced
from logiccheck.lang.words import FREE, ITEM_WORDS

NAME = re.compile(r"[^\W\d_]\w*")
_ITEM_DEPTH = 8  # of the tree of an item around its conditions
Trees: TypeAlias = dict[tuple[str, str], Any]  # what Lark made of pieces, by what they are to be and their text
_STARTS = ("header", *(f"{block}_item" for block in ITEM_WORDS))


@cache
def _lark() -> Lark:
    """From the tables that ship, where this Lark made them of this grammar: that takes a tenth of the time."""
    grammar, shipped = grammar_text(), grammar_tables()
    made_of = _made_of(grammar)
    return Lark.load(BytesIO(shipped[len(made_of) :])) if shipped.startswith(made_of) else _made(grammar)


def tables() -> bytes:
    """The tables of the grammar, as they ship; a text before them says what made them of what."""
    grammar, file = grammar_text(), BytesIO()
    _made(grammar).save(file)
    return _made_of(grammar) + file.getvalue()


def _made_of(grammar: str) -> bytes:
    return f"Lark {lark_version}, grammar {sha256(grammar.encode()).hexdigest()}\n".encode()


def _made(grammar: str) -> Lark:
    return Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=list(_STARTS),
        propagate_positions=True,
        maybe_placeholders=True,
    )


def parse(text: str, path: str, trees: Trees | None = None) -> tuple[w.File, tuple[Diagnostic, ...]]:
    """The tree of a text as written, and all mistakes of layout and shape in it. Pieces among `trees` are not read
    anew, and those that are read come among them."""
    layout = lay_out(text, path)
    found = list(layout.diagnostics)
    lost: set[str] = set()
    blocks = tuple(_block(raw, path, found, lost, {} if trees is None else trees) for raw in layout.blocks)
    return w.File(path, text, blocks, frozenset(lost)), tuple(found)


def _block(raw: RawBlock, path: str, found: list[Diagnostic], lost: set[str], trees: Trees) -> w.Block:
    word = raw.header.word
    header = _piece(raw.header, "header", path, found, trees)
    if header is None:
        lost.update(lost_names(raw.header))
        header = w.Plain(word, Span(path, raw.header.begin, raw.header.end))
    items: list[w.Item] = []
    for piece in raw.items:
        item = _piece(piece, word, path, found, trees)
        if item is None:
            lost.update(lost_names(piece))
        else:
            items.append(item)
    return w.Block(header, tuple(items))


def _piece(piece: Piece, block: str, path: str, found: list[Diagnostic], trees: Trees) -> Any:
    """The node a piece of block `block` stands for ("header" for column 0); None, and told, if it is none."""
    if piece.broken:
        return None
    mistake = bracket_mistake(piece, path) or (misplaced(piece, block, path) if block != "header" else None)
    if mistake is None:
        try:
            start = "header" if block == "header" else f"{block}_item"
            if (tree := trees.get((start, piece.text))) is None:
                tree = trees[start, piece.text] = _lark().parse(piece.text, start=start)
            return _build(tree, piece, path)
        except UnexpectedInput as unexpected:
            mistake = explain(_stop(unexpected, piece), piece, block, path)
        except _TooDeep as deep:
            mistake = Diagnostic(TooDeep(limits.NESTING), deep.span)
    found.append(mistake)
    return None


class _TooDeep(Exception):
    """The tree of an item is deeper than the limit."""

    def __init__(self, span: Span) -> None:
        super().__init__(span)
        self.span = span


def _build(root: Any, piece: Piece, path: str) -> Any:
    """Builds bottom-up without recursion, so that the depth of nesting is told and not suffered."""
    done: list[list[Any]] = [[]]
    todo: list[tuple[Any, bool]] = [(root, False)]
    while todo:
        node, children_done = todo.pop()
        if not isinstance(node, Tree):
            done[-1].append(_token(node, piece, path) if isinstance(node, LarkToken) else node)
            continue
        span = Span(path, piece.begin + node.meta.start_pos, piece.begin + node.meta.end_pos)
        if children_done:
            children = done.pop()
            if node.data == "xor_" and len(children) > 2 * limits.NESTING:  # it is read two by two
                raise _TooDeep(Span(path, span.begin, span.begin + 1))
            done[-1].append(BUILDERS[str(node.data)](span, children))
        elif len(done) > limits.NESTING + _ITEM_DEPTH:
            raise _TooDeep(Span(path, span.begin, span.begin + 1))
        else:
            done.append([])
            todo.append((node, True))
            todo.extend((child, False) for child in reversed(node.children))
    return done[0][0]


def _token(token: LarkToken, piece: Piece, path: str) -> Token:
    assert token.start_pos is not None
    before = token.start_pos
    while before > 0 and piece.text[before - 1] in " \t\n":
        before -= 1
    begin = piece.begin + token.start_pos
    return Token(token.type, str(token), Span(path, begin, begin + len(token)), token.start_pos - before)


def _stop(unexpected: UnexpectedInput, piece: Piece) -> Stop:
    """Where Lark stopped, without Lark."""
    end = len(piece.text.rstrip())
    match unexpected:
        case UnexpectedToken(token=LarkToken(type="$END")):
            return Stop(end, "", "$END", frozenset(unexpected.accepts or unexpected.expected))
        case UnexpectedToken():
            expected = frozenset(unexpected.accepts or unexpected.expected)
            at = _offset(unexpected)
            name = NAME.match(piece.text, at) if unexpected.token.type == "UNIT" else None
            if name is not None:  # the two look alike, and a name may be longer
                return Stop(at, name[0], "NAME", expected)
            kind = "NAME" if str(unexpected.token) in FREE else unexpected.token.type
            return Stop(at, str(unexpected.token), kind, expected)
        case UnexpectedCharacters():
            return Stop(_offset(unexpected), unexpected.char, "", frozenset(unexpected.allowed or ()))
        case _:
            return Stop(end, "", "$END", frozenset())


def _offset(unexpected: UnexpectedInput) -> int:
    place: object = unexpected.pos_in_stream
    return place if isinstance(place, int) else 0
