"""What is stored otherwise in two examples, in the words of the report."""

from __future__ import annotations

from logiccheck.session.asking import why_ever

VEHICLE = """\
vehicle "Bench"
world
    a contact
harness
    source plus
    wire a_wire from plus when a
    relay hold coil bistable(set a_wire, reset lost) supply plus
    wire lost
controller "Box" powered by plus
    sense slow from a_wire live filter 2 s
    rule seen = bistable(set slow)
    output lamp when slow
    output late when seen and not on_delay(slow, 1 h)
"""


def told(name: str) -> list[str]:
    """The answer for the signal while the contact is closed."""
    raw = VEHICLE.encode()
    report = why_ever("bench.circuit", lambda _: raw, name, "a is on", False, 60.0, lambda _: None, lambda: None)
    assert report.why is not None
    return list(report.why.answer)


def test_a_filter_is_told_by_the_sense_that_has_it() -> None:
    """Not by the whole line of the sense."""
    assert told("lamp") == [
        "At the end of both examples hands and physics are the same; what is stored is not (first / second): "
        "slow after its filter on / off."
    ]


def test_a_rule_that_only_stores_is_told_by_its_name() -> None:
    """Other memory as it is written."""
    (sentence,) = told("late")
    assert "seen on / off" in sentence
    assert "slow after its filter on / off" in sentence
