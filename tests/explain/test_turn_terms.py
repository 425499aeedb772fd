"""The single terms that would have turned a signal, against the text with "not" written before each term of it."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from logiccheck.base.span import NOWHERE, Span
from logiccheck.explain.otherwise import otherwise
from logiccheck.explain.situation import Asked, Situation, signals
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Compare, Expr, Position, Program, Rule, Signal
from logiccheck.model.interpreter import Machine
from logiccheck.model.play import play_scenario
from logiccheck.model.truth import Node, is_filter, operands
from tests.campaign import seeds
from tests.explain.brute import fixed
from tests.explain.test_turn_tried import situation
from tests.model.driven import SECOND, boxed, drive
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

SEEDS = 12
ASKED = 4
FILE = "test.circuit"


def terms(program: Program, expr: Expr) -> list[Span]:
    """Everything in it that may read the other way; not what by brute force cannot."""
    able = not isinstance(expr, Signal) or fixed(program, expr) is None
    own = [expr.span] if able and isinstance(expr, Signal | Position | Compare | Node) else []
    return own + ([] if is_filter(expr) else [span for part in operands(expr) for span in terms(program, part)])


def all_terms(program: Program) -> set[Span]:
    """Of every line that makes a signal what it is, wherever it stands."""
    rules = program.box.rules if program.box else ()
    exprs = [rule.expr if isinstance(rule, Rule) else rule.command for rule in rules]
    exprs += [source.condition for source in program.sources] + [ground.condition for ground in program.grounds]
    exprs += [contact.condition for contact in program.contacts] + [relay.coil for relay in program.relays]
    return {span for expr in exprs for span in terms(program, expr)} - {NOWHERE}


def with_not(text: str, span: Span) -> Program | None:
    """The program with "not" before the term; None where the language has no "not"."""
    begin, end = span.begin, span.end
    return load_text(f"{text[:begin]}(not ({text[begin:end]})){text[end:]}").program


def turns(program: Program, place: Situation, asked: Asked) -> bool:
    """Whether it is otherwise just after the situation, in this other program."""
    played = place.played
    moment = Machine(program).moment(
        played.moment.memory, place.time - played.time + Fraction(1, 1000), played.world, frozenset()
    )
    return moment.settles and moment.settled.holds(asked.on) != place.values.holds(asked.on)


def check(text: str, place: Situation, asked: Asked) -> int:
    """The terms that turn it are the same; those of the nearest lines are some of them. Gives their number."""
    every = otherwise(place, asked, every=True)
    told = {span for line in every for span in line.spans}
    wanted = set()
    for span in all_terms(place.program):
        other = with_not(text, span)
        if other is None:
            told.discard(span)
        elif turns(other, place, asked):
            wanted.add(span)
    supplies = {relay.supply.span for relay in place.program.relays if relay.supply is not None}
    assert told - supplies == wanted
    nearest = otherwise(place, asked, every=False)
    assert list(nearest) == [line for line in every if line.far == every[0].far]
    return len(wanted)


def check_seed(seed: int) -> int:
    text, random = random_program(seed).text, Random(seed)
    program, found = loaded(text), 0
    for _ in range(ASKED):
        place = situation(program, random)
        asked = random.choice(list(signals(program).values()))
        if place is not None:
            found += check(text, place, asked)
    return found


def test_terms_are_those_that_turn_it_when_not_is_written_before_them() -> None:
    """On random programs."""
    assert sum(map(check_seed, range(SEEDS))) > SEEDS


@pytest.mark.campaign
def test_terms_are_those_that_turn_it_at_length() -> None:
    """As many programs as the environment says, from the seed it says."""
    for seed in seeds(20):
        check_seed(seed)


def spans_of(program: Program, place: Situation, name: str, every: bool) -> list[tuple[str, list[int]]]:
    found = otherwise(place, signals(program)[name], every)
    return [(line.name, [span.end - span.begin for span in line.spans]) for line in found]


def test_the_nearest_line_speaks() -> None:
    """A term of the signal's own line, and with every line also those behind it."""
    program = boxed("rule r = x and y", "rule q = not r or z", inputs=("x", "y", "z"))
    place = Situation(drive(program, "5", x="[0,..)", y="[0,..)"), 3 * SECOND)
    assert spans_of(program, place, "q", every=False) == [("q", [1, 4])]
    assert [name for name, _ in spans_of(program, place, "q", every=True)][:2] == ["q", "r"]


def test_two_ways_leave_no_single_term() -> None:
    """Where two alternatives hold, no single one of them decides, nor does what stands behind one of them."""
    program = boxed("rule q = x or y", inputs=("x", "y"))
    place = Situation(drive(program, "5", x="[0,..)", y="[0,..)"), 3 * SECOND)
    assert spans_of(program, place, "q", every=True) == []


SUPPLIED = """vehicle "Supplied"
world
    door contact
    key  contact
harness
    source plus
    source some when key
    wire sup from plus
    relay kept   coil door and sup supply plus
    relay at_will coil door supply some
scenario played
    at first door is on, key is on
    until 3 s
"""


def test_what_cannot_be_otherwise_is_not_marked() -> None:
    """A supply, or a wire in a coil, that nothing turns off; one that the key turns off is marked."""
    program = loaded(SUPPLIED)
    place = Situation(play_scenario(program, program.scenarios[0]), SECOND)
    assert spans_of(program, place, "kept", every=True) == [("kept", [len("door")])]
    assert spans_of(program, place, "at_will", every=False) == [("at_will", [len("door")]), ("at_will", [len("some")])]
