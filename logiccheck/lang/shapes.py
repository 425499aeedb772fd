"""How each kind of line, timer and stored state is written: what a syntax mistake shows to whoever made it."""

from __future__ import annotations

from logiccheck.base.frozen import frozen


@frozen
class Shape:
    """`words` begin it; `shape` is its form with capitals for parts; `example` can be typed as it stands."""

    words: tuple[str, ...]
    kind: str
    shape: str
    example: str


HEADERS = (
    Shape(("language",), "the edition of the language", "language 1", "language 1"),
    Shape(("vehicle",), "the vehicle line", 'vehicle "NAME"', 'vehicle "Harbour coffee van"'),
    Shape(
        ("use", "checklist"),
        "the use of a checklist",
        'use checklist NAME with ROLE = CONDITION, ..., waive REQUIREMENT "REASON", ...',
        "use checklist starting with starter = starter_motor, key_start = cranking",
    ),
    Shape(("use",), "the use of another file", 'use "FILE"', 'use "lights.circuit"'),
    Shape(("checklist",), "the header of a checklist", 'checklist NAME "LABEL"', 'checklist starting "Starting"'),
    Shape(
        ("controller",),
        "the header of the box",
        'controller "LABEL" powered by WIRE after TIME',
        'controller "Main power box" powered by box_supply',
    ),
    Shape(
        ("scenario",), "the header of a scenario", 'scenario NAME "LABEL"', 'scenario arrival "Arriving and starting"'
    ),
    Shape(("constants",), "this header", "constants", "constants"),
    Shape(("world",), "this header", "world", "world"),
    Shape(("harness",), "this header", "harness", "harness"),
    Shape(("electrics",), "this header", "electrics", "electrics"),
    Shape(("given",), "this header", "given", "given"),
    Shape(("requirements",), "this header", "requirements", "requirements"),
    Shape(("roles",), "this header", "roles", "roles"),
    Shape(("accepted",), "this header", "accepted", "accepted"),
)

ITEMS: dict[str, tuple[Shape, ...]] = {
    "constants": (Shape((), "a constant", "NAME = QUANTITY", "prime_time = 3 s"),),
    "roles": (Shape((), "a role", 'NAME "WHAT IT IS"', 'starter "the starter motor"'),),
    "world": (
        Shape(("at",), "what is so at first", "at first FACT, FACT, ...", "at first key is off, engine is 0 rpm"),
        Shape(
            (),
            "a switch, contact or number",
            'NAME "LABEL" POSITION | POSITION, or contact, or LOW .. HIGH UNIT',
            'key "Ignition key" off | accessory | run | start one by one',
        ),
    ),
    "harness": (
        Shape(("source",), "a source", 'source NAME "LABEL" when CONDITION', "source plus when battery is connected"),
        Shape(("ground",), "a ground", 'ground NAME "LABEL" when CONDITION', "ground strap when strap_bolt is fitted"),
        Shape(
            ("wire",),
            "a wire",
            'wire NAME "LABEL" from END when CONDITION, fuse CURRENT, wire SIZE over LENGTH',
            "wire key_wire from plus when key in {run, start}, fuse 10 A, wire 1.5 mm2 over 2 m",
        ),
        Shape(("join",), "a join", "join WIRE with WIRE when CONDITION", "join wire_a with wire_b when hold"),
        Shape(("diode",), "a diode", "diode WIRE -> WIRE", "diode key_wire -> wake"),
        Shape(
            ("relay",),
            "a relay",
            'relay NAME "LABEL" coil CONDITION supply WIRE, draws CURRENT',
            'relay hold "Hold relay" coil off_delay(wake, 4 min) supply plus',
        ),
        Shape(
            ("load",),
            "a load",
            'load NAME "LABEL" on WIRE CURRENT, inrush CURRENT for TIME, fuse CURRENT, wire SIZE over LENGTH',
            "load bilge_pump on pump_wire 4 A, fuse 10 A",
        ),
    ),
    "controller": (
        Shape(
            ("sense",),
            "a sense",
            'sense NAME "LABEL" from WIRE live, or grounded',
            "sense key_on from key_wire live",
        ),
        Shape(("rule",), "a rule", 'rule NAME "LABEL" = CONDITION', "rule awake = key_on or door_open"),
        Shape(
            ("output",),
            "an output",
            'output NAME "LABEL" when CONDITION',
            'output fuel_pump "Fuel pump" when running and not crashed',
        ),
        Shape(
            ("draws",),
            "what the box draws",
            "draws CURRENT awake, CURRENT asleep",
            "draws 120 mA awake, 1.5 mA asleep",
        ),
    ),
    "electrics": (
        Shape(("nominal",), "the nominal voltage", "nominal VOLTAGE", "nominal 12 V"),
        Shape(("ambient",), "the ambient temperature", "ambient TEMPERATURE", "ambient 40 degC"),
        Shape(("engine",), "the temperature of the engine space", "engine space TEMPERATURE", "engine space 80 degC"),
        Shape(("apart",), "how far apart inrushes begin", "apart TIME", "apart 250 ms"),
        Shape(("parked",), "when the vehicle is parked", "parked when CONDITION", "parked when key is off"),
        Shape(
            ("battery",),
            "a battery",
            "battery SOURCE CHARGE, reserve TIME, cranks with PERCENTAGE, loses PERCENTAGE a month",
            "battery plus 70 Ah, cranks with 60 %, loses 4 % a month",
        ),
        Shape(
            ("dip",),
            "a dip of the voltage",
            "dip SOURCE while CONDITION for at most TIME",
            "dip plus while starter_motor for at most 50 ms",
        ),
        Shape(
            ("tell_tale",),
            "a tell-tale",
            'tell_tale CONDITION "LABEL" while CONDITION within TIME',
            'tell_tale warning_lamp "Warning lamp" while key is run within 5 s',
        ),
        Shape(
            (),
            "a line of this block",
            "nominal, ambient, engine space, apart, parked, battery, dip or tell_tale, and what it is",
            "nominal 24 V",
        ),
    ),
    "given": (
        Shape(
            (),
            "an assumption",
            "never, always, FACT after CONDITION has lasted TIME, FACT lasts at least TIME, "
            "NAME changes only while CONDITION, or NAME without jumps",
            "engine is 0 rpm after not ignition has lasted 3 s",
        ),
    ),
    "requirements": (
        Shape(
            (),
            "a requirement",
            'danger NAME "LABEL" FORM, the form never P, always P, P calls for Q no later than TIME, '
            "P calls for Q lasting TIME, Q only after P, Q waits for R, or possible P",
            "danger no_key_no_spark never ignition while key is off",
        ),
    ),
    "accepted": (
        Shape(
            (),
            "what is accepted",
            'FINDING NAME "REASON" by "WHO" on DATE logic MARK',
            'unused-name spare_sense "Not fitted yet." by "R. Brandt" on 2026-11-02 logic 4f1c-9a2e',
        ),
    ),
    "scenario": (
        Shape(("from",), "an expectation", "from TIME to TIME expect CONDITION", "from 11 s to 12 s expect fuel_pump"),
        Shape(("until",), "the end of a scenario", "until TIME", "until 300 s"),
        Shape(
            (),
            "a step of a scenario",
            "at TIME FACT, FACT expect CONDITION",
            "at 10 s door is open, key is run",
        ),
    ),
}

FUNCTIONS = (
    Shape(("on_delay",), "an on-delay", "on_delay(CONDITION, TIME)", "on_delay(key_on, 5 s)"),
    Shape(("off_delay",), "an off-delay", "off_delay(CONDITION, TIME)", "off_delay(key_on, 4 min +- 10 %)"),
    Shape(("one_shot",), "a one-shot", "one_shot(CONDITION, TIME)", "one_shot(key_on, 3 s)"),
    Shape(("blink",), "a blinker", "blink(CONDITION, on TIME, off TIME)", "blink(key_on, on 0.5 s, off 0.5 s)"),
    Shape(
        ("bistable",),
        "a stored state",
        "bistable(set CONDITION, reset CONDITION)",
        "bistable(set key_on, reset crashed)",
    ),
    Shape(
        ("impulse_relay",),
        "an impulse relay",
        "impulse_relay(CONDITION, reset CONDITION)",
        "impulse_relay(button, reset crashed)",
    ),
    Shape(("rises",), "a rising edge", "rises(CONDITION)", "rises(key_on)"),
    Shape(("falls",), "a falling edge", "falls(CONDITION)", "falls(key_on)"),
    Shape(("previous",), "the value before", "previous(CONDITION)", "previous(awake)"),
    Shape(("at", "most", "one", "of"), "this", "at most one of (CONDITION, CONDITION)", "at most one of (left, right)"),
    Shape(("in",), "a choice of positions", "NAME in {POSITION, POSITION}", "key in {run, start}"),
)


def shape_of_line(block: str, words: list[str]) -> Shape:
    """The shape of a line from its block ("header" for column 0) and its first words."""
    shapes = HEADERS if block == "header" else ITEMS[block]
    for shape in shapes:
        if tuple(words[: len(shape.words)]) == shape.words:
            return shape
    return shapes[-1]
