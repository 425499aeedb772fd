"""What requirements and assumptions see as circuits, along random walks, against the judge of played timelines."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

import pytest

from logiccheck.engine.question import Question, Questions
from logiccheck.lang.program import Possible, Program, WorldSet
from logiccheck.model.circuit.aig import Node
from logiccheck.model.circuit.system import Clock, Watch
from logiccheck.model.judge import broken, given_violated, violated, witnessed
from logiccheck.model.observed import signal
from logiccheck.model.play import play
from logiccheck.model.signals import Instant
from logiccheck.model.story import Run
from logiccheck.model.timeline import Timeline
from tests.campaign import seeds
from tests.engine.asking import questions
from tests.engine.walking import coded_world, index_of, random_world
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = 50
WALKS = 3  # of each program
MOMENTS = 14

LineId = tuple[str, int | str]


@dataclass(frozen=True)
class Seen:
    """What the circuit shows at one moment: what is broken at it, what since before it, and lines not met (true: they
    were not met before it already)."""

    time: Fraction
    now: frozenset[str]
    overdue: frozenset[str]
    unmet: dict[LineId, bool]


@dataclass
class Course:
    """One random walk of all questions of a program: what hands and timers do, and what the circuit shows."""

    asked: Questions
    random: Random
    changes: list[WorldSet] = field(default_factory=list)
    runs: list[Run] = field(default_factory=list)
    seen: list[Seen] = field(default_factory=list)
    values: dict[tuple[str, int], int | Fraction] = field(default_factory=dict)

    def __post_init__(self) -> None:
        system = self.asked.moment.system
        self.system, self.aig = system, system.aig
        self.timers: list[Clock | Watch] = [*system.clocks.values(), *system.watches.values()]
        self.stored: dict[Node, bool] = {}
        self.began: dict[str, Fraction] = {}
        self.deadlines: dict[str, Fraction] = {}
        self.lits = [bit.next for bit in system.bits.values()]
        self.lits += [lit for timer in self.timers for lit in (timer.start, timer.run_next)]
        self.lits += [lit for q in self.asked.all for lit in (q.breach.now, q.breach.overdue)]
        self.lits += [constraint.lit for constraint in system.constraints]
        self.musts = [watch.must for watch in system.watches.values()]
        self.order = self.aig.cone([*self.lits, *self.musts])

    def go(self) -> None:
        world: dict[str, int | Fraction] = {}
        time = Fraction(0)
        program = self.asked.moment.program
        for _ in range(MOMENTS):
            world = self.steady(random_world(program, self.random, world))
            self.changes += [WorldSet(time, name, value) for name, value in world.items()]
            self.moment(time, world)
            time = self.next_time(time)

    def steady(self, world: dict[str, int | Fraction]) -> dict[str, int | Fraction]:
        """The same world, each number with one value in each interval: for a circuit it does not change inside one."""
        for number in self.asked.moment.program.numbers:
            index = index_of(number, world[number.name])
            world[number.name] = self.values.setdefault((number.name, index), world[number.name])
        return world

    def moment(self, time: Fraction, world: dict[str, int | Fraction]) -> None:
        inputs = {**self.stored, **coded_world(self.system.world, world)}
        inputs |= {c.due >> 1: self.deadlines.get(c.key) == time for c in self.system.clocks.values()}
        late = {key: time - begin for key, begin in self.began.items()}
        for watch in self.system.watches.values():
            passed = late.get(watch.key, Fraction(-1))
            inputs |= {watch.ge >> 1: passed >= watch.time, watch.gt >> 1: passed > watch.time}
        found = self.aig.evaluate([*self.lits, *self.musts], inputs, self.order)
        values = iter(found)
        self.stored = {bit.now >> 1: next(values) for bit in self.system.bits.values()}
        for timer in self.timers:
            self.follow(timer, time, next(values), next(values))
        now, overdue = [], []
        for question in self.asked.all:
            now += [question.requirement.name] * next(values)
            overdue += [question.requirement.name] * next(values)
        unmet = {}
        for constraint in self.system.constraints:
            if not next(values) and constraint.line is not None:
                unmet[constraint.line.kind, constraint.line.which] = False
        for watch, must in zip(self.system.watches.values(), values, strict=True):
            if must and late.get(watch.key, Fraction(0)) > watch.time:
                unmet["given", int(watch.key.removeprefix("given ").split(":")[0])] = True
        self.seen.append(Seen(time, frozenset(now), frozenset(overdue), unmet))

    def follow(self, timer: Clock | Watch, time: Fraction, start: bool, run: bool) -> None:
        """When runs begin, and how long they last."""
        if not run:
            self.began.pop(timer.key, None)
            self.deadlines.pop(timer.key, None)
        elif start or timer.key not in self.began:
            self.began[timer.key] = time
            if isinstance(timer, Clock):
                lasts = self.random.choice([Fraction(timer.lo), Fraction(timer.hi), Fraction(timer.lo + timer.hi, 2)])
                self.deadlines[timer.key] = time + lasts
                self.runs.append(Run(timer.key, time, lasts))

    def next_time(self, time: Fraction) -> Fraction:
        """Not past the next deadline; where a watch comes to its time, near it, or just at any time."""
        first = min(self.deadlines.values(), default=None)
        ends = [self.began[w.key] + w.time for w in self.system.watches.values() if w.key in self.began]
        choices = [time + 500_000, *(end for end in ends if end > time), *(end + 1 for end in ends if end >= time)]
        chosen = self.random.choice(choices)
        if first is None:
            return chosen
        return self.random.choice([first, min(chosen, first), (time + first) / 2])


def expected(timeline: Timeline) -> dict[LineId, Instant | None]:
    """When each line of what is given is first not met."""
    program = timeline.program
    found: dict[LineId, Instant | None] = {}
    for i, fact in enumerate(program.at_first):
        found["at first", i] = None if signal(timeline, fact).value(Instant(0)) else Instant(0)
    for i, given in enumerate(program.givens):
        found["given", i] = given_violated(timeline, given)
    for each in broken(timeline):
        if each.what in (*program.switches, *program.numbers):
            found["steps", each.what.name] = each.instant  # type: ignore[union-attr]
    return found


def compare(course: Course, question: Question, timeline: Timeline) -> str:
    """The first moment at which the circuit shows the requirement broken, and the instant that the judge finds."""
    form, name = question.requirement.form, question.requirement.name
    instant = witnessed(timeline, form.q) if isinstance(form, Possible) else violated(timeline, form)
    shown = next((s for s in course.seen if name in s.now | s.overdue), None)
    return told(course, shown, shown is not None and name in shown.overdue, instant, question.requirement.text)


def told(course: Course, shown: Seen | None, before: bool, instant: Instant | None, text: str) -> str:
    """Both must say the same; `before`: the circuit says that it was so before the moment at which it shows."""
    says = f"{text}: the circuit shows it {shown and (shown.time, before)}, the judge finds {instant}"
    if shown is None:
        end = course.seen[-1].time
        assert instant is None or (instant.time == end and instant.after), says
        return "fine"
    assert instant is not None, says
    if before:
        last = max((s.time for s in course.seen if s.time < shown.time), default=Fraction(-1))
        assert last <= instant.time < shown.time, says
        return "overdue"
    assert instant.time == shown.time, says
    return "now"


def look(seed: int, walks: int) -> Counter[str]:
    return walk(loaded(random_program(seed).text), Random(seed), walks)


def walk(program: Program, random: Random, walks: int) -> Counter[str]:
    """What came of so many walks of all questions of a program."""
    tags = Counter[str]()
    asked = questions(program)
    for _ in range(walks if asked.settles else 0):
        course = Course(asked, random)
        course.go()
        first = {change.name: change.value for change in course.changes if change.time == 0}
        timeline = play(program, course.changes, course.runs, course.seen[-1].time, first)
        assert not timeline.unused
        tags.update(compare(course, question, timeline) for question in asked.all if question.bad)
        for line, instant in expected(timeline).items():
            shown = next((s for s in course.seen if line in s.unmet), None)
            tags["line " + told(course, shown, shown is not None and shown.unmet[line], instant, str(line))] += 1
    return tags


def test_circuit_and_judge_agree() -> None:
    """On every requirement and every line of what is given; and the walks are not dull."""
    tags = sum((look(seed, WALKS) for seed in range(SEEDS)), Counter[str]())
    assert all(tags[tag] > 15 for tag in ("fine", "now", "overdue", "line fine", "line now")), tags
    assert tags["line overdue"] > 1, tags


FORMS = [
    "never x and y while z",
    "never x and y even for an instant",
    "never x for longer than 1 s",
    "never x while y for longer than 2 s",
    "x calls for y no later than 1 s",
    "x calls for y and z no later than 2 s, excused by falls(z)",
    "x becomes on calls for y no later than 1 s",
    "x calls for rises(y) no later than 1 s",
    "x calls for previous(y) no later than 1 s",
    "x calls for previous(y) and not y no later than 0.5 s, excused by z",
    "x calls for y lasting 1 s",
    "x becomes on calls for y lasting 1 s, excused by z",
    "falls(x) calls for y lasting 0.5 s, excused by rises(z)",
    "x only after y",
    "x only after y has lasted 1 s",
    "x only after y has lasted 0.5 s since z",
    "x only after y since z",
    "x only after rises(y) since previous(z)",
    "previous(x) only after y since rises(z)",
    "x waits for y",
    "rises(x) waits for y after z",
    "previous(x) and not x waits for rises(y) after falls(z)",
    "possible x and y and on_delay(z, 1 s)",
    "never off_delay(x, 1 s) and not y for longer than 0.5 s",
    "never one_shot(x, 1 s) and impulse_relay(y, reset z)",
]
GIVEN = [
    "never x and y and z",
    "x lasts at least 2 s",
    "y lasts at most 1 s",
    "x and y lasts at least 1.5 s",
    "z changes only while x",
    "x changes only while previous(y) or on_delay(z, 1 s)",
    "y is on after x has lasted 1 s",
    "z is off after not x has lasted 0.5 s",
]


@pytest.mark.parametrize("line", [*FORMS, *(f"given {each}" for each in GIVEN)])
def test_each_form(line: str) -> None:
    """Of requirements and of what is given, on many walks of three hands; each is broken on some and not on others."""
    given = f"given\n    {line.removeprefix('given ')}\n" if line in {f"given {each}" for each in GIVEN} else ""
    asked = "" if given else f"requirements\n    danger d {line}\n"
    world = "".join(f"    {name} contact\n" for name in "xyz")
    tags = walk(loaded(f'vehicle "T"\nworld\n{world}{given}{asked}'), Random(1), 40)
    fine, broken_ = (
        (tags["line fine"], tags["line now"] + tags["line overdue"])
        if given
        else (tags["fine"], tags["now"] + tags["overdue"])
    )
    assert fine + broken_ == 40
    assert broken_ > 3


@pytest.mark.campaign
def test_circuit_and_judge_agree_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds():
        look(each, 20)
