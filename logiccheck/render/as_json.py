"""A report as JSON and back, and the schema of it: whole, exact, in an order that never changes."""

from __future__ import annotations

import json

from logiccheck.base.json_text import json_text
from logiccheck.base.records import Plain, Unfit, plain, typed
from logiccheck.base.schema import DRAFT, definitions, reference
from logiccheck.base.version import LANGUAGE, VERSION
from logiccheck.report.report import Report

FORMAT = "logiccheck report"
NUMBER = 1  # of the format; raised when something is taken out or gets another meaning, not when something is added


def render(report: Report) -> str:
    """The report and what made it, two blanks a level, with a line end at its end; it can be written as UTF-8."""
    tool: Plain = {"name": "logiccheck", "version": VERSION, "language": LANGUAGE}
    return json_text({"format": FORMAT, "number": NUMBER, "tool": tool, "report": plain(report)})


def read(text: str) -> Report:
    """The report that `render` made `text` of. Raises Unfit for a text that is no such report."""
    try:
        document = json.loads(text)
    except ValueError as error:
        raise Unfit(f"this is no JSON: {error}") from None
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise Unfit(f'"format" is not "{FORMAT}"')
    if document.get("number") != NUMBER:
        raise Unfit(f'"number" is not {NUMBER}: this report was written by another logiccheck')
    return typed(Report, document.get("report"))


def schema() -> str:
    """The JSON Schema of what `render` writes."""
    tool: Plain = {
        "type": "object",
        "properties": {"name": {"const": "logiccheck"}, "version": {"type": "string"}, "language": {"type": "integer"}},
        "required": ["name", "version", "language"],
    }
    parts: dict[str, Plain] = {
        "format": {"const": FORMAT},
        "number": {"const": NUMBER},
        "tool": tool,
        "report": {**reference(Report)},
    }
    return json_text(
        {
            "$schema": DRAFT,
            "title": f"{FORMAT}, number {NUMBER}",
            "type": "object",
            "properties": parts,
            "required": [*parts],
            "$defs": definitions(Report),
        }
    )
