"""A survey answers as exploring all of the vehicle does; names for what is remembered change nothing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.situation import signals
from logiccheck.explain.surveyed.lifted import lifted
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.lang.program import (
    And,
    Const,
    Never,
    Not,
    Program,
    Rule,
    Signal,
    SignalKind,
    Timer,
    TimerKind,
    Window,
    WorldSet,
)
from logiccheck.lang.walk import Memory, memory, program_expressions
from logiccheck.model.play import candidates, first_world, play, play_story
from tests.campaign import seeds
from tests.explain.exploring import possible
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program
from tests.study.linting import completed, read

VAN = """\
source plus
wire bell_wire from plus when key is start and door is open
sense bell from bell_wire live
rule rung = bistable(set bell)
output lamp when key_on and not on_delay(key_on, 5 s)
output horn when rung
"""


def asked(program: Program, survey: Survey) -> list[str]:
    """What the explorer denies of the answers about all signals, on and off."""
    wrong = []
    for each in signals(program).values():
        for condition in (each.on, Not(each.on)):
            answer, fewest = survey.ever(condition), possible(program, condition)
            if answer is False and fewest != 0:
                wrong.append(f"{each.name} can be so ({fewest}), which was denied")
            if answer is True and fewest == 0:
                wrong.append(f"{each.name} cannot be so")
            if answer is None and isinstance(fewest, int):
                wrong.append(f"{each.name}: no answer, and there is one: {fewest}")
    return wrong


def run(numbers: range) -> tuple[list[str], int]:
    """What is wrong in these random vehicles, and how many of them were small enough to explore."""
    wrong, explored = [], 0
    for seed in numbers:
        program = loaded(random_program(seed).text)
        try:
            wrong += [f"seed {seed}: {each}" for each in asked(program, Survey(program, Budget(60.0)))]
            explored += 1
        except TooBig:
            continue
    return wrong, explored


def test_answers_are_those_of_the_explorer() -> None:
    """Of random vehicles, each signal on and off."""
    wrong, explored = run(range(5))
    assert not wrong, wrong
    assert explored > 1


@pytest.mark.campaign
def test_answers_are_those_of_the_explorer_at_length() -> None:
    """The same for as many as asked for."""
    wrong, _ = run(seeds(10))
    assert not wrong, wrong


def walked(program: Program, named: Program, seed: int) -> list[tuple[Memory, bool, bool]]:
    """Each thing that is remembered, as it is in the vehicle and as its name says, at all moments of a random walk."""
    random = Random(seed)
    things = [*program.switches, *program.numbers]
    changes = []
    for second in range(1, 9):
        thing = random.choice(things)
        value = random.choice(candidates(thing))
        changes.append(WorldSet(Fraction(second * 700_000), thing.name, value))
    world = first_world(program, {}, program.at_first)
    ways = [play(each, changes, (), 20_000_000, world) for each in (program, named)]
    names = lifted(program).named
    nodes = [node for expr in program_expressions(_bare(program)) for node in memory(expr) if node.key in names]
    assert [each.time for each in ways[0].settled] == [each.time for each in ways[1].settled]
    found = []
    for one, other in zip(ways[0].settled, ways[1].settled, strict=True):
        here, there = one.moment.settled.values, other.moment.settled.values
        found += [(node, here.holds(node), there.holds(names[node.key])) for node in nodes]
    return found


def _bare(program: Program) -> Program:
    return replace(program, requirements=(), givens=(), at_first=())


def test_names_change_nothing() -> None:
    """Of random vehicles: what is remembered inside rules and coils reads as its name does, at each settled moment."""
    seen = 0
    for seed in range(60):
        program = loaded(random_program(seed, rich=True).text)
        for node, here, there in walked(program, lifted(program).program, seed):
            assert here == there, (seed, node)
            seen += here
    assert seen > 50


def test_what_is_remembered_has_a_name() -> None:
    """A timer inside a longer rule has a rule of its own; what is the whole rule goes by its name."""
    program = read(completed(VAN))
    named = lifted(program).named
    assert named["rung"] == Signal(SignalKind.RULE, "rung")
    assert named["lamp"] == Signal(SignalKind.RULE, "inside lamp")
    assert [rule.name for rule in _rules(lifted(program).program)] == ["rung", "inside lamp"]


def _rules(program: Program) -> list[Rule]:
    assert program.box is not None
    return [rule for rule in program.box.rules if isinstance(rule, Rule)]


def test_stories_play_on_the_vehicle_as_written() -> None:
    """Also those that end with what is remembered inside a rule, or with memory of the question's own."""
    program = read(completed(VAN))
    survey = Survey(program, Budget(60.0))
    inside = next(node for rule in program.box.rules for node in memory(_expr(rule)) if node.key == "lamp")  # type: ignore[union-attr]
    lamp = Signal(SignalKind.OUTPUT, "lamp")
    long = Timer(TimerKind.ON_DELAY, Not(lamp), Window(9_000_000, 9_000_000, 9_000_000), "mine")
    for condition in (
        inside,
        And((inside, Not(lamp))),
        And((lamp, Not(inside))),
        And((long, Signal(SignalKind.RULE, "rung"))),
    ):
        story = survey.story(condition)
        assert story is not None
        assert play_story(program, story).settled
    assert survey.ever(And((inside, lamp))) is False
    assert survey.story(And((inside, lamp))) is None
    assert survey.undecided == 0


def _expr(rule: object) -> object:
    return rule.expr if isinstance(rule, Rule) else rule.command  # type: ignore[attr-defined]


def test_forms_are_asked_as_requirements() -> None:
    """What needs more than settled moments is asked as a requirement that fails or does not."""
    program = read(completed(VAN))
    survey = Survey(program, Budget(60.0))
    lamp, horn = Signal(SignalKind.OUTPUT, "lamp"), Signal(SignalKind.OUTPUT, "horn")
    assert survey.fails(Never(lamp, None, always=False, instant=True)) is True
    assert survey.fails(Never(And((lamp, Not(Signal(SignalKind.POWERED, "powered")))), None, False, True)) is False
    assert survey.always(Not(And((horn, Const(False))))) is True
    assert survey.always(horn) is False


def test_without_time_nothing_is_claimed() -> None:
    """What was not seen has no answer, and is counted."""
    program = read(completed(VAN))
    survey = Survey(program, Budget(0.0))
    horn = Signal(SignalKind.OUTPUT, "horn")
    assert survey.ever(horn) is None
    assert survey.ever(horn) is None
    assert survey.undecided == 1
    assert survey.out_of_time


def test_what_a_scenario_shows_needs_no_search() -> None:
    """Unless the scenario takes what is not given."""
    shown = "scenario ringing\n    at first key is off\n    at 1 s door is open, key is run\n    at 2 s key is start\n    until 3 s\n"
    program = read(completed(VAN + shown))
    assert Survey(program, Budget(0.0)).ever(Signal(SignalKind.OUTPUT, "horn")) is True
    unlawful = read(completed(VAN + shown + "given\n    never key is start and door is open\n"))
    assert Survey(unlawful, Budget(0.0)).ever(Signal(SignalKind.OUTPUT, "horn")) is None
    assert Survey(unlawful, Budget(60.0)).ever(Signal(SignalKind.OUTPUT, "horn")) is False
