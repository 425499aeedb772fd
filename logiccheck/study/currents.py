"""What a vehicle draws: the most that each source, fused wire and box ever gives at once, inrush, and what meets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug
from logiccheck.base.frozen import frozen
from logiccheck.copper.draws.draws import Differs, Draw, differing, silent
from logiccheck.copper.draws.fitting import Between, Fitted, fitted
from logiccheck.copper.draws.moment import OneMoment
from logiccheck.copper.draws.plan import Meet, Plan, Supply
from logiccheck.copper.draws.shadow import without_shadows
from logiccheck.copper.draws.together import Together
from logiccheck.copper.draws.worst import NOTHING, Search, Worst
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, Blocked, BugMet, Open
from logiccheck.lang.program import Micros, Program

ONE_QUESTION = 20.0  # seconds at most
SHARE = 1 / 3  # of the time that is left, for one feed at least: what one has shown, the others need not ask
LATE = Open(Undecided.INTERRUPTED)


@frozen
class Given:
    """What one feed gives: `worst` the most that ever draws through it at once, and `on` what draws then. `rush` is the
    same with inrush counted, None where nothing on it has any; then `rushing` adds its inrush, `rushed` its current."""

    supply: Supply
    worst: Worst
    on: tuple[Draw, ...]
    rush: Worst | None = None
    rushing: tuple[Draw, ...] = ()
    rushed: tuple[Draw, ...] = ()


@frozen
class Pair:
    """Whether the inrush of one ever begins when that of the other began less than `apart` ago."""

    meet: Meet
    answer: Answer


@frozen
class Currents:
    """`program` is what of the vehicle matters to any of it: stories play on it. `silent` say nothing of what they
    draw; `left` is why something is not known."""

    program: Program
    given: tuple[Given, ...]
    apart: Micros | None
    pairs: tuple[Pair, ...]
    silent: tuple[str, ...]
    differing: tuple[Differs, ...]
    fitted: tuple[Fitted, ...]
    left: tuple[Open | Blocked, ...] = ()
    interrupted: bool = False
    unsettled: Obstacle | None = None
    bugs: tuple[Bug, ...] = ()


def currents(program: Program, budget: Budget, progress: Callable[[str], None]) -> Currents:
    """All that is drawn, within the budget. A KeyboardInterrupt, or the end of memory, ends the search; what was found
    stays."""
    study = _Study(program, budget, progress)
    try:
        study.run()
    except KeyboardInterrupt:
        study.interrupted = True
    except MemoryError:
        study.full = True
    try:
        return study.found()
    finally:
        study.close()


@dataclass(slots=True)
class _Study:
    program: Program
    budget: Budget
    progress: Callable[[str], None]
    interrupted: bool = False
    full: bool = False  # there was no memory left
    plan: Plan = field(init=False)
    asking: Asking | None = None
    together: Together | None = None
    moment: OneMoment | None = None
    searched: dict[tuple[str, bool], Search] = field(default_factory=dict)  # by feed, and whether inrush counts
    answers: list[Answer] = field(default_factory=list)
    bugs: list[Bug] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.plan = Plan(self.program)

    def run(self) -> None:
        plan, conditions = self.plan, tuple(self.plan.conditions)
        if not conditions:
            return
        self.progress("settling")
        self.asking = Asking(plan.program, conditions, self.budget, ONE_QUESTION, asides=False, alike=True)
        self.together = Together(self.asking, conditions)
        self.moment = OneMoment(self.asking)
        jobs = [(supply, False) for supply in plan.supplies]
        jobs += [(supply, True) for supply in plan.supplies if supply.rushes]
        for at, (supply, rush) in enumerate(jobs):
            self.progress(f"currents of {supply.feed.name}")
            weights = supply.rush if rush else supply.weights
            budget = self.budget.part(max(SHARE, 1 / (len(jobs) - at + (1 if plan.meets else 0))))
            search = Search(self.together, self.moment, weights, budget)
            self.searched[supply.feed.name, rush] = search
            self._run(search)
        for meet in plan.meets:
            self.progress(f"inrush of {meet.first.name} and {meet.second.name}")
            self.answers.append(self._ask(self.asking, meet))

    def _run(self, search: Search) -> None:
        try:
            search.run()
            search.tell()
        except BugMet as met:
            self.bugs.append(met.bug)

    def _ask(self, asking: Asking, meet: Meet) -> Answer:
        try:
            return asking.possible(meet.expr)
        except BugMet as met:
            self.bugs.append(met.bug)
            return Open(Undecided.OUR_BUG)

    def found(self) -> Currents:
        plan, asking = self.plan, self.asking
        pairs = [Pair(meet, answer) for meet, answer in zip(plan.meets, self.answers, strict=False)]
        late = Open(Undecided.MEMORY) if self.full else LATE
        pairs += [Pair(meet, late) for meet in plan.meets[len(pairs) :]]
        left = list(self.together.left.values()) if self.together is not None else []
        left += [late] if self.full else []
        given = tuple(self._given(supply) for supply in plan.supplies)
        worst = {each.supply.feed.name: Between(each.worst.least, each.worst.most) for each in given}
        return Currents(
            without_shadows(asking.program, self.program) if asking is not None else self.program,
            given,
            self.program.electrics.apart,
            tuple(pairs),
            tuple(silent(self.program)),
            differing(self.program),
            fitted(self.program, worst),
            tuple(left),
            self.interrupted,
            asking.unsettled if asking is not None else None,
            tuple(self.bugs),
        )

    def _given(self, supply: Supply) -> Given:
        worst = self._worst(supply, False)
        on = tuple(fed.passing.draw for fed in supply.fed if fed.on in worst.so)
        if not supply.rushes:
            return Given(supply, worst, on)
        rush = self._worst(supply, True)
        rushing = tuple(fed.passing.draw for fed in supply.fed if fed.rushing in rush.so)
        rushed = tuple(fed.passing.draw for fed in supply.fed if fed.on in rush.so and fed.rushing not in rush.so)
        return Given(supply, worst, on, rush, rushing, rushed)

    def _worst(self, supply: Supply, rush: bool) -> Worst:
        search, most = self.searched.get((supply.feed.name, rush)), supply.all_rush if rush else supply.together
        if search is None:  # there was no time to begin
            return Worst(NOTHING, most, frozenset(), None)
        found = search.found()
        return replace(found, most=min(found.most, most))

    def close(self) -> None:
        if self.moment is not None:
            self.moment.close()
