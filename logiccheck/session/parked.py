"""From sources to how long the battery of the parked vehicle lasts."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.base.budget import Budget
from logiccheck.lang.load import Reader, load
from logiccheck.report.mistaken import mistaken
from logiccheck.session.answer import Answer


def parked(
    path: str,
    reader: Reader,
    stories: bool,
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """What is drawn for ever from each source while no hand moves, and for how long that can go on; `stories`: with the
    whole story of the worst.

    `decided` is called between the search and the report. All of it takes `budget` seconds at most.
    """
    from logiccheck.report.parked import not_said_report, parked_report, parked_stories  # loads sympy
    from logiccheck.study.battery import parked_battery

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    found = parked_battery(program, Budget(budget), progress)
    decided()
    if found is None:
        return Answer(not_said_report(program, loaded.files))
    report = parked_report(program, loaded.files, found, stories)
    return Answer(report, parked_stories(program, loaded.files, found), bugs=found.bugs)
