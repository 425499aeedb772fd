"""Nothing is accused unheard: a story is shown only after the reference interpreter has played it and the judge
agreed."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from itertools import pairwise

from logiccheck.base.budget import Budget
from logiccheck.engine.cone import Cone
from logiccheck.lang.program import (
    AfterLasting,
    ChangesOnlyWhile,
    Excluded,
    Form,
    LastsAtLeast,
    LastsAtMost,
    Number,
    Possible,
    Program,
    Switch,
)
from logiccheck.model.circuit.system import Line
from logiccheck.model.interpreter import Impossible, Machine
from logiccheck.model.judge import Broken, broken, violated, witnessed
from logiccheck.model.play import play_story
from logiccheck.model.story import Story
from logiccheck.model.timeline import Timeline


class StoryRefused(Exception):
    """The interpreter does not confirm a story of the engine: a mistake in this program, never a verdict."""


def played(program: Program, story: Story, budget: Budget | None = None) -> Timeline:
    """The story on the interpreter; timers written inside requirements are the judge's, and last as the story says."""
    own = Machine(program).windows.keys()
    steps = tuple(replace(s, due=tuple(key for key in s.due if key in own)) for s in story.steps)
    box = replace(story, steps=steps, runs=tuple(run for run in story.runs if run.key in own))
    try:
        timeline = play_story(program, box, budget=budget)
    except Impossible as e:
        raise StoryRefused(str(e)) from e
    chosen = dict(timeline.durations)
    chosen.update({(run.key, run.start): run.duration for run in story.runs if run.key not in own})
    return replace(timeline, durations=chosen)


def confirm(
    program: Program,
    cone: Cone,
    story: Story,
    form: Form,
    also: Collection[Line] = (),
    budget: Budget | None = None,
) -> None:
    """Raises StoryRefused unless the story meets what is given (as far as it touches it, and these lines `also`) and
    shows what it claims; and OutOfTime where to play it takes longer than the budget says."""
    timeline = played(program, story, budget)
    if not timeline.settles:
        raise StoryRefused("the last moment never settles")
    counted = {line.name for line in (*cone.lines, *also)}
    unmet = [b for b in broken(timeline) if _line_of(program, b) in counted]
    if unmet:
        raise StoryRefused(f"an assumption is not met at {unmet[0].instant}: {unmet[0].what}")
    shown = witnessed(timeline, form.q) if isinstance(form, Possible) else violated(timeline, form)
    if shown is None:
        raise StoryRefused("the judge sees nothing wrong")


def confirm_apart(program: Program, cone: Cone, story: Story) -> None:
    """Raises StoryRefused if a change of the world in the story falls together with another, or with one of the timers
    of the cone that falls due."""
    clocks = {clock.key for clock in cone.clocks}
    for before, now in pairwise(played(program, story).played):
        changed = [name for name in now.world if now.world[name] != before.world[name]]
        if len(changed) > 1 or (changed and clocks & now.due):
            raise StoryRefused(f"something falls together at {now.time}: {', '.join(changed)}")


def _line_of(program: Program, b: Broken) -> tuple[str, int | str]:
    """Which line of what is given it is; what the cone does not hold concerns a world that the story leaves alone."""
    match b.what:
        case Switch() | Number():
            return ("steps", b.what.name)
        case Excluded() | LastsAtLeast() | LastsAtMost() | ChangesOnlyWhile() | AfterLasting():
            return ("given", program.givens.index(b.what))
        case _:
            return ("at first", program.at_first.index(b.what))
