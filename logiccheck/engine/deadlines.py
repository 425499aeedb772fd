"""Facts about deadlines as bits: a finer abstraction of time, in which fewer sequences of moments are allowed.

A *predicate* (i, j, K), i < j, speaks of the deadlines d_i, d_j of two running clocks: bit `more` is d_i - d_j > K, bit
`least` is d_i - d_j >= K; both are false unless both run. With j = NOW (the number of clocks) d_j is the time of the
last moment, so that the bits speak of the time that clock i has left. While both run on a difference is constant: this
is why few predicates are enough. Times are whole microseconds.

Next values are exact where the facts at hand decide them and free elsewhere ("yes, or free and not no"), so that every
real step of the vehicle is a step here: what is proved here is proved.
References: Clarke, Grumberg, Jha, Lu, Veith, "Counterexample-guided abstraction refinement", CAV 2000; D. Dill, "Timing
assumptions and verification of finite-state concurrent systems", 1989; Cimatti, Griggio, Mover, Tonetta, "IC3 modulo
theories via implicit predicate abstraction", TACAS 2014.
"""

from __future__ import annotations

import itertools
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import NamedTuple, TypeAlias

from logiccheck.engine.cone import Cone
from logiccheck.model.circuit.aig import FALSE, TRUE, Aig, Lit
from logiccheck.model.circuit.system import Bit, Clock, Constraint

Predicate: TypeAlias = tuple[int, int, int]  # i, j, K


class Known(NamedTuple):
    """What is known of a difference or a rest r against a constant c: each literal is true only if that is sure."""

    more: Lit  # r > c
    least: Lit  # r >= c
    most: Lit  # r <= c
    less: Lit  # r < c


class Fact(NamedTuple):
    """The two bits of a tracked difference d_x - d_k against `bound`."""

    bound: int
    more: Lit
    least: Lit


class Label(NamedTuple):
    """What a clock (by number: "run", "due", "start", "goes on") or a predicate ("more", "least", "more next", "least
    next") does in one step, or does not."""

    kind: str
    of: int | Predicate
    positive: bool


@dataclass(slots=True)
class PredicateBits:
    """The inputs of one predicate; they stay the same in every refinement, so that clauses over them do too."""

    more: Lit
    least: Lit
    free_more: Lit
    free_least: Lit


@dataclass(slots=True)
class Tracked:
    """All predicates of one question so far, over the clocks of an exact cone; `lemmas` are sets of step labels that
    cannot hold together (see `steps`)."""

    cone: Cone
    predicates: set[Predicate] = field(default_factory=set)
    lemmas: list[frozenset[Label]] = field(default_factory=list)
    bits: dict[Predicate, PredicateBits] = field(default_factory=dict)

    @property
    def clocks(self) -> list[Clock]:
        return self.cone.clocks

    @property
    def now(self) -> int:
        return len(self.cone.clocks)

    def bits_of(self, p: Predicate) -> PredicateBits:
        if p not in self.bits:
            aig = self.cone.aig
            names = (f"{part} {p}" for part in ("more", "least", "free more", "free least"))
            self.bits[p] = PredicateBits(*(aig.new_input(name) for name in names))
        return self.bits[p]

    def undecided_by_windows(self, p: Predicate) -> bool:
        """Whether the windows of the clocks alone leave the predicate open."""
        i, j, bound = p
        if j == self.now:
            return 0 < bound <= self.clocks[i].hi
        return i != j and -self.clocks[j].hi < bound < self.clocks[i].hi


class Refinement:
    """The cone of a question with the tracked predicates added, in `cone`."""

    def __init__(self, tracked: Tracked) -> None:
        self.tracked = tracked
        self.aig: Aig = tracked.cone.aig
        self.clocks = tracked.clocks
        self.now = tracked.now
        aig = self.aig
        self.due = [aig.both(c.run, c.due) for c in self.clocks]
        self.starts = [c.start for c in self.clocks]
        self.goes_on = [aig.both(c.run_next, c.start ^ 1) for c in self.clocks]
        self.runs = [c.run for c in self.clocks] + [TRUE]
        self.runs_next = [c.run_next for c in self.clocks] + [TRUE]
        self.current = {p: self._pair(p) for p in sorted(tracked.predicates)}
        self.bounds: dict[tuple[int, int], list[int]] = defaultdict(list)
        for i, j, bound in self.current:
            self.bounds[i, j].append(bound)
        self._known: dict[tuple[int, int], Known] = {}
        self._extra: list[Lit] = []
        self.following = {p: self._next(p) for p in self.current}
        self._assume()
        self.cone = self._cone()

    def _pair(self, p: Predicate) -> tuple[Lit, Lit]:
        bits = self.tracked.bits_of(p)
        return bits.more, bits.least

    def _cone(self) -> Cone:
        base = self.tracked.cone
        bits, shown = list(base.bits), list(base.shown)
        for p, (more, least) in self.current.items():
            names = self.tracked.bits_of(p)
            bits += [Bit(f"more {p}", more, self.following[p][0]), Bit(f"least {p}", least, self.following[p][1])]
            shown += [names.free_more >> 1, names.free_least >> 1]
        extra = [Constraint(lit) for lit in dict.fromkeys(self._extra) if lit != TRUE]
        cone = replace(base, bits=bits, shown=shown, constraints=[*base.constraints, *extra])
        cone.arrange(base.order)
        return cone

    # what is known

    def facts(self, x: int, k: int, values: dict[Predicate, tuple[Lit, Lit]] | None = None) -> list[Fact]:
        """All tracked facts about d_x - d_k, rising in their bound."""
        values = self.current if values is None else values
        if x < k:
            return [Fact(b, *values[x, k, b]) for b in sorted(self.bounds.get((x, k), ()))]
        turned = sorted(self.bounds.get((k, x), ()), reverse=True)
        return [Fact(-b, values[k, x, b][1] ^ 1, values[k, x, b][0] ^ 1) for b in turned]

    def known(self, x: int, c: int) -> Known:
        """The time r that clock x has left, when it runs on through this moment (0 < r < hi), against c."""
        if c <= 0:
            return Known(TRUE, TRUE, FALSE, FALSE)
        if c >= self.clocks[x].hi:
            return Known(FALSE, FALSE, TRUE, TRUE)
        if (x, c) not in self._known:
            self._known[x, c] = self._derive(x, c)
        return self._known[x, c]

    def _derive(self, x: int, c: int) -> Known:
        """Of several facts on one side only the tightest is used: the bits of a pair are monotone in their bound."""
        aig = self.aig
        more: list[Lit] = []
        least: list[Lit] = []
        most: list[Lit] = []
        less: list[Lit] = []
        for k in range(self.now):
            facts = self.facts(x, k) if k != x else []
            runs_on = aig.both(self.runs[k], self.due[k] ^ 1)
            if fact := _tightest(facts, c, None):  # k runs on: r_x = (d_x - d_k) + r_k with 0 < r_k < hi_k
                sure = aig.both(runs_on, fact.least)
                more.append(sure)
                least.append(sure)
            if fact := _tightest(facts, None, c - self.clocks[k].hi):
                sure = aig.both(runs_on, fact.more ^ 1)
                most.append(sure)
                less.append(sure)
            if fact := _tightest(facts, c + 1, None):  # k falls due now: r_x = d_x - d_k
                sure = aig.both(self.due[k], fact.least)
                more.append(sure)
                least.append(sure)
            if fact := _tightest(facts, None, c - 1):
                sure = aig.both(self.due[k], fact.more ^ 1)
                most.append(sure)
                less.append(sure)
            for fact in (f for f in facts if f.bound == c):
                more.append(aig.both(self.due[k], fact.more))
                least.append(aig.both(self.due[k], fact.least))
                most.append(aig.both(self.due[k], fact.more ^ 1))
                less.append(aig.both(self.due[k], fact.least ^ 1))
        if fact := _tightest(self.facts(x, self.now), None, c):  # at most c was left at the last moment: less is now
            most.append(fact.more ^ 1)
            less.append(fact.more ^ 1)
        return Known(aig.any_of(more), aig.any_of(least), aig.any_of(most), aig.any_of(less))

    # next values

    def _decide(self, yes: Lit, no: Lit, free: Lit) -> Lit:
        return self.aig.either(yes, self.aig.both(free, no ^ 1))

    def _next(self, p: Predicate) -> tuple[Lit, Lit]:
        return self._next_rest(p) if p[1] == self.now else self._next_difference(p)

    def _next_rest(self, p: Predicate) -> tuple[Lit, Lit]:
        aig, (i, _, bound) = self.aig, p
        bits, clock, known = self.tracked.bits_of(p), self.clocks[i], self.known(i, bound)
        more_on = self._decide(known.more, known.most, bits.free_more)
        least_on = self._decide(known.least, known.less, bits.free_least)
        more_new = self._decide(_lit(clock.lo > bound), _lit(clock.hi <= bound), bits.free_more)
        least_new = self._decide(_lit(clock.lo >= bound), _lit(clock.hi < bound), bits.free_least)
        more = aig.either(aig.both(self.starts[i], more_new), aig.both(self.goes_on[i], more_on))
        least = aig.either(aig.both(self.starts[i], least_new), aig.both(self.goes_on[i], least_on))
        return more, least

    def _next_difference(self, p: Predicate) -> tuple[Lit, Lit]:
        i, j, bound = p
        bits, a, b = self.tracked.bits_of(p), self.clocks[i], self.clocks[j]
        decide, free_more, free_least = self._decide, bits.free_more, bits.free_least
        # i starts: d_i - d_j > K iff r_j < len - K
        low, high = self.known(j, a.lo - bound), self.known(j, a.hi - bound)
        more_i = decide(low.less, high.least, free_more)
        least_i = decide(low.most, high.more, free_least)
        # j starts: d_i - d_j > K iff r_i > len + K
        low, high = self.known(i, b.lo + bound), self.known(i, b.hi + bound)
        more_j = decide(high.more, low.most, free_more)
        least_j = decide(high.least, low.less, free_least)
        least_apart, most_apart = a.lo - b.hi, a.hi - b.lo  # both start
        more_both = decide(_lit(least_apart > bound), _lit(most_apart <= bound), free_more)
        least_both = decide(_lit(least_apart >= bound), _lit(most_apart < bound), free_least)
        more_now, least_now = self.current[p]
        return (
            self._select(i, j, more_i, more_j, more_both, more_now),
            self._select(i, j, least_i, least_j, least_both, least_now),
        )

    def _select(self, i: int, j: int, i_starts: Lit, j_starts: Lit, both: Lit, neither: Lit) -> Lit:
        aig = self.aig
        return aig.any_of(
            [
                aig.all_of([self.starts[i], self.goes_on[j], i_starts]),
                aig.all_of([self.goes_on[i], self.starts[j], j_starts]),
                aig.all_of([self.starts[i], self.starts[j], both]),
                aig.all_of([self.goes_on[i], self.goes_on[j], neither]),
            ]
        )

    # what is always so

    def _forbid(self, parts: Iterable[Lit]) -> None:
        self._extra.append(self.aig.all_of(parts) ^ 1)

    def _assume(self) -> None:
        for p in self.current:
            self._assume_order(p)
            if p[1] != self.now:
                self._assume_due(p)
        for i, j in self.bounds:
            self._assume_monotone(i, j)
        self._assume_transitive()
        for lemma in self.tracked.lemmas:
            self._forbid(self.label(entry) for entry in sorted(lemma, key=str))

    def _assume_order(self, p: Predicate) -> None:
        """More implies at least; a rest only falls, strictly."""
        i, j, _ = p
        more, least = self.following[p]
        self._forbid([self.runs_next[i], self.runs_next[j], more, least ^ 1])
        if j == self.now:
            self._forbid([self.goes_on[i], least, self.current[p][0] ^ 1])

    def _assume_due(self, p: Predicate) -> None:
        """What falling due says about the difference of two running clocks."""
        aig, (i, j, bound) = self.aig, p
        more, least = self.current[p]
        running = aig.both(self.runs[i], self.runs[j])
        only_i, only_j = aig.both(self.due[i], self.due[j] ^ 1), aig.both(self.due[j], self.due[i] ^ 1)
        together = aig.both(self.due[i], self.due[j])
        if bound >= 0:
            self._forbid([running, only_i, least])
        if bound <= 0:
            self._forbid([running, only_j, more ^ 1])
        if bound < 0:
            self._forbid([running, together, more ^ 1])
        elif bound == 0:
            self._forbid([running, together, aig.both(least, more ^ 1) ^ 1])
        else:
            self._forbid([running, together, least])

    def _assume_monotone(self, i: int, j: int) -> None:
        """At least the larger bound implies more than the smaller one, now and next."""
        for values, runs in ((self.current, self.runs), (self.following, self.runs_next)):
            facts = self.facts(i, j, values)
            for small, large in itertools.pairwise(facts):
                self._forbid([runs[i], runs[j], large.least, small.more ^ 1])
            if values is self.current:
                for fact in facts:
                    self._forbid([runs[i], runs[j], fact.more, fact.least ^ 1])

    def _assume_transitive(self) -> None:
        """Next values of three running clocks (now included): d_i - d_j and d_j - d_k bound d_i - d_k."""
        used = sorted({x for i, j, _ in self.current for x in (i, j)})
        for i in used:
            for j in used:
                for k in used:
                    if len({i, j, k}) == 3:
                        self._assume_triangle(i, j, k)

    def _assume_triangle(self, i: int, j: int, k: int) -> None:
        """Only the tightest triples: the strongest consequence of two facts, from the weakest facts that yield it."""
        first, second, third = (self.facts(*pair, self.following) for pair in ((i, j), (j, k), (i, k)))
        running = self.aig.all_of(self.runs_next[x] for x in (i, j, k))
        for f in first:
            for g in second:
                c = _tightest(third, None, f.bound + g.bound)
                if c is None:
                    continue
                if _tightest(second, c.bound - f.bound, None) != g or _tightest(first, c.bound - g.bound, None) != f:
                    continue
                if c.bound < f.bound + g.bound:
                    self._forbid([running, f.least, g.least, c.more ^ 1])
                else:
                    self._forbid([running, f.least, g.least, c.least ^ 1])
                    self._forbid([running, f.more, g.least, c.more ^ 1])
                    self._forbid([running, f.least, g.more, c.more ^ 1])

    # labels of a step

    def label(self, label: Label) -> Lit:
        """The literal of a step label."""
        of = label.of
        if isinstance(of, int):
            by_clock = {"run": self.runs, "due": self.due, "start": self.starts, "goes on": self.goes_on}
            lit = by_clock[label.kind][of]
        else:
            values = self.current if label.kind in ("more", "least") else self.following
            lit = values[of][0 if label.kind in ("more", "more next") else 1]
        return lit ^ (0 if label.positive else 1)


def _lit(value: bool) -> Lit:
    return TRUE if value else FALSE


def _tightest(facts: list[Fact], low: int | None, high: int | None) -> Fact | None:
    """The fact with the least bound from `low` on, or with the greatest bound up to `high`; facts rise in their
    bound."""
    if low is not None:
        return next((f for f in facts if f.bound >= low), None)
    assert high is not None
    return next((f for f in reversed(facts) if f.bound <= high), None)
