"""Writes the tables of the grammar anew, after the grammar or Lark has changed: `python -m tests.lang.write_tables`."""

from __future__ import annotations

from logiccheck.lang.parse import tables
from tests.calling import ROOT

if __name__ == "__main__":
    (ROOT / "grammar" / "circuit.tables").write_bytes(tables())
