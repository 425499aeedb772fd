"""A requirement that would have noticed an edit: in terms of hands and physics, proved as it is, and broken by it.

Kinds are tried one after the other, the plainest first; facts that are not needed are left out. What is offered is
text, and what is claimed of it is claimed of the vehicle as read again with that text in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.base.units import show_time
from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.explain.asking import Answer, Asking, Seen
from logiccheck.explain.asking import Never as Proof
from logiccheck.explain.ending import still_breaks
from logiccheck.explain.guarding.unlike import MOST_MOMENTS, Difference, watched
from logiccheck.explain.guarding.worldly import Fact, all_of, all_said, facts_of, one_not, one_not_said
from logiccheck.lang.load import load
from logiccheck.lang.matters import WORLD, Item, Names, named
from logiccheck.lang.program import (
    And,
    CallsLasting,
    Edge,
    Expr,
    Form,
    Never,
    NeverLonger,
    Not,
    OnlyAfter,
    Possible,
    Program,
    Signal,
    SignalKind,
    WaitsFor,
)
from logiccheck.lang.reading import Unreadable
from logiccheck.lang.walk import memory, timer_windows
from logiccheck.model.reaction import Values

KINDS = (
    "never ... while ...",
    "never ... while ... for longer than ...",
    "... only after ... has lasted ...",
    "... calls for ... lasting ...",
    "... waits for ...",
    "... waits for ... after ...",
    "possible ... and ...",
)
_A_WHILE = 60_000_000  # longer than anybody waits for something to go off by itself, in microseconds
EACH = 2.0  # seconds for one question
MOST_TIMES = 8  # durations tried in one kind
MOST_NAMES = 2  # of the outputs, relays and loads that differ


@frozen
class Offer:
    """A form that may do, and how it is typed."""

    form: Form
    text: str


@frozen
class Suggested:
    """`text` is a requirement to add: proved as it is, and not so as edited."""

    name: str  # of what it speaks about
    text: str
    form: Form


@dataclass(slots=True)
class Suggesting:
    """Requirements for one vehicle; those that were found are tried on further edits first. `seconds` for one edit."""

    program: Program
    main: str
    files: Mapping[str, str]
    rank: Mapping[str, tuple[int, int]]
    seconds: float
    found: list[Suggested] = field(default_factory=list)

    def suggest(self, files: Mapping[str, str], edited: Program, difference: Difference) -> Suggested | None:
        """One that notices the edit, of which `files` are the text; None where none of the kinds does.

        May raise KeyboardInterrupt, or BugMet.
        """
        known = _breaking(edited, difference, self.found)
        if known is not None:
            return known
        for name in sorted(difference.names, key=lambda name: self.rank[name])[:MOST_NAMES]:
            search = _Search(self.program, edited, difference, name, Budget(self.seconds))
            try:
                offers = search.offers()
                for offer in offers:
                    suggested = Suggested(name, offer.text, offer.form)
                    if self._holds(files, suggested):
                        self.found.append(suggested)
                        return suggested
            except OutOfTime:
                continue
        return self._shown_elsewhere(files, difference, self.found)

    def known(
        self, files: Mapping[str, str], edited: Program, difference: Difference, known: Sequence[Suggested]
    ) -> Suggested | None:
        """One of those known that notices the edit.

        May raise KeyboardInterrupt, or BugMet.
        """
        return _breaking(edited, difference, known) or self._shown_elsewhere(files, difference, known)

    def _shown_elsewhere(
        self, files: Mapping[str, str], difference: Difference, known: Sequence[Suggested]
    ) -> Suggested | None:
        """One of which another story than that of the edit shows that it notices."""
        about = [each for each in known if each.name in difference.names]
        noticed = (each for each in about if self._verdict(files, each.text) in (Kind.FAILS, Kind.NO_CASE))
        return next(noticed, None)

    def _holds(self, files: Mapping[str, str], suggested: Suggested) -> bool:
        """Whether it is proved as it is, and not as edited, as text in the files."""
        verdicts = [self._verdict(each, suggested.text) for each in (self.files, files)]
        return verdicts[0] is Kind.PROVED and verdicts[1] in (Kind.FAILS, Kind.NO_CASE)

    def _verdict(self, files: Mapping[str, str], text: str) -> Kind | None:
        """What becomes of the requirement in these files."""
        name = "suggested_here"
        while any(name in each for each in files.values()):
            name += "_"
        added = dict(files) | {self.main: f"{files[self.main]}\nrequirements\n    function {name} {text}\n"}
        loaded = load(self.main, lambda path: added[path].encode() if path in added else Unreadable.MISSING)
        if loaded.program is None:
            return None
        check = check_program(loaded.program, self.seconds, None, {name})
        if check.interrupted:
            raise KeyboardInterrupt
        return next((verdict.kind for verdict in check.verdicts), None)


def _breaking(edited: Program, difference: Difference, known: Sequence[Suggested]) -> Suggested | None:
    """One that the story of the edit breaks."""
    story = difference.story
    return next((each for each in known if still_breaks(edited, story, each.form, MOST_MOMENTS)), None)


@dataclass(slots=True)
class _Search:
    """Requirements about one output, relay or load that differs, in the order in which they are tried."""

    before: Program
    edited: Program
    difference: Difference
    name: str
    budget: Budget
    asking: Asking | None = None
    other: Asking | None = None
    matter: frozenset[str] = frozenset()

    @property
    def signal(self) -> Signal:
        return next(what for name, what in watched(self.before) if name == self.name)

    @property
    def excess(self) -> bool:
        """It is on only as edited."""
        return self.name in self.difference.off

    @property
    def wrong(self) -> Expr:
        return self.signal if self.excess else Not(self.signal)

    @property
    def wrong_said(self) -> str:
        return self.name if self.excess else f"not {self.name}"

    def offers(self) -> Iterator[Offer]:
        facts = self._facts(-1)
        yield from self._whiles(facts)
        yield from self._longer(facts)
        if self.excess:
            yield from self._only_after(facts)
            yield from self._waits_from_the_start(facts)
            yield from self._waits(facts)
        else:
            yield from self._lasting(facts)
        yield from self._possible(facts)

    def _facts(self, at: int) -> tuple[Fact, ...]:
        """What hands and physics are at a step of the story, as far as it matters."""
        if not self.matter:
            self.matter = Names(self.before).matter([self.signal]).names(WORLD)
        world = self.difference.story.steps[at].world
        return facts_of(self.before, [(name, value) for name, value in world if name in self.matter])

    # -------------------------------------------------------------------------------------------------- what is so

    def _proved(self, form: Form) -> bool:
        self.budget.check()
        if self.asking is None:
            self.asking = Asking(self.before, self._first(), self.budget, EACH)
        return isinstance(self.asking.fails(form), Proof)

    def _first(self) -> tuple[Expr, ...]:
        """What is asked about, with all facts of the story."""
        steps = range(len(self.difference.story.steps))
        facts = dict.fromkeys(fact.expr for at in steps for fact in self._facts(at))
        powered = (Signal(SignalKind.POWERED, "powered"),) if self.before.box is not None else ()
        return (self.signal, *facts, *powered)

    def _fails(self, form: Form) -> bool:
        """Whether it is broken as edited, at the end of the story or somewhere."""
        return still_breaks(self.edited, self.difference.story, form, MOST_MOMENTS)

    def _fewest(self, facts: Sequence[Fact], form: Callable[[Sequence[Fact]], Form]) -> list[Fact] | None:
        """As few facts as leaving out one by one gives, with which the form is proved; None if it is not with all."""
        return _fewest(facts, lambda some: self._proved(form(some)))

    def _fewest_of_some(self, facts: Sequence[Fact], form: Callable[[Sequence[Fact]], Form]) -> list[Fact] | None:
        """The same of a form that needs a fact: one is left."""
        return _fewest(facts, lambda some: bool(some) and self._proved(form(some)))

    def _times(self) -> list[int]:
        """Durations of timers on which it hangs itself, the shortest first."""
        names, items = Names(self.before), set[Item]()
        waiting = [*named([self.signal])]
        while waiting:
            item = waiting.pop()
            if item not in items:
                items.add(item)
                waiting += names.needs(item)
        keys = {node.key for item in items for line in names.expressions(item) for node in memory(line)}
        windows = [w for key, w in timer_windows(self.before).items() if key in keys or key.rpartition(".")[0] in keys]
        return sorted({end for window in windows for end in (window.lo, window.hi)})[:MOST_TIMES]

    # ------------------------------------------------------------------------------------------------------ the kinds

    def _whiles(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`never X while FACTS`, `always X while FACTS`."""

        def form(some: Sequence[Fact]) -> Form:
            return Never(self.wrong, all_of(some), always=not self.excess, instant=False)

        kept = self._fewest(facts, form)
        if kept is not None and self._fails(form(kept)):
            word = "never" if self.excess else "always"
            yield Offer(form(kept), f"{word} {self.name}{_while(kept)}")

    def _longer(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`never X while FACTS for longer than T`."""
        for time in self._times():

            def form(some: Sequence[Fact], time: int = time) -> Form:
                return NeverLonger(self.wrong, all_of(some), time)

            kept = self._fewest(facts, form)
            if kept is None:
                continue
            if not self._fails(form(kept)) and not self._fails_somewhere(form(kept)):
                return  # nor would any longer time
            yield Offer(form(kept), f"never {self.wrong_said}{_while(kept)} for longer than {show_time(time)}")
            return

    def _fails_somewhere(self, form: Form) -> bool:
        """Whether any story of the edited vehicle breaks it."""
        return isinstance(self._as_edited(form), Seen)

    def _as_edited(self, form: Form) -> Answer:
        """Whether it fails as edited."""
        self.budget.check()
        if self.other is None:
            self.other = Asking(self.edited, self._first(), self.budget, EACH)
        return self.other.fails(form)

    def _only_after(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`X only after FACT has lasted T`, of one fact or the power of the box."""
        powered = Fact(Signal(SignalKind.POWERED, "powered"), "powered", "not powered")
        for time in self._times():
            for fact in (*facts, powered) if self.before.box is not None else facts:
                form = OnlyAfter(self.signal, fact.expr, time, None)
                if self._fails(form) and self._proved(form):
                    yield Offer(form, f"{self.name} only after {fact.text} has lasted {show_time(time)}")
                    return

    def _lasting(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`P calls for X lasting T, excused by one of FACTS not being so`: P comes to be so in the story, or was."""
        steps = self.difference.story.steps
        powered = Signal(SignalKind.POWERED, "powered")
        for at in range(len(steps) - 1, -1, -1):
            held = self._held(facts, at)
            then = self._facts(at)
            old = {fact.text for fact in self._facts(at - 1)} if at else {fact.text for fact in then}
            began = [fact for fact in then if fact.text not in old]
            for fact in began:
                rises = Edge(True, fact.expr, f"{fact.text} begins")
                beside = [each for each in then if each is not fact]
                yield from self._lasting_from(rises, fact.begins, beside, held, self._times())
            if began and self.before.box is not None:
                rises = Edge(True, powered, "powered begins")
                yield from self._lasting_from(rises, "powered becomes on", then, held, self._times())
            gone = [fact for fact in then if not self._holds(fact, -1)]
            for fact in gone:
                beside = [each for each in then if each is not fact]
                yield from self._lasting_from(fact.expr, fact.text, beside, held, [*self._times(), _A_WHILE])

    def _holds(self, fact: Fact, at: int) -> bool:
        """Whether it is so at a step of the story."""
        return Values(dict(self.difference.story.steps[at].world), frozenset()).holds(fact.expr)

    def _held(self, facts: Sequence[Fact], since: int) -> list[Fact]:
        """Those that have been so all along since a step of the story."""
        steps = range(since, len(self.difference.story.steps))
        return [fact for fact in facts if all(self._holds(fact, at) for at in steps)]

    def _lasting_from(
        self, start: Expr, said: str, beside: Sequence[Fact], held: Sequence[Fact], times: Sequence[int]
    ) -> Iterator[Offer]:
        for time in times:

            def form(some: Sequence[Fact], over: Sequence[Fact] = held, time: int = time) -> Form:
                return CallsLasting(_both(start, all_of(some)), self.signal, time, one_not(over) if over else None)

            if not self._fails(form(beside)) or (kept := self._fewest(beside, form)) is None:
                continue
            over = self._fewest(held, partial(form, kept)) or []
            when = " and ".join([said, *(each.text for each in kept)])
            excused = f", excused by {one_not_said(over)}" if over else ""
            yield Offer(form(kept, over), f"{when} calls for {self.name} lasting {show_time(time)}{excused}")
            return

    def _possible(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`possible X and FACTS`, which it never is as edited."""
        right = Not(self.wrong) if self.excess else self.signal
        said = f"not {self.name}" if self.excess else self.name

        def form(some: Sequence[Fact]) -> Form:
            return Possible(_both(right, all_of(some)))

        kept = _fewest(facts, lambda some: isinstance(self._as_edited(form(some)), Proof))
        if kept is not None:
            yield Offer(form(kept), f"possible {' and '.join([said, *(each.text for each in kept)])}")

    def _waits_from_the_start(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`X waits for one of FACTS not being so`, of what has been so all along."""
        held = self._held(facts, 0)

        def form(some: Sequence[Fact]) -> Form:
            return WaitsFor(self.signal, one_not(some), None)

        if held and self._fails(form(held)) and (kept := self._fewest_of_some(held, form)) is not None:
            yield Offer(form(kept), f"{self.name} waits for {one_not_said(kept)}")

    def _waits(self, facts: Sequence[Fact]) -> Iterator[Offer]:
        """`X waits for one of FACTS not being so after FACT`, for a fact of earlier in the story."""
        for at in range(len(self.difference.story.steps) - 2, -1, -1):
            held = self._held(facts, at)
            gone = [fact for fact in self._facts(at) if not self._holds(fact, -1)]
            for fact in gone if held else ():

                def form(some: Sequence[Fact], fact: Fact = fact) -> Form:
                    return WaitsFor(self.signal, one_not(some), fact.expr)

                if self._fails(form(held)) and (kept := self._fewest_of_some(held, form)) is not None:
                    yield Offer(form(kept), f"{self.name} waits for {one_not_said(kept)} after {fact.text}")
                    return


def _both(left: Expr, right: Expr | None) -> Expr:
    return left if right is None else And((left, right))


def _fewest(facts: Sequence[Fact], enough: Callable[[Sequence[Fact]], bool]) -> list[Fact] | None:
    """As few facts as leaving out one by one gives that are enough, each as loose as is enough; None if all are not."""
    kept = [*facts]
    if not enough(kept):
        return None
    for fact in facts:
        fewer = [each for each in kept if each is not fact]
        if enough(fewer):
            kept = fewer
    for at, fact in enumerate(kept):
        others = ([*kept[:at], other, *kept[at + 1 :]] for other in fact.looser)
        kept = next((some for some in others if enough(some)), kept)
    return kept


def _while(facts: Sequence[Fact]) -> str:
    return f" while {all_said(facts)}" if facts else ""
