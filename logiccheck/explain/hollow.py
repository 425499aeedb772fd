"""Why the situation that a requirement speaks of cannot occur: these rules, any rules at all, or what is given."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.engine.verdict import Verdict
from logiccheck.explain.aside import Emptiness, Hollow
from logiccheck.explain.asking import Asking, known
from logiccheck.explain.freed import freed
from logiccheck.lang.program import Never, Program

MOST_SECONDS = 5.0  # nobody asked for this: it must not keep anybody waiting


def hollow(
    program: Program, empty: Sequence[Verdict], seconds: float, progress: Callable[[str], None]
) -> dict[str, Emptiness]:
    """For each of these requirements without a case, in so many seconds altogether; nothing where it is not decided.

    May raise KeyboardInterrupt, or BugMet.
    """
    found: dict[str, Emptiness] = {}
    budget = Budget(min(seconds, MOST_SECONDS))
    try:
        for verdict in empty:
            progress(f"why no case for {verdict.requirement.name}")
            search = _Search(freed(program), happens(verdict), budget)
            kind = search.kind(program.box is not None)
            if kind is not None:
                found[verdict.requirement.name] = kind
    except (MemoryError, OutOfTime):
        pass
    return found


def happens(verdict: Verdict) -> Never:
    """What fails as soon as the situation occurs."""
    assert verdict.empty is not None
    form = verdict.requirement.form
    return Never(verdict.empty, None, always=False, instant=isinstance(form, Never) and form.instant)


@dataclass(slots=True)
class _Search:
    """`free`: the vehicle with rules at will."""

    free: Program
    asked: Never
    budget: Budget

    def kind(self, ruled: bool) -> Emptiness | None:
        """`ruled`: there are rules that were set free."""
        if ruled and (at_will := self._occurs(self._all())) is not False:
            return Emptiness(Hollow.RULES) if at_will else None
        if (at_all := self._occurs([])) is not True:
            return None if at_all is None else Emptiness(Hollow.ANYTHING if ruled else Hollow.RULES)
        needed = self._needed()
        return None if needed is None else Emptiness(Hollow.GIVEN, tuple(line.span for line in needed))

    def _all(self) -> list[_Line]:
        return [*_lines(self.free)]

    def _needed(self) -> list[_Line] | None:
        """Lines without any that can be spared, tried in the order written; None where that is not decided of one."""
        kept = self._all()
        for line in self._all():
            fewer = [other for other in kept if other != line]
            occurs = self._occurs(fewer)
            if occurs is None:
                return None
            if not occurs:
                kept = fewer
        return kept

    def _occurs(self, lines: Sequence[_Line]) -> bool | None:
        """Whether the situation occurs where only these lines are given; None: not decided."""
        self.budget.check()
        return known(Asking(_given(self.free, lines), (self.asked.p,), self.budget).fails(self.asked))


@frozen
class _Line:
    """One thing that is given: an assumption or a fact of time 0 by its number, or the number that does not jump."""

    what: str
    number: int
    span: Span


def _lines(program: Program) -> Iterator[_Line]:
    yield from (_Line("at first", number, fact.span) for number, fact in enumerate(program.at_first))
    yield from (_Line("given", number, given.span) for number, given in enumerate(program.givens))
    yield from (_Line("jumps", n, each.span) for n, each in enumerate(program.numbers) if not each.jumps)


def _given(program: Program, lines: Sequence[_Line]) -> Program:
    """The program in which no other lines are given."""
    kept = {(line.what, line.number) for line in lines}

    return replace(
        program,
        at_first=tuple(fact for number, fact in enumerate(program.at_first) if ("at first", number) in kept),
        givens=tuple(given for number, given in enumerate(program.givens) if ("given", number) in kept),
        numbers=tuple(
            replace(each, jumps=each.jumps or ("jumps", n) not in kept) for n, each in enumerate(program.numbers)
        ),
    )
