"""A story as a table: one column a moment, one row a signal, and only what changed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program
from logiccheck.model.reaction import Values
from logiccheck.model.story import Run
from logiccheck.report.durations import said
from logiccheck.report.report import Group, Row, Table
from logiccheck.report.values import Place, things


@frozen
class Frame:
    """One column: its title, the values shown in it, the instant in microseconds (None: just after one, when nothing
    begins or ends), the timers that fell due at it.
    """

    title: str
    values: Values
    time: Fraction | int | None
    due: frozenset[str] = frozenset()


TIMERS = "timers"


def table(
    program: Program,
    frames: Sequence[Frame],
    involved: Iterable[str],
    always: Iterable[str] = (),
    runs: Iterable[Run] = (),
) -> Table:
    """The frames (at least one) side by side; a row for each involved name that changes or is in `always`."""
    wanted, kept = frozenset(involved), frozenset(always)
    rows: dict[Place, list[Row]] = {place: [] for place in Place}
    for thing in things(program):
        if thing.name in wanted | kept:
            cells = _changes([thing.read(frame.values) for frame in frames])
            if thing.name in kept or any(cells[1:]):
                rows[thing.place].append(Row(thing.name, thing.label, cells))
    groups = [Group(place.value, tuple(rows[place])) for place in Place if rows[place]]
    if timers := _timers(frames, tuple(runs)):
        groups.append(Group(TIMERS, timers))
    return Table(tuple(frame.title for frame in frames), tuple(groups))


def steady_hands(program: Program, frames: Sequence[Frame], involved: Iterable[str]) -> tuple[str, ...]:
    """What the hands leave as it is in all frames, each as "door closed"."""
    wanted = frozenset(involved)
    hands = [thing for thing in things(program) if thing.place is Place.HANDS and thing.name in wanted]
    texts = [(thing.name, {thing.read(frame.values) for frame in frames}) for thing in hands]
    return tuple(f"{name} {text.pop()}" for name, text in texts if len(text) == 1)


def _changes(texts: Sequence[str]) -> tuple[str, ...]:
    return tuple(text if at == 0 or text != texts[at - 1] else "" for at, text in enumerate(texts))


def _timers(frames: Sequence[Frame], runs: tuple[Run, ...]) -> tuple[Row, ...]:
    """One row a timer that is started or runs out in the story: how long each run lasts, and where it ends."""
    keys = sorted({run.key for run in runs} | {key for frame in frames for key in frame.due})
    lasting: dict[tuple[str, Fraction | int | None], str] = {(run.key, run.start): said(run.duration) for run in runs}
    rows = []
    for key in keys:
        cells = []
        for frame in frames:
            words = ["ends"] if key in frame.due else []
            words += [f"runs {lasts}"] if (lasts := lasting.get((key, frame.time))) else []
            cells.append(", ".join(words))
        if any(cells):
            rows.append(Row(key, "", tuple(cells)))
    return tuple(rows)
