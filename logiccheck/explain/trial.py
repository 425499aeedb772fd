"""Whether an edit mends a requirement and spoils nothing: first by playing, then by proof."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace

from logiccheck.base.budget import Budget
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Check, Kind, Verdict
from logiccheck.explain.asking import BugMet
from logiccheck.explain.edit import Edit, edited
from logiccheck.explain.ending import still_breaks
from logiccheck.explain.touched import Touched
from logiccheck.lang.load import load
from logiccheck.lang.parse import Trees
from logiccheck.lang.program import (
    Const,
    Expr,
    Form,
    Guard,
    Never,
    Not,
    Output,
    Program,
    Requirement,
    Rule,
    Scenario,
    Signal,
    SignalKind,
    WireSense,
)
from logiccheck.lang.reading import Unreadable
from logiccheck.model.interpreter import Impossible
from logiccheck.model.judge import broken, expectation_breaks, expectation_reached
from logiccheck.model.play import play_scenario
from logiccheck.model.story import Story

FEW_SECONDS = 3.0  # for one requirement of an edited vehicle; what takes longer is not decided, and no edit for anybody


class _Worse(Exception):
    """Something is worse than it was before the edit."""


@dataclass(slots=True)
class Trial:
    """A vehicle as it is, and what is known of it: `found` by checking it; `seconds`: what a requirement may take.

    `main` is the path of its main file, `files` are all that the user wrote. `budget` ends everything (OutOfTime).
    """

    program: Program
    main: str
    files: Mapping[str, str]
    found: Check
    seconds: float
    budget: Budget
    stories: list[tuple[str, Story]] = field(default_factory=list)  # how edits failed so far, by requirement
    _before: dict[str, Kind] = field(default_factory=dict)  # what can be, as far as somebody had to know
    _touched: Touched = field(init=False)
    _trees: Trees = field(default_factory=dict)
    _met: dict[str, frozenset[int]] | None = None  # of each scenario, which expectations are met

    def __post_init__(self) -> None:
        self._touched = Touched(self.program)

    def read(self, edit: Edit) -> Program | None:
        """The vehicle as the edited files say; None if they make mistakes."""
        self.budget.check()
        texts = edited(edit, self.files).files

        def reader(path: str) -> bytes | Unreadable:
            return texts[path].encode() if path in texts else Unreadable.MISSING

        loaded = load(self.main, reader, trees=self._trees)
        return loaded.program

    def plays(self, program: Program, failing: Verdict) -> bool:
        """Whether the story of the failing requirement, and those in which other edits failed, break nothing now."""
        self.budget.check()
        asked = failing.requirement
        forms = {asked.name: asked.form} | {each.name: each.form for each in program.requirements}
        told = [(asked.name, failing.story)] if failing.story is not None else []
        told += [(name, other) for name, other in self.stories if name == asked.name or self._stood(name)]
        return not any(name in forms and still_breaks(program, other, forms[name]) for name, other in told)

    def _stood(self, name: str) -> bool:
        """Whether the requirement was proved before."""
        return any(v.requirement.name == name and v.kind is Kind.PROVED for v in self.found.verdicts)

    def goes_as_expected(self, program: Program) -> bool:
        """Whether all that is expected of the scenarios, and is met by the vehicle as it is, is met now."""
        self.budget.check()
        if self._met is None:
            self._met = {each.name: _met(self.program, each) for each in self.program.scenarios if each.expectations}
        scenarios = {each.name: each for each in program.scenarios}
        for name, met in self._met.items():
            if name not in scenarios or not met <= _met(program, scenarios[name]):
                self._met = {name: met} | self._met  # where one edit failed another will: it is looked at first
                return False
        return True

    def mends(self, program: Program, failing: Verdict) -> bool:
        """Whether the requirement is proved on the edited vehicle; one of our own may be ruled out at first sight."""
        verdicts = self._learnt(self._check(program, {failing.requirement.name}).verdicts)
        return all(each.kind is Kind.PROVED for each in verdicts) and (bool(verdicts) or failing.builtin)

    def spares(self, program: Program) -> Check | None:
        """All requirements to which the edit can matter, decided; None if something that was so is so no more.

        What was proved is proved, and what could be on, or off, can be so. Where something stood in the way of all
        verdicts, the edit matters to all.
        """
        blocked = bool(self.found.troubles)
        asked = program.requirements if blocked else self._touched.those(program, program.requirements)
        able = self._touched.those(program, _can_be(program))
        seen = _seen(program)
        open_ = [each for each in able if each.name not in seen]
        names = {each.name for each in open_}
        before = {each.requirement.name: each.kind for each in self.found.verdicts}

        def heard(verdict: Verdict) -> None:
            self._learnt((verdict,))
            if _is_worse(before.get(verdict.requirement.name), verdict.kind) and verdict.requirement.name not in names:
                raise _Worse

        asking = replace(program, requirements=(*asked, *open_))
        try:
            check = self._check(asking, None, heard)
        except _Worse:
            return None
        if not blocked:
            before |= self._could(check, names)
        worse = any(_is_worse(before.get(each.requirement.name), each.kind) for each in check.verdicts)
        return None if worse or check.troubles else check

    def _could(self, check: Check, names: Collection[str]) -> dict[str, Kind]:
        """Of what can be on, or off, no more on the edited vehicle: whether it could be so before."""
        lost = {v.requirement.name for v in check.verdicts if v.kind is not Kind.PROVED} & {*names}
        new = lost - self._before.keys()
        if new:
            asked = tuple(each for each in _can_be(self.program) if each.name in new)
            found = self._check(replace(self.program, requirements=asked), None).verdicts
            self._before |= {each.requirement.name: each.kind for each in found}
        return {name: self._before[name] for name in lost if name in self._before}

    def _check(
        self, program: Program, only: Collection[str] | None, heard: Callable[[Verdict], None] | None = None
    ) -> Check:
        seconds = min(self.seconds, FEW_SECONDS, self.budget.left)  # what that leaves open was open to the end of it
        check = check_program(program, seconds, lambda _: self.budget.check(), only, heard=heard)
        if check.interrupted:
            raise KeyboardInterrupt
        if check.bugs:
            raise BugMet(check.bugs[0])
        self.budget.check()
        return check

    def _learnt(self, verdicts: tuple[Verdict, ...]) -> tuple[Verdict, ...]:
        """The same verdicts; their stories are played on other edits from now on."""
        for verdict in verdicts:
            if verdict.kind is Kind.FAILS and verdict.story is not None and not verdict.builtin:
                self.stories.append((verdict.requirement.name, verdict.story))
        return verdicts


_RANK = (Kind.FAILS, Kind.BLOCKED, Kind.NO_CASE, Kind.NOT_DECIDED, Kind.PROVED)


def _is_worse(before: Kind | None, after: Kind) -> bool:
    """Whether a verdict is worse than it was; what nobody had to ask before was as good as proved."""
    return _RANK.index(after) < _RANK.index(before or Kind.PROVED)


def _seen(program: Program) -> frozenset[str]:
    """What can be on, or off, because it is so in a scenario that keeps to all that is given."""
    found: set[str] = set()
    for scenario in program.scenarios:
        try:
            timeline = play_scenario(program, scenario)
        except Impossible:
            continue
        if timeline.settles and not broken(timeline):
            settled = [played.moment.settled for played in timeline.settled]
            found |= {name for name, x in _things(program) if any(each.holds(x) for each in settled)}
    return frozenset(found)


def _can_be(program: Program) -> Iterator[Requirement]:
    """Whether each sense, rule, output, relay and load can ever be on, and off: `never false while x` is always so, and
    has a case only if x can be."""
    for name, x in _things(program):
        form: Form = Never(Const(False), x, always=False, instant=False)
        yield Requirement(name, "", Guard.FUNCTION, form, "")


def _things(program: Program) -> Iterator[tuple[str, Expr]]:
    signals = [Signal(SignalKind.RELAY, relay.name) for relay in program.relays]
    if program.box is not None:
        signals += [Signal(SignalKind.SENSE, each.name) for each in program.box.senses if isinstance(each, WireSense)]
        signals += [Signal(_KINDS[type(rule)], rule.name) for rule in program.box.rules]
    named = [(signal.name, signal) for signal in signals]
    named += [(load.name, Signal(SignalKind.LIVE, load.wire)) for load in program.loads]
    for name, signal in named:
        yield f"{name} can be on", signal
        yield f"{name} can be off", Not(signal)


_KINDS = {Rule: SignalKind.RULE, Output: SignalKind.OUTPUT}


def _met(program: Program, scenario: Scenario) -> frozenset[int]:
    """Which of the expectations of a scenario are met, by their number."""
    try:
        timeline = play_scenario(program, scenario)
    except Impossible:
        return frozenset()
    each = enumerate(scenario.expectations)
    return frozenset(
        at for at, e in each if expectation_reached(timeline, e) and expectation_breaks(timeline, e) is None
    )
