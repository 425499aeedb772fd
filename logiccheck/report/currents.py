"""The report of what a vehicle draws: what fails first, then each feed, what comes on together, and the tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from logiccheck.base.units import show_number
from logiccheck.copper.draws.draws import IN_BOX, Draw, What, draws
from logiccheck.copper.draws.feeds import Kind
from logiccheck.copper.draws.fitting import Fitted, unknown
from logiccheck.copper.draws.worst import Worst
from logiccheck.copper.sizing.sized import Carries, Drop, Fit, Lack, Protects, Sized
from logiccheck.copper.tables.table import Table
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.asking import Blocked, Never, Open, Seen
from logiccheck.explain.bare import bare
from logiccheck.explain.situation import Asked
from logiccheck.lang.program import Or, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.model.story import Story
from logiccheck.report import words_currents as words
from logiccheck.report import words_sizing
from logiccheck.report.answered import hindered, outcome
from logiccheck.report.basis import basis, files_read
from logiccheck.report.currents_part import CurrentsPart, FeedPart, FitPart, PairPart
from logiccheck.report.durations import said
from logiccheck.report.report import LinesPart, Outcome, Report, Shown
from logiccheck.report.ways import Vehicle
from logiccheck.report.words_ways import why_open
from logiccheck.study.currents import Currents, Given, Pair

FAILING, HOLDING = (words.FAILS, words.MEET), (words.FITS, words.APART)


def currents_report(program: Program, sources: tuple[SourceFile, ...], found: Currents, stories: bool) -> Report:
    """All that was found; `stories`: each of them moment by moment."""
    base, files = basis(program, sources), files_read(sources)
    if not found.given:
        return Report(words.NOTHING, "", Outcome.FAILS, notes=words.HOW_TO_SAY, basis=base, files=files)
    told = _Told(program, sources, found)
    first = max((g for g in found.given if g.supply.feed.kind is Kind.SOURCE), key=_most, default=found.given[0])
    worst = first.worst
    part = told.part()
    fails, open_, fits = _count(part)
    open_ += told.inexact()
    opening = words.opening(_called(first), worst.least, worst.most, first.supply.together)
    return Report(
        f"{opening} {words.beside(fails, told.all_counted())}".rstrip(),
        words.closing(fails, open_, fits),
        Outcome.FAILS if fails else told.outcome(open_),
        tour=tuple(told.whole()) if stories else (),
        currents=part,
        notes=tuple(told.notes(stories)),
        basis=base,
        files=files,
    )


def _most(given: Given) -> Fraction:
    return given.worst.most


def _count(part: CurrentsPart) -> tuple[int, int, int]:
    """How many checks fail, are not decided, and hold."""
    checks = [each.word for each in part.fits] + [each.word for each in part.pairs]
    fails, holds = (sum(word in those for word in checks) for those in (FAILING, HOLDING))
    return fails, checks.count(words.OPEN), holds


def _called(given: Given) -> str:
    feed = given.supply.feed
    return (feed.label or words.BOX) if feed.kind is Kind.BOX else feed.name


@dataclass(slots=True)
class _Told:
    program: Program
    sources: tuple[SourceFile, ...]
    found: Currents
    tables: list[Table] = field(default_factory=list)

    def part(self) -> CurrentsPart:
        fits = tuple(part for each in self.found.fitted for part in self._fits(each))
        apart = self.found.apart
        return CurrentsPart(
            tuple(self._answer()),
            tuple(each for each in fits if each.word == words.FAILS),
            tuple(self._feed(given) for given in self._shown()),
            "" if apart is None else words.apart(said(apart), len(self.found.pairs)),
            tuple(sorted(map(self._pair, self.found.pairs), key=lambda pair: _ORDER.index(pair.word))),
            fits,
            tuple(words_sizing.source(table) for table in self.tables),
            (words_sizing.CAUTION, *words.CAUTIONS),
        )

    def _shown(self) -> list[Given]:
        """A wire or an output that one thing alone can draw from is only held against tables."""
        several = (Kind.WIRE, Kind.OUTPUT)
        return [g for g in self.found.given if g.supply.feed.kind not in several or len(g.supply.fed) > 1]

    def inexact(self) -> int:
        """How many currents are known only between two bounds."""
        return sum(not worst.exact for given in self._shown() for worst in _searched(given))

    def all_counted(self) -> bool:
        """Whether all that may draw says how much, and from where."""
        return not self.found.silent and not self._unfed()

    def _unfed(self) -> list[str]:
        return [draw.name for draw in draws(self.program) if draw.at is None]

    def outcome(self, open_: int) -> Outcome:
        found = self.found
        whole = outcome(self._left(), found.interrupted, found.unsettled)
        return Outcome.OPEN if whole is Outcome.GOOD and open_ else whole

    def _left(self) -> list[Open | Blocked]:
        """Why something is not known, where it is not."""
        left = (list(self.found.left) or [Open(Undecided.BUDGET)]) if self.inexact() else []
        return left + [pair.answer for pair in self.found.pairs if isinstance(pair.answer, Open | Blocked)]

    def _answer(self) -> Iterator[str]:
        found = self.found
        yield from hindered(self.sources[0].path, self._left(), found.interrupted, found.unsettled)
        if found.silent:
            yield words.silent(found.silent)
        if unfed := self._unfed():
            yield words.unfed(unfed)
        if found.differing:
            yield words.differs([(each.output.name, each.wire) for each in found.differing])

    def notes(self, stories: bool) -> Iterator[str]:
        inrush = [draw for draw in draws(self.program) if draw.inrush is not None]
        if self.found.apart is None and len(inrush) > 1:
            yield words.apart_unsaid()
        if any(Lack.NOMINAL in check.lacks for each in self.found.fitted for check in each.checks):
            yield words.NO_NOMINAL
        if taken := self._air():
            yield words.air_unsaid(taken)
        if not stories:
            yield words.how_to_see(self.sources[0].path)

    def _air(self) -> list[str]:
        """How warm it is taken to be, where the file does not say it."""
        found: set[Fraction] = set()
        for each in self.found.fitted:
            place, where = self.program.electrics, each.item.electrical.engine_space
            if place.ambient is None and not (where and place.engine_space is not None):
                reckoned = [check.numbers for check in each.checks]
                found |= {n.temperature for n in reckoned if isinstance(n, Protects | Carries | Drop)}
        return [words_sizing.amount(degrees, "degC") for degrees in sorted(found)]

    # ------------------------------------------------------------------------------------------------------ feeds

    def _feed(self, given: Given) -> FeedPart:
        supply, worst = given.supply, given.worst
        return FeedPart(
            supply.feed.kind.value,
            words.BOX if supply.feed.name == IN_BOX else supply.feed.name,
            supply.feed.label,
            show_number(worst.least),
            show_number(worst.most),
            show_number(supply.together),
            tuple(self._lines(given)),
        )

    def _lines(self, given: Given) -> Iterator[tuple[str, str]]:
        supply, worst, rush = given.supply, given.worst, given.rush
        lead = words.GIVES if supply.feed.kind in (Kind.SOURCE, Kind.BOX) else words.CARRIES
        if worst.story is None and not worst.exact:
            yield lead, words.nothing_found(worst.most)
        else:
            yield lead, words.gives(worst.least, worst.most, supply.together)
        electrical = supply.feed.electrical
        if electrical is not None and electrical.fuse is not None:
            yield words.FUSE, words.share(electrical.fuse, worst.least, worst.most)
        if given.on:
            yield words.ON, words.drawing([(_named(draw), draw.amperes) for draw in _largest(given.on)])
        if worst.story is not None:
            yield words.STORY, self._story(worst.story)
        if rush is not None:
            coming, been = [_named(each) for each in given.rushing], [_named(each) for each in given.rushed]
            yield words.INRUSH, words.rush(rush.least, rush.most, supply.all_rush, coming, been)
            if rush.story is not None:
                yield words.STORY, self._story(rush.story)
        if shared := [_named(fed.passing.draw) for fed in supply.fed if fed.passing.shared]:
            yield words.MORE_WAYS, words.more_ways(shared)

    def _vehicle(self, some: Iterable[Draw]) -> Vehicle:
        on = Or(tuple(draw.on for draw in some))
        return Vehicle(self.program, Asked("currents", "", on), self.sources, played=self.found.program)

    def _story(self, story: Story) -> str:
        vehicle = self._vehicle(())
        return "; ".join(vehicle.steps(bare(story, vehicle.timers)))

    def _table(self, some: Iterable[Draw], story: Story) -> Shown:
        return replace(self._vehicle(some).shown(story), causes=())

    def whole(self) -> Iterator[LinesPart]:
        """Each story as a table."""
        for given in self._shown():
            draws = [fed.passing.draw for fed in given.supply.fed]
            words_of = dict(zip((words.GIVES, words.INRUSH), _searched(given), strict=False))
            lines = tuple((word, words.most(worst.least, worst.most)) for word, worst in words_of.items())
            told = [(word, each.story) for word, each in words_of.items() if each.story is not None]
            yield LinesPart(_called(given), "", lines, tuple((word, self._table(draws, story)) for word, story in told))
        for pair in self.found.pairs:
            if isinstance(pair.answer, Seen):
                draws = [pair.meet.first, pair.meet.second]
                names, part = words.to_name([_named(each) for each in draws]), self._pair(pair)
                table = self._table(draws, pair.answer.story)
                yield LinesPart(names, "", ((part.word, part.sentence),), ((words.STORY, table),))

    # ------------------------------------------------------------------------------------------------------ pairs

    def _pair(self, pair: Pair) -> PairPart:
        first, second, answer = _named(pair.meet.first), _named(pair.meet.second), pair.answer
        time = said(self.found.apart or 0)
        match answer:
            case Seen(story):
                vehicle = self._vehicle(())
                steps = tuple(vehicle.steps(bare(story, vehicle.timers)))
                return PairPart(first, second, words.MEET, words.meets(time, steps))
            case Never():
                return PairPart(first, second, words.APART, words.proved_apart(time))
            case Open() | Blocked():
                return PairPart(first, second, words.OPEN, why_open(answer))

    # ------------------------------------------------------------------------------------------------------- fits

    def _fits(self, each: Fitted) -> Iterator[FitPart]:
        for check in each.checks:
            if check.numbers is None and Lack.NOMINAL in check.lacks:
                continue  # said once
            yield FitPart(
                each.item.name,
                each.item.label,
                _word(check),
                words_sizing.verdict(check),
                words_sizing.formula(check),
                tuple(self._number(table) for table in check.basis),
            )

    def _number(self, table: Table) -> int:
        if table not in self.tables:
            self.tables.append(table)
        return self.tables.index(table) + 1


_ORDER = (words.MEET, words.OPEN, words.APART)


def _word(check: Sized) -> str:
    if check.fit is Fit.NOT:
        return words.FAILS
    if check.fit is Fit.FITS:
        return words.FITS
    return words.OPEN if unknown(check) else words.UNSAID


def _searched(given: Given) -> tuple[Worst, ...]:
    return (given.worst,) if given.rush is None else (given.worst, given.rush)


def _largest(some: Sequence[Draw]) -> list[Draw]:
    return sorted(some, key=lambda draw: -draw.amperes)


def _named(draw: Draw) -> str:
    match draw.what:
        case What.AWAKE:
            return words.BOX_AWAKE
        case What.ASLEEP:
            return words.BOX_ASLEEP
        case What.COIL:
            return words.coil(draw.name)
        case What.LOAD | What.OUTPUT:
            return draw.name
