"""When proved requirements decide something, told in lines."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.explain.aside import Bindings, Binds, Bound
from logiccheck.explain.asking import Never, Seen
from logiccheck.explain.bare import bare
from logiccheck.explain.situation import Asked
from logiccheck.explain.situations import end_of
from logiccheck.lang.program import Or, Program, SignalKind
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import form_expressions
from logiccheck.model.story import Story
from logiccheck.report import words_cases as words
from logiccheck.report.report import LinesPart
from logiccheck.report.ways import Vehicle
from logiccheck.report.words_ways import why_open

STATES = {
    SignalKind.LIVE: ("live", "dead"),
    SignalKind.SOURCE: ("live", "dead"),
    SignalKind.GROUNDED: ("grounded", "not grounded"),
    SignalKind.GROUND: ("good", "lost"),
    SignalKind.RELAY: ("closed", "open"),
    SignalKind.POWERED: ("yes", "no"),
}


def cases(program: Program, sources: tuple[SourceFile, ...], found: Bindings) -> tuple[LinesPart, ...]:
    """One part for each requirement: a situation in which it decides something, or that it does not."""
    return tuple(_part(program, sources, each) for each in found.each)


def _part(program: Program, sources: tuple[SourceFile, ...], bound: Bound) -> LinesPart:
    requirement = bound.verdict.requirement
    return LinesPart(requirement.name, requirement.label, tuple(_lines(program, sources, bound)))


def _lines(program: Program, sources: tuple[SourceFile, ...], bound: Bound) -> Iterator[tuple[str, str]]:
    match bound.answer:
        case Seen(story):
            requirement = bound.verdict.requirement
            asked = Asked(requirement.name, requirement.label, Or(form_expressions(requirement.form)))
            vehicle = Vehicle(program, asked, sources)
            yield (
                words.DECIDES,
                words.story(tuple(vehicle.steps(bare(story, vehicle.timers))), _end(program, bound, story)),
            )
        case Never():
            yield words.DECIDES, words.NO_SINGLE if bound.binds is Binds.OTHERWISE else words.NONE_FOUND
        case answer:
            yield words.DECIDES, why_open(answer)
    if bound.at_will:
        yield words.BUT, words.AT_WILL


def _end(program: Program, bound: Bound, story: Story) -> str:
    signal = bound.signal
    if signal is None:
        return words.ENDS[bound.binds]
    on = end_of(program, story).holds(signal)
    yes, no = STATES.get(signal.kind, ("on", "off"))
    say = words.otherwise_so_long if bound.binds is Binds.ENDS else words.otherwise
    return say(signal.name, no if on else yes)
