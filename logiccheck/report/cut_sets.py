"""The report of minimal cut sets: of each requirement, which faults together let it fail."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from logiccheck.copper.faults.changed import together
from logiccheck.copper.faults.parts import in_coils
from logiccheck.copper.sets.breaking import Cuts, CutSet
from logiccheck.engine.verdict import SHORT_CIRCUIT
from logiccheck.lang.program import Guard, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.report import words_cut_sets as words
from logiccheck.report.basis import basis, files_read, texts
from logiccheck.report.cut_sets_part import CutRequirementPart, CutSetPart, CutSetsPart
from logiccheck.report.excerpt import where
from logiccheck.report.happenings import happenings
from logiccheck.report.report import Outcome, Report
from logiccheck.report.words_check import NOTHING_BREAKS
from logiccheck.report.words_faults import HANDS_ON, comes_and_goes
from logiccheck.report.words_faults import in_coils as told_in_coils
from logiccheck.report.words_verdict import GUARDS
from logiccheck.study.cut_sets import CutSets

MOST_STORIES = 40  # sets of one requirement up to which each has its story


def cut_sets_report(program: Program, sources: Sequence[SourceFile], found: CutSets, narrowed: bool) -> Report:
    """All sets that were found; `narrowed`: not all faults of the vehicle were looked at."""
    counted = _counted(program, found, narrowed)
    whole = basis(program, sources)
    told = replace(whole, limits=tuple(limit for limit in whole.limits if limit != NOTHING_BREAKS))
    if not found.cuts and not found.possible:
        return Report(words.nothing_asked(sources[0].path), "", Outcome.FAILS, basis=told, files=files_read(sources))
    teller = _Teller(program, sources, found)
    part = CutSetsPart(
        order=found.order,
        answer=tuple(_answer(program, found, narrowed)),
        requirements=tuple(teller.requirement(each) for each in found.cuts),
        cautions=(words.LISTED, words.NOT_LIKELY, *HANDS_ON),
    )
    return Report(
        words.opening(program.label, counted),
        words.closing(counted),
        _outcome(found, counted),
        basis=told,
        files=files_read(sources),
        cut_sets=part,
    )


def _counted(program: Program, found: CutSets, narrowed: bool) -> words.Counted:
    smallest = Counter(min((len(each.faults) for each in cuts.sets), default=None) for cuts in found.cuts)
    return words.Counted(
        asked=len(found.cuts),
        none=smallest[0],
        one=smallest[1],
        more=sum(count for size, count in smallest.items() if size is not None and size > 1),
        open=sum(not _is_whole(cuts) for cuts in found.cuts),
        order=found.order,
        interrupted=found.interrupted,
        untried=0 if narrowed else len(in_coils(program)),
    )


def _is_whole(cuts: Cuts) -> bool:
    return cuts.complete == cuts.order and not cuts.barred


def _outcome(found: CutSets, counted: words.Counted) -> Outcome:
    """As that of single faults: whether one fault, or none, is enough for danger; else whether all was decided."""
    own = (cuts for cuts in found.cuts if cuts.requirement.name != SHORT_CIRCUIT)
    dangers = (cuts for cuts in own if cuts.requirement.guard is Guard.DANGER)
    if any(len(each.faults) < 2 for cuts in dangers for each in cuts.sets) or not counted.asked:
        return Outcome.FAILS
    return Outcome.OPEN if counted.open or counted.untried or found.interrupted else Outcome.GOOD


def _answer(program: Program, found: CutSets, narrowed: bool) -> Iterator[str]:
    yield words.WHAT_THEY_ARE
    yield words.ONE_A_PART
    if all(cuts.requirement.name != SHORT_CIRCUIT for cuts in found.cuts):
        yield words.NO_SHORT
    if narrowed:
        yield words.ONLY_THESE
    if coils := in_coils(program):
        yield told_in_coils(coils)
    if found.possible:
        yield words.possible([each.name for each in found.possible])


class _Teller:
    def __init__(self, program: Program, sources: Sequence[SourceFile], found: CutSets) -> None:
        self.program, self.found, self.files = program, found, texts(sources)
        self.ids = [fault.id for fault in found.vehicle.faults]

    def requirement(self, cuts: Cuts) -> CutRequirementPart:
        """One requirement with its sets."""
        requirement, sizes = cuts.requirement, Counter(len(each.faults) for each in cuts.sets)
        counts = tuple(sizes[number] for number in range(cuts.order + 1))
        sentence = words.found(counts, cuts.order, cuts.complete, cuts.why, bool(cuts.barred))
        brief = len(cuts.sets) > MOST_STORIES
        barred = (words.left_out([self.ids[f] for f in sorted(each.faults)], each.by) for each in cuts.barred)
        return CutRequirementPart(
            name=requirement.name,
            label=requirement.label,
            guards=GUARDS[requirement.guard],
            danger=requirement.guard is Guard.DANGER,
            text=requirement.text,
            place="" if requirement.name == SHORT_CIRCUIT else where(requirement.span, self.files),
            sentence=words.fails_whole() if sizes[0] else sentence,
            counts=counts,
            complete=cuts.complete,
            sets=tuple(self._set(each, brief) for each in cuts.sets if each.faults),
            left_out=tuple(barred),
        )

    def _set(self, cut: CutSet, brief: bool) -> CutSetPart:
        faults = [self.found.vehicle.faults[number] for number in sorted(cut.faults)]
        ids = tuple(fault.id for fault in faults)
        if brief:
            return CutSetPart(ids, "")
        vehicle, story = together(self.program, faults), self.found.vehicle.bare(cut)
        return CutSetPart(ids, "; ".join(happenings(vehicle, vehicle, story, {id: comes_and_goes(id) for id in ids})))
