"""JSON as it is written everywhere: the same value, the same text."""

from __future__ import annotations

import json


def json_text(value: object) -> str:
    """Two blanks a level, a line end at the end. Half a character, as a broken file name may hold it, is written as
    JSON writes it: no encoding has it."""
    text = json.dumps(value, ensure_ascii=False, indent=2) + "\n"
    return text.encode("utf-8", "backslashreplace").decode("utf-8")
