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
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, Blocked, Never, Open, Seen
from logiccheck.explain.fits import can_stand_together
from logiccheck.explain.primes import Term, TooMany, minimal_terms
from logiccheck.explain.situation import Asked
from logiccheck.explain.written_out import POWERED, TooLarge, Unfolded, unfolded
from logiccheck.lang.program import And, Expr, Not, Previous, Program, Signal, SignalKind
from logiccheck.model.play import play_story
from logiccheck.model.story import Story

__all__ = ["AllWays", "Excluded", "TooLarge", "TooMany", "Way", "all_ways", "is_itself"]

MOST_REASONS = 12  # pairs of facts of one way that are asked whether they exclude each other


@frozen
class Way:
    """Together these facts make the signal on, and `story`, the shortest, ends in a situation in which they are so.

    `short`: for each of the facts it is known that the signal can be off without it. `holds_itself`: one of the facts
    is the signal itself, as it was; such a way is left as it is written, and its story shows it without other ways
    where that can be.
    """

    term: Term
    story: Story
    short: bool
    holds_itself: bool = False


@frozen
class Excluded:
    """These ways of the text can never happen, because the facts `by`, which all of them hold, never come together."""

    by: Term
    terms: tuple[Term, ...]


@frozen
class AllWays:
    """`terms`: how many ways the text allows; `merged`: of how many of them all that can happen is one of the `ways`.

    `text` is what is written; the stories play on its program, on the vehicle itself, and on the part that can matter.
    """

    text: Unfolded
    terms: int
    ways: tuple[Way, ...]
    excluded: tuple[Excluded, ...]
    merged: int
    undecided: tuple[tuple[Term, Open | Blocked], ...]
    interrupted: bool
    unsettled: Obstacle | None = None  # why not all is known to come to rest; the ways are those of what does

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
    unsettled: Obstacle | None = None
    looked: int = 0  # terms so far, finished

    def found(self) -> AllWays:
        late = {term: Open(Undecided.INTERRUPTED) for term in self.terms[self.looked :]}
        return AllWays(
            self.text,
            len(self.terms),
            tuple(self.ways.values()),
            tuple(Excluded(by, tuple(terms)) for by, terms in self.excluded.items()),
            self.merged,
            tuple({**self.undecided, **late}.items()),
            self.interrupted,
            self.unsettled,
        )

    def run(self, asking: Asking, progress: Callable[[str], None]) -> None:
        self.unsettled = asking.unsettled
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
        """Whether all of a term can be so at once, and its shortest story.

        What has no name cannot be asked for: the signal is asked to be on, then to be so by no other term. A story that
        is found in that way shows the term, but need not be the shortest.
        """
        named = self._named_part(term)
        if named == term:
            answer = asking.possible(self._all(term))
            if isinstance(answer, Seen) and not _meets(self._note(asking, answer.story), term):
                raise AssertionError("a story shows what it was asked for")
            return answer
        asked: tuple[Expr, ...] = (self._all(named), self.asked.on)
        for more in ((), self._no_other(term)):
            answer = asking.possible(And((*asked, *more)))
            if isinstance(answer, Seen) and _meets(self._note(asking, answer.story), term):
                return answer
            if not isinstance(answer, Seen) and not more:
                return answer
        return Open(None)

    def _no_other(self, term: Term) -> tuple[Expr, ...]:
        """No other term is so, as far as that can be asked for."""
        others = (self._named_part(other) for other in self.terms if other != term)
        return tuple(Not(self._all(other)) for other in others if not other <= self._named_part(term))

    def _add(self, asking: Asking, term: Term, story: Story) -> None:
        """The way that is left of a term when all that may is left out."""
        if any(is_itself(fact, self.asked) for fact, _ in term):
            alone = asking.possible(And((self._all(self._named_part(term)), *self._no_other(term))))
            story = alone.story if isinstance(alone, Seen) and _meets(self._note(asking, alone.story), term) else story
            self.ways[term] = Way(term, story, short=False, holds_itself=True)
            return
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
        if self._named_part(term) != term:
            return Open(None)
        answer = asking.possible(And((self._all(term), Not(self.asked.on))))
        if isinstance(answer, Seen):
            self._note(asking, answer.story)
        return answer

    def _reason(self, asking: Asking, term: Term) -> Term:
        """The fewest facts of a term that exclude each other, as far as that is quickly found; else all of it."""
        asked = 0
        for size in (1, 2):
            for some in combinations(self._in_order(term), size):
                part = frozenset(some)
                unknown = self._named_part(part) != part
                if part == term or unknown or asked >= MOST_REASONS or self._seen_together(part):
                    continue
                asked += 1
                answer = asking.possible(self._all(part))
                if isinstance(answer, Never):
                    return part
                if isinstance(answer, Seen):
                    self._note(asking, answer.story)
        return term

    def _in_order(self, term: Term) -> list[tuple[Expr, bool]]:
        """What is left out first where there is a choice: power and feeds, then what must not be, then what the text
        names last."""
        place = {fact: number for number, fact in enumerate(self.text.facts)}
        return sorted(term, key=lambda each: (not _feeds(each[0]), each[1], -place[each[0]]))

    def _named_part(self, term: Term) -> Term:
        """What of a term can be asked for."""
        return frozenset(literal for literal in term if self.text.outside(literal[0]) is not None)

    def _all(self, term: Term) -> Expr:
        """The facts of the term together."""
        parts = []
        for fact, value in self._in_order(term):
            expr = self.text.outside(fact)
            assert expr is not None
            parts.append(expr if value else Not(expr))
        return And(tuple(parts))

    # what is seen on the way

    def _note(self, asking: Asking, story: Story) -> frozenset[Expr]:
        """Remembers every situation of a story; the facts that are true at its end."""
        true: frozenset[Expr] = frozenset()
        for played in play_story(asking.program, story).settled:
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


def is_itself(fact: Expr, asked: Asked) -> bool:
    """Whether the fact is the signal itself, as it was in the reaction before."""
    match fact:
        case Signal():
            return fact == asked.on
        case Previous(x=Signal(name=name)):
            return name == asked.name
        case _:
            return False


def _meets(true: frozenset[Expr], term: Term) -> bool:
    return all((fact in true) == value for fact, value in term)


def _feeds(fact: Expr) -> bool:
    """The power of the box, or a wire or source that feeds something."""
    return fact == POWERED or (isinstance(fact, Signal) and fact.kind in (SignalKind.LIVE, SignalKind.SOURCE))
