"""What is said beside a story, found out within a part of its time; each other story that it rests on was played."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.base.frozen import frozen
from logiccheck.engine.apart import happens_apart
from logiccheck.engine.certify import Doubt
from logiccheck.engine.cone import Cone
from logiccheck.engine.fixed import with_fixed_times
from logiccheck.engine.replay import confirm_apart
from logiccheck.engine.tell import tell
from logiccheck.engine.timing import Trace, holds_last
from logiccheck.lang.program import Program
from logiccheck.model.story import Answer, Aside, Story

Confirm = Callable[[Story], None]  # raises StoryRefused unless the story shows the same on the interpreter


@frozen
class Teller:
    """Tells the stories of one question on its cone; `settles`: every moment does. A proof that a story takes a
    coincidence goes through `doubt`."""

    program: Program
    cone: Cone
    confirm: Confirm
    settles: bool
    doubt: Doubt
    budget: Budget

    def with_aside(self, trace: Trace, story: Story, settled: bool) -> Story:
        """The story of this trace with what is to be said beside it; `settled` as in `Aside`."""
        return replace(story, aside=self._fixed(self._apart(Aside(settled), story), trace, story))

    def _apart(self, aside: Aside, story: Story) -> Aside:
        if not story.coincidences:
            return aside
        cone = self.cone
        answer, trace = happens_apart(cone, story, self.settles, self.budget, self.doubt)
        if trace is None:
            return replace(aside, apart=answer)
        other = tell(cone, trace, holds_last(cone, trace, cone.overdue), story.involved)
        try:
            self.confirm(other)
        except OutOfTime:
            return replace(aside, apart=Answer.OPEN)
        confirm_apart(self.program, cone, other)
        return replace(aside, apart=answer, moments=other.moments)

    def _fixed(self, aside: Aside, trace: Trace, story: Story) -> Aside:
        try:
            fixed = with_fixed_times(self.cone, trace, story, self.budget)
            if fixed is not None and fixed.story is not None:
                self.confirm(fixed.story)
        except OutOfTime:
            return replace(aside, fixed=Answer.OPEN)
        if fixed is None:
            return aside
        nominal = {clock.key: clock.nominal for clock in self.cone.clocks}
        usual = all(nominal[key] == length for key, length in fixed.lengths.items())
        return replace(aside, fixed=fixed.answer, lengths=tuple(fixed.lengths.items()), nominal=usual)
