"""What a signal is in all situations that meet some conditions, held against exploring all of the vehicle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from random import Random

import pytest

from logiccheck.base.budget import Budget
from logiccheck.explain.asking import Answer, Blocked, Never, Seen
from logiccheck.explain.situation import Asked, signals
from logiccheck.explain.situations import Situations, situations
from logiccheck.lang.program import (
    Edge,
    Expr,
    Not,
    Output,
    Position,
    Program,
    Relay,
    SignalKind,
    Timer,
    TimerKind,
    Window,
)
from logiccheck.lang.walk import Memory
from logiccheck.model.play import play_story
from logiccheck.model.reaction import Values
from tests.campaign import seeds
from tests.explain.exploring import asked_at_random, possible
from tests.oracle.explorer import TooBig

SEEDS = range(80)


def conditions(random: Random, program: Program) -> list[Expr]:
    """One to three conditions: positions, signals, timers and edges of these, and that they are not."""
    known: list[Expr] = [each.on for each in signals(program).values()]
    known += [Position(s.name, frozenset({random.randrange(len(s.positions))})) for s in program.switches]
    some = [random.choice(known) for _ in range(random.choice([1, 1, 2, 3]))]
    kinds = list(TimerKind)[:3]
    for number, each in enumerate(some):
        if random.random() < 0.2:
            window = Window(2_000_000, 2_000_000, 2_000_000)
            some[number] = Timer(random.choice(kinds), each, window, f"mine, number {number}")
        elif random.random() < 0.1:
            some[number] = Edge(random.random() < 0.5, each, f"mine, number {number}")
    return [each if random.random() < 0.7 else Not(each) for each in some]


def complaints(program: Program, asked: Asked, when: list[Expr], found: Situations) -> Iterator[str]:
    """What of the answer the explorer denies."""
    for answer, on in ((found.on, asked.on), (found.off, Not(asked.on))):
        fewest = possible(program, *when, on)
        match answer:
            case Never() if fewest != 0:
                yield f"it can be so in {fewest} moments, which was denied"
            case Seen(story) if not (fewest == "it never settles" or (isinstance(fewest, int) and fewest > 0)):
                yield f"it cannot be so ({fewest}), which was shown in {story.moments} moments"
            case Seen(story) if isinstance(fewest, int) and story.moments < fewest:
                yield f"it takes {fewest} moments, and not {story.moments}"
            case Seen(story) if fewest != story.moments and not found.same_hands and fewest != "it never settles":
                yield f"it takes {fewest} moments, and not {story.moments}"
            case _:
                pass
    if isinstance(found.on, Never) and isinstance(found.off, Never):
        some = [when[number] for number in found.apart]
        if not some or possible(program, *some) != 0:
            yield f"these can be so together: {some}"
    if isinstance(found.on, Seen) and isinstance(found.off, Seen):
        yield from _told_apart(program, asked, found, found.on, found.off)


def _told_apart(program: Program, asked: Asked, found: Situations, on: Seen, off: Seen) -> Iterator[str]:
    here, there = both = [_end(program, answer) for answer in (on, off)]
    if not here.holds(asked.on) or there.holds(asked.on):
        yield "the stories end otherwise"
    if found.same_hands and not found.stored:
        yield "nothing tells them apart"
    for stored in found.stored:
        if [_reads(stored.what, values) for values in both] != [stored.on, not stored.on]:
            yield f"it is not stored otherwise: {stored.what}"
    if any(here.world[name] == there.world[name] for name in found.moved):
        yield f"they are where they were: {found.moved}"


def _reads(what: Relay | Output | Memory, values: Values) -> bool:
    match what:
        case Relay(name=name):
            return (SignalKind.RELAY, name) in values.true
        case Output(name=name):
            return (SignalKind.OUTPUT, name) in values.true
        case _:
            return what.key in values.nodes


def _end(program: Program, answer: Seen) -> Values:
    return play_story(program, answer.story).settled[-1].moment.settled.values


def held(mix: Counter[str], seed: int, random: Random, program: Program, asked: Asked) -> list[str]:
    """What is wrong with the answer to one random question; `mix` counts the answers."""
    when = conditions(random, program)
    found = situations(program, asked, when, Budget(30.0), lambda _: None)
    try:
        wrong = list(complaints(program, asked, when, found))
    except TooBig:
        mix["too big"] += 1
        return []
    mix[_kind(found.on, found.off)] += 1
    mix["same hands"] += found.same_hands
    return [f"program {seed}, {asked.name} when {when}: {line}" for line in wrong]


def _kind(on: Answer, off: Answer) -> str:
    match on, off:
        case Seen(), Seen():
            return "both"
        case Seen(), Never():
            return "always on"
        case Never(), Seen():
            return "always off"
        case Never(), Never():
            return "never so"
        case (Blocked(), _) | (_, Blocked()):
            return "blocked"
        case _:
            return "open"


def test_situations_agree_with_the_explorer(capsys: pytest.CaptureFixture[str]) -> None:
    """Always on, always off, both, or no such situation: never otherwise than by exploring all."""
    mix: Counter[str] = Counter()
    wrong = [line for seed, r, p, asked in asked_at_random(SEEDS) for line in held(mix, seed, r, p, asked)]
    with capsys.disabled():
        print(f"\n{dict(mix)}")
    assert not wrong, "\n".join(wrong)
    assert all(mix[kind] >= 5 for kind in ("both", "always on", "always off", "never so", "same hands"))
    assert mix["open"] <= 2


@pytest.mark.campaign
def test_situations_agree_with_the_explorer_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for as many programs as CAMPAIGN_COUNT says."""
    mix: Counter[str] = Counter()
    wrong = [line for seed, r, p, asked in asked_at_random(seeds()) for line in held(mix, seed, r, p, asked)]
    with capsys.disabled():
        print(f"\n{dict(mix)}")
    assert not wrong, "\n".join(wrong)
