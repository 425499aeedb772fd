"""All ways in which a signal can ever be on: the minimal terms that its text allows, as far as they can happen.

A way that can happen is cut down further: a fact is left out when the signal is on in every reachable situation in
which the other facts are so. What is left over is as short as can be, for without any of its facts it can be off.
Whenever the signal is on one of the ways is so, because each situation in which it is on meets a term of the text.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import combinations

from logiccheck.base.budget import Budget
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.asking import Answer, Asking, Blocked, Never, Open, Seen
from logiccheck.explain.fits import can_stand_together
from logiccheck.explain.primes import Term, minimal_terms
from logiccheck.explain.situation import Asked
from logiccheck.explain.written_out import POWERED, Unfolded, unfolded
from logiccheck.lang.program import And, Expr, Not, Program, Signal, SignalKind
from logiccheck.model.play import play_story
from logiccheck.model.story import Story

MOST_REASONS = 12  # pairs of facts of one way that are asked whether they exclude each other


@frozen
class Way:
    """Together these facts make the signal on, and `story`, the shortest, ends in a situation in which they are so.

    `short`: for each of the facts it is known that the signal can be off without it.
    """

    term: Term
    story: Story
    short: bool


@frozen
class Excluded:
    """These ways of the text can never happen, because the facts `by`, which all of them hold, never come together."""

    by: Term
    terms: tuple[Term, ...]


@frozen
class AllWays:
    """`terms`: how many ways the text allows; `merged`: of how many of them all that can happen is one of the `ways`.

    `program` is what the stories are to be played on, `facts` are in the order of the text.
    """

    program: Program
    facts: tuple[Expr, ...]
    terms: int
    ways: tuple[Way, ...]
    excluded: tuple[Excluded, ...]
    merged: int
    undecided: tuple[tuple[Term, Open | Blocked], ...]
    interrupted: bool

    @property
    def complete(self) -> bool:
        """Whether it is known of each way of the text what becomes of it."""
        return not self.undecided and not self.interrupted


def all_ways(program: Program, asked: Asked, budget: Budget, progress: Callable[[str], None]) -> AllWays:
    """All ways in which the signal can be on. Raises `TooLarge` or `TooMany` where the text allows more than anybody
    reads. A KeyboardInterrupt ends the search; what was found stays."""
    text = unfolded(program, asked.on)
    terms = [term for term in minimal_terms(text.on, text.facts) if can_stand_together(program, term)]
    search = _Search(text, asked, terms)
    try:
        search.run(Asking(text.program, (asked.on,), budget), progress)
    except KeyboardInterrupt:
        search.interrupted = True
    return search.found()


@dataclass(slots=True)
class _Search:
    """`seen`: situations that can be reached, each as the facts that are true in it, and whether the signal is on."""

    text: Unfolded
    asked: Asked
    terms: list[Term]
    seen: list[tuple[frozenset[Expr], bool]] = field(default_factory=list)
    ways: dict[Term, Way] = field(default_factory=dict)
    merged: int = 0
    excluded: dict[Term, list[Term]] = field(default_factory=dict)
    undecided: dict[Term, Open | Blocked] = field(default_factory=dict)
    interrupted: bool = False
    looked: int = 0  # terms so far, finished

    def found(self) -> AllWays:
        late = {term: Open(Undecided.INTERRUPTED) for term in self.terms[self.looked :]}
        return AllWays(
            self.text.program,
            self.text.facts,
            len(self.terms),
            tuple(self.ways.values()),
            tuple(Excluded(by, tuple(terms)) for by, terms in self.excluded.items()),
            self.merged,
            tuple({**self.undecided, **late}.items()),
            self.interrupted,
        )

    def run(self, asking: Asking, progress: Callable[[str], None]) -> None:
        for number, term in enumerate(self.terms, start=1):
            progress(f"way {number} of {len(self.terms)}")
            self._look(asking, term)
            self.looked = number

    def _look(self, asking: Asking, term: Term) -> None:
        if any(way <= term for way in self.ways):
            self.merged += 1
            return
        if (by := next((by for by in self.excluded if by <= term), None)) is not None:
            self.excluded[by].append(term)
            return
        answer = self._happens(asking, term)
        match answer:
            case Never():
                self.excluded.setdefault(self._reason(asking, term), []).append(term)
            case Seen(story):
                self._add(asking, term, story)
            case _:
                self.undecided[term] = answer

    def _happens(self, asking: Asking, term: Term) -> Answer:
        """Whether all of a term can be so at once, and its shortest story."""
        inside = [literal for literal in term if self._named(literal) is None]
        answer = asking.possible(self._all(term - frozenset(inside), on=True if inside else None))
        if not isinstance(answer, Seen):
            return answer
        true = self._note(answer.story)
        if all((fact in true) == value for fact, value in term):
            return answer
        assert inside, "a story shows what it was asked for"
        return Open(Undecided.TIMER_ARITHMETIC)

    def _add(self, asking: Asking, term: Term, story: Story) -> None:
        """The way that is left of a term when all that may is left out."""
        short, whole = True, term
        for literal in self._in_order(term):
            rest = term - {literal}
            if self._seen_off(rest):
                continue
            match self._off(asking, rest):
                case Never():
                    term = rest
                case Seen():
                    pass
                case _:
                    short = False
        if term != whole:
            shorter = self._happens(asking, term)
            story = shorter.story if isinstance(shorter, Seen) else story
        absorbed = [way for way in self.ways if term <= way]
        for way in absorbed:
            del self.ways[way]
        self.merged += len(absorbed)
        self.ways[term] = Way(term, story, short)

    def _off(self, asking: Asking, term: Term) -> Answer:
        """Whether the signal can be off although all of the term is so."""
        if any(self._named(literal) is None for literal in term):
            return Open(Undecided.TIMER_ARITHMETIC)
        answer = asking.possible(self._all(term, on=False))
        if isinstance(answer, Seen):
            self._note(answer.story)
        return answer

    def _reason(self, asking: Asking, term: Term) -> Term:
        """The fewest facts of a term that exclude each other, as far as that is quickly found; else all of it."""
        asked = 0
        for size in (1, 2):
            for some in combinations(self._in_order(term), size):
                part = frozenset(some)
                unknown = any(self._named(literal) is None for literal in part)
                if part == term or unknown or asked >= MOST_REASONS or self._seen_together(part):
                    continue
                asked += 1
                answer = asking.possible(self._all(part, on=None))
                if isinstance(answer, Never):
                    return part
                if isinstance(answer, Seen):
                    self._note(answer.story)
        return term

    def _in_order(self, term: Term) -> list[tuple[Expr, bool]]:
        """What is left out first where there is a choice: power and feeds, then what must not be, then what the text
        names last."""
        place = {fact: number for number, fact in enumerate(self.text.facts)}
        return sorted(term, key=lambda each: (not _feeds(each[0]), each[1], -place[each[0]]))

    def _named(self, literal: tuple[Expr, bool]) -> Expr | None:
        return self.text.outside(literal[0])

    def _all(self, term: Term, on: bool | None) -> Expr:
        """The facts of the term together; and the signal being on, or off, or (None) either."""
        parts = []
        for fact, value in self._in_order(term):
            expr = self.text.outside(fact)
            assert expr is not None
            parts.append(expr if value else Not(expr))
        if on is not None:
            parts.append(self.asked.on if on else Not(self.asked.on))
        return And(tuple(parts))

    # what is seen on the way

    def _note(self, story: Story) -> frozenset[Expr]:
        """Remembers every situation of a story; the facts that are true at its end."""
        true: frozenset[Expr] = frozenset()
        for played in play_story(self.text.program, story).settled:
            values = played.moment.settled.values
            true = frozenset(fact for fact in self.text.facts if values.holds(fact))
            on = values.holds(self.asked.on)
            assert on == values.holds(self.text.on), "written out the signal is what it was"
            self.seen.append((true, on))
        return true

    def _seen_together(self, term: Term) -> bool:
        return any(_meets(true, term) for true, _ in self.seen)

    def _seen_off(self, term: Term) -> bool:
        return any(not on and _meets(true, term) for true, on in self.seen)


def _meets(true: frozenset[Expr], term: Term) -> bool:
    return all((fact in true) == value for fact, value in term)


def _feeds(fact: Expr) -> bool:
    """The power of the box, or a wire or source that feeds something."""
    return fact == POWERED or (isinstance(fact, Signal) and fact.kind in (SignalKind.LIVE, SignalKind.SOURCE))
