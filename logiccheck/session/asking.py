"""From sources to why a signal is as it is, was, or ever can be."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.explain.situation import signals
from logiccheck.lang.conditions import Asked, load_with
from logiccheck.lang.load import Reader, load
from logiccheck.lang.program import Never, Program
from logiccheck.model.play import play_scenario
from logiccheck.model.timeline import Timeline
from logiccheck.report.basis import files_read
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.report import Report
from logiccheck.report.stories import replay
from logiccheck.report.waived import waived_asked

WHEN = "--when"  # what the conditions of the call are called where a place in them is shown


@frozen
class Why:
    """What is asked: why is the signal `name` as it is, in this scenario or in the story of this requirement, at this
    instant (microseconds)? None: the only scenario, the end.
    """

    name: str
    scenario: str | None = None
    story: str | None = None
    at: Fraction | None = None
    deep: bool = False


def why(path: str, reader: Reader, asked: Why, budget: float, progress: Callable[[str], None]) -> Report:
    """Why a signal is as it is; `budget` seconds are spent at most to find the story."""
    from logiccheck.report.why import askable, situated, why_report  # loads what explains, which nothing else needs

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return mistaken(path, loaded)
    known = askable(program)
    if asked.name not in known:
        return unknown("signal", asked.name, known)
    found = _timeline(program, path, asked, budget, progress)
    situation = found if isinstance(found, Report) else situated(found, asked.at)
    if isinstance(situation, Report):
        return situation
    forms = [requirement.form for requirement in program.requirements if requirement.name == asked.story]
    passing = asked.at is None and any(isinstance(form, Never) and form.instant for form in forms)
    report = why_report(situation, asked.name, loaded.texts, asked.deep, passing)
    return replace(report, files=files_read(loaded.files))


def why_ever(
    path: str,
    reader: Reader,
    name: str,
    when: str | None,
    deep: bool,
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Report:
    """What the signal is in all situations that meet the conditions in `when`; without any, all ways in which it can
    ever be on.

    `decided` is called between the search and the report. All questions together take `budget` seconds at most.
    """
    from logiccheck.explain.all_ways import TooLarge, TooMany, all_ways  # loads sympy
    from logiccheck.explain.situations import situations
    from logiccheck.explain.written_out import narrowed
    from logiccheck.report.ways import Vehicle, no_signal, situations_report, too_many, ways_report

    asked = Asked(load(path, reader), ()) if when is None else load_with(path, reader, when, WHEN)
    program = asked.program
    if program is None:
        return mistaken(WHEN if _all_in_the_call(asked) else path, asked.loaded)
    signal = signals(program).get(name)
    if signal is None:
        return no_signal(program, name)
    signal = narrowed(program, signal)
    sources = tuple(file for file in asked.loaded.files if file.path != WHEN)
    vehicle = Vehicle(program, signal, sources, asked.conditions)
    if when is not None:
        met = situations(program, signal, [each.p for each in asked.conditions], Budget(budget), progress)
        decided()
        return situations_report(vehicle, met)
    try:
        found = all_ways(program, signal, Budget(budget), progress)
    except (TooLarge, TooMany):
        return too_many(vehicle)
    decided()
    return ways_report(vehicle, found, deep)


def _all_in_the_call(asked: Asked) -> bool:
    """The file itself can be read; it is the conditions that cannot."""
    return all(each.span.file == WHEN for each in asked.loaded.diagnostics)


def _timeline(
    program: Program, path: str, asked: Why, budget: float, progress: Callable[[str], None]
) -> Timeline | Report:
    """The scenario or the story, played; or what to say where there is none."""
    from logiccheck.report.why import chosen, one_of_both, without_story

    if asked.story is not None and asked.scenario is not None:
        return one_of_both()
    if asked.story is None:
        scenario = chosen(program, path, asked.name, asked.scenario)
        return scenario if isinstance(scenario, Report) else play_scenario(program, scenario)
    known = [*(requirement.name for requirement in program.requirements), SHORT_CIRCUIT]
    if asked.story not in known:
        return waived_asked(program, asked.story) or unknown("requirement", asked.story, known)
    from logiccheck.engine.check import check_program  # loads sympy

    verdict = check_program(program, budget, progress, {asked.story}).verdicts[0]
    if verdict.story is None:
        return without_story(verdict)
    form = None if verdict.builtin else verdict.requirement.form
    told = replay(program, verdict.story, form)
    return replace(told.timeline, end=told.end.time)
