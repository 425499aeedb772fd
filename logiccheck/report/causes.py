"""Why a signal is as it is at the end of a story, in sentences: the user's own lines, with what decides marked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import assert_never

from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.blame import Blame, Why, blame
from logiccheck.explain.mending import Excluded
from logiccheck.lang.program import Form, Ground, Program, Relay, Signal, SignalKind, Source, WireSense
from logiccheck.model.reaction import Values
from logiccheck.report import words_causes as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Cause

MOST = 3  # lines shown for one story
LOOKED_THROUGH = 60  # lines among which the one is sought that an edit changes


def causes(
    program: Program, form: Form, story: Sequence[Values], files: Mapping[str, str], edited: Sequence[Span] = ()
) -> tuple[Cause, ...]:
    """Why the blamed signals read as they do at the end of the story; at most `MOST`, the nearest first.

    Where an edit at `edited` would mend what went wrong, the line that it changes leads.
    """
    near = blame(program, form, story, MOST)
    further = blame(program, form, story, LOOKED_THROUGH, widely=True) if edited else ()
    leading = [line for line in (*near, *further) if _changed(line, edited, files)][:1]
    lines = [cause(line, files) for line in [*leading, *(line for line in near if line not in leading)]]
    senses = () if leading or not edited else _senses(program, story[-1], edited, files)
    return (*senses, *lines)[:MOST]


def _senses(program: Program, values: Values, edited: Sequence[Span], files: Mapping[str, str]) -> Iterator[Cause]:
    """The senses that an edit changes, each with what it reads from its wire; not those that do not follow it now."""
    changed = {place for span in edited for place in _lines(span, files)}
    for sense in program.box.senses if program.box else ():
        if isinstance(sense, WireSense) and not changed.isdisjoint(_lines(sense.span, files)):
            wire = Signal(SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE, sense.wire)
            on = values.holds(Signal(SignalKind.SENSE, sense.name))
            if values.holds(wire) == on and values.holds(Signal(SignalKind.POWERED, "powered")):
                yield Cause(words.reads(sense.name, on, sense.wire, sense.grounded), excerpt([sense.span], files))


def _changed(line: Blame, edited: Sequence[Span], files: Mapping[str, str]) -> bool:
    """Whether an edit changes what is written of an item, or a line of the harness that lets through."""
    written = [line.item.span] if line.item is not None else [*line.marked, line.line]
    lines = {place for span in written for place in _lines(span, files)}
    return any(place in lines for span in edited for place in _lines(span, files))


def _lines(span: Span, files: Mapping[str, str]) -> Iterator[tuple[str, int]]:
    """The lines on which a span lies."""
    if span.file in files:
        first = files[span.file].count("\n", 0, span.begin)
        last = first + files[span.file].count("\n", span.begin, max(span.end - 1, span.begin))
        yield from ((span.file, number) for number in range(first, last + 1))


def chasing(program: Program, names: Iterable[str], files: Mapping[str, str]) -> tuple[Cause, ...]:
    """The lines of the rules and relays that chase each other for ever; at most `MOST`."""
    rules = program.box.rules if program.box else ()
    spans = {item.name: item.span for item in (*program.relays, *rules)}
    shown = [(name, excerpt([spans[name]], files)) for name in names if name in spans]
    return tuple(Cause(words.chases(name), lines) for name, lines in shown if lines is not None)[:MOST]


def excluding(parts: Sequence[Excluded], files: Mapping[str, str]) -> tuple[Cause, ...]:
    """The parts that can never all be so at once, marked in their lines; those of one file together. That the box has
    power may be one that nobody wrote."""
    powered = any(isinstance(each.part, Signal) and each.part.span == NOWHERE for each in parts)
    spans = [each.part.span for each in parts if each.part.span != NOWHERE and each.part.span.file in files]
    shown: list[Cause] = []
    for file in dict.fromkeys(span.file for span in spans):
        sentence = words.with_these() if shown else words.exclude(len(spans), powered)
        shown.append(Cause(sentence, excerpt([span for span in spans if span.file == file], files)))
    return tuple(shown)


def cause(line: Blame, files: Mapping[str, str]) -> Cause:
    """One line that is to blame, in a sentence, and as written."""
    return Cause(_sentence(line), excerpt(line.marked or (line.line,), files))


def _sentence(line: Blame) -> str:
    match line.why:
        case Why.TERMS:
            state, other = _states(line)
            return words.because(line.name, state, other, line.single, len(line.terms))
        case Why.ALWAYS:
            state, other = _states(line)
            return words.always(line.name, state, other, line.on)
        case Why.WIRE:
            return words.wire(line.name, line.ground, line.on)
        case Why.NO_POWER:
            return words.without_power(line.name, line.other)
        case Why.STARTING:
            return words.not_up_yet(line.name)
        case Why.NO_SUPPLY:
            return words.without_supply(line.name)
        case Why.LATE:
            return words.late(line.name, line.on)
        case Why.FILTERED:
            return words.filtered(line.name, line.on)
        case Why.NO_FEED:
            return words.without_feed(line.name, line.other)
        case _:
            assert_never(line.why)


def _states(line: Blame) -> tuple[str, str]:
    """How it is, and the opposite."""
    states = ("on", "off")
    if isinstance(line.item, Source):
        states = ("live", "dead")
    elif isinstance(line.item, Ground):
        states = ("good", "lost")
    elif isinstance(line.item, Relay):
        states = ("closed", "open")
    return states if line.on else states[::-1]
