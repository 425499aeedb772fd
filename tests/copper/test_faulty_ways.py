"""Ways that only a fault opens: by hand, and against every situation of random harnesses with and without the fault."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from unittest.mock import patch

import pytest

from logiccheck.base.budget import Budget, memory_bound
from logiccheck.base.bug import Bug
from logiccheck.copper.faults.parts import Fault, Mode, PartKind, faults_of
from logiccheck.copper.ways.faulty import near, opened
from logiccheck.copper.ways.paths import ways_to
from logiccheck.copper.ways.questions import Questions
from logiccheck.engine.verdict import Undecided
from logiccheck.explain.accepting import Accepting
from logiccheck.explain.asking import Asking, BugMet, Never, Open, Seen
from logiccheck.lang.program import Const, Contact, Program, SignalKind
from logiccheck.lang.reading import SourceFile
from logiccheck.report.harness import harness_report
from logiccheck.report.report import Outcome
from logiccheck.report.through import wire_report
from logiccheck.report.words_through import TOO_MANY_TO_ASK
from logiccheck.report.words_ways import INTERRUPTED, NO_NAME, PROVED
from logiccheck.study.findings import Linted
from logiccheck.study.harness import to_wire, whole
from tests.campaign import seeds
from tests.copper.harnesses import HEAD, JOINED, KEPT_APART, random_harness
from tests.copper.test_apart import worlds
from tests.copper.test_ways import GROUNDED, LIVE, live_by_hand, so
from tests.oracle.loading import loaded


def answers(program: Program, wire: str) -> dict[tuple[str, SignalKind], bool]:
    """Whether each fault opens a way; the wire is live, or grounded, at the end of each story."""
    whole = tuple(ways_to(program, wire, kind) for kind in (LIVE, GROUNDED))
    found = {}
    for each in (
        e for fault in near(program, wire) for e in opened(program, fault, whole, Budget(60), lambda _: None, [])
    ):
        assert isinstance(each.answer, Seen | Never)
        if isinstance(each.answer, Seen):
            assert each.way is not None
            assert each.way.wires[-1] == wire
        found[each.fault.id, each.kind] = isinstance(each.answer, Seen)
    return found


def opening(text: str, wire: str, kind: SignalKind = LIVE) -> list[str]:
    """The faults that open a way to the wire."""
    return [fault for (fault, of), so_ in answers(loaded(text), wire).items() if so_ and of is kind]


def test_a_shorted_diode() -> None:
    """It lets the door reach the wire of the key; the other one does nothing to that wire."""
    assert opening(KEPT_APART, "key_wire") == [
        "key_wire live",
        "switch of key_wire stuck closed",
        "diode key_wire -> wake shorted",
    ]


def test_what_touches_ground_pulls_down() -> None:
    """Against diodes."""
    assert opening(KEPT_APART, "key_wire", GROUNDED) == ["key_wire grounded", "wake grounded"]


RELAYS = (
    HEAD
    + """harness
    source plus
    relay main coil key is run
    relay rest coil not main
    wire lamp_wire from plus when main
    wire day_wire from plus when not main
    wire both_wire from plus when main and not main
"""
)


def test_relays() -> None:
    """A welded one keeps closed what it closes, a dead one what is closed without it; none does what cannot be."""
    assert opening(RELAYS, "lamp_wire") == ["main welded", "lamp_wire live"]
    assert opening(RELAYS, "day_wire") == ["main dead", "day_wire live"]
    assert opening(RELAYS, "both_wire") == ["both_wire live"]


def test_a_relay_behind_a_source() -> None:
    """A source that a relay switches is live with the relay welded."""
    text = RELAYS.replace(
        "    wire lamp_wire", "    source solar when main\n    wire sun_wire from solar\n    wire lamp_wire"
    )
    assert opening(text, "sun_wire") == ["main welded", "sun_wire live"]


def test_a_relay_that_holds_itself() -> None:
    """The way over its own contact conducts, too, with the relay welded: that is no proof that the weld does nothing."""
    text = (
        HEAD
        + """harness
    source plus
    wire run from plus when key is run, from plus when hold
    relay hold coil run supply plus
"""
    )
    program = loaded(text)
    whole = tuple(ways_to(program, "run", kind) for kind in (LIVE, GROUNDED))
    found = {
        each.fault.id: (type(each.answer), each.beside)
        for fault in near(program, "run")
        for each in opened(program, fault, whole, Budget(60), lambda _: None, [])
        if each.kind is LIVE
    }
    assert found["hold welded"] == (Seen, True)
    assert found["switch of run stuck closed"] == (Seen, True)
    assert found["hold dead"] == (Never, False)


def test_an_output_that_is_stuck_on() -> None:
    """It feeds its wire whatever the box says."""
    text = KEPT_APART.replace("    wire wake\n", "    wire wake\n    wire lamp_wire\n").replace(
        "when key_on", "when key_on feeds lamp_wire"
    )
    assert opening(text, "lamp_wire") == ["lamp_wire live", "radio stuck on"]


def broken(program: Program, fault: Fault) -> Program:
    """The harness with the fault, as somebody would do it with pliers."""
    match fault.mode:
        case Mode.SHORTED:
            diode = program.diodes[fault.index]
            return replace(program, contacts=(*program.contacts, Contact(diode.anode, diode.cathode, Const(True))))
        case Mode.STUCK_CLOSED:
            contacts = list(program.contacts)
            contacts[fault.index] = replace(contacts[fault.index], condition=Const(True))
            return replace(program, contacts=tuple(contacts))
        case Mode.LIVE:
            touching = tuple(Contact(source.name, fault.of, Const(True)) for source in program.sources)
            return replace(program, contacts=(*program.contacts, *touching))
        case Mode.GROUNDED:
            return replace(program, contacts=(*program.contacts, Contact("ground", fault.of, Const(True))))
        case _:
            raise AssertionError(fault.id)


def reached(program: Program, kind: SignalKind, world: dict[str, bool]) -> set[str]:
    closed = [c for c in program.contacts if so(c.condition, world, frozenset())]
    ends = program.sources if kind is LIVE else program.grounds
    return live_by_hand(program, kind, frozenset(e.name for e in ends if so(e.condition, world, frozenset())), closed)


@pytest.mark.parametrize("seed", seeds(12, 7_000))
def test_each_fault_against_all_situations(seed: int) -> None:
    """A fault opens a way exactly if there is a situation in which the wire is so with it, and is not without."""
    program = replace(random_harness(Random(seed)), box=None)
    for wire in program.wires[:2]:
        found = answers(program, wire.name)
        lets = (Mode.SHORTED, Mode.STUCK_CLOSED, Mode.LIVE, Mode.GROUNDED)
        for fault in (each for each in faults_of(program) if each.mode in lets and each.kind is not PartKind.SENSE):
            for kind in (LIVE, GROUNDED):
                with_it = broken(program, fault)
                expected = any(
                    wire.name in reached(with_it, kind, world) - reached(program, kind, world)
                    for world in worlds(program)
                )
                assert found.get((fault.id, kind), False) == expected, (fault.id, kind, wire.name)


def test_an_interrupt_keeps_what_was_found() -> None:
    """Ctrl-C while the faults are asked about: the ways are all there, and the faults before it."""
    program, said = loaded(KEPT_APART), []

    def progress(what: str) -> None:
        said.append(what)
        if what == "wake grounded":
            raise KeyboardInterrupt

    found = to_wire(program, "key_wire", Budget(60), progress)
    assert found.interrupted
    assert found.faults_left == 3
    assert [type(each.answer) for each in found.asked] == [Seen]
    assert [each.fault.id for each in found.opened] == [
        "key_wire live",
        "key_wire grounded",
        "switch of key_wire stuck closed",
    ]
    report = wire_report(program, (SourceFile("van.circuit", KEPT_APART, ""),), found)
    assert report.outcome is Outcome.OPEN
    assert INTERRUPTED in report.notes


def test_ways_that_are_not_all_of_them_prove_nothing() -> None:
    """Where more lead to the wire than were looked at, no fault is asked about, and nothing is said of all ways."""
    program = loaded(KEPT_APART)
    some = tuple(replace(ways_to(program, "key_wire", kind), whole=False) for kind in (LIVE, GROUNDED))
    first = near(program, "key_wire")[0]
    faulty = tuple(opened(program, first, some, Budget(60), lambda _: None, []))
    assert {each.answer for each in faulty} == {Open(None)}
    found = replace(to_wire(program, "key_wire", Budget(60), lambda _: None), ways=some, opened=faulty, sneaks=())
    report = wire_report(program, (SourceFile("van.circuit", KEPT_APART, ""),), found)
    assert report.outcome is Outcome.OPEN
    assert not any(note.endswith(PROVED) or note == NO_NAME for note in report.notes)
    assert report.why is not None
    lines = [line for section in report.why.sections for line in section.sentences if TOO_MANY_TO_ASK in line]
    assert len(lines) == len(faulty)


def test_a_bug_of_ours_is_said_to_be_one() -> None:
    """It costs its question the answer."""
    program = loaded(KEPT_APART)
    questions = Questions(program, (Const(True),), Budget(60), lambda _: None)
    with patch.object(Asking, "possible", side_effect=BugMet(Bug("here", ()))):
        assert questions.ask("it", Const(True)) == Open(Undecided.OUR_BUG)
    assert len(questions.bugs) == 1


def test_no_memory_is_no_answer() -> None:
    """Nor the end of all."""
    with memory_bound(lambda: True):
        found = to_wire(loaded(KEPT_APART), "key_wire", Budget(60), lambda _: None)
    assert {each.answer for each in found.asked} == {Open(Undecided.MEMORY)}


def test_no_time_is_no_answer() -> None:
    """Nothing is claimed of what was not asked."""
    program = loaded(KEPT_APART)
    found = to_wire(program, "key_wire", Budget(0), lambda _: None)
    report = wire_report(program, (SourceFile("van.circuit", KEPT_APART, ""),), found)
    assert report.outcome is Outcome.OPEN
    assert not [each for each in found.asked if not isinstance(each.answer, Open)]
    assert not any(note.endswith(PROVED) for note in report.notes)
    joined = loaded(JOINED)
    looked = whole(joined, Budget(0), lambda _: None)
    told = harness_report(joined, (SourceFile("van.circuit", JOINED, ""),), looked, Linted(()), Accepting())
    assert told.outcome is Outcome.OPEN
    assert "NOTHING FOUND SO FAR" in told.opening
