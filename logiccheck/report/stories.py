"""A story as shown to people: played on the reference interpreter, then laid out as a table with its causes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise

from logiccheck.base.frozen import frozen
from logiccheck.base.span import Span
from logiccheck.explain.situation import Situation
from logiccheck.lang.program import ChangesOnlyWhile, Expr, Form, Never, Possible, Program, SignalKind
from logiccheck.model.interpreter import Moment
from logiccheck.model.judge import violated, witnessed
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Reaction, Values
from logiccheck.model.signals import Instant
from logiccheck.model.story import Aside, Story
from logiccheck.model.timeline import Timeline
from logiccheck.model.truth import expressions_of
from logiccheck.report import words_played
from logiccheck.report import words_stories as words
from logiccheck.report.causes import causes, chasing
from logiccheck.report.durations import said
from logiccheck.report.involved import POWERED, involved, named
from logiccheck.report.leading import End
from logiccheck.report.report import Cause, Shown
from logiccheck.report.table import Frame, steady_hands, table
from logiccheck.report.values import things

AT_FIRST = "at first"


@frozen
class Replay:
    """A story as the interpreter plays it; `end` is the instant at which it shows what it is told for."""

    story: Story
    form: Form | None  # the requirement that it breaks or fulfils
    timeline: Timeline
    end: Instant


def replay(program: Program, story: Story, form: Form | None) -> Replay:
    """Play the story. A story that does not show what it is told for is a bug of ours and raises `AssertionError`."""
    timeline = play_story(program, story)
    match form:
        case None:
            end: Instant | None = Instant(story.steps[-1].time)
        case Possible(q=q):
            end = witnessed(timeline, q)
        case _:
            end = violated(timeline, form)
    assert end is not None, "the story plays and shows nothing"
    return Replay(story, form, timeline, end)


def shown(
    program: Program, played: Replay, names: Iterable[str], files: Mapping[str, str], edited: Sequence[Span] = ()
) -> Shown:
    """The story laid out, with the causes of what it comes to; `names`: what it is about beside those of the form;
    `edited`: where an edit would mend that.
    """
    story, form = played.story, played.form
    frames = tuple(_frames(played))
    about = {*names, *(named(expressions_of(form)) if form is not None else ())}
    can_matter = involved(program, {*about, *story.involved}) | _letting(program, story)
    rows = about | story.involved if isinstance(form, Possible) else can_matter  # a witness needs no explanation
    hands = steady_hands(program, frames, story.involved - about) if len(frames) > 1 else ()
    hidden = sum(thing.name not in can_matter for thing in things(program))
    return Shown(
        table=table(program, frames, rows, about if len(frames) > 1 else about | story.involved, story.runs),
        causes=_causes(program, played, frames, names, files, edited),
        remarks=(
            *words.all_along(hands),
            *(words.asleep() if _asleep(frames) and POWERED in can_matter - about else ()),
            *_together(story),
            *_fixed(story.aside),
            *_wakings(played.timeline, can_matter),
            *words.not_involved(hidden),
        ),
    )


def _letting(program: Program, story: Story) -> frozenset[str]:
    """Of what changes in the story only while something is so: what that is said of."""
    pairs = pairwise(dict(step.world) for step in story.steps)
    changed = {name for old, new in pairs for name, value in new.items() if old.get(name) != value}
    lines = [given for given in program.givens if isinstance(given, ChangesOnlyWhile) and given.name in changed]
    return frozenset(named(given.y for given in lines))


def _asleep(frames: Sequence[Frame]) -> bool:
    """The box has no power in any of them; what never changes has no row, and this explains much."""
    return not any((SignalKind.POWERED, POWERED) in frame.values.true for frame in frames)


def shorted_at_the_end(program: Program, played: Replay) -> list[str]:
    """The wires that are live and grounded at once where the story ends."""
    return shorted(program, _moment(played, played.end.time).settled.values)


def shorted(program: Program, values: Values) -> list[str]:
    """The wires that are live and grounded at once."""
    names = [wire.name for wire in program.wires]
    return [name for name in names if {(SignalKind.LIVE, name), (SignalKind.GROUNDED, name)} <= values.true]


def _causes(
    program: Program,
    played: Replay,
    frames: Sequence[Frame],
    names: Iterable[str],
    files: Mapping[str, str],
    edited: Sequence[Span],
) -> tuple[Cause, ...]:
    form = played.form
    if form is None:
        return chasing(program, names, files)
    return causes(program, form, [frame.values for frame in frames], files, _end(played), edited)


def _end(played: Replay) -> End:
    """Where the story shows what it is told for."""
    time, form = played.end.time, played.form
    settled = Situation(played.timeline, time)
    if not isinstance(form, Never) or not form.instant or played.end.after:
        return End(settled)
    reactions = _moment(played, time).reactions
    number = _first_instant(reactions, form)
    return End(settled, number if number < len(reactions) - 1 else None)


def _frames(played: Replay) -> Iterator[Frame]:
    """One frame a step of the story, up to the instant at which it ends; the last as the requirement looks at it.

    A step later than that instant is only as far as the engine had to go to be sure.
    """
    form, end, steps = played.form, played.end, played.story.steps
    steps = steps[:-1] if played.story.overdue else steps
    for step in (step for step in steps if step.time <= end.time):
        moment = _moment(played, step.time)
        title = AT_FIRST if step.time == 0 else said(step.time)
        if not moment.settles:
            yield from chase(title, moment, step.time)
        elif step.time == end.time and isinstance(form, Never) and form.instant:
            yield Frame(words.for_an_instant(title), _instant(moment, form), step.time, frozenset(step.due))
        else:
            yield Frame(title, moment.settled.values, step.time, frozenset(step.due))
    if end.after:
        yield Frame(words.just_after(said(end.time)), _moment(played, end.time).settled.values, None)


def _moment(played: Replay, time: Fraction | int) -> Moment:
    """The last moment up to this time: what it settles to still holds then."""
    return [each for each in played.timeline.played if each.time <= time][-1].moment


def _instant(moment: Moment, form: Never) -> Values:
    """The first reaction in which what must not be is so."""
    return moment.reactions[_first_instant(moment.reactions, form)].values


def _first_instant(reactions: Sequence[Reaction], form: Never) -> int:
    """The number of that reaction; the last one where none shows it."""
    parts: list[Expr] = [form.p] if form.r is None else [form.p, form.r]
    shown = (number for number, each in enumerate(reactions) if all(each.holds(part) for part in parts))
    return next(shown, len(reactions) - 1)


def chase(title: str, moment: Moment, time: Fraction | int) -> Iterator[Frame]:
    """The reactions that follow one another for ever at one instant."""
    for number, reaction in enumerate(moment.loop, start=1):
        yield Frame(f"{title}, round {number}", reaction.values, time)


def _together(story: Story) -> Iterator[str]:
    """Changes and timers that fall on one instant: on the real vehicle that takes some doing. Does it have to?"""
    for time, changed, due in story.coincidences:
        yield words.together(said(time), changed, due)
    if story.aside.apart is not None:
        yield words.apart(story.aside.apart, story.aside.moments, story.moments)


def _fixed(aside: Aside) -> Iterator[str]:
    """Timers whose lengths the story chose: could they be fixed?"""
    if aside.fixed is not None:
        yield words.fixed(aside.fixed, [(key, said(length)) for key, length in aside.lengths], aside.nominal)
    if not aside.settled:
        yield words.UNSETTLED


def _wakings(timeline: Timeline, names: frozenset[str]) -> Iterator[str]:
    """An instant without supply is easily overlooked: it is said where the box forgot and woke within one moment."""
    if POWERED in names:
        for played in timeline.played:
            if played.moment.wakings:
                yield words_played.woke_within(said(played.time))
