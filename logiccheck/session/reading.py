"""From sources to the rules and outputs in the ways to read them."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.lang.load import Reader, load
from logiccheck.report.basis import files_read
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.report import Report


def show(path: str, reader: Reader, name: str | None) -> Report:
    """The rules and outputs of the file, or the one of that name, as written, unfolded and simplified."""
    from logiccheck.report.rules import rules_report  # loads sympy

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return mistaken(path, loaded)
    known = [rule.name for rule in (program.box.rules if program.box else ())]
    if name is not None and name not in known:
        return unknown("rule or output", name, known)
    report = rules_report(program, loaded.texts, known if name is None else [name])
    return replace(report, files=files_read(loaded.files))
