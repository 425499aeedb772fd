"""Generated vehicles of any size, as texts: invented, lawful to write, and with requirements of which some hold and some
do not.

A vehicle is a power supply that is kept alive by a hold relay, and groups: a few contacts and thresholds, timers, stored
states and outputs that mostly speak of their own group, and now and then of the one before. The same size and seed
give the same text on every machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

GROUPS = {"S": 4, "M": 10, "L": 20, "XL": 40}
TIMES = ("0.5 s", "1 s", "2 s", "3 s", "5 s", "10 s", "30 s", "1 min", "2 min", "5 min")
TOLERANCE = " +- 10 %"

HEAD = """\
vehicle "Generated {size}{seed}"

world
    battery  connected | disconnected
    key      off | accessory | run | start  one by one
    door     contact
{world}

harness
    source plus when battery is connected
    wire key_wire from plus when key in {{run, start}}
    wire door_wire from plus when door
    wire wake
    diode key_wire -> wake
    diode door_wire -> wake
    relay hold coil off_delay(wake, 4 min +- 10 %) supply plus
    wire box_supply from plus when hold
{harness}

controller "Box" powered by box_supply
    sense key_on from key_wire live
    sense door_open from door_wire live
{controller}

given
    never battery is disconnected and key is start

requirements
{requirements}
"""


@dataclass(slots=True)
class _Writer:
    """The lines of each block, as they come."""

    random: Random
    world: list[str] = field(default_factory=list)
    harness: list[str] = field(default_factory=list)
    controller: list[str] = field(default_factory=list)
    timed: list[str] = field(default_factory=list)  # requirements that only time decides
    plain: list[str] = field(default_factory=list)
    known: list[str] = field(default_factory=lambda: ["key_on", "door_open"])  # what this group may speak of

    def contact(self, name: str) -> None:
        self.world.append(f"{name}  contact")
        self.harness.append(f"wire {name}_wire from plus when {name}")
        self.controller.append(f"sense {name}_on from {name}_wire live")
        self.known.append(f"{name}_on")

    def number(self, name: str) -> None:
        self.world.append(f"{name}  0 .. 150 degC")
        self.controller.append(f"sense {name}_now from {name}")
        self.known.append(f"({name}_now above 95 degC)")
        self.known.append(f"({name}_now below 40 degC)")

    def rule(self, name: str, text: str) -> str:
        self.controller.append(f"rule {name} = {text}")
        self.known.append(name)
        return name

    def expression(self, size: int) -> str:
        """A random condition of so many names, each once."""
        return self._joined(self.random.sample(self.known, size))

    def _joined(self, names: Sequence[str]) -> str:
        if len(names) == 1:
            return names[0] if self.random.random() < 0.7 else f"not {names[0]}"
        cut = self.random.randint(1, len(names) - 1)
        word = self.random.choice(("and", "or"))
        return f"({self._joined(names[:cut])} {word} {self._joined(names[cut:])})"

    def time(self, before: str | None = None) -> str:
        """A time; longer than `before` if that is given."""
        least = 0 if before is None else TIMES.index(before) + 1
        return self.random.choice(TIMES[least:])


def vehicle(size: str, seed: int) -> str:
    """The text of a vehicle of `GROUPS[size]` groups: up to 120 facts of the world, 160 outputs, 60 timers and 50
    requirements."""
    writer = _Writer(Random(f"{size}{seed}"))
    groups = GROUPS[size]
    for group in range(groups):
        _group(writer, group)
    wanted = groups * 5 // 4
    timed = writer.random.sample(writer.timed, min(len(writer.timed), wanted * 2 // 5))
    plain = writer.random.sample(writer.plain, min(len(writer.plain), wanted - len(timed)))
    requirements = [f"{'danger' if k % 2 else 'function'} r{k} {form}" for k, form in enumerate(timed + plain)]
    return HEAD.format(
        size=size,
        seed=seed,
        world=_lines(writer.world),
        harness=_lines(writer.harness),
        controller=_lines(writer.controller),
        requirements=_lines(requirements),
    )


def _lines(lines: list[str]) -> str:
    return "\n".join(f"    {line}" for line in lines)


def _group(writer: _Writer, group: int) -> None:
    """Three facts of the world, one or two timers, and four outputs."""
    random = writer.random
    writer.known = list(dict.fromkeys(["key_on", "door_open", *random.sample(writer.known, min(2, len(writer.known)))]))
    for k in range(2 + group % 2):
        writer.contact(f"c{group}_{k}")
    if group % 2 == 0:
        writer.number(f"n{group}")
    trigger = writer.rule(f"x{group}", writer.expression(random.randint(2, 4)))
    _timers(writer, group, trigger)
    if random.random() < 0.4:
        writer.rule(f"kept{group}", f"bistable(set {writer.expression(2)}, reset {writer.expression(2)})")
    outputs = [f"out{group}_{k}" for k in range(4)]
    for k, output in enumerate(outputs):
        condition = writer.expression(random.randint(2, min(6, len(writer.known))))
        if k == 3:  # an interlock that holds whatever the rest says
            condition = f"{condition} and not {outputs[0]}"
            writer.plain.append(f"never {output} and {outputs[0]}")
        writer.controller.append(f"output {output} when {condition}")
    _questions(writer, group, outputs)


def _timers(writer: _Writer, group: int, trigger: str) -> None:
    """One timer, or a pair of which only time says whether both can be on together."""
    short = writer.time()
    tolerance = TOLERANCE if writer.random.random() < 0.4 else ""
    first = writer.rule(
        f"p{group}", f"{writer.random.choice(('one_shot', 'off_delay'))}({trigger}, {short}{tolerance})"
    )
    if group % 2:
        return
    pulse = writer.controller[-1].split(" = ")[1].startswith("one_shot")
    waited = trigger if pulse else f"not {trigger}"
    long = writer.time(short if short != TIMES[-1] and writer.random.random() < 0.7 else None)
    second = writer.rule(f"q{group}", f"on_delay({waited}, {long}{tolerance})")
    writer.timed.append(f"never {first} and {second}")


def _questions(writer: _Writer, group: int, outputs: list[str]) -> None:
    """Requirements of the usual kinds; nothing says that they hold."""
    random = writer.random
    output, other = random.sample(outputs, 2)
    contact = f"c{group}_0"
    timer = f"p{group}"
    forms = [
        f"never {output} and {contact} and not {contact}_on and box_supply is live",
        f"never {output} while {timer} for longer than {writer.time()}",
        f"{contact} and box_supply is live calls for {output} no later than {writer.time()}, excused by {other}",
        f"{output} only after key in {{run, start}}",
        f"possible {output} and {timer}",
    ]
    writer.plain += random.sample(forms, 2)
    writer.timed.append(f"never {timer} and not x{group} for longer than {writer.time()}")
