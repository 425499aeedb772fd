"""Senses that read what the outputs of the same box feed: what they are meant to tell, they then tell of themselves."""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.frozen import frozen
from logiccheck.copper.ways.paths import Way, Ways, any_of
from logiccheck.copper.ways.questions import Questions
from logiccheck.explain.asking import Answer, Never, Seen
from logiccheck.lang.program import And, Not, Program, Signal, SignalKind, WireSense
from logiccheck.lang.walk import condition_of, references


@frozen
class ReadBack:
    """The sense reads its wire live while nothing but an output feeds it. `otherwise`: copper can feed the wire, too,
    and that is what the sense is there to tell. `holds`: what the output says hangs on the sense. Where
    it was seen: `way` conducts at the end of the story."""

    sense: str
    wire: str
    outputs: tuple[str, ...]
    otherwise: bool
    holds: bool
    answer: Answer
    way: Way | None


def read_back(
    program: Program, questions: Questions, found: dict[tuple[str, SignalKind], Ways], told: frozenset[str]
) -> Iterator[ReadBack]:
    """One for each such sense whose wire is not among those `told`. May raise KeyboardInterrupt."""
    for sense in program.box.senses if program.box is not None else ():
        if not isinstance(sense, WireSense) or sense.grounded or sense.wire in told:
            continue
        ways = found.get((sense.wire, SignalKind.LIVE))
        if ways is None or not ways.whole:
            continue
        fed = tuple(way for way in ways.found if way.origin.kind is SignalKind.OUTPUT)
        copper = tuple(way for way in ways.found if way not in fed)
        if not fed:
            continue
        answer = questions.ask(sense.name, And((any_of(fed), Not(any_of(copper)))))
        if isinstance(answer, Never):
            continue
        way = None
        if isinstance(answer, Seen):
            values = questions.end(answer)
            way = next(way for way in fed if values.holds(way.condition))
            fed = (way,)
        outputs = tuple(dict.fromkeys(way.origin.name for way in fed))
        holds = any(hangs_on(program, name, sense.name) for name in outputs)
        yield ReadBack(sense.name, sense.wire, outputs, bool(copper), holds, answer, way)


def hangs_on(program: Program, output: str, sense: str) -> bool:
    """What the output says names the sense, itself or by rules between; what it reads by way of copper is left out."""
    assert program.box is not None
    lines = {rule.name: condition_of(rule) for rule in program.box.rules}
    met, waiting = {output}, [output]
    inside = (SignalKind.RULE, SignalKind.COMMAND)
    while waiting:
        for leaf in references(lines[waiting.pop()]):
            if isinstance(leaf, Signal) and leaf.kind is SignalKind.SENSE and leaf.name == sense:
                return True
            if isinstance(leaf, Signal) and leaf.kind in inside and leaf.name not in met:
                met.add(leaf.name)
                waiting.append(leaf.name)
    return False
