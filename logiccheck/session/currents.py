"""From sources to what a vehicle draws."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.base.budget import Budget
from logiccheck.lang.load import Reader, load
from logiccheck.report.mistaken import mistaken
from logiccheck.session.answer import Answer


def currents(
    path: str,
    reader: Reader,
    stories: bool,
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """What each source, fused wire and the box gives at most, and what that is to fuses and wires.

    `decided` is called between the search and the report. All of it takes `budget` seconds at most. `stories`: each is
    told moment by moment.
    """
    from logiccheck.report.currents import currents_report  # loads sympy, as what follows
    from logiccheck.study.currents import currents as drawn

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    found = drawn(program, Budget(budget), progress)
    decided()
    return Answer(currents_report(program, loaded.files, found, stories), bugs=found.bugs)
