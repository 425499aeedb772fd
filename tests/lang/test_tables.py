"""The tables that ship are those of the grammar, and nothing reads otherwise with them than without."""

from __future__ import annotations

from hashlib import sha256

import pytest
from lark import __version__ as lark_version

from logiccheck.base.assets import grammar_tables, grammar_text
from logiccheck.lang import parse
from tests.calling import EXAMPLES, ROOT

AGAIN = "python -m tests.lang.write_tables"
TEXTS = [
    path.read_text(encoding="utf-8") for path in sorted([*EXAMPLES.rglob("*.circuit"), *ROOT.glob("rules/*.circuit")])
]
WRONG = [
    "harness\n    wire lamp_wire from plus when brake or\n",
    "world\n    key  off | run | start one by\n",
    "requirements\n    danger x never a b\n    danger y always ?\n",
    'scenario s "S"\n    at 3 s expect a b\n',
    "controller",
]


def test_the_tables_are_of_the_grammar() -> None:
    """Whoever changes the grammar writes the tables anew."""
    made_of = grammar_tables().split(b"\n", 1)[0].decode()
    assert made_of.endswith(sha256(grammar_text().encode()).hexdigest()), AGAIN


@pytest.mark.skipif(f"Lark {lark_version}," not in grammar_tables()[:40].decode("latin-1"), reason="another Lark")
def test_they_are_used(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is made of the grammar where they fit."""
    parse._lark.cache_clear()
    monkeypatch.setattr(parse, "_made", lambda _: pytest.fail("made anew"))
    assert parse.parse(TEXTS[0], "a.circuit")[1] == ()


@pytest.mark.parametrize("tables", [b"", b"Lark 1.2.2, grammar 0\n\x80\x05."])
def test_they_are_not_used_where_they_do_not_fit(tables: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
    """Tables of another grammar or another Lark, or none: the same trees and the same mistakes."""
    texts = [*TEXTS, *WRONG]
    parse._lark.cache_clear()
    with_them = [parse.parse(text, "a.circuit") for text in texts]
    monkeypatch.setattr(parse, "grammar_tables", lambda: tables)
    parse._lark.cache_clear()
    assert [parse.parse(text, "a.circuit") for text in texts] == with_them
    assert all(mistakes for _, mistakes in with_them[len(TEXTS) :])
    parse._lark.cache_clear()
