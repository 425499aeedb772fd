"""Checklists: roles become what plays them; what does not fit is told where it is bound."""

from __future__ import annotations

from fractions import Fraction

import pytest

from logiccheck.base import assets
from logiccheck.base.place import source_text
from logiccheck.lang import gather
from logiccheck.lang import program as p
from logiccheck.lang.load import Loaded, load_text
from tests.lang.showing import show_all
from tests.lang.vehicle import around

LAMPS = """\
checklist lamps "Lamps"

roles
    lamp_role  "a lamp"
    asleep     "the vehicle is parked"
    speed      "the engine speed"
    idle       "the engine speed at which it idles"
    too_long   "how long is too long"

given
    speed without jumps

requirements
    # reason: a comment inside
    damage dark "No lamp burns on"
        never lamp_role while asleep    # parked
              for longer than too_long
    danger still   never lamp_role while speed above idle and not asleep
    function hold  lamp_role only after on_delay(asleep, 3 s)
"""
BOUND = "lamp_role = lamp, asleep = door is open or key is off, speed = engine, idle = 400 rpm, too_long = 10 min"


@pytest.fixture(autouse=True)
def _one_checklist(monkeypatch: pytest.MonkeyPatch) -> None:
    """The only checklist is the one above."""
    monkeypatch.setattr(gather, "checklist_names", lambda: ("lamps",))
    monkeypatch.setattr(gather, "checklist_bytes", {"lamps": LAMPS.encode()}.get)


def use(bindings: str, more: str = "", name: str = "lamps") -> Loaded:
    """The small vehicle with the checklist in use."""
    return load_text(around(f"use checklist {name} with {bindings}\n{more}"))


def test_roles_are_what_plays_them() -> None:
    """Names, conditions and quantities stand in place of the roles, in the tree and in the words."""
    program = use(BOUND).program
    assert program is not None
    dark, still, hold = program.requirements
    assert (dark.name, dark.label, dark.guard) == ("lamps_dark", "No lamp burns on", p.Guard.DAMAGE)
    assert dark.text == "never lamp while (door is open or key is off) for longer than 10 min"
    asleep = p.Or((p.Position("door", frozenset({1})), p.Position("key", frozenset({0}))))
    assert dark.form == p.NeverLonger(p.Signal(p.SignalKind.OUTPUT, "lamp"), asleep, 600_000_000)
    assert still.text == "never lamp while engine above 400 rpm and not (door is open or key is off)"
    assert isinstance(hold.form, p.OnlyAfter)
    assert isinstance(hold.form.p, p.Timer)
    assert hold.form.p.key == "lamps_hold"
    assert program.numbers[0].bounds == (Fraction(400),)
    assert not program.numbers[0].jumps


def test_places_are_where_the_user_wrote() -> None:
    """What a role stands for has the place of its binding, and what is around it says what plays the role."""
    loaded = use(BOUND)
    assert loaded.program is not None
    form = loaded.program.requirements[0].form
    assert isinstance(form, p.NeverLonger)
    assert form.r is not None
    assert form.r.span.file == "test.circuit"
    assert source_text(form.r.span, loaded.texts["test.circuit"]) == "door is open or key is off"
    still = loaded.program.requirements[1].form
    assert isinstance(still, p.Never)
    assert still.r is not None
    assert source_text(still.r.span, loaded.texts["checklist lamps"]) == (
        "engine above 400 rpm and not (door is open or key is off)"
    )


def test_a_checklist_may_be_used_twice() -> None:
    """With two prefixes the same checklist is about two things, each with a text of its own."""
    loaded = use(BOUND, f"use checklist lamps as reading with {BOUND.replace('10 min', '20 min')}\n")
    assert loaded.program is not None, show_all(loaded)
    assert [r.name for r in loaded.program.requirements[::3]] == ["lamps_dark", "reading_dark"]
    assert [r.text[-6:] for r in loaded.program.requirements[::3]] == ["10 min", "20 min"]
    assert [file.path for file in loaded.files] == ["test.circuit", "checklist lamps", "checklist lamps as reading"]


CASES: dict[str, tuple[str, str]] = {
    "unknown checklist": (
        "use checklist lamp with a = door is open",
        "test.circuit:1:15 E110 unknown-checklist\n"
        "    use checklist lamp with a = door is open\n"
        "                  ^^^^\n"
        "  There is no checklist `lamp`.\n  Did you mean `lamps`?",
    ),
    "unknown role": (
        f"use checklist lamps with {BOUND}, sleep = brake",
        "  The checklist `lamps` has no role `sleep`.\n  Did you mean `asleep` or `speed`?",
    ),
    "unbound role": (
        "use checklist lamps with lamp_role = lamp, asleep = brake, speed = engine, idle = 3 rpm",
        "  Nothing plays the role `too_long` (how long is too long) of the checklist `lamps`.\n"
        "  Add `too_long = ...` with a name, a condition or a quantity of the vehicle.\n"
        '  checklist lamps:8:5 the role in the checklist\n        too_long   "how long is too long"\n        ^',
    ),
    "role bound twice": (
        f"use checklist lamps with {BOUND}, lamp_role = wake",
        "  The role `lamp_role` is bound twice.\n  Keep one of the two.",
    ),
    "prefix used twice": (
        f"use checklist lamps with {BOUND}\nuse checklist lamps with {BOUND}",
        "  Two checklists in use put the prefix `lamps` before their requirements.\n"
        "  Give one of them another prefix: `use checklist NAME as lamps_2 with ...`.",
    ),
    "a condition for a number": (
        f"use checklist lamps with {BOUND.replace('= engine', '= brake or wake')}",
        "  The role `speed` needs a name.\n  Write `speed = ` and a name of the vehicle.",
    ),
    "a quantity for a condition": (
        f"use checklist lamps with {BOUND.replace('= lamp', '= 3 s')}",
        "  The role `lamp_role` needs a condition.\n  Write `lamp_role = ` and a condition of the vehicle.",
    ),
    "a condition for a quantity": (
        f"use checklist lamps with {BOUND.replace('= 10 min', '= brake or wake')}",
        "  The role `too_long` needs a quantity.\n  Write `too_long = ` and a quantity of the vehicle.",
    ),
    "a name that is no number": (
        f"use checklist lamps with {BOUND.replace('= engine', '= brake')}",
        "  `brake` is a switch, not a number: it cannot be compared with a quantity.",
    ),
    "an unknown name": (
        f"use checklist lamps with {BOUND.replace('= lamp', '= lamb')}",
        "  Nothing is named `lamb`.\n  Did you mean `lamp`",
    ),
    "a requirement waived that is none": (
        f'use checklist lamps with {BOUND}, waive beeper "None is there."',
        "  The checklist `lamps` has no requirement `beeper`.\n  Its requirements are `dark`, `still` and `hold`.",
    ),
    "a requirement waived by its name in reports": (
        f'use checklist lamps with {BOUND}, waive lamps_still "None is there."',
        "  The checklist `lamps` has no requirement `lamps_still`.\n  Did you mean `still`?",
    ),
    "waived twice": (
        f'use checklist lamps with {BOUND}, waive still "None is there.", waive still "It is gone."',
        "  The requirement `still` is waived twice.\n  Keep one of the two.\n  test.circuit:1:138 the first one\n",
    ),
    "waived without a reason": (
        f'use checklist lamps with {BOUND}, waive still " "',
        "  The requirement `still` is waived without a reason.\n"
        '  Say why, for example `waive still "The vehicle has none."`.',
    ),
    "waived with more than a reason": (
        f'use checklist lamps with {BOUND}, waive still because "None is there."',
        '  Behind a requirement that is waived stands the reason, in quotes.\n  Write `waive still "REASON"`.',
    ),
    "waived without a comma": (
        f'use checklist lamps with {BOUND} waive still "None is there."',
        "  Before `waive` stands a comma, as between all that stands behind `with`.\n  Write `, waive still`.",
    ),
    "an unknown name in what is waived": (
        f'use checklist lamps with {BOUND.replace("10 min", "long_enough")}, waive dark "None is there."',
        "  Nothing is named `long_enough`.\n",
    ),
    "a role that is asked about and that nobody plays": (
        'use checklist lamps with speed = engine, waive dark "None.", waive hold "None."',
        "  Nothing plays the role `idle` (the engine speed at which it idles) of the checklist `lamps`.",
    ),
    "a role of what is given and that nobody plays": (
        'use checklist lamps waive dark "None.", waive hold "None.", waive still "None."',
        "  Nothing plays the role `speed` (the engine speed) of the checklist `lamps`.",
    ),
    "a quantity of another kind": (
        f"use checklist lamps with {BOUND.replace('10 min', '10 rpm')}",
        "  This is an engine speed, but a duration is a time.",
    ),
}
TOLD = {
    "unknown-checklist", "unknown-role", "unbound-role", "role-twice", "role-does-not-fit", "block-of-checklist",
    "unknown-waiver", "waived-twice", "waiver-without-reason",
}  # fmt: skip


@pytest.mark.parametrize("title", CASES)
def test_what_is_told(title: str) -> None:
    """What does not fit is told, and where it is bound."""
    text, expected = CASES[title]
    shown = show_all(load_text(around(text + "\n")))
    assert expected in shown, shown
    assert shown.startswith(("test.circuit:1:", "test.circuit:2:")), shown
    assert "unknown-name" not in shown or "unbound-role" not in shown, shown


def test_the_kinds_that_are_told() -> None:
    """The cases above tell these kinds of mistakes, and each is told in the right place: none is missing."""
    names = {d.name for text, _ in CASES.values() for d in load_text(around(f"{text}\n")).diagnostics}
    assert names >= TOLD - {"block-of-checklist"}


WAIVED = 'waive dark "No lamp is fitted.", waive hold " It has no hold. "'
WITHOUT = [
    f"with lamp_role = wake, asleep = brake, speed = engine, idle = 3 rpm, {WAIVED}",
    f"with {WAIVED}, lamp_role = wake, asleep = brake, speed = engine, idle = 3 rpm",
    f"{WAIVED}, lamp_role = wake, asleep = brake, speed = engine, idle = 3 rpm",
    f"with lamp_role = wake, {WAIVED}, asleep = brake, speed = engine, idle = 3 rpm",
]


@pytest.mark.parametrize("bound", WITHOUT)
def test_what_is_waived_is_not_asked(bound: str) -> None:
    """It is kept with its reason; a role of which nothing else speaks need not be played, and keeps its name."""
    loaded = load_text(around(f"use checklist lamps {bound}\n"))
    program = loaded.program
    assert program is not None, show_all(loaded)
    assert [r.name for r in program.requirements] == ["lamps_still"]
    dark, hold = program.waived
    assert (dark.name, dark.label, dark.guard) == ("lamps_dark", "No lamp burns on", p.Guard.DAMAGE)
    assert dark.text == "never wake while brake for longer than too_long"
    assert dark.reason == "No lamp is fitted."
    assert source_text(dark.span, loaded.texts["test.circuit"]) == 'waive dark "No lamp is fitted."'
    assert (hold.name, hold.text, hold.reason) == (
        "lamps_hold", "wake only after on_delay(brake, 3 s)", "It has no hold."
    )  # fmt: skip


def test_all_may_be_waived_with_another_prefix(monkeypatch: pytest.MonkeyPatch) -> None:
    """Then no role has to be played; the names in reports have the prefix."""
    text = LAMPS.replace("given\n    speed without jumps\n", "")
    monkeypatch.setattr(gather, "checklist_bytes", {"lamps": text.encode()}.get)
    loaded = load_text(around(f'use checklist lamps as reading {WAIVED}, waive still "None."\n'))
    assert loaded.program is not None, show_all(loaded)
    assert loaded.program.requirements == ()
    assert [each.name for each in loaded.program.waived] == ["reading_dark", "reading_still", "reading_hold"]


def test_that_nobody_plays_a_role_is_told_once() -> None:
    """Not again for each place in the checklist where its name stands."""
    loaded = load_text(around("use checklist lamps with lamp_role = lamp, asleep = brake, too_long = 3 s\n"))
    assert [d.name for d in loaded.diagnostics] == ["unbound-role", "unbound-role"]


def test_an_unused_role_is_checked_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    """A name bound to a role that no requirement uses has to exist."""
    text = 'checklist lamps\nroles\n    idle_role "nothing"\nrequirements\n    danger a possible true\n'
    monkeypatch.setattr(gather, "checklist_bytes", {"lamps": text.encode()}.get)
    shown = show_all(use("idle_role = lamb or not moonlight"))
    assert "Nothing is named `lamb`." in shown
    assert "Nothing is named `moonlight`." in shown


def test_a_checklist_with_a_fault_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    """Blocks that do not belong, and names that are no roles, are told in the checklist."""
    text = 'checklist lamps\nroles\n    a "a"\nworld\n    b contact\nrequirements\n    danger c never a and lamp\n'
    monkeypatch.setattr(gather, "checklist_bytes", {"lamps": text.encode()}.get)
    shown = show_all(use("a = lamp"))
    assert "checklist lamps:4:1 E115 block-of-checklist" in shown
    assert "checklist lamps:7:29 E301 unknown-name" in shown


def test_every_checklist_that_ships_is_read() -> None:
    """With each role bound to something of the small vehicle, there is nothing wrong in it but perhaps a kind."""
    for name in assets.checklist_names():
        raw = assets.checklist_bytes(name)
        assert raw is not None
        assert raw.decode().splitlines()
    assert assets.checklist_bytes("../README") is None
    assert assets.checklist_bytes("none_such") is None
