"""Parses the pieces of a layout with Lark into the tree as written; the only module that knows Lark."""

from __future__ import annotations

from functools import cache
from typing import Any

from lark import Lark, Tree, UnexpectedCharacters, UnexpectedInput, UnexpectedToken
from lark import Token as LarkToken

from logiccheck.base.assets import grammar_text
from logiccheck.base.diagnostic import Diagnostic
from logiccheck.base.span import Span
from logiccheck.lang import written as w
from logiccheck.lang.build import BUILDERS, Token
from logiccheck.lang.layout import Piece, RawBlock, lay_out
from logiccheck.lang.mistakes import syntax
from logiccheck.lang.words import ITEM_WORDS

_STARTS = ("header", *(f"{block}_item" for block in ITEM_WORDS))


@cache
def _lark() -> Lark:
    return Lark(
        grammar_text(),
        parser="lalr",
        lexer="contextual",
        start=list(_STARTS),
        propagate_positions=True,
        maybe_placeholders=True,
    )


def parse(text: str, path: str) -> tuple[w.File, tuple[Diagnostic, ...]]:
    """The tree of a text as written, and all mistakes of layout and shape in it."""
    layout = lay_out(text, path)
    found = list(layout.diagnostics)
    blocks: list[w.Block] = []
    for raw in layout.blocks:
        blocks.append(_block(raw, path, found))
    return w.File(path, text, tuple(blocks), frozenset()), tuple(found)


def _block(raw: RawBlock, path: str, found: list[Diagnostic]) -> w.Block:
    header = _piece(raw.header, "header", path, found)
    items = [_piece(piece, f"{raw.header.word}_item", path, found) for piece in raw.items]
    if header is None:
        header = w.Plain(raw.header.word, Span(path, raw.header.begin, raw.header.end))
    return w.Block(header, tuple(item for item in items if item is not None))


def _piece(piece: Piece, start: str, path: str, found: list[Diagnostic]) -> Any:
    """The node a piece stands for; None, with a diagnostic, if it has not the shape of one."""
    if piece.broken:
        return None
    try:
        tree = _lark().parse(piece.text, start=start)
    except UnexpectedInput as unexpected:
        found.append(_explain(unexpected, piece, path))
        return None
    return _build(tree, piece, path)


def _build(root: Any, piece: Piece, path: str) -> Any:
    """Builds bottom-up without recursion, so that no depth of nesting is too deep for it."""
    done: list[list[Any]] = [[]]
    todo: list[tuple[Any, bool]] = [(root, False)]
    while todo:
        node, children_done = todo.pop()
        if not isinstance(node, Tree):
            done[-1].append(_token(node, piece, path) if isinstance(node, LarkToken) else node)
        elif children_done:
            children = done.pop()
            span = Span(path, piece.begin + node.meta.start_pos, piece.begin + node.meta.end_pos)
            done[-1].append(BUILDERS[str(node.data)](span, children))
        else:
            done.append([])
            todo.append((node, True))
            todo.extend((child, False) for child in reversed(node.children))
    return done[0][0]


def _token(token: LarkToken, piece: Piece, path: str) -> Token:
    assert token.start_pos is not None
    begin = piece.begin + token.start_pos
    return Token(token.type, str(token), Span(path, begin, begin + len(token)))


def _explain(unexpected: UnexpectedInput, piece: Piece, path: str) -> Diagnostic:
    """The message for the place where the parser could not go on."""
    at = piece.begin + min(_offset(unexpected), len(piece.text))
    seen = "The end of the line"
    width = 1
    if isinstance(unexpected, UnexpectedToken) and unexpected.token.type != "$END":
        seen, width = f"`{unexpected.token}`", len(unexpected.token)
    elif isinstance(unexpected, UnexpectedCharacters):
        seen = f"`{unexpected.char}`"
    else:
        at = piece.end
    return Diagnostic(syntax.CannotRead(seen, ()), Span(path, at, at + width))


def _offset(unexpected: UnexpectedInput) -> int:
    """Where the parser stood; at the end of the text Lark has no place."""
    place: object = unexpected.pos_in_stream
    return place if isinstance(place, int) else 0
