"""The report of single faults: what they can let happen, by requirement; and what becomes of each part."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from logiccheck.base.frozen import frozen
from logiccheck.base.units import said_quantity
from logiccheck.copper.faults.answers import (
    Blocked,
    Broken,
    Fails,
    Hidden,
    Notice,
    Noticed,
    Open,
    Pair,
    Unclear,
)
from logiccheck.copper.faults.parts import Fault, Mode, PartKind, When, faults_of, in_coils
from logiccheck.engine.verdict import SHORT_CIRCUIT, Kind
from logiccheck.lang.program import Guard, NumberSense, Program, Requirement, WireSense
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_faults as words
from logiccheck.report.basis import basis, files_read, texts
from logiccheck.report.durations import said
from logiccheck.report.excerpt import in_a_sentence, where
from logiccheck.report.fault_stories import FaultStories
from logiccheck.report.faults_part import (
    SEVERITIES,
    WORST,
    EffectPart,
    EndangeredPart,
    FaultsPart,
    HitPart,
    Severity,
)
from logiccheck.report.pairs import PairsTold
from logiccheck.report.report import Outcome, Report, WhyPart
from logiccheck.report.words_check import NOTHING_BREAKS
from logiccheck.report.words_pairs import INTERRUPTED as PAIRS_NOT_BEGUN
from logiccheck.report.words_verdict import GUARDS
from logiccheck.study.cut_sets import CutSets


@frozen
class Wanted:
    """`stories`: the whole ones, too; `all_lines`: nothing is told briefly; `pairs`: pairs of faults, too."""

    stories: bool = False
    all_lines: bool = False
    pairs: bool = False


def faults_report(
    program: Program, sources: Sequence[SourceFile], found: Broken, wanted: Wanted, pairs: CutSets | None = None
) -> Report:
    """All that is known of the faults that were asked; and of `pairs` of them, where those were asked for."""
    teller = _Teller(program, sources, found, wanted, pairs)
    tally = teller.tally()
    own = [each for each in found.asked if each.name != SHORT_CIRCUIT]
    if not own and (found.unasked or not program.requirements):
        undecided = any(each.kind in (Kind.NOT_DECIDED, Kind.BLOCKED) for each in found.unasked)
        outcome = Outcome.OPEN if undecided or found.interrupted else Outcome.FAILS
        return teller.report(words.nothing_asked(sources[0].path), "", outcome, None)
    part = FaultsPart(
        answer=tuple(teller.answer(tally)),
        endangered=tuple(teller.endangered()),
        pairs=tuple(teller.pairs.parts()) if teller.pairs is not None else (),
        effects=tuple(teller.effects()),
        cautions=(words.LISTED if pairs is None else words.PAIRED, *words.HANDS_ON),
    )
    return teller.report(words.opening(program.label, tally), words.closing(tally), _outcome(found, tally), part)


def not_begun(program: Program, sources: Sequence[SourceFile]) -> Report:
    """It was interrupted while the vehicle was looked at as it is."""
    return Report(words.NOT_BEGUN, "", Outcome.OPEN, basis=basis(program, sources), files=files_read(sources))


def _outcome(found: Broken, tally: words.Tally) -> Outcome:
    if tally.by[Severity.DANGER] or tally.without_any:
        return Outcome.FAILS
    unclear = any(isinstance(notice, Unclear) for notice in found.notices)
    undecided = tally.pairs is not None and tally.pairs.open
    open_ = tally.open or tally.unasked or tally.idle or tally.untried or undecided or unclear or tally.interrupted
    return Outcome.OPEN if open_ else Outcome.GOOD


def is_short_itself(fault: Fault, requirement: Requirement) -> bool:
    """The fault itself is the short circuit that the built-in requirement is about."""
    shorted = fault.kind is PartKind.WIRE and fault.mode in (Mode.LIVE, Mode.GROUNDED)
    return shorted and requirement.name == SHORT_CIRCUIT


def weight(pairs: Sequence[Pair]) -> Severity:
    """The worst that fails with one fault, of all its pairs."""
    some = [
        Severity.SHORT if is_short_itself(each.fault, each.requirement) else SEVERITIES[each.requirement.guard]
        for each in pairs
        if each.failing is not None
    ]
    some += [Severity.OPEN for each in pairs if not each.is_proved]
    return min(some, key=WORST.index, default=Severity.NONE)


class _Teller:
    """Tells what was found, and numbers the stories that are shown whole."""

    def __init__(
        self,
        program: Program,
        sources: Sequence[SourceFile],
        found: Broken,
        wanted: Wanted,
        pairs: CutSets | None,
    ) -> None:
        self.program, self.sources, self.found, self.wanted = program, sources, found, wanted
        self.files: Mapping[str, str] = texts(sources)
        self.of: dict[str, list[Pair]] = {fault.id: [] for fault in found.faults}
        for pair in found.pairs:
            self.of[pair.fault.id].append(pair)
        self.severity = {name: weight(pairs) for name, pairs in self.of.items()}
        notices = dict(zip((fault.id for fault in found.faults), found.notices, strict=False))
        self.notices: Mapping[str, Notice] = notices
        self.stories = FaultStories(program, sources, wanted.stories)
        self.pairs = PairsTold(pairs, found, self.stories) if pairs is not None else None

    def report(self, opening: str, closing: str, outcome: Outcome, part: FaultsPart | None) -> Report:
        whole = basis(self.program, self.sources)
        return Report(
            opening,
            closing,
            outcome,
            why=WhyPart((), sections=tuple(self.stories.sections)) if self.stories.sections else None,
            basis=replace(whole, limits=tuple(limit for limit in whole.limits if limit != NOTHING_BREAKS)),
            files=files_read(self.sources),
            faults=part,
        )

    # ---------------------------------------------------------------------------------------------------- the whole

    def tally(self) -> words.Tally:
        counted = Counter(self.severity.values())
        hidden = [fault.id for fault in self.found.faults if self._is_hidden(fault)]
        return words.Tally(
            by={each: counted[each] for each in Severity},
            hidden=len(hidden),
            hidden_dangers=sum(self.severity[name] is Severity.DANGER for name in hidden),
            open=sum(any(not _is_known(pair) for pair in pairs) for pairs in self.of.values()),
            dangers=sum(r.guard is Guard.DANGER and r.name != SHORT_CIRCUIT for r in self.found.asked),
            unasked=len(self.found.unasked),
            without_any=sum(
                each.kind is Kind.FAILS and each.requirement.guard is Guard.DANGER for each in self.found.unasked
            ),
            interrupted=self.found.interrupted or (self.pairs is not None and self.pairs.interrupted),
            idle=len(self.found.idle),
            untried=len(in_coils(self.program)) if self._is_of_all() else 0,
            pairs=self.pairs.counted() if self.pairs is not None else None,
        )

    def _is_of_all(self) -> bool:
        """Not only some faults were asked for."""
        return len(self.found.faults) == len(faults_of(self.program))

    def answer(self, tally: words.Tally) -> Iterator[str]:
        found = self.found
        yield words.KINDS_OF_START
        if tally.by[Severity.SHORT]:
            yield words.shorts(tally.by[Severity.SHORT])
        if found.unasked:
            yield words.unproved([(each.requirement.name, each.kind) for each in found.unasked])
        if found.idle:
            yield words.idle([each.name for each in found.asked if each.name in found.idle])
        yield from self._tell_tales()
        troubled = {pair.requirement.name for pair in found.pairs if not pair.is_proved}
        held = [each.name for each in found.asked if each.name not in troubled | found.idle]
        if held and found.faults:
            yield words.held(held)
        if coils := in_coils(self.program):
            yield words.in_coils(coils)
        if self.pairs is not None:
            yield from self.pairs.answer()
        elif self.wanted.pairs and found.interrupted:
            yield PAIRS_NOT_BEGUN
        if not self.wanted.stories:
            yield words.how_to_see(self.sources[0].path)

    def _tell_tales(self) -> Iterator[str]:
        """What is noticed, and which tell-tales are on with nothing broken, too."""
        if self.found.notices:
            yield words.TELL_TALES if self.program.electrics.tell_tales else words.NO_TELL_TALE
        if (tales := self.found.tales) is not None:
            told = (
                (tales.always, words.ON_ANYWAY),
                (tales.unknown, words.PERHAPS_ANYWAY),
                (tales.at_times, words.ON_AT_TIMES),
                (tales.unclear, words.PERHAPS_AT_TIMES),
            )
            yield from (words.lit(why, [each.label or each.text for each in some]) for some, why in told if some)

    # ------------------------------------------------------------------------------------------------ by requirement

    def endangered(self) -> Iterator[EndangeredPart]:
        """The requirements that fail, or may, with some fault: those that guard against danger first."""
        for requirement in sorted(self.found.asked, key=lambda each: WORST.index(SEVERITIES[each.guard])):
            pairs = [pair for pair in self.found.pairs if pair.requirement.name == requirement.name]
            brief = requirement.guard is Guard.FUNCTION or requirement.name == SHORT_CIRCUIT
            brief = brief and not self.wanted.all_lines
            hits = tuple(self._hit(pair, brief) for pair in pairs if pair.failing is not None)
            unknown = tuple(self._unknown(pairs))
            if hits or unknown:
                hidden = sum(hit.hidden for hit in hits)
                part = self._part(requirement, words.hits(len(hits), hidden), hits, unknown, brief)
                failing = (pair.fault for pair in pairs if pair.failing is not None)
                short = hits and all(is_short_itself(fault, requirement) for fault in failing)
                yield replace(part, severity=Severity.SHORT) if short else part

    def _part(
        self, requirement: Requirement, sentence: str, hits: tuple[HitPart, ...], unknown: tuple[str, ...], brief: bool
    ) -> EndangeredPart:
        return EndangeredPart(
            name=requirement.name,
            label=requirement.label,
            guards=GUARDS[requirement.guard],
            severity=SEVERITIES[requirement.guard],
            text=requirement.text,
            place=where(requirement.span, self.files),
            sentence=sentence,
            hits=hits,
            open=unknown,
            brief=brief,
        )

    def _hit(self, pair: Pair, brief: bool) -> HitPart:
        assert pair.failing is not None
        when, fails = pair.failing
        told = _when(pair)
        whole = "" if brief else told
        number, story = self.stories.failing(pair.requirement, (pair.fault,), when, fails.story, whole)
        return HitPart(
            fault=pair.fault.id,
            when=told,
            story=story if fails.shortest else f"{words.A_STORY}{story}",
            noticed=self._noticed(pair.fault),
            hidden=self._is_hidden(pair.fault),
            number=number,
        )

    def _unknown(self, pairs: Sequence[Pair]) -> Iterator[str]:
        """The faults without an answer, by the reason."""
        by: dict[str, list[str]] = {}
        for pair in pairs:
            if pair.failing is None:
                for reason in dict.fromkeys(_reasons(pair)):
                    by.setdefault(reason, []).append(pair.fault.id)
        yield from (words.unanswered(faults, reason) for reason, faults in by.items())

    # -------------------------------------------------------------------------------------------------------- by part

    def effects(self) -> Iterator[EffectPart]:
        """One row a part and mode, in the order of the file."""
        for fault in self.found.faults:
            yield EffectPart(
                part=fault.part,
                label=fault.label if fault.label != fault.of else "",
                kind=fault.kind.value,
                place=where(fault.span, self.files),
                mode=fault.mode.value,
                local=words.local(fault, self._reads(fault)),
                ends=tuple(_ends(self.of[fault.id])) or (words.NO_END,),
                severity=self.severity[fault.id],
                noticed=self._noticed(fault) + self._hiding(fault),
                hidden=self._is_hidden(fault),
            )

    def _hiding(self, fault: Fault) -> str:
        """The number of the whole story that hides it, where those are told: of faults with which something fails."""
        notice = self.notices.get(fault.id)
        if not self.wanted.stories or self.severity[fault.id] is Severity.NONE or not isinstance(notice, Hidden):
            return ""
        if notice.when is None or notice.story is None or notice.by is None:
            return ""
        told = words.manner(fault, notice.when)
        return words.in_story(self.stories.hiding(fault, notice.when, notice.story, notice.by, told))

    def _reads(self, fault: Fault) -> str:
        """What a sense reads with the fault, as people say it."""
        senses = self.program.box.senses if self.program.box is not None else ()
        match next((sense for sense in senses if sense.name == fault.of), None):
            case WireSense() as sense:
                on = sense.substitute if fault.mode is Mode.LOST else fault.mode is _READS_ON[sense.grounded]
                return words.ON if on else words.OFF
            case NumberSense() as sense:
                number = next(each for each in self.program.numbers if each.name == sense.number)
                reading = {Mode.LOW: number.low, Mode.HIGH: number.high, Mode.LOST: sense.substitute}.get(fault.mode)
                return said_quantity(reading, number.unit) if reading is not None else ""
            case None:
                return ""

    # -------------------------------------------------------------------------------------------------------- noticed

    def _is_hidden(self, fault: Fault) -> bool:
        return isinstance(self.notices.get(fault.id), Hidden)

    def _noticed(self, fault: Fault) -> str:
        match self.notices.get(fault.id):
            case Noticed(by=by):
                while_ = in_a_sentence(by.r, self.files) if by.r is not None else ""
                return words.noticed(by.label or by.text, said(by.time), while_)
            case Hidden():
                return words.HIDDEN
            case Unclear():
                return words.NOT_KNOWN
            case None:
                return words.NOT_ASKED


_READS_ON = {False: Mode.LIVE, True: Mode.GROUNDED}


def _is_known(pair: Pair) -> bool:
    return pair.failing is not None or pair.is_proved


def _when(pair: Pair) -> str:
    """When the fault lets the requirement fail."""
    if pair.fault.mode in (Mode.DIPPED, Mode.TRIPPED):
        return words.manner(pair.fault, pair.fault.whens[0])
    fails = {when for when, outcome in pair.outcomes() if isinstance(outcome, Fails)}
    only = fails == {When.LOOSE} and not [*_reasons(pair)]
    return words.whens(When.START in fails, When.LATER in fails, When.LOOSE in fails, only)


def _reasons(pair: Pair) -> Iterator[str]:
    """Why it has no answer."""
    for _, outcome in pair.outcomes():
        if isinstance(outcome, Open | Blocked):
            yield words.why_open(outcome)


def _ends(pairs: Sequence[Pair]) -> Iterator[str]:
    """The requirements that fail with one fault, the worst first; then those without an answer."""
    order = sorted(pairs, key=lambda each: WORST.index(SEVERITIES[each.requirement.guard]))
    yield from (words.end(each.requirement.name, _when(each)) for each in order if each.failing is not None)
    by: dict[str, list[str]] = {}
    for each in order:
        if not _is_known(each):
            by.setdefault(next(_reasons(each)), []).append(each.requirement.name)
    yield from (words.unanswered(names, reason) for reason, names in by.items())
