"""Puts one course of the world to the engine: requirements that count only as long as the inputs have followed it.

The inputs stay free. A stored state inside the requirement is set for good by the first instant at which an input is
not as the course says, and what is asked is asked only while it is not set. So the engine has to find out by itself
what the vehicle does in just this course. Stretches are written "[2,4) [6,14)" in seconds, as in `tests.model.driven`.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.lang.program import Program
from tests.model.driven import seconds, stretches

LATER = 50_000  # a change that is asked for this much later (microseconds) must be refused


def wave(text: str, moved: int | None = None) -> str:
    """A condition that is true in these stretches; the change with number `moved` comes a little later."""
    parts, changes = [], 0
    for begin, end in stretches(text):
        times = []
        for time in (begin, end):
            times.append(time if time is None or changes != moved else time + LATER)
            changes += 1
        start = f"on_delay(true, {times[0]} us)" if times[0] else ""
        stop = f"not on_delay(true, {times[1]} us)" if times[1] is not None else ""
        parts.append("(" + (" and ".join(x for x in (start, stop) if x) or "true") + ")")
    return "(" + (" or ".join(parts) or "false") + ")"


def change_times(text: str) -> list[tuple[int, str]]:
    """The number (as in `wave`) and the time of each change in the stretches, without their beginning at time 0."""
    ends = [time for stretch in stretches(text) for time in stretch]
    return [(number, seconds(time)) for number, time in enumerate(ends) if time is not None]


def so_far(inputs: Mapping[str, str]) -> str:
    """Up to now each of these facts of the world has been true in just these stretches."""
    strays = " or ".join(f"(({fact}) xor {wave(text)})" for fact, text in inputs.items())
    return f"not bistable(set {strays})"


def questions(inputs: Mapping[str, str], expected: Mapping[str, str], until: str) -> str:
    """A block of requirements: the inputs can follow their course up to `until` (seconds), and as long as they do,
    each expected thing is true in just its stretches, and not with any one change a little later."""
    course = so_far(inputs)
    lines = [f"function followed possible on_delay(true, {until} s) and {course}"]
    for name, text in expected.items():
        lines.append(f"danger {name}_exact never {name} xor {wave(text)} while {course}")
        for number, _ in change_times(text):
            lines.append(f"danger {name}_late_{number} never {name} xor {wave(text, number)} while {course}")
    return "requirements\n" + "\n".join(f"    {line}" for line in lines) + "\n"


def answers(expected: Mapping[str, str]) -> dict[str, str]:
    """What `told` says of each of these questions."""
    result = {"followed": "proved"}
    for name, text in expected.items():
        result[f"{name}_exact"] = "proved"
        result |= {f"{name}_late_{number}": f"fails at {time}" for number, time in change_times(text)}
    return result


def verdicts(program: Program) -> dict[str, Verdict]:
    """The verdicts by the name of the requirement."""
    return {verdict.requirement.name: verdict for verdict in check_program(program, seconds_each=120).verdicts}


def last(verdict: Verdict) -> Fraction:
    """The time (microseconds) of the last moment of the story."""
    assert verdict.story is not None
    return verdict.story.steps[-1].time


def told(program: Program) -> dict[str, str]:
    """The verdicts in words; a failure with the time at which its story ends, "overdue at" it when it is just after
    it."""
    result = {}
    for name, verdict in verdicts(program).items():
        text = verdict.kind.value
        if verdict.kind is Kind.FAILS and verdict.story is not None:
            text += f" {'overdue at' if verdict.story.overdue else 'at'} {seconds(last(verdict))}"
        result[name] = text
    return result
