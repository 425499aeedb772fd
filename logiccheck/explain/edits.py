"""Edits of the user's own lines with which a failing requirement would hold, and nothing else would be spoilt.

Tried are edits of the kinds that people make, one at a time, in the lines that are to blame: first those that might
mend all that fails, then the others, each time the smallest first; last two durations at once. The stories that are
known are played on the edited files; what passes has to be proved, with all that was proved before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations
from typing import TypeAlias

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.span import Span
from logiccheck.engine.verdict import Check, Kind, Verdict
from logiccheck.explain.amounts import durations, thresholds
from logiccheck.explain.blame import Blame, blame, blame_for
from logiccheck.explain.copper import copper_edits
from logiccheck.explain.edit import Edit, EditKind, size
from logiccheck.explain.ending import all_situations, situations
from logiccheck.explain.mending import Cut, Excluded, Mending
from logiccheck.explain.site import site
from logiccheck.explain.terms import inner_edits
from logiccheck.explain.trial import Trial
from logiccheck.lang.program import Guard, Possible, Program
from logiccheck.model.reaction import Values

NOTHING: Mapping[str, Sequence[Excluded]] = {}
MOST_SHOWN = 2
MOST_LINES = 12  # lines in which edits are tried
MOST_PLAYED = 400  # edits tried for one requirement
MOST_PROVED = 24  # of these, how many may be put to the proof
MOST_PAIRS = 100  # tried where no edit alone passed
NEAR = 6  # durations of one place, the nearest, that are changed together with those of another

Text: TypeAlias = tuple[tuple[str, int, int, str], ...]  # what an edit puts where


def look_for_edits(
    program: Program,
    main: str,
    files: Mapping[str, str],
    found: Check,
    seconds: float,
    each: float,
    progress: Callable[[str], None],
    excluded: Mapping[str, Sequence[Excluded]] = NOTHING,
) -> dict[str, Mending]:
    """For each requirement that fails, by name. `files` are the texts that the user wrote, `main` is the first of them.
    `excluded`: for what is to be possible, what keeps it from being so.

    All of it may take `seconds`, one proof `each`. Nothing is looked for beside what blocks every verdict. A
    KeyboardInterrupt ends the search.
    """
    failing = sorted((v for v in found.verdicts if v.kind is Kind.FAILS), key=_weight)
    if found.troubles or not failing:
        return {}
    search = _Search(Trial(program, main, files, found, each, Budget(seconds)), progress, excluded, failing)
    mendings: dict[str, Mending] = {}
    try:
        for verdict in failing:
            mendings[verdict.requirement.name] = search.mending(verdict)
    except KeyboardInterrupt:  # between two of them
        pass
    return {v.requirement.name: mendings.get(v.requirement.name, Mending(cut=Cut.INTERRUPTED)) for v in failing}


def _weight(verdict: Verdict) -> int:
    return list(Guard).index(verdict.requirement.guard)


@dataclass(slots=True)
class _Search:
    """`passed`: edits that are fine, by the requirement they were found for, with what they make of all others.
    `over`: why nothing more is tried."""

    trial: Trial
    progress: Callable[[str], None]
    excluded: Mapping[str, Sequence[Excluded]]
    failing: Sequence[Verdict]
    passed: list[tuple[str, Edit, Check]] = field(default_factory=list)
    over: Cut | None = None
    each: dict[str, Mapping[Text, Edit]] = field(default_factory=dict)  # of each requirement, what might mend it

    def mending(self, verdict: Verdict) -> Mending:
        """What would mend this requirement."""
        name = verdict.requirement.name
        if (like := self._mended_too(name)) is not None:
            return like
        if self.over is not None:
            return Mending(cut=self.over)
        self.progress(f"edits for {name}")
        attempt = _Attempt(self.trial, verdict)
        try:
            attempt.run(*self._ordered(verdict))
        except OutOfTime:
            self.over = Cut.TIME
        except MemoryError:
            self.over = Cut.MEMORY
        except KeyboardInterrupt:
            self.over = Cut.INTERRUPTED
        self.passed += [(name, edit, check) for edit, check in attempt.passed]
        edits = tuple(edit for edit, _ in attempt.passed)
        kinds = tuple(kind for kind in EditKind if kind in attempt.tried)
        return Mending(edits, "", len(attempt.tried), kinds, None if len(edits) == MOST_SHOWN else self.over)

    def _ordered(self, verdict: Verdict) -> tuple[list[Edit], list[Edit]]:
        """What might mend all that fails and is mended by nothing so far, and what might mend this, smallest first."""
        mine = self._candidates(verdict)
        mended = [check for _, _, check in self.passed]
        names = [each.requirement.name for each in self.failing]
        open_ = [n for n in names if not any(_is_proved(check, n) for check in mended)]
        others = [self._candidates(each) for each in self.failing if each.requirement.name in open_]
        all_ = set(mine).intersection(*others) if len(open_) > 1 else set()
        kinds, files = list(EditKind), self.trial.files
        edits = sorted(mine.items(), key=lambda each: (size(each[1], files), kinds.index(each[1].kind)))
        return [edit for text, edit in edits if text in all_], [edit for text, edit in edits if text not in all_]

    def _candidates(self, verdict: Verdict) -> Mapping[Text, Edit]:
        name, trial = verdict.requirement.name, self.trial
        if name not in self.each:
            found = candidates(trial.program, trial.files, verdict, self.excluded.get(name, ()))
            self.each[name] = each_once(found)
        return self.each[name]

    def _mended_too(self, name: str) -> Mending | None:
        """The edits for another requirement that mend this one, too."""
        for other in dict.fromkeys(other for other, _, _ in self.passed):
            told = [(edit, check) for who, edit, check in self.passed if who == other]
            edits = [edit for edit, check in told if _is_proved(check, name)]
            if edits:
                return Mending(tuple(edits), other if len(edits) == len(told) else "")
        return None


def _is_proved(check: Check, name: str) -> bool:
    kinds = [each.kind for each in check.verdicts if each.requirement.name == name]
    return kinds == [Kind.PROVED]


@dataclass(slots=True)
class _Attempt:
    """The edits tried for one requirement so far, and those that passed."""

    trial: Trial
    verdict: Verdict
    tried: list[EditKind] = field(default_factory=list)
    proved: int = 0
    passed: list[tuple[Edit, Check]] = field(default_factory=list)

    def run(self, first: Sequence[Edit], then: Sequence[Edit]) -> None:
        """Try the first, then the others, until enough have passed; where none did, two durations at once."""
        for edits in (first, then[:MOST_PLAYED], pairs((*first, *then), self.trial.files)[:MOST_PAIRS]):
            if not self.passed and self.proved < MOST_PROVED:
                self._try(edits)

    def _try(self, edits: Sequence[Edit]) -> None:
        files = self.trial.files
        for edit in edits:
            if self.passed and size(edit, files) > size(self.passed[0][0], files):
                return  # another one is told only if it is as small
            if any(_is_further(edit, other) for other, _ in self.passed):
                continue
            self.tried.append(edit.kind)
            if (check := self._passes(edit)) is not None:
                self.passed.append((edit, check))
            if len(self.passed) == MOST_SHOWN or self.proved == MOST_PROVED:
                return

    def _passes(self, edit: Edit) -> Check | None:
        if edit.swapped is not None and not self._plays_well(edit.swapped()):
            return None
        program = self.trial.read(edit)
        if program is None or not self._plays_well(program):
            return None
        self.proved += 1
        return self.trial.spares(program) if self.trial.mends(program, self.verdict) else None

    def _plays_well(self, program: Program) -> bool:
        return self.trial.plays(program, self.verdict) and self.trial.goes_as_expected(program)


def _is_further(edit: Edit, other: Edit) -> bool:
    """Whether it is the same amount, changed by more than is needed."""
    amounts = (EditKind.DURATION, EditKind.THRESHOLD)
    return edit.kind in amounts and [c.span for c in edit.changes] == [c.span for c in other.changes]


def candidates(
    program: Program, files: Mapping[str, str], verdict: Verdict, excluded: Sequence[Excluded] = ()
) -> Iterator[Edit]:
    """Every edit that might mend the requirement, in no order; `files` are those that the user wrote."""
    form = verdict.requirement.form
    for story, lines in _stories(program, verdict, excluded):
        place = site(program, files, form, story, lines)
        yield from durations(place, form)
        yield from thresholds(place)
        yield from inner_edits(place)
        yield from copper_edits(place)


def _stories(
    program: Program, verdict: Verdict, excluded: Sequence[Excluded]
) -> Iterator[tuple[tuple[Values, ...], tuple[Blame, ...]]]:
    """Stories that end where something is not as it should be, each with the lines to blame for that."""
    form = verdict.requirement.form
    if verdict.story is not None and (story := situations(program, verdict.story, form)):
        yield story, blame(program, form, story, MOST_LINES, widely=True)
    if isinstance(form, Possible):
        for missed in (each.missed for each in excluded if each.missed is not None):
            story = all_situations(program, missed)
            yield story, blame_for(program, form.q, story, MOST_LINES)


def each_once(edits: Iterator[Edit]) -> Mapping[Text, Edit]:
    """Of those that make the same text one, as they come."""
    each: dict[Text, Edit] = {}
    for edit in edits:
        each.setdefault(tuple((c.span.file, c.span.begin, c.span.end, c.text) for c in edit.changes), edit)
    return each


def pairs(edits: Sequence[Edit], files: Mapping[str, str]) -> list[Edit]:
    """Two durations at once, in two places; first those of which each is changed the least."""
    by_place: dict[Span, list[Edit]] = {}
    for edit in edits:
        if edit.kind is EditKind.DURATION and len(edit.changes) == 1:
            by_place.setdefault(edit.changes[0].span, []).append(edit)
    found: list[tuple[int, Edit]] = []
    for one, other in combinations(by_place.values(), 2):
        for i, first in enumerate(one[:NEAR]):
            for j, second in enumerate(other[:NEAR]):
                found.append((i + j, Edit(EditKind.DURATION, (*first.changes, *second.changes))))
    return [edit for _, edit in sorted(found, key=lambda each: each[0])]
