"""The situations of a story, up to the instant at which it shows what it is told for, and the story on other rules."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.engine.replay import played
from logiccheck.lang.program import Excluded, Form, Never, Not, Program, WorldSet
from logiccheck.model.interpreter import Impossible, Machine
from logiccheck.model.judge import broken, violated
from logiccheck.model.play import first_world, play
from logiccheck.model.reaction import Values
from logiccheck.model.story import Story
from logiccheck.model.timeline import Played, Timeline
from logiccheck.model.truth import all_nodes


def situations(program: Program, story: Story, form: Form) -> tuple[Values, ...]:
    """One a moment of the story, settled; the last as the requirement looks at it. None where it breaks nothing."""
    timeline = played(program, story)
    end = violated(timeline, form)
    if end is None:
        return ()
    times = [step.time for step in story.steps if step.time <= end.time]
    moments = [[each for each in timeline.settled if each.time <= time][-1] for time in times]
    values = [each.moment.settled.values for each in moments]
    if isinstance(form, Never) and form.instant:
        values[-1] = _instant(moments[-1], form)
    return tuple(values)


def all_situations(program: Program, story: Story) -> tuple[Values, ...]:
    """One a moment of a story that settles to its end."""
    return tuple(each.moment.settled.values for each in played(program, story).settled)


def _instant(moment: Played, form: Never) -> Values:
    """The first reaction in which what must not be is so."""
    parts = [form.p] if form.r is None else [form.p, form.r]
    shown = (reaction for reaction in moment.moment.reactions if all(reaction.holds(part) for part in parts))
    return next(shown).values


def still_breaks(program: Program, story: Story, form: Form, most: int | None = None) -> bool:
    """Whether hands that do the same as in the story break the requirement on this program, too, lawfully.

    Runs of timers last as in the story where they begin as in it and may last so long, else their nominal time. After
    `most` moments it ends.
    """
    timeline = same_hands(program, story, most)
    return timeline is not None and violated(timeline, form) is not None and not broken(timeline)


def same_hands(program: Program, story: Story, most: int | None = None) -> Timeline | None:
    """The story on this program, with runs of timers that last as in it where they can; None where that is impossible,
    or comes to no rest. After `most` moments it ends."""
    excluded = [Not(given.p) for given in program.givens if isinstance(given, Excluded) and not all_nodes([given.p])]
    world = first_world(program, dict(story.steps[0].world), (*program.at_first, *excluded))
    changes = [WorldSet(step.time, name, value) for step in story.steps for name, value in step.world]
    windows = Machine(program).windows
    own = [run for run in story.runs if run.key in windows]
    runs = [run for run in own if windows[run.key].lo <= run.duration <= windows[run.key].hi]
    try:
        timeline = play(program, changes, runs, story.steps[-1].time, world, most)
    except Impossible:
        return None
    chosen = dict(timeline.durations)
    chosen.update({(run.key, run.start): run.duration for run in story.runs if run.key not in windows})
    return replace(timeline, durations=chosen) if timeline.settles else None
