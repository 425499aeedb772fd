"""The section of an answer to `why` that says what would turn the signal."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import groupby
from typing import assert_never

from logiccheck.base.units import said_quantity
from logiccheck.explain.hands import place, places
from logiccheck.explain.ordinary import Target, Turn
from logiccheck.explain.otherwise import otherwise
from logiccheck.explain.situation import Asked, Situation
from logiccheck.explain.turn import Chase, Moved, Stays, Turning, Unfollowed, turning
from logiccheck.lang.matters import Matter, Names
from logiccheck.lang.program import And, Number, Program, Signal, SignalKind
from logiccheck.model.memory import Time
from logiccheck.report import words_turn as words
from logiccheck.report.due import ends
from logiccheck.report.durations import said
from logiccheck.report.excerpt import excerpt
from logiccheck.report.report import Cause, WhySection

CHANGES = 3  # told of those that are as small
FROM = {  # what makes a wire so
    SignalKind.LIVE: {SignalKind.SOURCE.value, SignalKind.OUTPUT.value},
    SignalKind.GROUNDED: {SignalKind.GROUND.value},
}
LINES = 3  # of the user's, with terms that would turn it


def turned(situation: Situation, asked: Asked, files: Mapping[str, str], deep: bool) -> WhySection:
    """What would turn the signal, asked `as_it_reads`: `deep` tells all of it."""
    found = turning(situation, asked, as_few=deep)
    other, state = (asked.no, asked.yes) if found.on else (asked.yes, asked.no)
    sentences = (
        *_hands(situation.program, found, other, deep),
        *_chased(situation.program, found, deep),
        *_alone(situation.program, found, other, state),
        *_sooner(found, other, deep),
        *_notes(found, deep),
    )
    return WhySection(words.TITLE, sentences, causes=tuple(_terms(situation, asked, other, files, deep)))


def as_it_reads(situation: Situation, asked: Asked) -> Asked:
    """Of a wire what it is, live or grounded or both, so that also a live wire that gets grounded is turned."""
    if all(wire.name != asked.name for wire in situation.program.wires):
        return asked
    signals = {kind: Signal(kind, asked.name) for kind in FROM}
    names = Names(situation.program)
    able = [kind.value for kind, signal in signals.items() if FROM[kind] & _kinds(names.matter([signal]))]
    match [kind for kind, signal in signals.items() if situation.values.holds(signal)]:
        case []:
            return replace(asked, yes=" or ".join(able))
        case [kind]:
            return replace(
                asked, on=signals[kind], yes=kind.value, no=words.NO_MORE[kind.value] if len(able) > 1 else asked.no
            )
        case _:
            return replace(asked, on=And(tuple(signals.values())), yes=words.BOTH, no=words.NOT_BOTH)


def _kinds(matter: Matter) -> set[str]:
    return {kind for kind, _ in matter.items}


def _hands(program: Program, found: Turning, other: str, deep: bool) -> Iterator[str]:
    if not found.hands:
        yield words.NO_HANDS
        return
    told = found.now if deep else found.now[:CHANGES]
    if told:
        yield words.at_once(other, [_change(program, turn) for turn in told], len(found.now) - len(told))
    else:
        yield words.not_at_once(other, found.tried)
    for turn in found.later if deep else found.later[:1]:
        more = 0 if deep else len(found.later) - 1
        yield words.later(other, _change(program, turn), _time(turn), _due(program, turn), more)
    if deep and _none_later(found) and not isinstance(found.alone, Turn):
        yield words.not_later(other, found.tried_later)
    if found.tried and not (found.now or found.later or isinstance(found.alone, Turn)):
        yield words.APART


def _none_later(found: Turning) -> bool:
    """Changes were tried, and none turns it, at once or later."""
    return bool(found.tried_later) and not (found.now or found.later)


def _alone(program: Program, found: Turning, other: str, state: str) -> Iterator[str]:
    match found.alone:
        case Turn() as turn:
            yield words.alone(other, _time(turn), _due(program, turn))
        case Stays():
            yield words.stays(state)
        case Unfollowed(time=time):
            yield words.unfollowed(state, said(time))
        case Chase(time=time):
            yield words.chases(said(time))
        case Moved(time=time, given=given):
            yield words.has_to_move(said(time), given.text)
        case alone:
            assert_never(alone)


def _sooner(found: Turning, other: str, deep: bool) -> Iterator[str]:
    """Where time alone turns it, only what does so before that was looked for."""
    if deep and found.hands and _none_later(found) and isinstance(found.alone, Turn):
        yield words.not_sooner(other, found.tried_later)


def _chased(program: Program, found: Turning, deep: bool) -> Iterator[str]:
    told = found.chased if deep else found.chased[:CHANGES]
    if told:
        yield words.left_out([_change(program, turn) for turn in told], len(found.chased) - len(told))


def _notes(found: Turning, deep: bool) -> Iterator[str]:
    rough = found.alone.rough if isinstance(found.alone, Turn | Stays) else False
    if rough or any(turn.rough for turn in found.later):
        yield words.NOMINAL
    if found.unmet:
        yield words.UNMET
    if deep and found.hands:
        yield words.MOVES


def _terms(situation: Situation, asked: Asked, other: str, files: Mapping[str, str], deep: bool) -> Iterator[Cause]:
    """Lines that are as near to the signal stand together."""
    found = otherwise(situation, asked, every=deep)
    if not found:
        yield Cause(words.no_terms(other), None)
    for _, lines in groupby(found if deep else found[:LINES], key=lambda line: (line.far, line.file)):
        spans = [span for line in lines for span in line.spans]
        yield Cause(words.terms(other, len(spans)), excerpt(spans, files))
    if not deep and len(found) > LINES:
        yield Cause(words.more_lines(len(found) - LINES), None)


def _due(program: Program, turn: Turn) -> list[str]:
    """What falls due then, in words."""
    return [ends(program, key) for key in sorted(turn.due)]


def _time(turn: Turn) -> str:
    return said(turn.time if turn.time is not None else 0)


def _change(program: Program, turn: Turn) -> str:
    """What hands do, as a scenario writes it."""
    return ", ".join(_target(program, target) for target in turn.targets)


def _target(program: Program, target: Target) -> str:
    for switch in program.switches:
        if switch.name == target.name:
            past = [switch.positions[int(value)] for value in target.through]
            return words.switch_is(target.name, switch.positions[int(target.values[0])], past)
    number = next(number for number in program.numbers if number.name == target.name)
    return _interval(number, target.values[0], target.values[-1])


def _interval(number: Number, first: Time, last: Time) -> str:
    """From the interval of the first value to that of the last; the ends of the number bound nothing."""
    there = places(number)
    low, high = place(number, first), place(number, last)
    low_too, high_too = there[low] in number.bounds, there[high] in number.bounds
    below = there[low] if low_too else there[low - 1] if low else None
    above = there[high] if high_too else there[high + 1] if high + 1 < len(there) else None
    if low != high:
        below = None if low_too and below == number.low else below
        above = None if high_too and above == number.high else above

    def text(value: Time | None) -> str:
        return "" if value is None else said_quantity(value, number.unit)

    return words.number_is(number.name, text(below), text(above), low_too, high_too)
