"""The whole pipeline on one screen: sources in, report out, no input or output of its own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from logiccheck.engine.check import check_program
from logiccheck.lang.load import Loaded, Reader, load
from logiccheck.lang.program import Program
from logiccheck.report.checked import check_report
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.notices import notices
from logiccheck.report.played import play_report, played_part
from logiccheck.report.report import PlayedPart, Report
from logiccheck.report.rules import rules_report
from logiccheck.report.saved import Saved, saved
from logiccheck.study.findings import findings
from logiccheck.study.simulate import simulate


@dataclass(frozen=True, slots=True)
class Answer:
    """A report, and the stories of it as files that may be written."""

    report: Report
    stories: tuple[Saved, ...] = ()


def check(
    path: str, reader: Reader, budget: float, only: tuple[str, ...], progress: Callable[[str], None] | None
) -> Answer:
    """Prove every requirement of the file (or those named in `only`), each within `budget` seconds."""
    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    known = [requirement.name for requirement in program.requirements]
    for name in only:
        if name not in known:
            return Answer(unknown("requirement", name, known))
    found = check_program(program, budget, progress, set(only) or None)
    report = check_report(
        program,
        loaded.files,
        found,
        notices=notices(findings(program), loaded.texts),
        played=_expected(program, loaded),
        left_out=len(known) - len(set(only)) if only else 0,
    )
    return Answer(report, saved(program, found, loaded.texts))


def _expected(program: Program, loaded: Loaded) -> tuple[PlayedPart, ...]:
    """The scenarios that expect something, played; shown only where it was in vain."""
    simulations = [simulate(program, scenario) for scenario in program.scenarios if scenario.expectations]
    return tuple(played_part(program, simulation, loaded.texts, whole=False) for simulation in simulations)


def show(path: str, reader: Reader, name: str | None) -> Report:
    """The rules and outputs of the file, or the one of that name, as written, unfolded and simplified."""
    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return mistaken(path, loaded)
    known = [rule.name for rule in (program.box.rules if program.box else ())]
    if name is not None and name not in known:
        return unknown("rule or output", name, known)
    return rules_report(program, loaded.texts, known if name is None else [name])


def play(path: str, reader: Reader, name: str | None, other: str | None) -> Report:
    """Play the scenario of that name, or all: of the file, or of the file `other`, such as a saved story."""
    loaded = load(path, reader, () if other is None else (other,))
    program = loaded.program
    if program is None:
        return mistaken(path, loaded)
    scenarios = [scenario for scenario in program.scenarios if other in (None, scenario.span.file)]
    known = [scenario.name for scenario in scenarios]
    if name is not None and name not in known:
        return unknown("scenario", name, known)
    chosen = [scenario for scenario in scenarios if name in (None, scenario.name)]
    return play_report(program, loaded.files, [simulate(program, scenario) for scenario in chosen])
