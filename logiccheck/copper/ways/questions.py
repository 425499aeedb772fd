"""Questions about one harness, asked one after another; a mistake of ours costs one of them its answer and no other."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, BugMet, Open, Seen
from logiccheck.explain.bare import bare
from logiccheck.lang.program import Expr, Or, Program
from logiccheck.lang.walk import timer_windows
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Values
from logiccheck.model.story import Story


@dataclass(slots=True)
class Questions:
    """`first`: all that will be asked about is in here. `bugs` are the mistakes of ours that were met."""

    program: Program
    first: tuple[Expr, ...]
    budget: Budget
    progress: Callable[[str], None]
    bugs: list[Bug] = field(default_factory=list)
    _asking: Asking | None = None
    _known: dict[Expr, Answer] = field(default_factory=dict)

    def ask(self, about: str, condition: Expr) -> Answer:
        """Whether it is ever so, once all has settled; `about` is what is said to those who wait. May raise
        KeyboardInterrupt."""
        if condition not in self._known:
            self.progress(about)
            try:
                self._known[condition] = self._ready().possible(condition)
            except BugMet as met:
                self.bugs.append(met.bug)
                self._known[condition] = Open(Undecided.OUR_BUG)
            except MemoryError:  # met while all is made ready
                self._known[condition] = Open(Undecided.MEMORY)
        return self._known[condition]

    def end(self, seen: Seen) -> Values:
        """What has settled where the story ends."""
        return play_story(self._ready().program, self.story(seen)).settled[-1].moment.settled.values

    def story(self, seen: Seen) -> Story:
        """The story, without what the question itself remembers."""
        return bare(seen.story, timer_windows(self._ready().program).keys())

    @property
    def unsettled(self) -> Obstacle | None:
        """Why not all of the vehicle is known to come to rest."""
        return None if self._asking is None else self._asking.unsettled

    def _ready(self) -> Asking:
        if self._asking is None:
            self._asking = Asking(self.program, (Or(self.first),), self.budget, asides=False)
        return self._asking
