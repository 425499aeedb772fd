"""The resolved program of a vehicle with every construct in it: exact, complete, each part with its place."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from logiccheck.base.place import source_text
from logiccheck.base.span import NOWHERE
from logiccheck.lang import program as p
from logiccheck.lang.load import load_text
from logiccheck.lang.parse import parse
from logiccheck.lang.walk import (
    memory,
    program_expressions,
    references,
    scenario_expressions,
    subexpressions,
    timer_windows,
)
from tests.lang.showing import show_all
from tests.lang.whole import WHOLE_VEHICLE

LOADED = load_text(WHOLE_VEHICLE)
S = 1_000_000
LIVE, RELAY, OUTPUT = p.SignalKind.LIVE, p.SignalKind.RELAY, p.SignalKind.OUTPUT


@pytest.fixture(name="program")
def _program() -> p.Program:
    assert LOADED.program is not None, show_all(LOADED)
    return LOADED.program


def rule(program: p.Program, name: str) -> p.Expr:
    """What the rule or output of this name says."""
    assert program.box is not None
    (found,) = [r for r in program.box.rules if r.name == name]
    return found.expr if isinstance(found, p.Rule) else found.command


def sense(name: str) -> p.Signal:
    return p.Signal(p.SignalKind.SENSE, name)


def form(program: p.Program, name: str) -> p.Form:
    (found,) = [r for r in program.requirements if r.name == name]
    return found.form


def exact(micros: int) -> p.Window:
    return p.Window(micros, micros, micros)


def test_world(program: p.Program) -> None:
    """Switches with their positions, numbers with their ranges in base units, facts at first."""
    assert program.label == "Whole vehicle"
    by_name = {switch.name: switch for switch in program.switches}
    assert by_name["key"].positions == ("off", "accessory", "run", "start")
    assert by_name["key"].one_by_one
    assert by_name["brake"] == p.Switch("brake", "Brake pedal", ("off", "on"), one_by_one=False, contact=True)
    assert by_name["step"].label == "Step # 1"
    assert by_name["inertia"].label == "inertia"
    engine, coolant = program.numbers
    bounds = tuple(map(Fraction, (0, 300, 400, 3000)))
    assert engine == p.Number("engine", "Engine speed", Fraction(0), Fraction(7000), "rpm", bounds, jumps=False)
    assert (coolant.low, coolant.high, coolant.bounds) == (Fraction(-40), Fraction(130), (Fraction(0), Fraction(90)))
    assert coolant.jumps
    assert program.at_first == (
        p.Position("battery", frozenset({0})),
        p.Position("key", frozenset({0})),
        p.Compare("engine", sense=False, op=p.Op.EQ, bound=Fraction(0)),
        p.Not(p.Position("brake", frozenset({1}))),
    )


def test_harness(program: p.Program) -> None:
    """Sources, grounds, contacts (a change-over's rest contact too), diodes, relays and loads."""
    assert [source.name for source in program.sources] == ["plus", "house"]
    assert program.sources[1].condition == p.Const(True)
    assert [(ground.name, ground.condition) for ground in program.grounds] == [
        ("ground", p.Const(True)),
        ("strap", p.Position("inertia", frozenset({0}))),
    ]
    hold = p.Signal(RELAY, "hold")
    contacts = {(c.left, c.right): c.condition for c in program.contacts}
    assert contacts["plus", "key_wire"] == p.Position("key", frozenset({2, 3}))
    assert contacts["strap", "crash_wire"] == p.Const(True)
    assert contacts["plus", "feed"] == hold
    assert contacts["house", "feed"] == p.Not(hold)
    assert contacts["strap", "bus"] == hold
    assert contacts["wake", "bus"] == p.Not(hold)
    assert program.diodes == (p.Diode("key_wire", "wake"), p.Diode("bus", "wake"))
    first, second = program.relays
    window = p.Window(216 * S, 264 * S, 240 * S)
    delayed = p.Timer(p.TimerKind.OFF_DELAY, p.Signal(LIVE, "wake"), window, "hold")
    assert first.coil == p.Or((delayed, p.Signal(OUTPUT, "lamp")))
    assert first.supply == p.Signal(p.SignalKind.SOURCE, "plus")
    assert [node.key for node in memory(second.coil)] == ["pick", "pick, number 2"]
    assert second.supply is None
    pump, horn, _ = program.loads
    assert pump.electrical == p.Electrical(Fraction(4), Fraction(9), 80_000, Fraction(10), "1.5 mm2", Fraction(42, 10))
    assert (horn.wire, horn.electrical) == ("wake", p.Electrical(None, None, None, None, None, None))


def test_senses(program: p.Program) -> None:
    """Wire senses with their filters as timers, number senses with theirs as windows; substitutes of their kind."""
    assert program.box is not None
    assert program.box.feed == "box_supply"
    assert program.box.startup == p.Timer(p.TimerKind.ON_DELAY, p.Signal(LIVE, "box_supply"), exact(300_000), "powered")
    key_on, cranking, crashed, revs, heat = program.box.senses
    assert key_on == p.WireSense("key_on", "key_on", "key_wire", False, None, None)
    assert isinstance(cranking, p.WireSense)
    assert cranking.filter is not None
    assert cranking.filter.window == p.Window(20_000, 30_000, 25_000)
    grounded = p.Signal(p.SignalKind.GROUNDED, "crash_wire")
    timer = p.Timer(p.TimerKind.FILTER, grounded, exact(100_000), "crashed")
    assert crashed == p.WireSense("crashed", "Crash", "crash_wire", True, timer, True)
    assert revs == p.NumberSense("revs", "revs", "engine", exact(50_000), Fraction(0))
    assert heat == p.NumberSense("heat", "heat", "coolant", None, Fraction(20))


def test_memory_in_rules(program: p.Program) -> None:
    """Timers, bistables, blinkers, edges: with their windows, their dominance and their keys."""
    rises, falls = (
        p.Edge(True, sense("key_on"), "memory, number 2"),
        p.Edge(False, sense("crashed"), "memory, number 3"),
    )
    assert rule(program, "memory") == p.Bistable(rises, falls, set_wins=True, retained=True, key="memory")
    plain = p.Bistable(sense("key_on"), p.Const(False), set_wins=False, retained=False, key="key_was_on")
    assert rule(program, "key_was_on") == plain
    loads_awake = p.Signal(p.SignalKind.RULE, "loads_awake")
    assert rule(program, "prime") == p.Timer(p.TimerKind.ONE_SHOT, loads_awake, exact(3 * S), "prime")
    winking = p.Blink(sense("key_on"), exact(500_000), p.Window(200_000, 300_000, 250_000), "winking")
    assert rule(program, "winking") == winking
    assert rule(program, "turned") == p.Impulse(sense("key_on"), sense("crashed"), retained=True, key="turned")
    late = rule(program, "late")
    assert isinstance(late, p.Or)
    previous = p.Previous(p.Signal(p.SignalKind.RULE, "late"), "late, number 2")
    window = p.Window(4_900_000, 5_100_000, 5 * S)
    assert late.parts[0] == p.Timer(p.TimerKind.ON_DELAY, previous, window, "late")
    assert late.parts[1] == p.Compare("heat", sense=True, op=p.Op.GE, bound=Fraction(90))


def test_thresholds_on_a_filtered_number(program: p.Program) -> None:
    """Each comparison has the filter of its sense, and the two are the set and reset of a stored state."""
    above = p.Compare("revs", sense=True, op=p.Op.GT, bound=Fraction(400))
    below = p.Compare("revs", sense=True, op=p.Op.LT, bound=Fraction(300))
    start = p.Timer(p.TimerKind.FILTER, above, exact(50_000), "revs > 400")
    stop = p.Timer(p.TimerKind.FILTER, below, exact(50_000), "revs < 300")
    assert rule(program, "running") == p.Bistable(start, stop, set_wins=False, retained=False, key="running")


def test_plain_rules(program: p.Program) -> None:
    """Operators, `xor` from the left, constants, and `is on`, `is not on` of what is true or false."""
    mixed = rule(program, "mixed")
    assert isinstance(mixed, p.And)
    three = (sense("key_on"), sense("cranking"), sense("crashed"))
    assert mixed.parts == (p.Xor(p.Xor(three[0], three[1]), three[2]), p.AtMostOne(three))
    assert rule(program, "constant") == p.Or((p.Const(True), p.Const(False)))
    assert rule(program, "ignition") == p.And((sense("key_on"), p.Not(sense("crashed"))))
    assert rule(program, "lamp") == p.And(
        (p.Signal(p.SignalKind.RULE, "winking"), p.Signal(p.SignalKind.COMMAND, "fuel_pump"))
    )


def test_outputs_and_their_order(program: p.Program) -> None:
    """An output comes after all it names; what feeds it, what it feeds and what it draws are with it."""
    assert program.box is not None
    names = [r.name for r in program.box.rules]
    for before, after in (
        ("loads_awake", "prime"),
        ("running", "fuel_pump"),
        ("fuel_pump", "lamp"),
        ("winking", "lamp"),
    ):
        assert names.index(before) < names.index(after)
    by_name = {output.name: output for output in program.box.outputs}
    assert list(by_name) == [name for name in names if name in by_name]
    assert (by_name["lamp"].fed_by, by_name["lamp"].feeds) == ("feed", "pump_wire")
    assert by_name["lamp"].electrical.current == 2
    assert by_name["fuel_pump"].electrical.inrush_time == 80_000


def test_given(program: p.Program) -> None:
    """`always p while q` is what is never q and not p; the others have their times."""
    door_open = p.Position("door", frozenset({1}))
    fast = p.Compare("engine", sense=False, op=p.Op.GT, bound=Fraction(3000))
    never, always, after, least, most, changes = program.givens
    assert never == p.Excluded(p.And((door_open, fast)), "never door is open and engine above 3000 rpm")
    brake, not_start = p.Position("brake", frozenset({1})), p.Position("key", frozenset({0, 1, 2}))
    connected = p.Position("battery", frozenset({0}))
    assert isinstance(always, p.Excluded)
    assert always.p == p.And((connected, p.Not(p.Or((brake, not_start)))))
    assert isinstance(after, p.AfterLasting)
    assert (after.p, after.time) == (p.Not(p.Signal(OUTPUT, "ignition")), 3 * S)
    assert least == p.LastsAtLeast(door_open, S, "door is open lasts at least 1 s")
    assert most == p.LastsAtMost(brake, 600 * S, "brake lasts at most 10 min")
    assert isinstance(changes, p.ChangesOnlyWhile)
    assert changes.name == "step"


def test_requirements(program: p.Program) -> None:
    """Each form with its parts."""
    ignition, lamp = p.Signal(OUTPUT, "ignition"), p.Signal(OUTPUT, "lamp")
    key_off, door_open = p.Position("key", frozenset({0})), p.Position("door", frozenset({1}))
    powered = p.Signal(p.SignalKind.POWERED, "powered")
    pump = p.Signal(OUTPUT, "fuel_pump")
    assert form(program, "no_key_no_spark") == p.Never(ignition, key_off, always=False, instant=False)
    assert form(program, "at_once") == p.Never(pump, key_off, always=False, instant=True)
    slow = p.Compare("engine", sense=False, op=p.Op.LT, bound=Fraction(300))
    assert form(program, "dead_engine") == p.NeverLonger(pump, slow, 4 * S)
    assert form(program, "always_lit") == p.Never(p.Not(lamp), powered, always=True, instant=False)
    edge = p.Edge(True, p.Signal(LIVE, "box_supply"), "primes")
    assert form(program, "primes") == p.CallsWithin(edge, pump, 200_000, p.Position("inertia", frozenset({1})))
    assert form(program, "stays") == p.CallsLasting(p.Position("brake", frozenset({1})), lamp, 3 * S, p.Not(powered))
    assert form(program, "aft") == p.OnlyAfter(lamp, door_open, 240 * S, key_off)
    assert form(program, "later_2") == p.OnlyAfter(lamp, p.Signal(p.SignalKind.GROUNDED, "bus"), None, None)
    closes = p.Edge(True, p.Position("door", frozenset({0})), "awaits")
    assert form(program, "awaits") == p.WaitsFor(ignition, p.Position("key", frozenset({2})), closes)
    assert form(program, "can_start") == p.Possible(p.And((ignition, pump)))
    first = program.requirements[0]
    assert (first.label, first.guard, first.text) == ("No spark", p.Guard.DANGER, "never ignition while key is off")


def test_scenario(program: p.Program) -> None:
    """Settings in the order of time, runs of timers, expectations one by one, and the end."""
    (scenario,) = program.scenarios
    assert (scenario.name, scenario.label, scenario.end) == ("arrival", "Arriving and starting", 1800 * S)
    sets = [(s.time, s.name, s.value) for s in scenario.sets]
    assert sets[:4] == [(0, "battery", 0), (0, "key", 0), (10 * S, "door", 1), (20 * S, "door", 0)]
    assert sets[5:] == [(1200 * S, "brake", 1), (1200 * S, "engine", 900)]
    assert [(t.time, t.key, t.duration) for t in scenario.timers] == [
        (1200 * S, "hold", 245 * S),
        (1300 * S, "winking.off", 250_000),
    ]
    texts = [(e.time, e.until, e.text) for e in scenario.expectations]
    assert texts == [
        (10_100_000, None, "not fuel_pump"),
        (10_100_000, None, "not ignition"),
        (11 * S, 12 * S, "not hold or bilge_pump"),
        (20 * S, None, "not running"),
    ]
    either = scenario.expectations[2].p
    assert either == p.Or((p.Not(p.Signal(RELAY, "hold")), p.Signal(LIVE, "bus")))


def every_expression(program: p.Program) -> list[p.Expr]:
    return [*program_expressions(program), *scenario_expressions(program)]


def test_keys_are_unique(program: p.Program) -> None:
    """A key is one piece of memory; only comparisons of a filtered number share theirs, being one and the same."""
    nodes = [node for expr in every_expression(program) for node in memory(expr)]
    own = [node.key for node in nodes if not (isinstance(node, p.Timer) and isinstance(node.x, p.Compare))]
    assert len(own) == len(set(own))
    assert {"hold", "powered", "crashed", "revs > 400", "winking.on", "winking.off"} <= set(timer_windows(program))


def test_keys_do_not_depend_on_the_order_of_lines(program: p.Program) -> None:
    """With the lines of each block turned round, every timer is still there under the same key."""
    text = re.sub(r"^(scenario|language)(.*\n)( +.*\n)*", "", WHOLE_VEHICLE, flags=re.MULTILINE)
    turned = []
    for block in re.split(r"^(?=\w)", text, flags=re.MULTILINE):
        header, *items = re.split(r"\n(?=    \w)", block.rstrip("\n"))
        turned.append("\n".join([header, *reversed(items)]) + "\n")
    back = load_text("".join(turned))
    assert back.program is not None, show_all(back)
    assert "".join(turned) != text
    assert timer_windows(back.program) == timer_windows(program)


def test_every_place_holds_what_is_there(program: p.Program) -> None:
    """The text at the place of each part of each expression is a condition by itself, or the name of an end."""
    parts = {node for expr in every_expression(program) for node in subexpressions(expr) if node.span != NOWHERE}
    assert len(parts) > 80
    for node in parts:
        text = source_text(node.span, WHOLE_VEHICLE)
        text = f"revs {text}" if text.startswith(("above", "below")) else text  # what stands behind `until`
        held = any(text.startswith(word) for word in ("sense", "controller"))  # filters and the start-up delay
        block = 'controller "Box" powered by feed\n    ' + (text if held else f"rule a = {text}")
        diagnostics = parse(block, "test.circuit")[1]
        assert held or diagnostics == (), text
    for expr in every_expression(program):
        for leaf in references(expr):
            if not isinstance(leaf, p.Compare):
                assert leaf.name in WHOLE_VEHICLE[leaf.span.begin : leaf.span.end] or leaf == p.Signal(LIVE, "bus")
