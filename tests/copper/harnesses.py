"""Small vehicles for the tests of ways through the harness: written by hand, and random ones."""

from __future__ import annotations

from random import Random

from logiccheck.lang.program import Program
from tests.oracle.loading import loaded

HEAD = """vehicle "Small"
world
    battery connected | disconnected
    key off | run
    door closed | open
    at first battery is connected, key is off, door is closed
"""

KEPT_APART = (
    HEAD
    + """harness
    source plus "Battery plus" when battery is connected
    wire key_wire from plus when key is run
    wire door_wire from plus when door is open
    wire wake
    diode key_wire -> wake
    diode door_wire -> wake
controller "Box" powered by wake
    sense key_on from key_wire live
    output radio when key_on
"""
)
"""Two wires wake the box, each through a diode of its own."""

JOINED = KEPT_APART.replace("diode key_wire -> wake", "join key_wire with wake")
"""The same with a plain wire in the place of one diode."""


def random_harness(random: Random) -> Program:
    """One of those below, resolved."""
    return loaded(random_harness_text(random))


def random_harness_text(random: Random) -> str:
    """A few sources, grounds and wires with contacts and diodes between any of them, and outputs that feed wires."""
    contacts = [f"c{number}" for number in range(random.randint(1, 4))]
    sources = [f"s{number}" for number in range(random.randint(1, 2))]
    wires = [f"w{number}" for number in range(random.randint(2, 5))]
    lines = ["world", *(f"    {name} contact" for name in contacts), "harness"]
    lines += [
        f"    source {name}" + (f" when {random.choice(contacts)}" if random.random() < 0.5 else "") for name in sources
    ]
    ends = [*sources, "strap", *wires]
    lines.append(f"    ground strap when {random.choice(contacts)}")
    for name in wires:
        joined = [f"from {end}{_when(random, contacts)}" for end in random.sample(sources + wires, 2) if end != name]
        joined += [f"to ground{_when(random, contacts)}"] if random.random() < 0.2 else []
        lines.append(f"    wire {name} " + ", ".join(joined[: random.randint(0, 2)]))
    for _ in range(random.randint(0, 3)):
        one, other = random.sample(ends, 2)
        lines.append(f"    join {one} with {other}{_when(random, contacts)}")
    for _ in range(random.randint(0, 3)):
        one, other = random.sample(wires, 2)
        lines.append(f"    diode {one} -> {other}")
    lines += ['controller "Box" powered by w0', "    sense seen from w1 live"]
    for number in range(random.randint(0, 2)):
        lines.append(
            f"    output o{number} when {random.choice(['seen', 'not seen', 'true'])} feeds {random.choice(wires)}"
        )
    return 'vehicle "Random"\n' + "\n".join(line.rstrip() for line in lines) + "\n"


def _when(random: Random, contacts: list[str]) -> str:
    """A condition of a contact, or none."""
    if random.random() < 0.3:
        return ""
    return f" when {'not ' if random.random() < 0.3 else ''}{random.choice(contacts)}"
