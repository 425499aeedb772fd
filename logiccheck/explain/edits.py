"""Edits of the user's own lines with which a failing requirement would hold, and nothing else would be spoilt.

Tried are edits of the kinds that people make, one at a time, in the lines that are to blame, the smallest first. The
stories that are known are played on the edited files; what passes has to be proved, with all that was proved before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget, OutOfTime
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
    search = _Search(Trial(program, main, files, found, each, Budget(seconds)), progress, excluded)
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
    passed: list[tuple[str, Edit, Check]] = field(default_factory=list)
    over: Cut | None = None

    def mending(self, verdict: Verdict) -> Mending:
        """What would mend this requirement."""
        name = verdict.requirement.name
        if (like := self._mended_too(name)) is not None:
            return like
        if self.over is not None:
            return Mending(cut=self.over)
        self.progress(f"edits for {name}")
        attempt = _Attempt(self.trial, verdict, self.excluded.get(name, ()))
        try:
            attempt.run()
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
    excluded: Sequence[Excluded]
    tried: list[EditKind] = field(default_factory=list)
    proved: int = 0
    passed: list[tuple[Edit, Check]] = field(default_factory=list)

    def run(self) -> None:
        """Try them, until enough have passed."""
        trial = self.trial
        edits = ordered(candidates(trial.program, trial.files, self.verdict, self.excluded), trial.files)
        files = self.trial.files
        for edit in edits[:MOST_PLAYED]:
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


def ordered(edits: Iterator[Edit], files: Mapping[str, str]) -> list[Edit]:
    """The smallest first, of those that make the same text one; durations as they come, which is the nearest first."""
    each: dict[tuple[tuple[str, int, int, str], ...], Edit] = {}
    for edit in edits:
        key = tuple((c.span.file, c.span.begin, c.span.end, c.text) for c in edit.changes)
        each.setdefault(key, edit)
    kinds = list(EditKind)
    return sorted(each.values(), key=lambda edit: (size(edit, files), kinds.index(edit.kind)))
