"""Edits of the user's own lines with which rules that chase each other for ever would come to rest.

Tried are edits in the lines of what goes on changing, the smallest first: the story of the chase has to come to rest on
the edited files, then all is decided there, and has to be as it was, or better.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.replay import played
from logiccheck.engine.verdict import Check, Obstacle, Trouble
from logiccheck.explain.blame import Blame, Why
from logiccheck.explain.edit import Edit, EditKind, size
from logiccheck.explain.edits import MOST_PLAYED, MOST_PROVED, MOST_SHOWN, each_once
from logiccheck.explain.ending import same_hands
from logiccheck.explain.mending import Cut, Mending
from logiccheck.explain.site import Site, line_of
from logiccheck.explain.terms import inner_edits
from logiccheck.explain.trial import Trial
from logiccheck.lang.matters import Names
from logiccheck.lang.program import Program
from logiccheck.model.story import Story


def look_for_calm(
    program: Program,
    main: str,
    files: Mapping[str, str],
    found: Check,
    seconds: float,
    each: float,
    progress: Callable[[str], None],
) -> Mending | None:
    """What would bring a chase to rest; None where there is none, or something else stands in the way, too.

    All of it may take `seconds`, one proof `each`.
    """
    chase = next((trouble for trouble in found.troubles if _is_chase(trouble)), None)
    if chase is None or chase.story is None or len(found.troubles) > 1:
        return None
    progress("edits for what comes to no rest")
    search = _Search(Trial(program, main, files, found, each, Budget(seconds)), chase, chase.story)
    cut: Cut | None = None
    try:
        search.run()
    except OutOfTime:
        cut = Cut.TIME
    except MemoryError:
        cut = Cut.MEMORY
    except KeyboardInterrupt:
        cut = Cut.INTERRUPTED
    kinds = tuple(kind for kind in EditKind if kind in search.tried)
    return Mending(tuple(search.passed), "", len(search.tried), kinds, cut)


def _is_chase(trouble: Trouble) -> bool:
    return trouble.obstacle is Obstacle.UNSETTLED and bool(trouble.chasing)


@dataclass(slots=True)
class _Search:
    trial: Trial
    chase: Trouble
    story: Story
    tried: list[EditKind] = field(default_factory=list)
    passed: list[Edit] = field(default_factory=list)

    def run(self) -> None:
        files, kinds, proved = self.trial.files, list(EditKind), 0
        edits = each_once(self._candidates()).values()
        for edit in sorted(edits, key=lambda each: (size(each, files), kinds.index(each.kind)))[:MOST_PLAYED]:
            if self.passed and size(edit, files) > size(self.passed[0], files):
                return
            self.tried.append(edit.kind)
            program = self.trial.read(edit)
            if program is None or same_hands(program, self.story) is None:
                continue
            if not self.trial.goes_as_expected(program):
                continue
            proved += 1
            if self.trial.spares(program) is not None:
                self.passed.append(edit)
            if len(self.passed) == MOST_SHOWN or proved == MOST_PROVED:
                return

    def _candidates(self) -> Iterator[Edit]:
        """In each reaction of the chase: what would turn one of those that go on changing."""
        program, box = self.trial.program, self.trial.program.box
        items = [*program.relays, *(box.rules if box is not None else ())]
        chasing = [item for item in items if item.name in self.chase.chasing]
        before = [each.moment.settled.values for each in played(program, self.story).settled]
        for reaction in played(program, self.story).played[-1].moment.loop:
            lines = []
            for item in chasing:
                expr = line_of(item)
                if expr is not None:
                    lines.append(Blame(Why.TERMS, item.name, reaction.holds(expr), item.span, item=item))
            story = (*before, reaction.values)
            yield from inner_edits(Site(program, self.trial.files, story, lines, frozenset(), Names(program)))
