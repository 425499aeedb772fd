"""Writes the schema of reports anew, after a part of them has changed: `python -m tests.render.write_schema`."""

from __future__ import annotations

from logiccheck.render.as_json import schema
from tests.calling import ROOT

PLACE = ROOT / "grammar" / "report.schema.json"

if __name__ == "__main__":
    PLACE.write_bytes(schema().encode())
