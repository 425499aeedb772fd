"""Lines of the wrong shape: what each kind of line is shown to be written like, and that it can be typed so."""

from __future__ import annotations

import pytest

from logiccheck.lang.load import load_text
from logiccheck.lang.mistakes.syntax import WrongShape
from logiccheck.lang.parse import parse
from logiccheck.lang.shapes import FUNCTIONS, HEADERS, ITEMS, Shape
from tests.lang.vehicle import around

# For each kind of line, by its block and the beginning of its example, lines that are not written so.
MALFORMED: dict[tuple[str, str], tuple[str, ...]] = {
    ("header", "language"): ("language", 'language "1"', "language one"),
    ("header", "vehicle"): ("vehicle", "vehicle Van", "vehicle 3"),
    ("header", "use checklist"): ("use checklist", "use checklist lamps with", "use checklist lamps with a"),
    ("header", 'use "'): ("use", "use lights.circuit", "use lights"),
    ("header", "checklist"): ("checklist", 'checklist "Lamps"'),
    ("header", "controller"): (
        "controller",
        'controller "Box"',
        'controller "Box" powered feed',
        "controller box by feed",
    ),
    ("header", "scenario"): ("scenario", 'scenario "Arriving"'),
    ("constants", "prime_time"): ("idle", "idle 400 rpm", "idle =", "idle = run |"),
    ("world", "key"): (
        "horn",
        "horn off",
        "horn off run",
        "horn off, run",
        "horn 0 rpm",
        "horn 0 to 3 rpm",
        "horn off |",
    ),
    ("world", "at first"): ("at horn is on", "at 3 s horn"),
    ("harness", "source"): ("source", "source battery is connected", "source 3"),
    ("harness", "ground"): ("ground", "ground strap strap_bolt is fitted"),
    ("harness", "wire"): (
        "wire",
        "wire a plus",
        "wire a from plus, fuse",
        "wire a from plus, wire",
        "wire a from",
        "wire a to",
        "wire a otherwise",
        "wire a from 3",
    ),
    ("harness", "join"): ("join", "join a", "join a b", "join a to b"),
    ("harness", "diode"): ("diode", "diode a", "diode a b", "diode a ->", "diode a to b"),
    ("harness", "relay"): ("relay", "relay a", "relay a b", "relay a when b", "relay a supply b"),
    ("harness", "load"): ("load", "load a", "load a 4 A", "load a on", "load a on b fuse"),
    ("controller", "sense"): ("sense", "sense a", "sense a key_wire", "sense a from", "sense a to b"),
    ("controller", "rule"): ("rule", "rule a", "rule a key_on", "rule a when key_on", "rule = a"),
    ("controller", "output"): ("output", "output a", "output a = key_on", "output a key_on"),
    ("controller", "draws"): ("draws", "draws awake", "draws 3 A", "draws 3 A awake 2 A asleep"),
    ("electrics", "nominal"): ("nominal", "nominal when 12 V"),
    ("electrics", "nominal 24"): ("voltage 12 V", "12 V", "temperature 40 degC"),
    ("electrics", "ambient"): ("ambient", "ambient when 3 degC"),
    ("electrics", "engine"): ("engine", "engine space", "engine 80 degC"),
    ("electrics", "apart"): ("apart", "apart from 3 s"),
    ("electrics", "parked"): ("parked", "parked key is off", "parked when"),
    ("electrics", "battery"): (
        "battery",
        "battery plus",
        "battery plus 70 Ah, reserve by 3 min",
        "battery plus 70 Ah, cranks 60 %",
        "battery plus 70 Ah, loses 4 %",
        "battery plus 70 Ah, loses 4",
    ),
    ("electrics", "dip"): ("dip", "dip plus", "dip plus when lamp for at most 3 s", "dip plus while lamp for 3 s"),
    ("electrics", "tell_tale"): ("tell_tale", "tell_tale lamp", "tell_tale lamp while brake", "tell_tale lamp 5 s"),
    ("given", "engine"): (
        "brake",
        "brake after",
        "brake lasts",
        "brake lasts 3 s",
        "brake changes",
        "brake after a has",
    ),
    ("requirements", "danger"): ("danger a", "danger a brake", "danger a brake calls lamp", "danger a lamp only"),
    ("accepted", "unused-name"): (
        "unused-name",
        "unused-name lamp",
        'unused-name lamp "a"',
        'unused-name lamp "a" by b on 2026-11-02 logic 4f1c-9a2e',
        'unused-name lamp "a" on 2026-11-02 by "b" logic 4f1c-9a2e',
        'unused-name "a"',
    ),
    ("scenario", "at 10 s"): ("at", "at 3 s", "brake"),
    ("scenario", "from"): ("from", "from 3 s", "from 3 s to 4 s", "from 3 s expect a"),
    ("scenario", "until"): ("until",),
}
FUNCTION_MALFORMED: dict[str, tuple[str, ...]] = {
    "on_delay": (
        "on_delay",
        "on_delay(key_on)",
        "on_delay(key_on 3 s)",
        "on_delay key_on, 3 s",
        "on_delay(key_on, 3 s, a)",
    ),
    "off_delay": ("off_delay(key_on)", "off_delay(3 s, key_on)"),
    "one_shot": ("one_shot(key_on)", "one_shot(key_on; 3 s)"),
    "blink": ("blink(key_on)", "blink(key_on, 1 s)", "blink(key_on, on 1 s)", "blink(key_on, off 1 s, on 1 s)"),
    "bistable": ("bistable(key_on)", "bistable(set key_on, lamp)", "bistable(key_on, lamp)"),
    "impulse_relay": ("impulse_relay key_on", "impulse_relay(key_on, lamp)"),
    "rises": ("rises key_on", "rises"),
    "falls": ("falls key_on",),
    "previous": ("previous key_on",),
    "at most one of": ("at most one of a, b", "at most one of"),
    "in": ("key in run", "key in {}", "key in {run start}"),
}
SHAPES = [(block, shape) for block, shapes in {"header": HEADERS, **ITEMS}.items() for shape in shapes]
PLAIN = {"constants", "world", "harness", "electrics", "given", "requirements", "roles", "accepted"}


def _file(block: str, line: str) -> str:
    """A file with the line in its block."""
    heads = {"controller": 'controller "Box" powered by feed', "scenario": "scenario s"}
    return f"{line}\n" if block == "header" else f"{heads.get(block, block)}\n    {line}\n"


def _of(block: str, begin: str) -> Shape:
    return next(s for b, s in SHAPES if b == block and s.example.startswith(begin))


SPECIAL = {
    "missing-condition", "foreign-sign", "foreign-word", "missing-operator", "extra-text", "said-otherwise",
    "no-such-line",
}  # fmt: skip


@pytest.mark.parametrize(("block", "begin", "line"), [(b, e, x) for (b, e), xs in MALFORMED.items() for x in xs])
def test_a_malformed_line_shows_its_shape(block: str, begin: str, line: str) -> None:
    """It is told what the line is written like, whatever part of it went wrong; or that a condition is missing."""
    shape = _of(block, begin)
    _, found = parse(_file(block, line), "test.circuit")
    assert len(found) == 1, found
    message = found[0].message
    if isinstance(message, WrongShape):
        assert (message.kind, message.shape, message.example) == (shape.kind, shape.shape, shape.example)
    else:
        assert message.name in SPECIAL


@pytest.mark.parametrize(("word", "text"), [(w, t) for w, ts in FUNCTION_MALFORMED.items() for t in ts])
def test_a_malformed_function_shows_its_shape(word: str, text: str) -> None:
    """Inside a timer or stored state it is its shape that is shown, not that of the line around it."""
    shape = next(s for s in FUNCTIONS if " ".join(s.words) == word)
    _, found = parse(_file("controller", f"rule a = {text}"), "test.circuit")
    assert len(found) == 1, found
    message = found[0].message
    if isinstance(message, WrongShape):
        assert message.kind == shape.kind
    else:
        assert message.name in {"missing-condition", "foreign-sign"}, message


def test_nearly_all_malformed_lines_show_a_shape() -> None:
    """The exceptions above stay exceptions."""
    lines = [(b, x) for (b, _), xs in MALFORMED.items() for x in xs]
    found = [parse(_file(block, line), "test.circuit")[1][0].message for block, line in lines]
    assert sum(isinstance(message, WrongShape) for message in found) >= 0.85 * len(found)


@pytest.mark.parametrize(("block", "shape"), SHAPES, ids=[s.example.split(" ")[0] + f"-{b}" for b, s in SHAPES])
def test_the_example_of_a_shape_can_be_typed(block: str, shape: Shape) -> None:
    """The example has the shape it is an example of."""
    assert parse(_file(block, shape.example), "test.circuit")[1] == ()
    assert set(MALFORMED) >= {(block, begin) for b, begin in MALFORMED if b == block}
    assert shape.example in PLAIN or block == "roles" or any(shape is _of(b, e) for b, e in MALFORMED)


@pytest.mark.parametrize("shape", FUNCTIONS, ids=lambda shape: shape.example)
def test_the_example_of_a_function_can_be_typed(shape: Shape) -> None:
    """The example has the shape it is an example of."""
    assert parse(_file("controller", f"rule a = {shape.example}"), "test.circuit")[1] == ()
    assert " ".join(shape.words) in FUNCTION_MALFORMED


@pytest.mark.parametrize(
    ("sign", "ours"),
    [("&&", "and"), ("||", "or"), ("!=", "is not"), ("==", "is"), (">=", "at least"), ("<", "below"), ("|", "or")],
)
def test_signs_between_conditions(sign: str, ours: str) -> None:
    """A sign of another language is told with the word of ours."""
    loaded = load_text(around(f'controller "Box" powered by feed\n    rule a = lamp {sign} key_on\n'))
    assert [(d.name, d.hint) for d in loaded.diagnostics] == [("foreign-sign", f"Write `{ours}`.")]
