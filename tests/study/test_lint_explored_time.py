"""Findings about time and memory, held against exploring all of random small vehicles, reaction by reaction."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.finding import Finding
from logiccheck.explain.surveyed.steady import Change, changeless
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.explain.surveyed.waking import answers_for_itself, is_bare
from logiccheck.lang.matters import Names
from logiccheck.lang.program import (
    Bistable,
    Blink,
    Const,
    Edge,
    Impulse,
    Program,
    SignalKind,
    Timer,
    TimerKind,
)
from logiccheck.lang.walk import memory
from logiccheck.model.truth import Node
from logiccheck.study.findings import SITUATIONS
from logiccheck.study.lint import keeps_itself_awake
from logiccheck.study.lint.acts_on_waking import ActsOnWaking
from logiccheck.study.uses import names
from tests.campaign import seeds
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.making import Making
from tests.oracle.obstacles import never_settles, time_stops
from tests.oracle.programs import random_program
from tests.study.explored_time import POWERED, Explored, operand
from tests.study.random_boxes import random_box

LIMIT = 4_000
MINE = {message.code: find for message, find in SITUATIONS if "W140" <= message.code <= "W151"}
SHORT = range(40)


def expected(explored: Explored, still: set[str]) -> Iterator[tuple[str, str]]:
    """Each finding that is due, as its code and the key of what it is about; `still`: names that are told to be always
    on, or never."""
    for key, node in explored.nodes.items():
        if explored.wakes:
            for code in of_node(node, explored.facts[key], still):
                yield code, key
    if by_itself(explored.program):
        yield from sorted({("W151", key) for key, _ in explored.cuts if "went off" in explored.facts[key]})


def told(survey: Survey) -> set[str]:
    """The names of what never changes, other than what is meant to be on while the box is awake."""
    return {each.name for each in changeless(survey) if each.change is not Change.AWAKE}


def of_node(node: Node, seen: set[str], still: set[str]) -> Iterator[str]:
    silent = "fed" not in seen and answers_for_itself(operand(node))
    match node:
        case Timer() | Blink():
            if "fed" not in seen and not silent:
                yield "W140"
        case Bistable() | Impulse():
            if "on" not in seen and not silent:
                yield "W147"
            yield from of_stored(node, seen)
    match node:
        case Timer(kind=TimerKind.ON_DELAY):
            if "fed" in seen and "on" not in seen:
                yield "W141"
        case Timer(kind=TimerKind.OFF_DELAY):
            if "fell" in seen and "went off" not in seen:
                yield "W142"
        case Timer():
            if "on" in seen and "went off" not in seen:
                yield "W142"
        case Blink():
            if "on" in seen and "waited" not in seen:
                yield "W143"
    yield from of_edges(node, seen, still)


def of_stored(node: Bistable | Impulse, seen: set[str]) -> Iterator[str]:
    written = node.reset != Const(False)
    stays = "on" in seen and "went off" not in seen and (written or isinstance(node, Impulse))
    if stays and (not answers_for_itself(node.reset) or "reset" in seen):
        yield "W148"
    if isinstance(node, Bistable) and node.retained and not written and "on" in seen:
        yield "W149"
    if isinstance(node, Bistable) and not node.set_wins and {"together", "on"} <= seen:
        yield "W150"


def of_edges(node: Node, seen: set[str], still: set[str]) -> Iterator[str]:
    falling = isinstance(node, Edge) and not node.rising
    falls = falling or (isinstance(node, Timer) and node.kind is TimerKind.OFF_DELAY)
    told = is_bare(operand(node)) and bool(names([operand(node)]) & still)
    if falls and "fed" in seen and "fell" not in seen and not told:
        yield "W144"
    if falling and "lost" in seen:
        yield "W146"
    rises = isinstance(node, Impulse) or (isinstance(node, Edge) and node.rising)
    if (rises or (isinstance(node, Timer) and node.kind is TimerKind.ONE_SHOT)) and "waking" in seen:
        yield "W145"


def by_itself(program: Program) -> bool:
    """A relay with a timer can take the power of the box away, and no output of the box can."""
    items = Names(program).matter([POWERED]).items
    own = any(kind in (SignalKind.OUTPUT.value, SignalKind.COMMAND.value) for kind, _ in items)
    timed = [relay for relay in program.relays if any(isinstance(node, Timer) for node in memory(relay.coil))]
    return not own and any((SignalKind.RELAY.value, relay.name) in items for relay in timed)


def found(program: Program, explored: Explored, survey: Survey) -> dict[tuple[str, str], Finding]:
    """What is found, by code and the key of what it is about; but what acts only when a filter time is over, since the
    explorer looks at one moment at a time."""
    keys = {node.span: key for key, node in explored.nodes.items()}
    all_of_it = [finding for find in MINE.values() for finding in find(program, survey)]
    told = [each for each in all_of_it if not (isinstance(each.message, ActsOnWaking) and each.message.filtered)]
    return {(finding.message.code, keys[finding.diagnostic.span]): finding for finding in told}


def held(mix: Counter[str], name: str, text: str) -> list[str]:
    """What is wrong with the findings in one vehicle; `mix` counts them."""
    program = replace(loaded(text), requirements=(), scenarios=())
    if program.box is None:
        return []
    try:
        making = Making()
        if never_settles(program, LIMIT, making) or time_stops(program, LIMIT, making):
            mix["in the way"] += 1
            return []
        explored = Explored(program, LIMIT)
    except TooBig:
        mix["too big"] += 1
        return []
    if not explored.kernel.changes:  # what is given contradicts itself: nothing ever begins
        mix["in the way"] += 1
        return []
    survey = Survey(program, Budget(60.0))
    there, due = found(program, explored, survey), set(expected(explored, told(survey)))
    mine = [each.story for each in keeps_itself_awake.find(program, survey)]
    mix["W152"] += len(mine)
    lies = [story for story in mine if story is None or not explored.keeps_itself_awake(program, story)]
    mix["vehicles"] += 1
    mix["open"] += survey.undecided
    mix.update(code for code, _ in there)
    wrong = [f"{name}: {code} about {key} is not so" for code, key in sorted(there.keys() - due)]
    wrong += [f"{name}: it does not keep itself awake" for _ in lies]
    if not survey.undecided:
        for code, key in sorted(due - there.keys()):
            if code == "W151" and not fixed(explored.nodes[key]):
                mix["W151 missed for its tolerance"] += 1
            else:
                wrong.append(f"{name}: {code} about {key} is missing")
    return wrong


def fixed(node: Node) -> bool:
    return isinstance(node, Timer) and node.window.lo == node.window.hi


def vehicle(seed: int) -> str:
    """Three of four are made for these findings, the others for everything else."""
    return random_program(seed).text if seed % 4 == 0 else random_box(seed)


def compared(numbers: range, capsys: pytest.CaptureFixture[str]) -> Counter[str]:
    """One vehicle for each seed."""
    mix: Counter[str] = Counter()
    wrong = [line for seed in numbers for line in held(mix, str(seed), vehicle(seed))]
    with capsys.disabled():
        print(f"\n{dict(sorted(mix.items()))}")
    assert not wrong, "\n".join(wrong)
    return mix


def test_findings_agree_with_the_explorer(capsys: pytest.CaptureFixture[str]) -> None:
    """What is found is so in some situation, or never is, as it says; and what is so is found."""
    mix = compared(SHORT, capsys)
    assert mix["vehicles"] > 30


@pytest.mark.campaign
def test_findings_agree_with_the_explorer_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many seeds as CAMPAIGN_COUNT says."""
    compared(seeds(20), capsys)
