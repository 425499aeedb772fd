"""Random small vehicles whose copper can break in every way, as text in the language."""

from __future__ import annotations

import re
from random import Random

from tests.oracle.asked import Asked
from tests.oracle.controller import Controller
from tests.oracle.vehicle import Vehicle


class Copper(Vehicle):
    """World and harness, a few parts of each kind."""

    def __init__(self, random: Random) -> None:
        super().__init__(random)
        self.timers = random.choice([0, 1, 1, 2])
        self.loads: dict[str, str] = {}  # with the wire each hangs on
        self.loose_ends: list[str] = []  # wires that only something added later can make live

    def add_world(self) -> None:
        kinds = [self.add_contact, self.add_switch, self.add_one_by_one, self.add_number]
        for name in "ab"[: self.random.choice([1, 2])]:
            weights = [8, 1, 1, 4] if self.worlds < 3 else [1, 0, 0, 0]
            self.random.choices(kinds, weights)[0](name)
        firsts = [facts[0] for facts in self.variables.values() if self.maybe(0.8)]
        if firsts:
            self.add("world", "at first " + ", ".join(firsts))

    def fused(self, text: str, chance: float = 0.3) -> str:
        """The line of something that may have a fuse."""
        return f"{text}, fuse 5 A" if self.maybe(chance) else text

    def add_harness(self) -> None:
        self.add("harness", f"source plus when {self.fact()}" if self.maybe(0.1) else "source plus")
        self.strap = self.maybe(0.5)
        if self.strap:
            self.add("harness", f"ground strap when {self.fact()}" if self.maybe(0.2) else "ground strap")
        for index, name in enumerate(self.variables):
            if name not in self.numbers or self.maybe(0.3):
                fact = self.random.choice([x for x in self.facts if x.split()[0] == name])
                self.add_wire(f"w{index}", self.turned(fact, 0.15))
        for way in (self.add_diode, self.add_join, self.add_changeover, self.add_short):
            if self.wires and self.maybe(0.28):
                way()
        if self.wires and self.maybe(0.45):
            self.add_relay("k1")
        wires = list(self.wires)
        if wires and self.maybe(0.4):
            self.add_load("bulb", self.random.choice(wires))

    def add_wire(self, name: str, fact: str) -> None:
        if self.maybe(0.25):
            end = "strap" if self.strap and self.maybe(0.6) else "ground"
            self.add("harness", f"wire {name} to {end} when {fact}")
            self.ground_wires[name] = fact
            return
        self.add("harness", self.fused(f"wire {name} from plus when {fact}"))
        self.wires[name] = fact

    def add_diode(self) -> None:
        """Onto a wire of its own, or between two that have their own feeds."""
        one = self.random.choice(list(self.wires))
        others = [x for x in self.wires if x != one]
        if others and self.maybe(0.4):
            self.add("harness", f"diode {one} -> {self.random.choice(others)}")
            return
        self.add("harness", f"wire wake from plus when {self.fact()}" if self.maybe(0.5) else "wire wake")
        self.add("harness", f"diode {one} -> wake")
        if others and self.maybe(0.5):
            self.add("harness", f"diode {self.random.choice(others)} -> wake")
        self.wires["wake"] = "wake is live"

    def add_join(self) -> None:
        one = self.random.choice(list(self.wires))
        self.add("harness", "wire far")
        when = f" when {self.fact()}" if self.maybe(0.5) else ""
        self.add("harness", f"join {one} with far{when}")
        self.wires["far"] = "far is live"

    def add_changeover(self) -> None:
        one = self.random.choice(list(self.wires))
        self.add("harness", self.fused(f"wire swap from {one} when {self.fact()}, otherwise from plus"))
        self.wires["swap"] = "swap is live"

    def add_short(self) -> None:
        self.add("harness", f"wire both from plus when {self.fact()}, to ground when {self.fact()}")
        self.wires["both"], self.ground_wires["both"] = "both is live", "both is grounded"

    def add_load(self, name: str, wire: str) -> None:
        self.add("harness", f"load {name} on {wire} 4 A{', fuse 5 A' if self.maybe(0.6) else ''}")
        self.loads[name] = wire


class Box(Controller):
    """The controller: fewer rules, and outputs that feed more often."""

    def build(self) -> None:
        self.add_power()
        self.add_senses()
        makers = [self.timer_rule, self.memory_rule, self.edge_rule, self.plain_rule, self.previous_rule]
        for index in range(self.random.choice([0, 1, 1, 2])):
            self.used.clear()
            self.random.choices(makers, [5, 4, 1, 3, 1])[0](f"r{index}")
        for index in range(self.random.choice([1, 1, 2])):
            self.used.clear()
            self.add_output(f"o{index}")

    def add_senses(self) -> None:
        """Numbers are always sensed here, with filter times and substitutes more often than elsewhere."""
        v = self.v
        super().add_senses()
        for index, line in enumerate(v.lines["controller"]):
            if re.fullmatch(r"sense s_[ab] from [ab]", line):
                tail = f" filter {v.steps(1)}" if v.maybe(0.25) and v.takes_timers() else ""
                tail += f" substitute {v.random.choice([0, 10, 30])} V" if v.maybe(0.5) else ""
                v.lines["controller"][index] = line + tail
            elif line.startswith("sense ") and "substitute" not in line and v.maybe(0.3):
                v.lines["controller"][index] = f"{line} substitute {v.random.choice(['on', 'off'])}"

    def add_output(self, name: str) -> None:
        super().add_output(name)
        if self.v.maybe(0.3):
            self.v.lines["controller"][-1] += " load 4 A, fuse 5 A"


class Demands(Asked):
    """What is asked: much of it holds as long as nothing is broken."""

    v: Copper

    def held(self) -> list[str]:
        """Requirements that say of a wire, a relay, an output or a load what its own line says."""
        v = self.v
        found: list[tuple[str, str]] = [(f"{wire} is live", fact) for wire, fact in v.wires.items()]
        found += [(f"{wire} is grounded", fact) for wire, fact in v.ground_wires.items()]
        found += [(load, v.wires[wire]) for load, wire in v.loads.items()]
        for line in v.lines["controller"]:
            told = re.match(r"output (\w+) when (not )?(\w+)(?: |$)", line)
            if told and told[3] in v.believed:
                outside = v.believed[told[3]]
                found.append((told[1], f"not ({outside})" if told[2] else outside))
            number = re.match(
                r"output (\w+) when s_([ab] (?:above|below|at least|at most|is) \d+ V)(?: load| feeds|$)", line
            )
            if number:
                found.append((number[1], number[2]))
        return [text for p, fact in found if p not in fact for text in self.about_fact(p, fact)]

    def about_fact(self, p: str, fact: str) -> list[str]:
        """What holds if p is so just when `fact` is, which may be far from so."""
        bare, fact = fact, f"({fact})" if " " in fact else fact
        q, time = f"({p})" if " " in p else p, self.v.steps(self.random.choice([1, 1, 2]))
        return [
            f"never {q} while not {fact}",
            f"always {q} while {fact}",
            f"never {q} and not {fact} even for an instant",
            f"never {q} and not {fact} for longer than {time}",
            f"never {fact} and not {q} for longer than {time}",
            f"{fact} calls for {q} no later than {time}, excused by not {fact}",
            f"rises({bare}) calls for {q} lasting {time}, excused by not {fact}",
            f"{q} only after {fact}",
            f"{q} only after {fact} since not {fact}",
            f"{q} waits for {fact}",
            f"{q} waits for {fact} after falls({bare})",
            f"possible {q} and {fact}",
            f"{q} only after not {q}",
        ]

    def add_requirements(self) -> None:
        held = self.held()
        for _ in range(4):
            self.used.clear()
            if held and self.v.maybe(0.75):
                self.require(self.random.choice(held))
            elif self.v.timed and self.v.maybe(0.5):
                self.about(self.random.choice(self.v.timed))
            else:
                self.any_form()

    def add_electrics(self) -> None:
        """Who notices what is broken, and when the supply may dip."""
        v, lines = self.v, []
        for _ in range(self.random.choice([0, 1, 1, 2])):
            self.used.clear()
            while_ = f" while {self.truth()}" if v.maybe(0.4) else ""
            lines.append(f"tell_tale {self.plain()}{while_} within {v.steps(self.random.choice([1, 2]))}")
        if v.maybe(0.5):
            self.used.clear()
            lines.append(f"dip plus while {self.truth()} for at most {v.steps(1)}")
        v.lines["electrics"] = lines


def breakable_vehicle(seed: int) -> str:
    """The vehicle of this seed."""
    vehicle = Copper(Random(seed))
    vehicle.add_world()
    vehicle.add_harness()
    if vehicle.maybe(0.75):
        Box(vehicle).build()
    asked = Demands(vehicle)
    if vehicle.maybe(0.3):
        asked.given()
    asked.add_requirements()
    asked.add_electrics()
    return vehicle.text()
