"""Pairs of faults as told: with which a requirement fails, though with neither of the two alone; hidden ones first."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.copper.faults.answers import Broken, Fails, Hidden, Notice, Noticed
from logiccheck.copper.faults.parts import Fault, When
from logiccheck.copper.sets.breaking import Cuts, CutSet
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.report import words_pairs as words
from logiccheck.report.excerpt import where
from logiccheck.report.fault_stories import FaultStories
from logiccheck.report.faults_part import SEVERITIES, WORST, EndangeredPart, HitPart
from logiccheck.report.words_cut_sets import left_out
from logiccheck.report.words_faults import BOTH_SOMETIME
from logiccheck.report.words_verdict import GUARDS
from logiccheck.study.cut_sets import CutSets

PAIR = 2
MOST_STORIES = 40  # pairs of one requirement up to which each has its story


class PairsTold:
    """Tells the sets of two of `sets`; what is known of each fault alone is in `singles`."""

    def __init__(self, sets: CutSets, singles: Broken, stories: FaultStories) -> None:
        self.sets, self.singles, self.stories = sets, singles, stories
        self.faults = sets.vehicle.faults
        self.notices: dict[str, Notice] = dict(
            zip((fault.id for fault in singles.faults), singles.notices, strict=False)
        )
        self.loose = {(pair.requirement.name, pair.fault.id) for pair in singles.pairs if isinstance(pair.loose, Fails)}
        self.interrupted = sets.interrupted

    def counted(self) -> words.PairsCounted:
        """Of all requirements."""
        pairs = [pair for cuts in self.sets.cuts for pair in _pairs(cuts)]
        both = sum(len(self._hidden(self._of(pair))) == PAIR for pair in pairs)
        return words.PairsCounted(len(pairs), both, sum(not _is_whole(cuts) for cuts in self.sets.cuts))

    def answer(self) -> Iterator[str]:
        """What is said of all pairs."""
        yield words.WHAT_THEY_ARE
        none = [cuts.requirement.name for cuts in self.sets.cuts if _is_whole(cuts) and not _pairs(cuts)]
        if none:
            yield words.none(none)
        if self.sets.possible:
            yield words.possible([each.name for each in self.sets.possible])

    def parts(self) -> Iterator[EndangeredPart]:
        """The requirements that fail, or may, with some pair: those that guard against danger first."""
        for cuts in sorted(self.sets.cuts, key=lambda each: WORST.index(SEVERITIES[each.requirement.guard])):
            if _pairs(cuts) or not _is_whole(cuts):
                yield self._part(cuts)

    def _part(self, cuts: Cuts) -> EndangeredPart:
        requirement = cuts.requirement
        pairs = sorted(_pairs(cuts), key=self._rank)
        hidden = [len(self._hidden(self._of(pair))) for pair in pairs]
        whole, aside = cuts.complete == cuts.order, bool(cuts.barred)
        standing = words.standing(len(pairs), whole, aside, cuts.why)
        ids = [fault.id for fault in self.faults]
        return EndangeredPart(
            name=requirement.name,
            label=requirement.label,
            guards=GUARDS[requirement.guard],
            severity=SEVERITIES[requirement.guard],
            text=requirement.text,
            place="" if requirement.name == SHORT_CIRCUIT else where(requirement.span, self.stories.files),
            sentence=words.hits(len(pairs), hidden.count(PAIR), hidden.count(1), standing),
            hits=tuple(self._hit(cuts, pair, len(pairs) > MOST_STORIES) for pair in pairs),
            open=tuple(left_out([ids[f] for f in sorted(each.faults)], each.by) for each in cuts.barred),
            brief=len(pairs) > MOST_STORIES,
        )

    def _hit(self, cuts: Cuts, cut: CutSet, brief: bool) -> HitPart:
        faults = self._of(cut)
        hidden = self._hidden(faults)
        unknown = [f.id for f in faults if not isinstance(self.notices.get(f.id), Hidden | Noticed)]
        alone = [fault.id for fault in faults if (cuts.requirement.name, fault.id) in self.loose]
        number, line = 0, ""
        if not brief:
            story = self.sets.vehicle.bare(cut)
            number, line = self.stories.failing(cuts.requirement, faults, When.SOMETIME, story, BOTH_SOMETIME)
        return HitPart(
            fault=words.pair(*(fault.id for fault in faults)),
            when=words.alone_if_loose(BOTH_SOMETIME, alone),
            story=line,
            noticed=words.noticed(hidden, unknown),
            hidden=len(hidden) == PAIR,
            number=number,
        )

    def _rank(self, cut: CutSet) -> tuple[int, int, list[int]]:
        """More hidden faults first, then those of which it is not known, then in the order of the file."""
        faults = self._of(cut)
        noticed = sum(isinstance(self.notices.get(fault.id), Noticed) for fault in faults)
        return -len(self._hidden(faults)), noticed, sorted(cut.faults)

    def _of(self, cut: CutSet) -> tuple[Fault, ...]:
        return tuple(self.faults[number] for number in sorted(cut.faults))

    def _hidden(self, faults: tuple[Fault, ...]) -> list[str]:
        return [fault.id for fault in faults if isinstance(self.notices.get(fault.id), Hidden)]


def _pairs(cuts: Cuts) -> list[CutSet]:
    return [each for each in cuts.sets if len(each.faults) == PAIR]


def _is_whole(cuts: Cuts) -> bool:
    return cuts.complete == cuts.order and not cuts.barred
