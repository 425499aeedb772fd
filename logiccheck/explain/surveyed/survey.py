"""Many questions about one vehicle, what can ever be so in it: answered once, from what was seen already where it can.

Everything that was seen was played: the scenarios of the file that keep to what is given, and every story found so far.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import fields, replace

from logiccheck.base.budget import Budget
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.explain.asking import Answer, Asking, Blocked, Open, Seen, known
from logiccheck.explain.bare import bare
from logiccheck.explain.surveyed.lifted import lifted
from logiccheck.explain.surveyed.probed import Watched, probed
from logiccheck.lang.program import Compare, Expr, Form, Not, Or, Possible, Program
from logiccheck.lang.program import Never as Forbids
from logiccheck.lang.walk import memory, program_expressions, subexpressions, timer_windows
from logiccheck.model.interpreter import Impossible
from logiccheck.model.judge import broken
from logiccheck.model.play import play_scenario, play_story
from logiccheck.model.reaction import Values
from logiccheck.model.story import Story
from logiccheck.model.timeline import Timeline
from logiccheck.model.truth import is_filter

SHARE = 0.2  # of the time that is left, for one question: so many are asked that none may take that of the others


def even_for_an_instant(condition: Expr) -> Forbids:
    """The requirement that fails where the condition is so in any reaction."""
    return Forbids(condition, None, always=False, instant=True)


class Survey:
    """Ready for questions about a vehicle as it is written, which all together take `budget` seconds at most.

    Conditions may name all that requirements may, and what box and relays remember, by its key; a timer, edge or other
    memory under a key that the vehicle has not is the question's own, as in a requirement. `stories` are known to play.
    Whatever is asked may raise KeyboardInterrupt or BugMet.
    """

    def __init__(self, program: Program, budget: Budget, stories: Iterable[Story] = ()) -> None:
        self.written, self.budget = program, budget
        self._lifted = lifted(program)
        self.probed = probed(program, self._lifted)
        self._keys = timer_windows(replace(program, requirements=(), scenarios=())).keys()
        self._asking: Asking | None = None
        self._answers: dict[Form, Answer] = {}
        self._stories = tuple(stories)
        self._seen: dict[object, Values] | None = None  # of each settled moment, by what is true in it
        self.open_dangers = 0  # how many questions asked as `danger` have no answer

    @property
    def watched(self) -> tuple[Watched, ...]:
        """All that the box remembers and that can be asked about."""
        return tuple(self.probed.watched.values())

    # ------------------------------------------------------------------------------------------------- questions

    def ever(self, condition: Expr) -> bool | None:
        """Whether the condition is ever so once all has settled; None: not decided."""
        asked = self._lifted.outside(condition)
        if self._was_seen(asked):
            return True
        return known(self._answer(Possible(asked)))

    def danger(self, condition: Expr) -> bool | None:
        """As `ever`, of what would be a danger to people: where that is not decided it is counted."""
        found = self.ever(condition)
        self.open_dangers += found is None
        return found

    def always(self, condition: Expr) -> bool | None:
        """Whether the condition is so in every settled situation; None: not decided."""
        other = self.ever(Not(condition))
        return None if other is None else not other

    def passes(self, condition: Expr) -> bool | None:
        """Whether the condition is ever so in any reaction, if only for an instant; None: not decided. What is settled
        is asked first, for that has most often been seen."""
        settled = self.ever(condition)
        return self.fails(even_for_an_instant(condition)) if settled is False else settled

    def fails(self, form: Form) -> bool | None:
        """Whether a requirement of this form ever fails, for whatever needs more than settled moments; None: not
        decided. Not for `possible`."""
        return known(self._answer(self._outside(form)))

    def story(self, asked: Expr | Form) -> Story | None:
        """The shortest story that ends where the condition is so, or where the form fails; it plays on the program as
        written. None where there is none, or none was found."""
        form = self._outside(asked) if isinstance(asked, Form) else Possible(self._lifted.outside(asked))
        answer = self._answer(form)
        return bare(answer.story, self._keys) if isinstance(answer, Seen) else None

    # ------------------------------------------------------------------------------------------- what came of them

    @property
    def undecided(self) -> int:
        """How many different questions have no answer."""
        return sum(isinstance(answer, Open | Blocked) for answer in self._answers.values())

    @property
    def out_of_time(self) -> bool:
        """Some question was not looked at, or not to its end, because the time was over."""
        late = Open(Undecided.BUDGET)
        return any(answer == late for answer in self._answers.values())

    @property
    def obstacle(self) -> Obstacle | None:
        """What stands in the way of the answers that could not be given; None where nothing does."""
        return next((answer.by for answer in self._answers.values() if isinstance(answer, Blocked)), None)

    # ------------------------------------------------------------------------------------------------------ within

    def _outside(self, form: Form) -> Form:
        parts = {e.name: self._lifted.outside(x) for e in fields(form) if isinstance(x := getattr(form, e.name), Expr)}
        return replace(form, **parts)  # type: ignore[arg-type]

    def _answer(self, form: Form) -> Answer:
        if form not in self._answers:
            asking = self._asks()
            asking.each = SHARE * self.budget.left
            answer = asking.fails(form)
            if isinstance(answer, Seen):
                self._note(play_story(self.probed.program, bare(answer.story, self._keys)), self._known_values())
            self._answers[form] = answer
        return self._answers[form]

    def _asks(self) -> Asking:
        """Made when something is first asked that was not seen. All that the vehicle compares is known to it."""
        if self._asking is None:
            nodes = (node for expr in program_expressions(self.written) for node in subexpressions(expr))
            compared = tuple(dict.fromkeys(n for n in nodes if isinstance(n, Compare) or is_filter(n)))
            first = (Or(compared),) if compared else ()
            each = SHARE * self.budget.left
            self._asking = Asking(self.probed.program, first, self.budget, each, whole=True, asides=False)
        return self._asking

    def _was_seen(self, asked: Expr) -> bool:
        """Whether the condition was so at a settled moment of something played; never of one with its own memory."""
        seen = self._known_values().values()
        own = any(node.key not in values.known for values in [*seen][:1] for node in memory(asked))
        return not own and any(values.holds(asked) for values in seen)

    def _known_values(self) -> dict[object, Values]:
        if self._seen is None:
            self._seen = {}
            for timeline in self._played():
                self._note(timeline, self._seen)
        return self._seen

    def _played(self) -> Iterator[Timeline]:
        program = self.probed.program
        for scenario in program.scenarios:
            try:
                yield play_scenario(program, scenario)
            except Impossible:
                continue
        for story in self._stories:
            try:
                yield play_story(program, story)
            except Impossible:
                continue

    def _note(self, timeline: Timeline, seen: dict[object, Values]) -> None:
        """What was so is remembered, unless it took something that is not given."""
        if not broken(timeline):
            for played in timeline.settled:
                values = played.moment.settled.values
                seen.setdefault((frozenset(values.true), frozenset(values.nodes), *values.world.items()), values)
