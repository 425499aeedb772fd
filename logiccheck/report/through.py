"""Ways through the harness in the user's words, and the report of all ways to one wire."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.copper.ways.apart import Sneak
from logiccheck.copper.ways.paths import Way
from logiccheck.copper.ways.readback import hangs_on
from logiccheck.explain.asking import Blocked, Never, Open, Seen
from logiccheck.explain.situation import Asked
from logiccheck.lang.program import Const, Contact, Expr, Ground, Or, Program, SignalKind, Source, WireSense
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import references
from logiccheck.report import words_through as words
from logiccheck.report import words_ways
from logiccheck.report.answered import hindered, outcome
from logiccheck.report.basis import basis, files_read
from logiccheck.report.excerpt import excerpt, in_a_sentence
from logiccheck.report.opened import opened_sections
from logiccheck.report.report import Cause, Outcome, Report, WhyPart, WhySection
from logiccheck.report.ways import Vehicle
from logiccheck.study.harness import ToWire, Whole


class Teller:
    """Says ways, what they need, and stories of one search in the user's words."""

    def __init__(self, program: Program, sources: tuple[SourceFile, ...], found: ToWire | Whole) -> None:
        self.program, self.questions = program, found.questions
        self.vehicle = Vehicle(program, Asked("", "", Or(found.questions.first)), sources)
        self.files = self.vehicle.files
        self.ends: dict[str, Source | Ground] = {end.name: end for end in program.sources}
        self.ends |= {end.name: end for end in program.grounds}
        self.outputs = {each.name: each for each in (program.box.outputs if program.box is not None else ())}

    def way(self, way: Way) -> str:
        """All parts in order, each with what closes it."""
        name = way.origin.name
        if way.origin.kind is SignalKind.OUTPUT:
            parts = [words.from_output(name, self.outputs[name].label), way.begin]
        else:
            parts = [words.begin(self.ends[name].label, self._when(self.ends[name].condition))]
        for step in way.steps:
            if isinstance(step.part, Contact):
                parts.append(words.past_contact(step.head, self._when(step.part.condition)))
            else:
                parts += [words.DIODE, step.head]
        return words.way(parts)

    def needs(self, way: Way) -> list[str]:
        """What has to be so for it, each once."""
        origin = way.origin.name if way.origin.kind is SignalKind.OUTPUT else self._when(self.ends[way.begin].condition)
        rest = (self._when(each) for each in way.conditions if each != way.origin)
        return [text for text in dict.fromkeys((origin, *rest)) if text]

    def _when(self, condition: Expr) -> str:
        return "" if condition == Const(True) else in_a_sentence(condition, self.files)

    def story(self, seen: Seen) -> str:
        """How it comes to that, in one line."""
        return words_ways.shortest_story(list(self.vehicle.steps(self.questions.story(seen))))

    def sneak(self, sneak: Sneak) -> WhySection | None:
        """A wire that is fed from where it is not meant to be; None where that is not decided."""
        suspect = sneak.suspect
        if sneak.way is None or not isinstance(sneak.answer, Seen):
            return None
        if suspect.together is not None:
            title = words.together(suspect.wire, *suspect.together)
        else:
            title = words.sneak(suspect.wire, suspect.kind.value)
        sentences = [words.reached(self.way(sneak.way)), self.story(sneak.answer)]
        if sneak.apart is not None:
            sentences.append(words.also_apart(suspect.wire, *sneak.apart))
        if things := list(hanging(self.program, suspect.wire)):
            sentences.append(words.hangs(things))
        sentences += self._holding(sneak.way, suspect.wire)
        if sneak.further:
            sentences.append(words.further(sneak.further))
        sentences.append(words.MAY_BE_MEANT if suspect.meant else words.MEND)
        return WhySection(title, tuple(sentences), causes=self.here(sneak.way))

    def _holding(self, way: Way, wire: str) -> Iterator[str]:
        """The output that reaches the wire reads itself there."""
        if way.origin.kind is SignalKind.OUTPUT and self.program.box is not None:
            for sense in self.program.box.senses:
                reads = isinstance(sense, WireSense) and sense.wire == wire
                if reads and hangs_on(self.program, way.origin.name, sense.name):
                    yield words.holds(way.origin.name, sense.name)

    def here(self, way: Way) -> tuple[Cause, ...]:
        """The line in which the last step of the way stands."""
        span = way.steps[-1].part.span if way.steps else self.outputs[way.origin.name].span
        shown = excerpt([span], self.files)
        return (Cause(words.HERE, shown),) if shown is not None else ()


def hanging(program: Program, wire: str) -> Iterator[str]:
    """What takes the wire for what it is meant to be, in the order of the vehicle."""
    kinds = (SignalKind.LIVE, SignalKind.GROUNDED)
    for relay in program.relays:
        read = [*references(relay.coil), *([] if relay.supply is None else references(relay.supply))]
        if any(leaf.name == wire and getattr(leaf, "kind", None) in kinds for leaf in read):
            yield words.relay(relay.name)
    yield from (words.load(load.name) for load in program.loads if load.wire == wire)
    if (box := program.box) is None:
        return
    if box.feed == wire:
        yield words.POWER
    yield from (words.sense(s.name) for s in box.senses if isinstance(s, WireSense) and s.wire == wire)
    yield from (words.fed_output(output.name) for output in box.outputs if output.fed_by == wire)


def wire_report(program: Program, sources: tuple[SourceFile, ...], found: ToWire) -> Report:
    """All ways to one wire, and what is wrong with it."""
    teller = Teller(program, sources, found)
    seen = [each.way for each in found.asked if isinstance(each.answer, Seen)]
    open_ = [each.answer for each in found.asked if isinstance(each.answer, Open | Blocked)]
    open_ += [each.answer for each in found.sneaks if isinstance(each.answer, Open | Blocked)]
    open_ += [
        each.answer for each in found.opened if isinstance(each.answer, Open | Blocked) and each.answer != Open(None)
    ]
    open_ += [found.short] if isinstance(found.short, Open | Blocked) else []
    wrong, noted = list(_wrong(teller, found)), list(sneaks_told(teller, found, meant=True))
    live = sum(way.kind is SignalKind.LIVE for way in seen)
    if not found.asked:
        opening = words.nothing_leads(found.wire)
    else:
        undecided = sum(isinstance(each.answer, Open | Blocked) for each in found.asked)
        opening = words.opening(found.wire, live, len(seen) - live, undecided, len(wrong))
    unsettled = found.questions.unsettled
    told = [each for each in found.asked if isinstance(each.answer, Open | Blocked)]
    complete = _whole(found) and not told and unsettled is None and bool(seen)
    notes = [words.ALL_WAYS] if complete else []
    notes += _fault_notes(found)
    notes += [*hindered(sources[0].path, open_, found.interrupted, unsettled)]
    if found.left_out:
        notes.append(words.left_out(found.left_out, more=not all(each.whole for each in found.ways)))
    return Report(
        opening,
        "",
        Outcome.FAILS if wrong else _open_too(found, outcome(open_, found.interrupted, unsettled)),
        why=WhyPart(
            (), sections=(*wrong, *noted, *_ways(teller, found), *opened_sections(program, sources, found.opened))
        ),
        notes=tuple(notes),
        basis=basis(program, sources),
        files=files_read(sources),
    )


def _fault_notes(found: ToWire) -> list[str]:
    """How many faults were looked at, and what came of that."""
    opening = {each.fault.id for each in found.opened if isinstance(each.answer, Seen)}
    undecided = {each.fault.id for each in found.opened if isinstance(each.answer, Open | Blocked)}
    looked = {each.fault.id for each in found.opened}
    told = [words.with_faults(len(looked), len(opening), len(undecided - opening))] if looked else []
    return told + ([words.faults_left(found.faults_left)] if found.faults_left else [])


def _open_too(found: ToWire, comes_to: Outcome) -> Outcome:
    """What was left out was not decided."""
    left = not _whole(found) or found.faults_left
    return Outcome.OPEN if left and comes_to is Outcome.GOOD else comes_to


def _whole(found: ToWire) -> bool:
    """There are no ways but those that were asked about."""
    return not found.left_out and all(each.whole for each in found.ways)


def sneaks_told(teller: Teller, found: ToWire | Whole, meant: bool) -> Iterator[WhySection]:
    """What reaches a wire unmeant; or what may be `meant`."""
    for sneak in found.sneaks:
        if sneak.suspect.meant is meant and (section := teller.sneak(sneak)) is not None:
            yield section


def _wrong(teller: Teller, found: ToWire) -> Iterator[WhySection]:
    yield from sneaks_told(teller, found, meant=False)
    if isinstance(found.short, Seen):
        yield WhySection(words.short(found.wire), (teller.story(found.short),))


def _ways(teller: Teller, found: ToWire) -> Iterator[WhySection]:
    number = 0
    for each in found.asked:
        if isinstance(each.answer, Seen):
            number += 1
            sentences = (words.needs(teller.needs(each.way)), teller.story(each.answer))
            yield WhySection(words.title(number, each.way.kind.value, teller.way(each.way)), sentences)
    never = [each.way for each in found.asked if isinstance(each.answer, Never)]
    if never:
        yield WhySection(words.NEVER, tuple(words.never(teller.way(way), teller.needs(way)) for way in never))
    left = [(each.way, each.answer) for each in found.asked if isinstance(each.answer, Open | Blocked)]
    if left:
        lines = (words.undecided(teller.way(way), words_ways.why_open(answer)) for way, answer in left)
        yield WhySection(words.OPEN, tuple(lines))
