"""A story that is not told as it happens is refused, whatever is wrong with it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from logiccheck.base.budget import Budget, OutOfTime
from logiccheck.engine.check import check_program
from logiccheck.engine.cone import Cone
from logiccheck.engine.replay import StoryRefused, confirm
from logiccheck.engine.verdict import Kind, Undecided
from logiccheck.lang.program import Program
from logiccheck.model.story import Run, Step, Story
from tests.engine.asking import question, random_stories, stories
from tests.model.driven import SECOND, boxed
from tests.oracle.loading import loaded

PUMP = loaded("""
vehicle "T"
world
    x contact
    y contact
    at first x is off
harness
    source plus
    wire x_wire from plus when x
controller "Box" powered by plus
    sense s from x_wire live
    output pump when off_delay(s, 4 s +- 1 s)
given
    x lasts at least 2 s
    never y and x
requirements
    danger d never pump and not x for longer than 4.5 s
    danger e pump waits for y
    function f possible pump and y
""")


def story(program: Program, name: str) -> tuple[Cone, Story]:
    """The story of this requirement, and the cone that it is told on."""
    found = {each.question.requirement.name: each for each in stories(program)}
    return found[name].cone, found[name].story


def at(told: Story, number: int, **changes: object) -> Story:
    """The story with one step told otherwise."""
    steps = list(told.steps)
    steps[number] = replace(steps[number], **changes)  # type: ignore[arg-type]
    return replace(told, steps=tuple(steps))


def worlds(told: Story, number: int, **values: int) -> Story:
    """The story with another world in one step."""
    return at(told, number, world=tuple((name, values.get(name, value)) for name, value in told.steps[number].world))


def later(told: Story, number: int, seconds: str) -> Story:
    return at(told, number, time=told.steps[number].time + Fraction(seconds) * SECOND)


def lasting(told: Story, seconds: str, start: str = "") -> Story:
    """All runs last that long; they begin where they did, or later."""
    runs = [
        replace(run, duration=Fraction(seconds) * SECOND, start=run.start + Fraction(start or "0") * SECOND)
        for run in told.runs
    ]
    return replace(told, runs=tuple(runs))


def test_the_story_itself_is_confirmed() -> None:
    """x goes off at some time, and just after 4.5 s the pump is not yet due."""
    cone, told = story(PUMP, "d")
    confirm(PUMP, cone, told, PUMP.requirements[0].form)
    assert [dict(step.world)["x"] for step in told.steps] == [0, 1, 0, 0]
    assert told.overdue
    assert told.runs == (Run("pump", told.steps[2].time, Fraction(5 * SECOND)),)


@pytest.mark.parametrize(
    ("after", "runs"),
    [
        ("2.9 s", ()),  # any length would do: it is too short for none
        ("3.2 s", ("4",)),  # a run of 3 s would have ended by then
        ("4.2 s", ("5",)),
    ],
)
def test_a_run_that_does_not_end_is_told_where_its_length_matters(after: str, runs: tuple[str, ...]) -> None:
    """The nominal time where that is long enough."""
    program = loaded(
        """
vehicle "T"
world
    x contact
    at first x is off
harness
    source plus
    wire x_wire from plus when x
    relay k coil off_delay(x_wire, 4 s +- 1 s)
requirements
    danger d never k and not x for longer than AFTER
""".replace("AFTER", after)
    )
    cone, told = story(program, "d")
    confirm(program, cone, told, program.requirements[0].form)
    assert told.runs == tuple(Run("k", told.steps[2].time, Fraction(length) * SECOND) for length in runs)


def shorter(told: Story, seconds: str) -> Story:
    """x goes off earlier, and all that comes after it is earlier too."""
    earlier = Fraction(seconds) * SECOND
    steps = (*told.steps[:2], *(replace(step, time=step.time - earlier) for step in told.steps[2:]))
    return replace(told, steps=steps, runs=tuple(replace(run, start=run.start - earlier) for run in told.runs))


def with_y(told: Story) -> Story:
    """y is on throughout."""
    steps = (replace(s, world=tuple({**dict(s.world), "y": 1}.items())) for s in told.steps)
    return replace(told, steps=tuple(steps))


def undue(told: Story) -> Story:
    """Nothing is said to fall due."""
    return replace(told, steps=tuple(replace(step, due=()) for step in told.steps))


TAMPERED: list[tuple[str, str, Callable[[Story], Story]]] = [
    ("it ends too early", "sees nothing wrong", lambda told: undue(later(told, -1, "-0.6"))),
    ("due too early", "does not fall due", lambda told: at(told, -1, due=("pump",))),
    ("due without running", "does not fall due", lambda told: at(told, 1, due=("pump",))),
    ("the timer is over before", "does not fall due", lambda told: at(lasting(told, "4"), -1, due=("pump",))),
    ("the timer is over before it is too long", "sees nothing wrong", lambda told: undue(lasting(told, "4.5"))),
    ("the timer lasts too long", "cannot last", lambda told: lasting(told, "5.000001")),
    ("the timer lasts too short", "cannot last", lambda told: lasting(told, "2.9")),
    ("the timer begins elsewhere", "no run of pump begins", lambda told: undue(lasting(told, "5", "1"))),
    (
        "no such run",
        "no run of pump begins",
        lambda told: replace(told, runs=(*told.runs, Run("pump", Fraction(7), Fraction(4 * SECOND)))),
    ),
    ("x stays on", "sees nothing wrong", lambda told: undue(replace(worlds(worlds(told, 2, x=1), 3, x=1), runs=()))),
    ("x never comes on", "sees nothing wrong", lambda told: undue(replace(worlds(told, 1, x=0), runs=()))),
    ("x is on at first", "an assumption is not met", lambda told: worlds(told, 0, x=1)),
    ("x is on for too short", "an assumption is not met", lambda told: shorter(told, "1.5")),
    ("y and x", "an assumption is not met", with_y),
    ("no such position", "no position 2", lambda told: worlds(told, 1, x=2)),
    (
        "a step is left out",
        "no run of pump begins",
        lambda told: undue(replace(told, steps=told.steps[:2] + told.steps[3:])),
    ),
    ("nothing happens", "sees nothing wrong", lambda told: replace(told, steps=told.steps[:1], runs=())),
]


@pytest.mark.parametrize(("name", "why", "tamper"), TAMPERED, ids=[row[0] for row in TAMPERED])
def test_a_tampered_story_is_refused(name: str, why: str, tamper: Callable[[Story], Story]) -> None:
    """By what is wrong with it."""
    cone, told = story(PUMP, "d")
    with pytest.raises(StoryRefused, match=why):
        confirm(PUMP, cone, tamper(told), PUMP.requirements[0].form)


@pytest.mark.parametrize(("shown", "claimed"), [("e", "f"), ("f", "d"), ("d", "f")])
def test_the_story_of_another_requirement_is_refused(shown: str, claimed: str) -> None:
    """Each shows something, but not that."""
    forms = {requirement.name: requirement.form for requirement in PUMP.requirements}
    cone, told = story(PUMP, shown)
    confirm(PUMP, cone, told, forms[shown])
    with pytest.raises(StoryRefused, match="sees nothing wrong"):
        confirm(PUMP, cone, told, forms[claimed])


def test_a_last_moment_that_never_settles_is_refused() -> None:
    """What is settled before it is all that can be judged."""
    program = boxed("rule flip = x and not previous(flip)", more="requirements\n    danger d never x\n")
    asked, wanted = question(program, "d")
    told = Story((Step(Fraction(0), (("x", 1),), ()),), (), False, frozenset({"x"}))
    with pytest.raises(StoryRefused, match="never settles"):
        confirm(program, asked.told(wanted), told, wanted.requirement.form)


NUMBER = loaded("""
vehicle "T"
world
    speed 0 .. 100 rpm
    at first speed is 0 rpm
given
    speed without jumps
requirements
    danger d never speed above 50 rpm
""")


@pytest.mark.parametrize(
    ("speeds", "why"),
    [
        ((0, 20, 50, 60), None),
        ((0, 50, 60), "an assumption is not met"),
        ((0, 60), "an assumption is not met"),
        ((0, 20, 60), "an assumption is not met"),
        ((50, 70, 60), "an assumption is not met"),
        ((0, 20, 50, 101), "is 101, not in"),
        ((0, 20, 50), "sees nothing wrong"),
    ],
)
def test_numbers(speeds: tuple[int, ...], why: str | None) -> None:
    """Out of its range, past a constant without touching it, or not as at first."""
    asked, wanted = question(NUMBER, "d")
    steps = tuple(Step(Fraction(k * SECOND), (("speed", speed),), ()) for k, speed in enumerate(speeds))
    told = Story(steps, (), False, frozenset({"speed"}))
    cone = asked.told(wanted)
    if why is None:
        confirm(NUMBER, cone, told, wanted.requirement.form)
    else:
        with pytest.raises(StoryRefused, match=why):
            confirm(NUMBER, cone, told, wanted.requirement.form)


def test_a_story_without_its_end_is_refused() -> None:
    """In the stories of random programs: what goes wrong at the last step does not go wrong before."""
    count = 0
    for found in random_stories(60):
        told, form = found.story, found.question.requirement.form
        confirm(found.program, found.cone, told, form)
        if len(told.steps) > 1 and not told.overdue:
            end = told.steps[-2].time
            runs = tuple(run for run in told.runs if run.start <= end)
            with pytest.raises(StoryRefused, match="sees nothing wrong"):
                confirm(found.program, found.cone, replace(told, steps=told.steps[:-1], runs=runs), form)
            count += 1
    assert count > 20


def test_a_story_that_takes_too_long_to_play_is_no_verdict() -> None:
    """A free-running relay makes 90,000 moments of the hour at whose end the story stands."""
    text = (
        'vehicle "Wagon"\nworld\n    button "Button" contact\n    at first button is off\nharness\n    source plus\n'
        "    relay osc coil on_delay(not osc, 40 ms)\n    relay ever coil off_delay(button, 5 s)\n"
        "    wire buzz_wire from plus when osc\n    load buzz on buzz_wire\n    wire w from plus when ever\n    load heater on w\n"
        "requirements\n    function a possible heater\n"
    )
    (verdict,) = (each for each in check_program(loaded(text), 2.0).verdicts if not each.builtin)
    assert (verdict.kind, verdict.undecided) == (Kind.NOT_DECIDED, Undecided.BUDGET)


def test_playing_heeds_its_budget() -> None:
    """The interpreter stops between two moments."""
    cone, told = story(PUMP, "d")
    with pytest.raises(OutOfTime):
        confirm(PUMP, cone, told, PUMP.requirements[0].form, budget=Budget(0.0))
