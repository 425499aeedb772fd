"""Why a signal is as it is at the end of a story, in sentences: the user's own lines, with what decides marked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from typing import TypeAlias, assert_never

from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.blame import Blame, Why, blame, broken
from logiccheck.explain.mending import Excluded
from logiccheck.lang.program import Form, Ground, Output, Program, Relay, Rule, Signal, SignalKind, Source, WireSense
from logiccheck.model.reaction import Values
from logiccheck.report import words_causes as words
from logiccheck.report.excerpt import excerpt
from logiccheck.report.leading import End, Lead, lead
from logiccheck.report.report import Cause

MOST = 3  # lines shown for one story
LOOKED_THROUGH = 60  # lines among which the one is sought that an edit changes

Place: TypeAlias = tuple[str, int]  # a file, and a line of it


def causes(
    program: Program,
    form: Form,
    story: Sequence[Values],
    files: Mapping[str, str],
    end: End,
    edited: Sequence[Span] = (),
) -> tuple[Cause, ...]:
    """Why the signals that went wrong read as they do at the end of the story: the fewest facts that are enough, and
    the lines in which they are written, `MOST` at most; what is behind these where there is room.

    Where an edit at `edited` would mend what went wrong, the line that it changes comes first.
    """
    near = blame(program, form, story, MOST)
    further = blame(program, form, story, LOOKED_THROUGH, widely=True)
    signals = broken(form, story[-1])
    leads = [_placed(each, near) for each in (lead(end, signal, files) for signal in signals) if each is not None]
    changed = _places(edited, files)
    told = _Told(files, [span for each in leads for span in each.spans])
    if not told.mistaken(leads, changed):
        leading = _mistaken((*near, *further), changed, end, files)
        leading = leading or next(_senses(program, changed, story[-1], files), None)
        if leading is not None:
            for each in leads:
                told.say(each.sentence)
            told.add(leading.sentence, leading.spans)
            for each in leads:
                told.add(words.hangs_on(each.name), each.spans)
    for each in leads:
        told.add(each.sentence, each.spans)
        told.say(each.sentence)
    led = {each.name for each in leads}
    about = {name for each in leads for name in each.about}
    for line in near if changed else (*near, *further):
        if line in near or line.name in about:
            behind = _behind(line, end, files)
            about |= behind.about
            if line.why is not Why.NO_POWER or line.name not in led:
                told.follow(behind)
    for each in leads:
        told.add(words.hangs_on(each.name), each.hands)
    return tuple(told.causes)


@dataclass(slots=True)
class _Told:
    """The causes so far; no line is shown twice, and no more than `MOST` of them. `marks`: what is marked in any."""

    files: Mapping[str, str]
    marks: Sequence[Span]
    causes: list[Cause] = field(default_factory=list)
    shown: set[Place] = field(default_factory=set)

    def say(self, sentence: str) -> None:
        """The sentence alone, unless it was said."""
        if all(cause.sentence != sentence for cause in self.causes):
            self.causes.append(Cause(sentence, None))

    def add(self, sentence: str, spans: Iterable[Span]) -> None:
        """The sentence over those of the places that are in lines not shown yet, as far as there is room."""
        kept: dict[str, list[Span]] = {}
        lines: set[Place] = set()
        for span in spans:
            here = next(_lines(span, self.files), None)
            if here is not None and here not in self.shown and (here in lines or len(self.shown | lines) < MOST):
                lines.add(here)
                kept.setdefault(span.file, []).append(span)
        for span in self.marks:
            if next(_lines(span, self.files), None) in lines:
                kept[span.file].append(span)
        self.shown |= lines
        for number, each in enumerate(kept.values()):
            self.causes.append(Cause(sentence if number == 0 else words.AND_HERE, excerpt(each, self.files)))

    def mistaken(self, leads: Sequence[Lead], changed: Set[Place]) -> bool:
        """What is told of a signal in a line that an edit changes, that line first; False if there is none."""
        for each in leads:
            here = changed & _places([each.own], self.files)
            inside = [
                span for span in each.spans if here and _places([span], self.files) <= _places([each.own], self.files)
            ]
            if first := [span for span in each.spans if changed & _places([span], self.files)] or inside:
                self.add(each.sentence, first)
                self.add(words.AND_HERE, each.spans)
                return True
        return False

    def follow(self, behind: Lead) -> None:
        """What is behind a line, where there is room for it; without places the sentence alone."""
        if not behind.spans and len(self.shown) < MOST:
            self.say(behind.sentence)
        said = any(cause.sentence == behind.sentence for cause in self.causes)
        self.add(words.hangs_on(behind.name) if said else behind.sentence, behind.spans)


def _placed(each: Lead, near: Sequence[Blame]) -> Lead:
    """With the line that is to blame for it, where its facts are written nowhere."""
    spans = each.spans or next((_alone(line).spans for line in near if line.name == each.name), ())
    return replace(each, spans=spans)


def _behind(line: Blame, end: End, files: Mapping[str, str]) -> Lead:
    """Why a line makes its signal so: by the fewest facts where it is its terms, or copper, that do."""
    signal = _signal(line) if line.why in (Why.TERMS, Why.WIRE, Why.NO_SUPPLY) else None
    found = lead(end, signal, files) if signal is not None else None
    if found is None or not found.spans:
        return _alone(line)
    return replace(found, spans=(*line.marked, *found.spans)) if line.why is Why.WIRE else found


def _alone(line: Blame) -> Lead:
    """The same, by the line itself."""
    return Lead(line.name, _sentence(line), line.marked or tuple(span for span in (line.line,) if span != NOWHERE))


def _signal(line: Blame) -> Signal | None:
    match line.item:
        case Source():
            return Signal(SignalKind.SOURCE, line.name)
        case Ground():
            return Signal(SignalKind.GROUND, line.name)
        case Relay():
            return Signal(SignalKind.RELAY, line.name)
        case Output():
            return Signal(SignalKind.OUTPUT, line.name)
        case Rule():
            return Signal(SignalKind.RULE, line.name)
        case WireSense():
            return None
        case None:
            return Signal(SignalKind.GROUNDED if line.ground else SignalKind.LIVE, line.name)
        case _:
            assert_never(line.item)


def _mistaken(lines: Sequence[Blame], changed: Set[Place], end: End, files: Mapping[str, str]) -> Lead | None:
    """The line that an edit changes, with why it makes its signal so; else one over which a dead wire hangs on one."""
    for line in lines:
        written = [line.item.span] if line.item is not None else [*line.marked, line.line]
        if changed & _places(written, files):
            found = _behind(line, end, files)
            here = tuple(span for span in found.spans if changed & _places([span], files))
            return replace(found, spans=here) if here else _alone(line)
    for ground, joint in ((line.ground, joint) for line in lines for joint in line.joints):
        if changed & _places([joint.span], files):
            return Lead(joint.head, words.joint(joint.head, joint.tail, ground), (joint.span,))
    return None


def _senses(program: Program, changed: Set[Place], values: Values, files: Mapping[str, str]) -> Iterator[Lead]:
    """The senses that an edit changes, each with what it reads from its wire; not those that do not follow it now."""
    for sense in program.box.senses if program.box else ():
        if isinstance(sense, WireSense) and changed & _places([sense.span], files):
            wire = Signal(SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE, sense.wire)
            on = values.holds(Signal(SignalKind.SENSE, sense.name))
            if values.holds(wire) == on and values.holds(Signal(SignalKind.POWERED, "powered")):
                yield Lead(sense.name, words.reads(sense.name, on, sense.wire, sense.grounded), (sense.span,))


def _places(spans: Iterable[Span], files: Mapping[str, str]) -> Set[Place]:
    """All lines on which the spans lie."""
    return {place for span in spans for place in _lines(span, files)}


def _lines(span: Span, files: Mapping[str, str]) -> Iterator[Place]:
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
