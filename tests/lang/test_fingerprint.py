"""The mark of a logic: the same however it is written down, another one as soon as anything in it changes."""

from __future__ import annotations

import random
import re
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from logiccheck.lang import program as p
from logiccheck.lang.fingerprint import Marks
from logiccheck.lang.layout import lay_out
from logiccheck.lang.load import load_text
from logiccheck.lang.matters import Names
from logiccheck.lang.walk import form_expressions
from tests.examples.reading import ROOT, examples, read
from tests.lang.whole import WHOLE_VEHICLE

FILES = {each.name: each.file.read_text(encoding="utf-8") for each in examples()}
VAN = FILES["coffee-van"]


def edited(old: str, new: str) -> str:
    """The van with something else in the one place that the pattern finds."""
    text, count = re.subn(old, new, VAN)
    assert count == 1, old
    return text


def names_of(program: p.Program) -> list[str]:
    """All names of world, harness and box."""
    box = program.box
    kinds = (
        program.switches, program.numbers, program.sources, program.grounds, program.wires, program.relays,
        program.loads, box.senses if box else (), box.rules if box else (),
    )  # fmt: skip
    return [item.name for items in kinds for item in items]


def marks(program: p.Program) -> dict[str, str]:
    """The mark of each name and of each requirement."""
    made = Marks(program)
    found = {name: made.of_finding("some-kind", [name]) for name in names_of(program)}
    found |= {each.name: made.of_requirement(each) for each in program.requirements}
    found |= {f"finding {each.name}": made.of_finding("some-kind", [each.name]) for each in program.requirements}
    return found | {each.name: made.of_finding("some-kind", [each.name]) for each in program.scenarios}


def written_otherwise(text: str, seed: int) -> str:
    """The same vehicle: blocks and lines in another order, no comments, other blanks and labels."""
    chance = random.Random(seed)
    blocks = []
    for block in lay_out(text, "test.circuit").blocks:
        header = " ".join(block.header.text.split())
        labels = block.header.word not in ("scenario", "use", "vehicle")
        items = [re.sub(r"\s+", " " * chance.choice((1, 3)), item.text) for item in block.items]
        if labels:
            items = [re.sub(r'"[^"]*"', f'"Other {chance.random()}"', item) for item in items]
        chance.shuffle(items)
        blocks.append("\n".join([header, *(f"  {item}    # said anew" for item in items)]))
    first = [each for each in blocks if each.startswith("language")]
    rest = [each for each in blocks if each not in first]
    chance.shuffle(rest)
    return "\n\n".join([*first, *rest]) + "\n"


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("seed", range(3))
def test_it_does_not_hang_on_how_it_is_written(name: str, seed: int) -> None:
    """Layout, comments, labels, the order of lines and of blocks leave every mark as it is."""
    assert marks(read(written_otherwise(FILES[name], seed))) == marks(read(FILES[name]))


def test_a_mark_looks_like_this() -> None:
    """Two times four digits of sixteen; that of a name hangs on the kind of finding as well."""
    made = Marks(read(VAN))
    mark = made.of_finding("unused-name", ["fuel_pump"])
    assert re.fullmatch(r"[0-9a-f]{4}-[0-9a-f]{4}", mark)
    assert mark == made.of_finding("unused-name", ["fuel_pump"])
    assert mark != made.of_finding("unasked-output", ["fuel_pump"])
    assert made.of_finding("x", ["ignition", "fuel_pump"]) == made.of_finding("x", ["fuel_pump", "ignition"])
    assert made.of_finding("x", ["ignition", "fuel_pump"]) != made.of_finding("x", ["fuel_pump"])
    assert made.of_finding("x", ["a constant"]) != made.of_finding("x", ["another constant"])


def test_marks_are_those_of_every_version() -> None:
    """Whoever changes how a mark is made makes every acceptance there is lapse."""
    made = Marks(read(WHOLE_VEHICLE))
    found = {name: made.of_finding("unused-name", [name]) for name in names_of(made.program)}
    found |= {each.name: made.of_requirement(each) for each in made.program.requirements}
    assert {name: found[name] for name in GOLDEN} == GOLDEN


def test_a_constant_is_its_value() -> None:
    """Its name does not matter; another value changes what rests on it, and nothing else."""
    program = read(VAN)
    before = marks(program)
    assert marks(read(re.sub(r"\bprime_time\b", "time_to_prime", VAN))) == before
    after = marks(read(edited(r"prime_time += 3 s", "prime_time = 4 s")))
    changed = {name for name in before if before[name] != after[name]}
    assert changed == {name for name, items in _cones(program).items() if ("rule", "prime") in items}
    assert {"prime", "fuel_pump"} <= changed
    assert not {"hold", "box_supply", "step"} & changed


def _cones(program: p.Program) -> dict[str, frozenset[tuple[str, str]]]:
    """The items that can matter to each name, each requirement and each scenario."""
    made, names = Marks(program), Names(program)
    found = {name: names.matter(made._readings(name)).items for name in names_of(program)}
    for each in program.requirements:
        found[each.name] = found[f"finding {each.name}"] = names.matter(form_expressions(each.form)).items
    for played in program.scenarios:
        found[played.name] = names.matter([expectation.p for expectation in played.expectations]).items
    return found


def _box(program: p.Program) -> p.Box:
    assert program.box is not None
    return program.box


def _edited(program: p.Program) -> Iterator[tuple[str, set[tuple[str, str]], p.Program]]:
    """Each line of the vehicle changed in turn: its title, the items it makes what they are, the program with it."""
    box = _box(program)
    for i, rule in enumerate(box.rules):
        if isinstance(rule, p.Output):
            other: p.Rule | p.Output = replace(rule, command=p.Not(rule.command))
            items = {("command", rule.name)}
        else:
            other, items = replace(rule, expr=p.Not(rule.expr)), {("rule", rule.name)}
        rules = (*box.rules[:i], other, *box.rules[i + 1 :])
        yield rule.name, items, replace(program, box=replace(box, rules=rules))
    for i, sense in enumerate(box.senses):
        if isinstance(sense, p.WireSense):
            senses = (*box.senses[:i], replace(sense, grounded=not sense.grounded), *box.senses[i + 1 :])
            yield sense.name, {("sense", sense.name)}, replace(program, box=replace(box, senses=senses))
    for i, relay in enumerate(program.relays):
        relays = (*program.relays[:i], replace(relay, coil=p.Not(relay.coil)), *program.relays[i + 1 :])
        yield relay.name, {("relay", relay.name)}, replace(program, relays=relays)
    for i, source in enumerate(program.sources):
        sources = (*program.sources[:i], replace(source, condition=p.Const(False)), *program.sources[i + 1 :])
        yield source.name, {("source", source.name)}, replace(program, sources=sources)
    for i, switch in enumerate(program.switches):
        switches = (
            *program.switches[:i],
            replace(switch, one_by_one=not switch.one_by_one),
            *program.switches[i + 1 :],
        )
        yield switch.name, {("world", switch.name)}, replace(program, switches=switches)
    for i, number in enumerate(program.numbers):
        numbers = (*program.numbers[:i], replace(number, jumps=not number.jumps), *program.numbers[i + 1 :])
        yield number.name, {("world", number.name)}, replace(program, numbers=numbers)
    yield "powered", {("powered", "powered")}, replace(program, box=replace(box, feed="plus"))


@pytest.mark.parametrize("name", ["coffee-van", "day-boat", "first-steps"])
def test_each_line_changes_just_the_marks_that_it_matters_to(name: str) -> None:
    """A rule, sense, coil, source or thing of the world, in the cone of a name or outside of it."""
    program = read(FILES[name])
    before, cones = marks(program), _cones(program)
    count = 0
    for title, items, other in _edited(program):
        after = marks(other)
        changed = {each for each in before if before[each] != after[each]}
        played = {scenario.name for scenario in program.scenarios}
        assert changed - played == {each for each, cone in cones.items() if cone & items} - played, title
        count += 1
    assert count > 10


def test_contacts_and_diodes_are_logic() -> None:
    """A change of what joins two wires changes the marks of what the wires lead to, and leaves the others."""
    program = read(VAN)
    before = marks(program)
    for i, contact in enumerate(program.contacts):
        contacts = (*program.contacts[:i], replace(contact, condition=p.Const(False)), *program.contacts[i + 1 :])
        after = marks(replace(program, contacts=contacts))
        ends = {end for end in (contact.left, contact.right) if any(wire.name == end for wire in program.wires)}
        assert any(before[end] != after[end] for end in ends), contact
    for i, diode in enumerate(program.diodes):
        without = marks(replace(program, diodes=(*program.diodes[:i], *program.diodes[i + 1 :])))
        assert without[diode.cathode] != before[diode.cathode]
    joined = marks(read(edited(r"diode door_wake +-> wake", "join door_wake with wake")))
    assert {name for name in before if before[name] == joined[name]} >= {"lever", "stop_wire", "leisure"}
    assert joined["key_wire"] != before["key_wire"] or joined["box_supply"] != before["box_supply"]


def test_what_is_given_is_logic() -> None:
    """A line of what is given, and a fact of the world at first, belongs to all that it touches."""
    program = read(VAN)
    before, names = marks(program), Names(program)
    made = Marks(program)
    for i in range(len(program.givens)):
        after = marks(replace(program, givens=(*program.givens[:i], *program.givens[i + 1 :])))
        for name in names_of(program):
            assert (before[name] != after[name]) == (i in names.matter(made._readings(name)).givens), (i, name)
    for i in range(len(program.at_first)):
        after = marks(replace(program, at_first=(*program.at_first[:i], *program.at_first[i + 1 :])))
        for name in names_of(program):
            assert (before[name] != after[name]) == (i in names.matter(made._readings(name)).at_first), (i, name)


def test_what_a_load_draws_is_its_own() -> None:
    """A fuse belongs to a finding about its load or output, and to no other."""
    before = marks(read(VAN))
    after = marks(read(edited(r"12 A, wire 2.5 mm2 over 3 m", "13 A, wire 2.5 mm2 over 3 m")))
    assert {name for name in before if before[name] != after[name]} == {"solenoid"}


def test_a_requirement_is_its_form_and_what_it_guards() -> None:
    """Its label is not; nor is the line of another requirement."""
    before = marks(read(VAN))
    after = marks(read(edited(r"danger +no_key_no_spark", "damage no_key_no_spark")))
    own = {"no_key_no_spark", "finding no_key_no_spark"}
    assert {name for name in before if before[name] != after[name]} == own


PLANTED = ROOT / "examples" / "planted-mistakes"


@pytest.mark.parametrize("path", sorted(PLANTED.glob("*.circuit")), ids=lambda path: path.stem)
def test_what_fails_anew_has_a_new_mark(path: Path) -> None:
    """Each planted mistake changes the marks of the requirements that it makes fail: an acceptance would lapse."""
    expected = tomllib.loads((PLANTED / "expected.toml").read_text(encoding="utf-8"))["mistakes"][path.stem]
    before, after = marks(read(VAN)), marks(read(path.read_text(encoding="utf-8")))
    for name in (*expected.get("fails", ()), *expected.get("no_case", ())):
        assert before[name] != after[name], name


def test_names_that_a_box_does_not_have() -> None:
    """A vehicle without a box, and a name that stands for nothing logical, have marks too."""
    program = load_text('vehicle "V"\nconstants\n    c = 3 s\nworld\n    s contact\n').program
    assert program is not None
    made = Marks(program)
    assert made.of_finding("x", ["c"]) != made.of_finding("x", ["s"]) != made.of_finding("x", ["powered"])


GOLDEN = {
    "engine": "c6fa-76d7",
    "hold": "9953-8060",
    "pick": "8c14-9370",
    "bus": "0e31-ceb7",
    "crashed": "fffe-fcfc",
    "heat": "345e-baaa",
    "fuel_pump": "2537-f154",
    "horn": "efc9-771f",
    "no_key_no_spark": "3e99-2ac4",
    "dead_engine": "0cd8-4638",
    "primes": "b95f-822e",
    "aft": "c3d6-e329",
}
