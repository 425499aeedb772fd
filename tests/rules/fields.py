"""Reads the fields "reason", "kind" and "source" above each requirement of a checklist."""

from __future__ import annotations

import re
from functools import cache

from tests.examples.reading import ROOT

_REQUIREMENT = re.compile(r" +(?:danger|damage|function) +(\w+)")
_FIELD = re.compile(r" +# (reason|kind|source): +(\S.*)")


@cache
def fields_of(checklist: str) -> dict[str, dict[str, str]]:
    """For each requirement the fields of the comment right above it."""
    found: dict[str, dict[str, str]] = {}
    fields: dict[str, str] = {}
    last = ""
    for line in (ROOT / "rules" / f"{checklist}.circuit").read_text(encoding="utf-8").splitlines():
        if match := _FIELD.fullmatch(line):
            last = match[1]
            fields[last] = match[2]
        elif match := re.fullmatch(r" +# +(\S.*)", line):
            if last:
                fields[last] += " " + match[1]
        else:
            if match := _REQUIREMENT.match(line):
                found[match[1]] = fields
            fields, last = {}, ""
    return found
