"""Ways to a wire that are there only with one fault, as sections of a report."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from logiccheck.copper.faults.changed import BODY, STAGES, SUPPLY
from logiccheck.copper.faults.parts import Fault, Mode, PartKind
from logiccheck.copper.ways.faulty import Opened
from logiccheck.copper.ways.paths import Step, Way
from logiccheck.explain.asking import Blocked, Never, Open, Seen
from logiccheck.explain.situation import Asked
from logiccheck.lang.program import Const, Contact, Expr, Program, Signal, SignalKind
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import references
from logiccheck.report import words_through as words
from logiccheck.report import words_ways
from logiccheck.report.basis import texts
from logiccheck.report.excerpt import in_a_sentence, where
from logiccheck.report.report import Step as Told
from logiccheck.report.report import WhySection
from logiccheck.report.ways import Vehicle

SEEN = ((False, words.WITH_FAULT, words.WITH_FAULT_MEANS), (True, words.BESIDE, words.BESIDE_MEANS))
BROKEN = {Mode.LIVE: words.TO_SUPPLY, Mode.GROUNDED: words.TO_GROUND}


def opened_sections(program: Program, sources: tuple[SourceFile, ...], found: Sequence[Opened]) -> Iterator[WhySection]:
    """What each fault opens, of what that is proved not to be so, and what is not decided."""
    files = texts(sources)
    for beside, title, means in SEEN:
        seen = [each for each in found if isinstance(each.answer, Seen) and each.beside is beside]
        if seen:
            steps = [line for each in seen for line in _told(program, sources, files, each)]
            yield WhySection(title, (means,), tuple(steps))
    for beside, title in ((False, words.NO_WAY), (True, words.NO_NEW_WAY)):
        never = [each for each in found if isinstance(each.answer, Never) and each.beside is beside]
        if never:
            yield WhySection(title, tuple(words.proved_of(_name(each), each.kind.value) for each in never))
    left = [(each, each.answer) for each in found if isinstance(each.answer, Open | Blocked)]
    if left:
        yield WhySection(words.NOT_KNOWN, tuple(words.not_decided(_name(e), _why_open(a)) for e, a in left))


def _why_open(answer: Open | Blocked) -> str:
    return words.TOO_MANY_TO_ASK if answer == Open(None) else words_ways.why_open(answer)


def _name(opened: Opened) -> str:
    return words.broken(opened.fault.title, BROKEN.get(opened.fault.mode, opened.fault.mode.value))


def _told(
    program: Program, sources: tuple[SourceFile, ...], files: Mapping[str, str], opened: Opened
) -> Iterator[Told]:
    """The fault with the way that it opens, and below it the story."""
    way = "" if opened.way is None else words.way(list(_parts(program, files, opened, opened.way)))
    sentence = words.opens(_name(opened), opened.kind.value, way)
    yield Told(0, sentence, where(opened.fault.span, files))
    if opened.story is not None:
        vehicle = Vehicle(opened.program, Asked("", "", Const(True)), sources)
        yield Told(1, words_ways.shortest_story(list(vehicle.steps(opened.story))), "")


def _parts(program: Program, files: Mapping[str, str], opened: Opened, way: Way) -> Iterator[str]:
    """The way in the parts of the vehicle as written; what is broken is marked."""
    ends = {end.name: (end.label, end.condition) for end in program.sources}
    ends |= {end.name: (end.label, end.condition) for end in program.grounds}
    name = way.origin.name
    if name in (SUPPLY, BODY):
        yield words.TOUCHES_SUPPLY if name == SUPPLY else words.TOUCHES_GROUND
    elif name == STAGES:
        yield words.stuck_output(opened.fault.part)
    elif name in ends:
        label, condition = ends[name]
        yield words.begin(label, _text(condition, files))
    else:
        yield from (words.from_output(name, ""), way.begin)
    for step in way.steps:
        yield from _step(program, files, opened, step)


def _step(program: Program, files: Mapping[str, str], opened: Opened, step: Step) -> Iterator[str]:
    if not isinstance(step.part, Contact):
        yield from (words.DIODE, step.head)
        return
    number = next(n for n, contact in enumerate(opened.program.contacts) if contact is step.part)
    if number < len(program.contacts):
        condition = program.contacts[number].condition
        marks = [_text(condition, files), *_marked(opened.fault, number, condition)]
        yield words.past_contact(step.head, ", ".join(mark for mark in marks if mark))
    elif step.tail in (SUPPLY, BODY, STAGES):
        yield step.head
    else:
        yield from (words.DIODE_SHORTED, step.head)


def _marked(fault: Fault, number: int, condition: Expr) -> Iterator[str]:
    """What is broken at this contact."""
    if fault.kind is PartKind.CONTACT and fault.index == number:
        yield fault.mode.value
    relays = (leaf.name for leaf in references(condition) if isinstance(leaf, Signal) and leaf.kind is SignalKind.RELAY)
    if fault.kind is PartKind.RELAY and fault.of in relays:
        yield words.broken(fault.of, fault.mode.value)


def _text(condition: Expr, files: Mapping[str, str]) -> str:
    return "" if condition == Const(True) else in_a_sentence(condition, files)
