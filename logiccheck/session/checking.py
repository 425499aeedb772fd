"""From sources to the report of a check, or of the findings alone; no input or output of its own."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import TYPE_CHECKING

from logiccheck.base.budget import Budget
from logiccheck.certificate.taken import taken
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.verdict import Check, Kind
from logiccheck.explain.aside import Beside, Sought
from logiccheck.lang.load import Loaded, Reader, load
from logiccheck.lang.program import Program
from logiccheck.report.checked import check_report
from logiccheck.report.linted import lint_report
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.played import played_part
from logiccheck.report.report import PlayedPart
from logiccheck.report.saved import saved
from logiccheck.report.waived import waived_asked
from logiccheck.session.answer import Answer
from logiccheck.study.findings import MESSAGES, Linted, accepted_of, known_kinds, linted, names_of
from logiccheck.study.simulate import simulate

if TYPE_CHECKING:
    from logiccheck.engine.check import Crew


def check(
    path: str,
    reader: Reader,
    budget: float,
    only: tuple[str, ...],
    progress: Callable[[str], None] | None,
    decided: Callable[[], None] = lambda: None,
    engines: Collection[Engine] = BOTH,
    times: bool = False,
    crew: Crew | None = None,
    edits: float = 0.0,
    lint: float = 0.0,
    cases: float = 0.0,
) -> Answer:
    """Prove every requirement of the file (or those named in `only`), each within `budget` seconds.

    `decided` is called between the search and the report: what comes after it is not to be interrupted. `engines`
    search for proofs; `times`: the report says which of them decided what, and how long it took. A `crew` shares the
    work. `edits`: the seconds in which to look for edits that would mend what fails; 0 looks for none. `lint`: those
    for findings; 0 finds what the text alone shows. `cases`: those for situations in which what is proved decides
    something.
    """
    from logiccheck.engine.check import check_program  # loads sympy, which what only plays does not need

    loaded = known_kinds(load(path, reader))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    known = [requirement.name for requirement in program.requirements]
    if strange := [name for name in only if name not in known]:
        return Answer(waived_asked(program, strange[0]) or unknown("requirement", strange[0], known))
    found = check_program(program, budget, progress, set(only) or None, engines, crew)
    more = _beside(program, loaded, found, Sought(budget, edits, cases), progress or (lambda _: None))
    looked = _linted(program, 0.0 if only or more.interrupted else lint, progress, found)
    decided()
    report = check_report(
        program,
        loaded.files,
        found,
        linted=looked,
        played=_expected(program, loaded),
        left_out=len(known) - len(set(only)) if only else 0,
        times=times,
        beside=more,
        accepting=accepted_of(program, looked, found.verdicts),
    )
    bugs = (*found.bugs, *more.bugs, *looked.bugs)
    return Answer(report, saved(program, found, loaded.texts), taken(found, loaded.files), bugs)


def lint(
    path: str,
    reader: Reader,
    budget: float,
    only: tuple[str, ...],
    progress: Callable[[str], None] | None,
    decided: Callable[[], None],
) -> Answer:
    """All findings about the file, or those of these names or codes; `decided` is called between search and report."""
    loaded = known_kinds(load(path, reader))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    wanted, strange = names_of(only)
    if strange is not None:
        return Answer(unknown("finding", strange, [message.name for message in MESSAGES]))
    looked = _linted(program, budget, progress, None, wanted)
    decided()
    words = accepted_of(program, looked, None, wanted)
    return Answer(lint_report(program, loaded.files, looked, words), bugs=looked.bugs)


def _linted(
    program: Program,
    seconds: float,
    progress: Callable[[str], None] | None,
    found: Check | None,
    only: tuple[str, ...] = (),
) -> Linted:
    """Without any seconds, or where something stands in the way of all answers, only what the text shows. What was
    `found` by a check need not be sought again."""
    said = progress or (lambda _: None)
    if not seconds or (found is not None and (found.interrupted or found.troubles)):
        return linted(program, None, only, said)
    from logiccheck.explain.surveyed.survey import Survey  # loads sympy

    stories = () if found is None else tuple(v.story for v in found.verdicts if v.story is not None)
    return linted(program, Survey(program, Budget(seconds), stories), only, said)


def _beside(program: Program, loaded: Loaded, found: Check, sought: Sought, progress: Callable[[str], None]) -> Beside:
    told = any(verdict.kind in (Kind.FAILS, Kind.NO_CASE) for verdict in found.verdicts)
    if not (told or sought.cases or (sought.edits and found.troubles)):
        return Beside()
    from logiccheck.explain.beside import beside  # loads what explains, which a green check does not need

    return beside(program, loaded.texts, found, sought, progress)


def _expected(program: Program, loaded: Loaded) -> tuple[PlayedPart, ...]:
    """The scenarios that expect something, played; shown only where it was in vain."""
    simulations = [simulate(program, scenario) for scenario in program.scenarios if scenario.expectations]
    return tuple(played_part(program, simulation, loaded.texts, None) for simulation in simulations)
