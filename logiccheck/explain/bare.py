"""A story without the timers of the question that it answers, which are no part of the vehicle."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace

from logiccheck.model.story import Story


def bare(story: Story, timers: Collection[str]) -> Story:
    """The story with these timers alone, and without what was found out about how long the others last, and whether
    they have to fall due just when something changes."""
    runs = tuple(run for run in story.runs if run.key in timers)
    steps = (replace(step, due=tuple(key for key in step.due if key in timers)) for step in story.steps)
    left = replace(story, steps=tuple(steps), runs=runs)
    aside = story.aside
    if any(key not in timers for key, _ in aside.lengths):
        aside = replace(aside, fixed=None, lengths=(), nominal=False)
    if left.coincidences != story.coincidences:
        aside = replace(aside, apart=None, moments=0)
    return replace(left, aside=aside)
