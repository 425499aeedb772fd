"""From sources to scenarios as they were played, and to a tour of the vehicle."""

from __future__ import annotations

from collections.abc import Callable

from logiccheck.base.budget import Budget
from logiccheck.lang.load import Reader, load
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.played import Shape, play_report
from logiccheck.report.recorded import recorded
from logiccheck.session.answer import Answer
from logiccheck.study.simulate import simulate


def play(path: str, reader: Reader, name: str | None, other: str | None, shape: Shape) -> Answer:
    """Play the scenario of that name, or all: of the file, or of the file `other`, such as a saved story.

    The stories are the scenarios as they were played.
    """
    loaded = load(path, reader, () if other is None else (other,))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    scenarios = [scenario for scenario in program.scenarios if other in (None, scenario.span.file)]
    known = [scenario.name for scenario in scenarios]
    if name is not None and name not in known:
        return Answer(unknown("scenario", name, known))
    chosen = [scenario for scenario in scenarios if name in (None, scenario.name)]
    played = [simulate(program, scenario) for scenario in chosen]
    stories = tuple(recorded(program, each, loaded.texts) for each in played)
    return Answer(play_report(program, loaded.files, played, shape), stories)


def tour(
    path: str, reader: Reader, deep: bool, budget: float, progress: Callable[[str], None], decided: Callable[[], None]
) -> Answer:
    """The vehicle shown at work: one start-up, one shut-down, and how each thing it switches comes on and goes off.

    `decided` is called between the search and the report. All of it takes `budget` seconds at most.
    """
    from logiccheck.explain.touring import tour as guided  # loads sympy
    from logiccheck.report.tour import tour_report, tour_stories

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    found = guided(program, Budget(budget), progress)
    decided()
    return Answer(tour_report(program, loaded.files, found, deep), tour_stories(program, loaded.files, found))
