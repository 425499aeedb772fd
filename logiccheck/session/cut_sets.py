"""From sources to minimal cut sets: which faults together let a requirement fail."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from logiccheck.base.budget import Budget
from logiccheck.copper.faults.parts import faults_of, in_coils
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.load import Reader, load
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.report import Outcome, Report
from logiccheck.report.waived import waived_asked
from logiccheck.session.answer import Answer
from logiccheck.study.findings import known_kinds


def cut_sets(
    path: str,
    reader: Reader,
    order: int,
    requirements: Sequence[str],
    only: Sequence[str],
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """The cut sets with at most `order` faults of the requirements with these names, without names of all that guard
    against danger. `only`: faults, parts, or ways of failing, of which the sets are made; none: of all faults.

    `decided` is called between the search and the report. All of it takes `budget` seconds at most.
    """
    from logiccheck.report.cut_sets import cut_sets_report  # loads sympy, as what follows
    from logiccheck.report.words_faults import only_in_a_coil
    from logiccheck.study.cut_sets import cut_sets as sought

    loaded = known_kinds(load(path, reader))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    known = [*(each.name for each in program.requirements), SHORT_CIRCUIT]
    for name in requirements:
        if name not in known:
            return Answer(waived_asked(program, name) or unknown("requirement", name, known))
    faults = faults_of(program)
    ways = [{fault.id, fault.part, fault.of, fault.mode.value} for fault in faults]
    coils = in_coils(program)
    for name in only:
        if not any(name in each for each in ways) and name in coils:
            return Answer(Report(only_in_a_coil(name, coils[name]), "", Outcome.MISTAKE))
        if not any(name in each for each in ways):
            return Answer(unknown("fault or part", name, sorted(set[str]().union(*ways) - {""})))
    some = [fault for fault, each in zip(faults, ways, strict=True) if not only or each & set(only)]
    found = sought(program, some, order, requirements, Budget(budget), progress)
    decided()
    report = cut_sets_report(program, loaded.files, found, narrowed=bool(only))
    return Answer(report, bugs=tuple(each.bug for each in found.cuts if each.bug is not None))
