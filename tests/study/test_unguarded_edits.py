"""Small edits of every line: as many as another count finds, each kind as it is written."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from logiccheck.base.span import NOWHERE
from logiccheck.explain.edit import edited
from logiccheck.explain.guarding.guarding import quiet, read
from logiccheck.explain.guarding.small import Does, small_edits
from logiccheck.lang.load import Loaded, load, load_text
from logiccheck.lang.program import (
    And,
    Bistable,
    Blink,
    Compare,
    Const,
    Expr,
    Impulse,
    Not,
    Or,
    Position,
    Program,
    Rule,
    Signal,
    Timer,
    TimerKind,
    WireSense,
    Xor,
)
from logiccheck.lang.walk import subexpressions
from tests.calling import EXAMPLES

FILE = "test.circuit"
VEHICLE = """\
vehicle "Bench"
constants
    blow = 2 s
world
    a contact
    b contact
    key off | run | start
    n 0 .. 100 rpm
    at first a is off, b is off, key is off, n is 0 rpm
harness
    source plus
    wire a_wire from plus when a
    wire b_wire to ground when b and key in {run, start}
    wire wake
    diode a_wire -> wake
    relay hold coil off_delay(wake, 4 min +- 10 %) supply plus
    wire feed from plus when hold
controller "Box" powered by feed after 0.3 s
    sense a_on from a_wire live filter 100 ms
    sense b_on from b_wire grounded
    sense v from n filter from 1 s to 2 s
"""


def lines_of(rules: str) -> dict[Does, list[str]]:
    """By what each edit does, the line that it makes of one of the rules."""
    text = VEHICLE + rules
    program = load_text(text, FILE).program
    assert program is not None
    found: dict[Does, list[str]] = {does: [] for does in Does}
    for small in small_edits(program, {FILE: text}):
        after = edited(small.edit, {FILE: text}).files[FILE]
        new = [line for line in after.splitlines() if line not in text.splitlines()]
        if new and re.match(r"\s+(rule|output) ", new[0]):
            found[small.does].append(new[0].split("=")[1].strip() if "=" in new[0] else new[0].strip())
    return found


def test_terms_and_words() -> None:
    """Each term dropped and inverted, each word the other one; a word at a time, so brackets stay where they are."""
    found = lines_of("    rule x = (a_on or not b_on) and v above 3 rpm\n")
    assert found[Does.DROPS] == [
        "v above 3 rpm",
        "not b_on and v above 3 rpm",
        "a_on and v above 3 rpm",
        "(a_on or not b_on)",
    ]
    assert found[Does.WORD] == [
        "(a_on or not b_on) or v above 3 rpm",
        "(a_on and not b_on) and v above 3 rpm",
    ]
    assert found[Does.INVERTS] == [
        "(not a_on or not b_on) and v above 3 rpm",
        "(a_on or b_on) and v above 3 rpm",
        "(a_on or not b_on) and not v above 3 rpm",
    ]


def test_an_inverted_group() -> None:
    """What `not` stands before in brackets is inverted as a whole, too."""
    assert "(a_on or b_on)" in lines_of("    rule x = not (a_on or b_on)\n")[Does.INVERTS]


def test_times() -> None:
    """Half and twice a time, its tolerance with it, a constant as what it stands for; and no timer at all."""
    found = lines_of("    rule x = on_delay(a_on or b_on, blow) and one_shot(b_on, 4 s +- 10 %)\n")
    assert found[Does.HALF] == [
        "on_delay(a_on or b_on, 1 s) and one_shot(b_on, 4 s +- 10 %)",
        "on_delay(a_on or b_on, blow) and one_shot(b_on, 2 s +- 0.2 s)",
    ]
    assert found[Does.DOUBLE] == [
        "on_delay(a_on or b_on, 4 s) and one_shot(b_on, 4 s +- 10 %)",
        "on_delay(a_on or b_on, blow) and one_shot(b_on, 8 s +- 0.8 s)",
    ]
    assert found[Does.NO_TIME] == [
        "(a_on or b_on) and one_shot(b_on, 4 s +- 10 %)",
        "on_delay(a_on or b_on, blow) and b_on",
    ]


def test_blinking() -> None:
    """Both phases."""
    found = lines_of("    rule x = blink(a_on, on 1 s, off from 1 s to 2 s)\n")
    assert found[Does.HALF] == [
        "blink(a_on, on 0.5 s, off from 1 s to 2 s)",
        "blink(a_on, on 1 s, off 750 ms +- 250 ms)",
    ]
    assert found[Does.NO_TIME] == ["a_on"]


def test_stored_states() -> None:
    """The other side wins, nothing retained, no reset, nothing stored."""
    found = lines_of("    rule x = not bistable(set a_on or b_on, reset v above 3 rpm, set wins, retained)\n")
    assert found[Does.WINS] == ["not bistable(set a_on or b_on, reset v above 3 rpm, retained)"]
    assert found[Does.FORGETS] == ["not bistable(set a_on or b_on, reset v above 3 rpm, set wins)"]
    assert found[Does.PLAIN] == ["not (a_on or b_on)"]
    assert "not bistable(set a_on or b_on, set wins, retained)" in found[Does.DROPS]
    found = lines_of("    rule x = impulse_relay(a_on, reset b_on)\n")
    assert found[Does.PLAIN] == ["a_on"]
    assert found[Does.DROPS] == ["impulse_relay(a_on)"]
    assert lines_of("    rule x = v above 30 rpm until below 20 rpm\n")[Does.PLAIN] == ["v above 30 rpm"]


def test_copper_and_box() -> None:
    """Diodes, supplies, conditions of contacts, positions, senses, filters, the delay of the start."""
    program = load_text(VEHICLE, FILE).program
    assert program is not None
    made = []
    for small in small_edits(program, {FILE: VEHICLE}):
        after = edited(small.edit, {FILE: VEHICLE}).files[FILE].splitlines()
        made += [" ".join(line.split()) for line in after if line not in VEHICLE.splitlines()]
    for line in (
        "join a_wire with wake",
        "relay hold coil off_delay(wake, 4 min +- 10 %)",
        "relay hold coil wake supply plus",
        "wire a_wire from plus",
        "wire a_wire from plus when not a",
        "wire b_wire to ground when b",
        "wire b_wire to ground when b and key in {start}",
        "sense a_on from a_wire grounded filter 100 ms",
        "sense a_on from a_wire live filter 50 ms",
        "sense a_on from a_wire live",
        "sense b_on from b_wire live",
        "sense v from n",
        "sense v from n filter 3 s +- 1 s",
        'controller "Box" powered by feed',
        'controller "Box" powered by feed after 0.6 s',
    ):
        assert line in made, line
    assert "" in made  # the diode taken out


# ---------------------------------------------------------------------------------------------- another count of them


def loaded(path: Path) -> Loaded:
    return load(path.name, lambda name: (path.parent / name).read_bytes())


def conditions(program: Program) -> list[tuple[Expr, bool]]:
    """Each expression that stands in a line of the vehicle, and whether `when` may be dropped with it."""
    found = [(each.condition, True) for each in (*program.sources, *program.grounds, *program.contacts)]
    found += [(relay.coil, False) for relay in program.relays]
    for rule in program.box.rules if program.box else ():
        found.append((rule.expr if isinstance(rule, Rule) else rule.command, False))
    return [(expr, droppable) for expr, droppable in found if expr.span != NOWHERE]


def is_pair(expr: Expr, text: str) -> bool:
    return isinstance(expr, Bistable) and not text[expr.span.begin :].startswith("bistable")


def counted(program: Program, text: str) -> Counter[Does]:
    """How many edits of each kind there are to be."""
    count: Counter[Does] = Counter()
    for expr, droppable in conditions(program):
        count[Does.DROPS] += droppable
        parts = [*subexpressions(expr)]
        kinds = Counter(type(part) for part in parts)
        pairs = sum(is_pair(part, text) for part in parts)
        filters = sum(isinstance(part, Timer) and part.kind is TimerKind.FILTER for part in parts)
        for part in parts:
            if isinstance(part, And | Or):
                count[Does.DROPS] += len(part.parts)
                count[Does.WORD] += len(part.parts) - 1
            if isinstance(part, Position) and "{" in text[part.span.begin : part.span.end]:
                names = text[part.span.begin : part.span.end].count(",") + 1
                count[Does.DROPS] += names if names > 1 else 0
            if isinstance(part, Bistable | Impulse) and not is_pair(part, text):
                count[Does.DROPS] += not isinstance(part.reset, Const)
                count[Does.WINS] += isinstance(part, Bistable) and not isinstance(part.reset, Const)
                count[Does.FORGETS] += part.retained
            count[Does.INVERTS] += isinstance(part, Not) and isinstance(part.x, And | Or | Xor)
        leaves = kinds[Signal] + kinds[Position] + kinds[Compare] - 2 * pairs
        states, timers = kinds[Bistable] + kinds[Impulse], kinds[Timer] - filters + kinds[Blink]
        count[Does.INVERTS] += leaves + states + timers
        count[Does.PLAIN] += states
        count[Does.NO_TIME] += timers
        count[Does.HALF] += timers + kinds[Blink]
    count[Does.DIODE] += 2 * len(program.diodes)
    count[Does.DROPS] += sum(relay.supply is not None for relay in program.relays)
    box = program.box
    if box is not None:
        count[Does.DROPS] += sum(output.fed_by is not None for output in box.outputs)
        count[Does.INVERTS] += sum(isinstance(sense, WireSense) for sense in box.senses)
        waits = sum(sense.filter is not None for sense in box.senses) + (box.startup is not None)
        count[Does.NO_TIME] += waits
        count[Does.HALF] += waits
    count[Does.DOUBLE] = count[Does.HALF]
    return +count


EXAMPLE_FILES = sorted(path for path in EXAMPLES.glob("*/*.circuit"))


@pytest.mark.parametrize("path", EXAMPLE_FILES, ids=[f"{path.parent.name}/{path.stem}" for path in EXAMPLE_FILES])
def test_as_many_as_another_count_finds(path: Path) -> None:
    """Of each kind."""
    found = loaded(path)
    assert found.program is not None
    edits = small_edits(found.program, found.texts)
    main = {found.files[0].path: found.files[0].text}
    assert all(change.span.file in main for small in edits for change in small.edit.changes)
    assert Counter(small.does for small in edits) == counted(found.program, found.files[0].text)


def test_edited_files_are_read() -> None:
    """All edits of the small examples are such that the files can be read again, and are then another vehicle."""
    for name in ("first-steps/van", "relay-only/boat"):
        found = loaded(EXAMPLES / f"{name}.circuit")
        assert found.program is not None
        path = found.files[0].path
        files = quiet(found.program, path, found.texts)
        for small in small_edits(found.program, found.texts):
            assert read(path, edited(small.edit, files).files) is not None, small


def test_scenarios_are_no_hindrance() -> None:
    """What a scenario says of a timer does not make an edit of it a mistake."""
    text = VEHICLE + "scenario day\n    at 1 s a is on\n    at 2 s a is off\n    at 2 s hold lasts 220 s\n"
    program = load_text(text, FILE).program
    assert program is not None
    files = quiet(program, FILE, {FILE: text})
    assert len(files[FILE]) == len(text)
    halves = [small for small in small_edits(program, {FILE: text}) if small.does is Does.HALF]
    assert all(read(FILE, edited(small.edit, files).files) is not None for small in halves)
