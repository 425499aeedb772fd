"""From sources to the ways through the harness: all ways to one wire, or what is wrong with the harness."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from logiccheck.base.budget import Budget
from logiccheck.lang.load import Reader, load
from logiccheck.lang.program import Program
from logiccheck.report.drawn import drawn
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.session.answer import Answer
from logiccheck.study.findings import Linted, accepted_of, known_kinds, linted

COPPER = ("fed-from-behind", "backward-diode", "keeps-itself-awake")  # findings about the harness
LINT_SHARE = 0.3  # of the time, for these


def paths(
    path: str,
    reader: Reader,
    wire: str | None,
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """All ways to the wire of this name, or to that of the load; without a name what is wrong with the harness.

    `decided` is called between the search and the report. All of it takes `budget` seconds at most.
    """
    from logiccheck.explain.asking import Seen  # loads sympy, as what follows
    from logiccheck.report.harness import harness_report
    from logiccheck.report.through import wire_report
    from logiccheck.study.harness import to_wire, whole

    loaded = known_kinds(load(path, reader))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    if wire is not None:
        known = [each.name for each in program.wires]
        named = next((load.wire for load in program.loads if load.name == wire), wire)
        if named not in known:
            return Answer(unknown("wire", wire, known))
        ways = to_wire(program, named, Budget(budget), progress)
        decided()
        report = wire_report(program, loaded.files, ways)
        return Answer(replace(report, drawing=drawn(program, loaded.files)), bugs=ways.bugs)
    found = whole(program, Budget((1 - LINT_SHARE) * budget), progress)
    looked = _linted(program, 0.0 if found.interrupted else LINT_SHARE * budget, progress)
    told = {each.suspect.wire for each in found.sneaks if isinstance(each.answer, Seen)}
    findings = tuple(f for f in looked.findings if f.message.name != COPPER[0] or not told & set(f.signals))
    looked = replace(looked, findings=findings)
    decided()
    report = harness_report(program, loaded.files, found, looked, accepted_of(program, looked, None, COPPER))
    return Answer(replace(report, drawing=drawn(program, loaded.files)), bugs=(*found.questions.bugs, *looked.bugs))


def _linted(program: Program, seconds: float, progress: Callable[[str], None]) -> Linted:
    from logiccheck.explain.surveyed.survey import Survey

    return linted(program, Survey(program, Budget(seconds)) if seconds else None, COPPER, progress)
