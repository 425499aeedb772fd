"""A random small vehicle: the world and the harness, and what may be named where."""

from __future__ import annotations

from dataclasses import dataclass
from random import Random


@dataclass(frozen=True)
class Timed:
    """A rule, output or relay that is one timer: its kind, its operand as a requirement may write it, its steps."""

    name: str
    kind: str
    x: str
    lo: int
    hi: int


class Vehicle:
    """Grows a program: the lines so far, and what they have made nameable.

    Durations are counted in steps of one length, so that all the times of a program divide one another well.
    """

    def __init__(self, random: Random, rich: bool = False) -> None:
        """`rich`: the coils of relays hold all that the language allows there."""
        self.random, self.rich = random, rich
        self.unit, self.step = random.choices([("s", 1), ("ms", 500), ("s", 2), ("min", 1)], [6, 2, 1, 1])[0]
        self.timers = random.choice([2, 3, 4, 5, 6])  # how many may still be written
        self.lines: dict[str, list[str]] = {
            name: [] for name in ("world", "harness", "controller", "given", "requirements")
        }
        self.feed = "plus"
        self.worlds = 1  # how many there are
        self.variables: dict[str, list[str]] = {}  # of the world, with facts that can be `at first`
        self.numbers: dict[str, list[int]] = {}  # with the constants it is compared with
        self.facts: list[str] = []  # what copper may be switched by
        self.wires: dict[str, str] = {}  # with the fact that it follows; these can be live
        self.ground_wires: dict[str, str] = {}
        self.believed: dict[str, str] = {}  # what the box may name, and how a requirement writes it
        self.outputs: list[str] = []
        self.relays: list[str] = []
        self.timed: list[Timed] = []

    # ------------------------------------------------------------------------------------------------- helpers

    def maybe(self, chance: float) -> bool:
        return self.random.random() < chance

    def add(self, block: str, line: str) -> None:
        self.lines[block].append(line)

    def steps(self, count: int) -> str:
        """So many steps, as a duration."""
        return f"{count * self.step} {self.unit}"

    def window(self) -> tuple[int, int, str]:
        """The duration of a timer: its bounds in steps, and its text."""
        count = self.random.choice([1, 1, 2, 2, 3, 4])
        if self.maybe(0.8):
            return count, count, self.steps(count)
        if count > 1 and self.maybe(0.5):
            return count - 1, count + 1, f"{self.steps(count)} +- {self.steps(1)}"
        return count, count + 1, f"from {self.steps(count)} to {self.steps(count + 1)}"

    def takes_timers(self, count: int = 1) -> bool:
        """Whether there is room for more timers; then it is taken."""
        if self.timers < count:
            return False
        self.timers -= count
        return True

    def turned(self, text: str, chance: float = 0.3) -> str:
        """`text` or its opposite."""
        if not self.maybe(chance):
            return text
        return f"not {text}" if " " not in text or text.endswith(")") else f"not ({text})"

    def text(self) -> str:
        """The whole program."""
        parts = ['vehicle "random"']
        for block, lines in self.lines.items():
            if lines:
                head = f"controller powered by {self.feed}" if block == "controller" else block
                parts.append("\n".join([head, *("    " + line for line in lines)]))
        return "\n\n".join(parts) + "\n"

    # --------------------------------------------------------------------------------------------------- world

    def add_world(self) -> None:
        kinds = [self.add_contact, self.add_switch, self.add_one_by_one, self.add_number]
        for name in "abc"[: self.random.choices([1, 2, 3], [3, 6, 3])[0]]:
            weights = [10, 1, 2, 2] if self.worlds < 4 else [1, 0, 0, 0]
            self.random.choices(kinds, weights)[0](name)
        firsts = [self.random.choice(facts) for facts in self.variables.values() if self.maybe(0.85)]
        if firsts:
            self.add("world", "at first " + ", ".join(firsts))

    def add_contact(self, name: str) -> None:
        self.add("world", f"{name} contact")
        self.variables[name] = [f"{name} is off"] * 3 + [f"{name} is on"]
        self.facts.append(name)
        self.worlds *= 2

    def add_switch(self, name: str) -> None:
        self.add("world", f"{name} off | low | high")
        self.variables[name] = [f"{name} is off", f"{name} is not high"]
        self.facts += self.random.sample([f"{name} is low", f"{name} in {{low, high}}", f"{name} is not off"], 2)
        self.worlds *= 3

    def add_one_by_one(self, name: str) -> None:
        self.add("world", f"{name} off | low | high one by one")
        self.variables[name] = [f"{name} is off", f"{name} is off", f"{name} is low"]
        self.facts += [f"{name} is high"] * 2 + [self.random.choice([f"{name} is low", f"{name} is not off"])]
        self.worlds *= 3

    def add_number(self, name: str) -> None:
        bounds = self.random.choice([[10], [10, 20]])
        self.add("world", f"{name} 0 .. 30 V")
        self.variables[name] = [f"{name} below 10 V", f"{name} is 10 V", f"{name} at most 10 V"]
        self.numbers[name] = bounds
        self.facts.append(self.comparison(name))
        self.worlds *= 2 * len(bounds) + 1

    def comparison(self, name: str) -> str:
        word = self.random.choice(["above", "below", "at least", "at most", "is"])
        return f"{name} {word} {self.random.choice(self.numbers[name])} V"

    # ------------------------------------------------------------------------------------------------- harness

    def fact(self) -> str:
        """What copper may be switched by: a fact of the world or a contact, sometimes turned, sometimes two."""
        text = self.turned(self.random.choice(self.facts), 0.2)
        if self.maybe(0.12):
            text = f"{text} {self.random.choice(['and', 'or', 'xor'])} {self.random.choice(self.facts)}"
        return text

    def add_harness(self) -> None:
        """A wire for each variable, then what joins them."""
        if self.maybe(0.07):
            self.add("harness", f"source plus when {self.fact()}")
        else:
            self.add("harness", "source plus")
        for index, name in enumerate(self.variables):
            if name not in self.numbers or self.maybe(0.3):
                self.add_wire(f"w{index}", self.random.choice([x for x in self.facts if x.split()[0] == name]))
        if self.maybe(0.1):
            self.add_wire("w9", self.fact())
        if self.rich or self.maybe(0.3):
            self.add_relay("k1")
            if self.maybe(0.2):
                self.add_relay("k2")
        if self.maybe(0.06):
            self.add_race()
        self.add_joints()

    def add_wire(self, name: str, fact: str) -> None:
        if self.maybe(0.15):
            self.add("harness", f"wire {name} to ground when {fact}")
            self.ground_wires[name] = fact
            return
        self.add("harness", f"wire {name} from plus when {fact}")
        self.wires[name] = fact

    def add_joints(self) -> None:
        """Diodes, contacts between wires, change-over contacts, short circuits, loads."""
        wires = list(self.wires)
        if len(wires) > 1 and self.maybe(0.3):
            one, other = self.random.sample(wires, 2)
            self.add("harness", f"diode {one} -> {other}")
        if wires and self.maybe(0.15):
            self.add("harness", "wire wake")
            for wire in self.random.sample(wires, self.random.randint(1, len(wires))):
                self.add("harness", f"diode {wire} -> wake")
            self.wires["wake"] = "wake is live"
        if len(wires) > 1 and self.maybe(0.06):
            one, other = self.random.sample(wires, 2)
            self.add("harness", f"join {one} with {other} when {self.fact()}")
        if wires and self.maybe(0.06):
            line = f"wire swap from {wires[0]} when {self.fact()}, otherwise from plus"
            self.add("harness", line)
            self.wires["swap"] = "swap is live"
        if wires and self.maybe(0.13):
            line = f"wire short from plus when {self.fact()}, to ground when {self.fact()}"
            self.add("harness", line)
            self.wires["short"] = "short is live"
            self.ground_wires["short"] = "short is grounded"
        if wires and self.maybe(0.08):
            self.add("harness", f"load bulb on {self.random.choice(wires)} 4 A")

    def add_relay(self, name: str) -> None:
        """A relay, whose contact then switches a wire."""
        pool = [*(f"{wire} is live" for wire in self.wires), *(f"{wire} is grounded" for wire in self.ground_wires)]
        x = self.turned(self.random.choice([*pool, self.random.choice(self.facts)]), 0.15)
        coil = x
        if self.rich:
            coil = self.rich_coil(x)
        elif self.maybe(0.5) and self.takes_timers():
            kind = self.random.choice(["off_delay", "off_delay", "on_delay", "one_shot"])
            lo, hi, window = self.window()
            coil = f"{kind}({x}, {window})"
            self.timed.append(Timed(name, kind, x, lo, hi))
        elif self.maybe(0.45):
            coil = f"bistable(set {x}, reset {self.random.choice(self.facts)})"
        supply = ""
        if self.maybe(0.35):
            supply = f" supply {self.random.choice([*self.wires, 'plus'])}"
        self.add("harness", f"relay {name} coil {coil}{supply}")
        self.add("harness", f"wire {name}_out from plus when {name}")
        self.relays.append(name)
        self.facts.append(name)
        self.wires[f"{name}_out"] = name

    def rich_coil(self, x: str) -> str:
        """One or two pieces of memory that look at x."""
        coil = self.remembering(x)
        return self.remembering(coil) if self.maybe(0.4) else coil

    def remembering(self, x: str) -> str:
        """A blinker, an impulse relay, an edge, two thresholds, a bistable, a timer."""
        other = self.random.choice(self.facts)
        kinds = [f"impulse_relay({x}, reset {other})", f"impulse_relay({x})", f"rises({x})", f"falls({x})"]
        kinds += [f"bistable(set {x}, reset {other}, set wins)", f"bistable(set rises({x}), reset {other})"]
        kinds += [
            f"({x}) {self.random.choice(['or', 'and', 'xor'])} {name} above {max(bounds)} V until below {min(bounds)} V"
            for name, bounds in self.numbers.items()
        ]
        if self.maybe(0.5) and self.takes_timers(2):
            return f"blink({x}, on {self.window()[2]}, off {self.window()[2]})"
        if self.maybe(0.5) and self.takes_timers():
            return f"{self.random.choice(['on_delay', 'off_delay', 'one_shot'])}({x}, {self.window()[2]})"
        return self.random.choice(kinds)

    def add_race(self) -> None:
        """Two relays that release each other."""
        fact = self.random.choice(self.facts)
        self.add("harness", f"relay x1 coil ({fact}) and not x2")
        self.add("harness", f"relay x2 coil ({fact}) and not x1")
        self.relays += ["x1", "x2"]
