"""The report of why a signal is as it is at a moment, and what is said where there is no such moment."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from logiccheck.engine.verdict import Verdict
from logiccheck.explain.situation import Situation, signals
from logiccheck.lang.program import Program, Scenario
from logiccheck.model.timeline import Timeline
from logiccheck.report import words_why as words
from logiccheck.report.durations import said
from logiccheck.report.mistaken import unknown
from logiccheck.report.plain import typed
from logiccheck.report.report import Outcome, Report, WhyPart


def chosen(program: Program, file: str, name: str, scenario: str | None) -> Scenario | Report:
    """The scenario of that name, or the only one; else what to type."""
    known = [each.name for each in program.scenarios]
    if scenario is None and len(known) == 1:
        return program.scenarios[0]
    if scenario is None:
        first = program.requirements[0].name if program.requirements else ""
        say = words.which_scenario(typed(file), name, known) if known else words.no_scenario(typed(file), name, first)
        return Report(say, "", Outcome.MISTAKE)
    if scenario not in known:
        return unknown("scenario", scenario, known)
    return program.scenarios[known.index(scenario)]


def without_story(verdict: Verdict) -> Report:
    """What `--story` asks for is not there."""
    return Report(words.without_story(verdict.requirement.name, verdict.kind.value), "", Outcome.MISTAKE)


def situated(timeline: Timeline, time: Fraction | int | None) -> Situation | Report:
    """The situation at that time, or at the end; else why there is none."""
    at = timeline.end if time is None else time
    if at < 0:
        return Report(words.before_the_start(f"-{said(-at)}"), "", Outcome.MISTAKE)
    if timeline.settles and at > timeline.end:
        return Report(words.after_the_end(said(at), said(timeline.end)), "", Outcome.MISTAKE)
    if not timeline.settles and at >= timeline.end:
        rest = said(timeline.settled[-1].time) if timeline.settled else ""
        return Report(words.never_rests(said(timeline.end), rest), "", Outcome.MISTAKE)
    return Situation(timeline, at)


def why_report(situation: Situation, name: str, files: Mapping[str, str], deep: bool) -> Report:
    """Why the signal is as it is there; `deep`: also what is behind each fact."""
    asked = signals(situation.program)[name]
    state = asked.yes if situation.values.holds(asked.on) else asked.no
    opening = words.is_so(asked.label or asked.name, state, said(situation.time))
    return Report(opening, "", Outcome.GOOD, why=WhyPart(()))
