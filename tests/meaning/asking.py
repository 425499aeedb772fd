"""Puts a sentence to the interpreter and its judge, to the engine, and to the explorer of all stories."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from random import Random

from logiccheck.engine.check import check_program
from logiccheck.engine.replay import played
from logiccheck.engine.verdict import SHORT_CIRCUIT, Kind, Verdict
from logiccheck.lang.program import Never, Possible, Program, Requirement
from logiccheck.model.judge import broken, violated, witnessed
from logiccheck.model.observed import signal
from logiccheck.model.play import play, play_scenario
from logiccheck.model.story import Run
from logiccheck.model.timeline import Timeline
from tests.meaning.sentences import HEAD, Course, Lawful
from tests.model.driven import micros, program, seconds
from tests.oracle import oracle
from tests.oracle.walks import Walker

WALKS = 12  # of each requirement that is proved

# --------------------------------------------------------------------------------------------- a course of the world


def events(course: str) -> list[tuple[str, list[tuple[str, str]]]]:
    """For each time what is set: "0 a on, n 5 rpm; 2 a off"."""
    found = []
    for part in filter(None, (each.strip() for each in course.split(";"))):
        time, settings = part.split(maxsplit=1)
        pairs = [tuple(each.split(maxsplit=1)) for each in settings.split(",")]
        found.append((time, [(name, value.strip()) for name, value in pairs]))
    return found


def scenario(course: str, until: str) -> str:
    """A block that plays the course."""
    lines = []
    for time, settings in events(course):
        facts = ", ".join(f"{name} is {value}" for name, value in settings)
        lines.append(f"    at first {facts}" if time == "0" else f"    at {time} s {facts}")
    return "\n".join(["scenario played", *lines, f"    until {until} s"]) + "\n"


def facts(course: str) -> dict[str, str]:
    """The stretches in which each fact of the course holds."""
    moves: dict[str, list[tuple[str, str]]] = {}
    for time, settings in events(course):
        for name, value in settings:
            moves.setdefault(name, []).append((time, value))
    found: dict[str, list[str]] = {}
    for name, each in moves.items():
        for (time, value), (until, _) in zip(each, [*each[1:], ("..", "")], strict=True):
            found.setdefault(f"{name} is {value}", []).append(f"[{time},{until})")
    return {fact: " ".join(parts) for fact, parts in found.items()}


def timeline_of(case: Course) -> Timeline:
    """The course as the interpreter plays it; its requirements are "never" of each shown condition."""
    asked = "".join(f"    danger shown_{i} never {each}\n" for i, each in enumerate(case.shows))
    vehicle = program(HEAD + case.text + f"requirements\n{asked}" + scenario(case.course, case.until))
    (only,) = vehicle.scenarios
    if not case.lasts:
        return play_scenario(vehicle, only)
    runs = [Run(*_run(each)) for each in case.lasts.split(";")]
    first = {each.name: each.value for each in only.sets if each.time == 0}
    timeline = play(vehicle, only.sets, runs, only.end, first)
    assert not timeline.unused
    return timeline


def _run(text: str) -> tuple[str, Fraction, Fraction]:
    key, start, time = text.split()
    return key, Fraction(micros(start)), Fraction(micros(time))


def shown_by_the_interpreter(case: Course) -> dict[str, str]:
    """The stretches in which each condition of the case is true, up to where the case ends."""
    timeline = timeline_of(case)
    assert timeline.settles
    assert not broken(timeline)
    found = {}
    for requirement, text in zip(timeline.program.requirements, case.shows, strict=True):
        assert isinstance(requirement.form, Never)
        steps = signal(timeline, requirement.form.p)
        assert steps.at == steps.after, f"{text} is true at an instant only"
        runs = [(seconds(begin.time), ".." if over is None else seconds(over.time)) for begin, over in steps.runs()]
        found[text] = " ".join(f"[{begin},{over})" for begin, over in runs)
    return found


def followed_by_the_engine(case: Course) -> str:
    """Whether the engine finds a story in which the world follows the course and each condition is true in just its
    stretches: what a vehicle does is certain once its world and its timers are, so there is no other."""
    return reached(case.text, facts(case.course) | {f"({text})": each for text, each in case.shows.items()}, case.until)


def reached(text: str, courses: Mapping[str, str], until: str) -> str:
    """The verdict on: it is possible to come so far, each condition having been true in just its stretches."""
    times = {until} | {time for each in courses.values() for time in re.findall(r"[\d.]*\d", each)}
    relays = "".join(f"    relay {_after(time)} coil on_delay(true, {time} s)\n" for time in sorted(times - {"0"}))
    strays = "\n        or ".join(f"({condition} xor ({_wave(each)}))" for condition, each in courses.items())
    end = "true" if until == "0" else _after(until)
    asked = f"requirements\n    function follows possible {end} and not bistable(set\n        {strays})\n"
    return ended(program(f"{HEAD}{text}harness\n{relays}{asked}"))["follows"]


def _after(time: str) -> str:
    return f"after_{time.replace('.', '_')}"


def _wave(text: str) -> str:
    """A condition that is true in these stretches, once the relays of `reached` tell the time."""
    parts = []
    for begin, end in re.findall(r"\[([\d.]+),([\d.]+)\)", text):
        since = [] if begin == "0" else [_after(begin)]
        parts.append(" and ".join(since + ([] if end == ".." else [f"not {_after(end)}"])) or "true")
    return " or ".join(f"({part})" for part in parts) or "false"


def ended(vehicle: Program) -> dict[str, str]:
    """The verdicts of what is written, a failure with the time at which its story ends."""
    found = {}
    for verdict in check_program(vehicle, seconds_each=120).verdicts:
        if not verdict.builtin:
            end = f" at {seconds(verdict.story.steps[-1].time)}" if verdict.story else ""
            found[verdict.requirement.name] = verdict.kind.value + (end if verdict.kind is Kind.FAILS else "")
    return found


# ---------------------------------------------------------------------------------------- requirements on a vehicle


def engine_answers(vehicle: Program) -> dict[str, str]:
    """The verdicts of the engine in the words of a case. Every story in them is heard on the interpreter."""
    found = {}
    for verdict in check_program(vehicle, seconds_each=120).verdicts:
        heard(vehicle, verdict)
        name = "short" if verdict.requirement.name == SHORT_CIRCUIT else verdict.requirement.name.removeprefix("q_")
        reason = verdict.obstacle.value if verdict.obstacle else ""
        moments = verdict.story.moments if verdict.story else None
        found[name] = in_words(verdict.requirement, verdict.kind.value, moments, reason)
    return found


def in_words(requirement: Requirement, kind: str, moments: int | None, reason: str) -> str:
    if kind == "blocked":
        return f"blocked {reason}"
    if isinstance(requirement.form, Possible) and kind in ("proved", "fails"):
        return f"possible {moments}" if kind == "proved" else "impossible"
    return f"fails {moments}" if kind == "fails" else kind


def heard(vehicle: Program, verdict: Verdict) -> None:
    """The interpreter plays the story, nothing that is given is broken, and the judge sees at its end what it shows."""
    if verdict.story is None or verdict.kind is Kind.NO_CASE:
        return
    timeline, form = played(vehicle, verdict.story), verdict.requirement.form
    found = witnessed(timeline, form.q) if isinstance(form, Possible) else violated(timeline, form)
    assert found is not None
    assert found.time == verdict.story.steps[-1].time


def explorer_answers(vehicle: Program) -> dict[str, str]:
    """What is so, by exploring all stories."""
    found = {}
    for requirement in vehicle.requirements:
        answer = oracle.decide(vehicle, requirement)
        reason = answer.reason.replace("it never settles", "unsettled")
        words = in_words(requirement, answer.kind.value, answer.moments, reason)
        found[requirement.name.removeprefix("q_")] = words
    return found


def judged_on_walks(vehicle: Program, requirement: Requirement) -> None:
    """On random stories that meet what is given the judge finds nothing wrong."""
    random = Random(0)
    for _ in range(WALKS):
        walk = Walker(vehicle, requirement.form, random).go(10)
        first = {change.name: change.value for change in walk.changes if change.time == 0}
        timeline = play(vehicle, walk.changes, walk.runs, walk.end, first)
        unmet = min((each.instant for each in broken(timeline)), default=None)
        found = violated(timeline, requirement.form)
        assert found is None or (unmet is not None and unmet <= found), (requirement.text, found, walk)


# ------------------------------------------------------------------------------------------------------- what is given


def judged_lawful(case: Lawful) -> str:
    """When the judge first sees what is given not met in the course."""
    until = str(int(Fraction(events(case.course)[-1][0])) + 100)
    (only,) = (vehicle := program(HEAD + case.text + scenario(case.course, until))).scenarios
    unmet = min((each.instant for each in broken(play_scenario(vehicle, only))), default=None)
    return "holds" if unmet is None else f"{'after' if unmet.after else 'at'} {seconds(unmet.time)}"


def engine_lawful(case: Lawful) -> str:
    """Whether the engine can follow the course for long; else whether only up to just before what the case says."""
    courses = facts(case.course)
    if case.answer == "holds":
        return "holds" if reached(case.text, courses, "1000") == "proved" else "is broken"
    end = case.answer.split()[1]
    if reached(case.text, courses, end) != "fails":
        return f"is not broken at {end}"
    just_before = str(float(end) - 0.05)
    return case.answer if end == "0" or reached(case.text, courses, just_before) == "proved" else "is broken before"
