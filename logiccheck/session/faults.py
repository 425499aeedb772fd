"""From sources to what single things that break let happen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.load import Reader, load
from logiccheck.lang.program import Program
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.report import Outcome, Report
from logiccheck.report.waived import waived_asked
from logiccheck.session.answer import Answer

ONE_REQUIREMENT = 10.0  # seconds for one, when nothing is broken
SINGLES_SHARE = 0.5  # of all time, for single faults at most, where pairs of them are looked for, too


@frozen
class FaultsAsked:
    """Which faults (by id or by part; none: all) and requirements (none: all); whether to ask each on a vehicle of
    its own (`one_by_one`), to show the whole `stories`, to look for `pairs` of them, too."""

    only: tuple[str, ...] = ()
    requirements: tuple[str, ...] = ()
    one_by_one: bool = False
    stories: bool = False
    pairs: bool = False


def faults(
    path: str,
    reader: Reader,
    asked: FaultsAsked,
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """What each single thing that can break lets happen. All of it takes `budget` seconds at most; `decided` is called
    between the search and the report."""
    from logiccheck.copper.faults.parts import faults_of  # loads what asks, as what follows
    from logiccheck.engine.check import check_program
    from logiccheck.report.faults import Wanted, faults_report, not_begun
    from logiccheck.study import faults as study
    from logiccheck.study.cut_sets import CutSets, cut_sets

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    everything = faults_of(program)
    if (strange := _strange(program, [(each.id, each.part, each.of) for each in everything], asked)) is not None:
        return Answer(strange)
    wanted = tuple(each for each in everything if not asked.only or {each.id, each.part, each.of} & {*asked.only})
    whole = Budget(budget)
    check = check_program(program, min(ONE_REQUIREMENT, budget), progress, set(asked.requirements) or None)
    if check.interrupted:
        decided()
        return Answer(not_begun(program, loaded.files))
    own = whole.part(SINGLES_SHARE) if asked.pairs else whole
    found = study.faults(program, check, own, progress, asked.one_by_one, only=wanted, names=asked.requirements)
    pairs: CutSets | None = None
    if asked.pairs and not found.interrupted and found.asked:
        try:
            pairs = cut_sets(program, wanted, 2, [each.name for each in found.asked], whole, progress)
        except KeyboardInterrupt:  # before the first question
            found = replace(found, interrupted=True)
    decided()
    shown = Wanted(asked.stories, bool(asked.requirements), asked.pairs)
    report = faults_report(program, loaded.files, found, shown, pairs)
    bugs = (*check.bugs, *found.bugs, *(each.bug for each in (pairs.cuts if pairs is not None else ()) if each.bug))
    return Answer(report, bugs=bugs)


def _strange(program: Program, faults: Sequence[tuple[str, str, str]], asked: FaultsAsked) -> Report | None:
    """What to say where the call names something that is not there."""
    from logiccheck.copper.faults.parts import Mode, in_coils
    from logiccheck.report.words_faults import only_in_a_coil, way_without_sets

    known = {name: None for names in faults for name in names if name}
    coils = in_coils(program)
    for name in asked.only:
        if name not in known and name in coils:
            return Report(only_in_a_coil(name, coils[name]), "", Outcome.MISTAKE)
        if name not in known and name in {mode.value for mode in Mode}:
            return Report(way_without_sets(name), "", Outcome.MISTAKE)
        if name not in known:
            return unknown("fault or part", name, [*known])
    requirements = [each.name for each in program.requirements]
    for name in asked.requirements:
        if name not in (*requirements, SHORT_CIRCUIT):
            return waived_asked(program, name) or unknown("requirement", name, requirements)
    return None
