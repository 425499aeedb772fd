"""A story as shown to people: played on the reference interpreter, then laid out as a table with its causes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from logiccheck.lang.program import Expr, Form, Never, Possible, Program
from logiccheck.model.interpreter import Moment
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Values
from logiccheck.model.story import Story
from logiccheck.model.timeline import Timeline
from logiccheck.model.truth import expressions_of
from logiccheck.report import words_check as words
from logiccheck.report import words_played
from logiccheck.report.causes import causes
from logiccheck.report.durations import said
from logiccheck.report.involved import POWERED, involved, named
from logiccheck.report.report import Shown
from logiccheck.report.table import Frame, steady_hands, table
from logiccheck.report.values import things

AT_FIRST = "at first"


def shown(program: Program, story: Story, form: Form | None, names: Iterable[str], files: Mapping[str, str]) -> Shown:
    """The story played and laid out, with the causes of what it comes to; `form` is the requirement that it breaks or
    fulfils, `names` are the names that it is about beside those of the form.
    """
    timeline = play_story(program, story)
    frames = tuple(_frames(story, timeline, form))
    about = {*names, *(named(expressions_of(form)) if form is not None else ())}
    can_matter = involved(program, {*about, *story.involved})
    rows = about | story.involved if isinstance(form, Possible) else can_matter  # a witness needs no explanation
    hands = steady_hands(program, frames, story.involved - about) if len(frames) > 1 else ()
    hidden = sum(thing.name not in can_matter for thing in things(program))
    return Shown(
        table=table(program, frames, rows, about if len(frames) > 1 else about | story.involved, story.runs),
        causes=causes(program, form, frames[-1].values, files) if form is not None else (),
        remarks=(*words.all_along(hands), *_wakings(timeline, can_matter), *words.not_involved(hidden)),
    )


def _frames(story: Story, timeline: Timeline, form: Form | None) -> Iterator[Frame]:
    """One frame a step of the story; the last as the requirement looks at it."""
    for number, step in enumerate(story.steps):
        last = number == len(story.steps) - 1
        played = [each for each in timeline.played if each.time <= step.time][-1]
        title = AT_FIRST if step.time == 0 else said(step.time)
        due = frozenset(step.due)
        if not played.moment.settles:
            yield from chase(title, played.moment, step.time)
        elif last and story.overdue:
            yield Frame(f"just after {title}", played.moment.settled.values, step.time)
        elif last and isinstance(form, Never) and form.instant:
            values = _instant(played.moment, form)
            yield Frame(f"{title}, for an instant", values, step.time, due)
        else:
            yield Frame(title, played.moment.settled.values, step.time, due)


def _instant(moment: Moment, form: Never) -> Values:
    """The first reaction in which what must not be is so."""
    parts: list[Expr] = [form.p] if form.r is None else [form.p, form.r]
    for reaction in moment.reactions:
        if all(reaction.holds(part) for part in parts):
            return reaction.values
    return moment.settled.values


def chase(title: str, moment: Moment, time: Fraction | int) -> Iterator[Frame]:
    """The reactions that follow one another for ever at one instant."""
    for number, reaction in enumerate(moment.loop, start=1):
        yield Frame(f"{title}, round {number}", reaction.values, time)


def _wakings(timeline: Timeline, names: frozenset[str]) -> Iterator[str]:
    """An instant without supply is easily overlooked: it is said where the box forgot and woke within one moment."""
    if POWERED in names:
        for played in timeline.played:
            if played.moment.wakings:
                yield words_played.woke_within(said(played.time))
