"""Synchronous circuits in the language: registers that take their next value when the clock comes on.

A register is a bistable that is set or reset in the one reaction in which the clock rises, and is named through
`previous`: in that reaction all that is computed still shows the old values, in the repeat after it the new ones. All
registers are 0 at time 0, and the clock is off. A settled name shows the state after the last tick.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from logiccheck.lang.program import Program
from tests.oracle.loading import loaded


def clocked(
    inputs: Iterable[str], registers: Mapping[str, str], rules: Mapping[str, str], requirements: Iterable[str]
) -> Program:
    """The circuit with these inputs (contacts in_NAME), registers with what each of them takes, and further rules."""
    names = [*inputs, "clock"]
    world = "".join(f"    in_{name} contact\n" for name in names) + "    at first in_clock is off\n"
    wires = "".join(f"    wire w_{name} from plus when in_{name}\n" for name in names)
    senses = "".join(f"    sense {name} from w_{name} live\n" for name in names)
    lines = "".join(f"    rule {name} = {text}\n" for name, text in rules.items())
    for name, text in registers.items():
        lines += f"    rule {name} = previous({name}_kept)\n"
        lines += f"    rule {name}_kept = bistable(set tick and ({text}), reset tick and not ({text}))\n"
    asked = "".join(f"    {line}\n" for line in requirements)
    return loaded(
        f'vehicle "T"\nworld\n{world}harness\n    source plus\n{wires}controller "Box" powered by plus\n'
        f"{senses}    rule tick = rises(clock)\n{lines}requirements\n{asked}"
    )


def moments(ticks: int) -> int:
    """The moments of the shortest story with so many ticks: between two of them the clock goes off."""
    return max(1, 2 * ticks)


def state(names: Iterable[str], values: str) -> str:
    """The condition that these registers have these values."""
    return "(" + " and ".join(n if v == "1" else f"not {n}" for n, v in zip(names, values, strict=True)) + ")"
