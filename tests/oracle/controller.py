"""The controller of a random small vehicle: what powers it, its senses, rules and outputs."""

from __future__ import annotations

from collections.abc import Callable

from tests.oracle.vehicle import Timed, Vehicle

TIMERS = ["on_delay", "off_delay", "one_shot"]


class Controller:
    """Adds a controller to a vehicle."""

    def __init__(self, vehicle: Vehicle) -> None:
        self.v = vehicle
        self.random = vehicle.random
        self.comparable: list[str] = []  # senses that are numbers
        self.used: set[str] = set()  # what the line in the making names already

    def build(self) -> None:
        self.add_power()
        self.add_senses()
        makers: list[tuple[Callable[[str], None], int]] = [
            (self.timer_rule, 5),
            (self.chain_rule, 8),
            (self.memory_rule, 5),
            (self.edge_rule, 2),
            (self.plain_rule, 3),
            (self.previous_rule, 2),
            (self.blink_rule, 1),
        ]
        for index in range(self.random.randint(2, 4)):
            self.used.clear()
            self.random.choices([m for m, _ in makers], [w for _, w in makers])[0](f"r{index}")
        for index in range(self.random.choice([1, 1, 2])):
            self.used.clear()
            self.add_output(f"o{index}")

    # ------------------------------------------------------------------------------------------------- power

    def add_power(self) -> None:
        """What the box is powered by; mostly something that is always live."""
        v = self.v
        wires = list(v.wires)
        way = self.random.choices(["plus", "wire", "hold", "self"], [11, 3, 3, 2])[0]
        if way == "wire" and wires:
            v.feed = self.random.choice(wires)
        elif way == "hold" and wires and v.takes_timers():
            lo, hi, window = v.window()
            wire = self.random.choice(wires)
            v.add("harness", f"relay hold coil off_delay({wire}, {window}) supply plus")
            v.add("harness", "wire feed from plus when hold")
            v.timed.append(Timed("hold", "off_delay", f"{wire} is live", lo, hi))
            v.feed = "feed"
            v.wires["feed"] = "hold"
            v.relays.append("hold")
        elif way == "self" and wires:
            v.add("harness", "wire keep")
            v.add("harness", "wire feed")
            v.add("harness", f"diode {self.random.choice(wires)} -> feed")
            v.add("harness", "diode keep -> feed")
            v.feed = "feed"
            v.wires["keep"] = "keep is live"
        else:
            v.add("harness", "wire main from plus")
            v.feed = "main"
        if v.maybe(0.09) and v.takes_timers():
            v.feed = f"{v.feed} after {v.steps(1)}"

    # ------------------------------------------------------------------------------------------------ senses

    def add_senses(self) -> None:
        v = self.v
        pool = [(wire, "live", fact) for wire, fact in v.wires.items() if wire not in ("feed", "keep")]
        pool += [(wire, "grounded", fact) for wire, fact in v.ground_wires.items()]
        for wire, reading, _ in pool[:3]:
            self.add_sense(f"s_{wire}" if reading == "live" else f"g_{wire}", wire, reading)
        if v.maybe(0.05) and pool:
            self.add_sense("s_unlike", pool[0][0], "grounded" if pool[0][1] == "live" else "live")
        for name in v.numbers:
            v.add("controller", f"sense s_{name} from {name}")
            self.comparable.append(name)

    def add_sense(self, name: str, wire: str, reading: str) -> None:
        v = self.v
        tail = ""
        if v.maybe(0.09) and v.takes_timers():
            tail = f" filter {v.steps(1)}"
        if v.maybe(0.05):
            tail += " substitute off"
        v.add("controller", f"sense {name} from {wire} {reading}{tail}")
        v.believed[name] = name if tail else f"{wire} is {reading}"

    # ----------------------------------------------------------------------------------------------- signals

    def signal(self) -> tuple[str, str]:
        """Something the box may name, and the same as a requirement may write it."""
        v = self.v
        if self.comparable and v.maybe(0.35):
            number = self.random.choice(self.comparable)
            if v.numbers[number] == [10, 20] and v.maybe(0.55):
                text = f"s_{number} above 20 V until below 10 V"
                return text, text
            text = v.comparison(number)
            return f"s_{text}", text
        names = list(v.believed)
        if not names:
            return "true", "true"
        fresh = [name for name in names[-4:] if name not in self.used]
        name = self.random.choice(fresh or names[-4:])
        self.used.add(name)
        return name, v.believed[name]

    def turned(self, chance: float = 0.25) -> tuple[str, str]:
        """A signal or its opposite."""
        text, outside = self.signal()
        if not self.v.maybe(chance):
            return text, outside
        return f"not ({text})" if " " in text else f"not {text}", f"not ({outside})"

    def condition(self) -> str:
        """A plain condition over one, two or three signals."""
        v = self.v
        texts = [self.turned()[0] for _ in range(self.random.choice([1, 1, 2, 2, 3]))]
        if len(texts) == 1:
            return texts[0]
        if v.maybe(0.22):
            return f"at most one of ({', '.join(texts)})"
        word = self.random.choices(["and", "or", "xor"], [5, 4, 1])[0]
        return f" {word} ".join(texts)

    # ------------------------------------------------------------------------------------------------- rules

    def rule(self, name: str, text: str) -> None:
        self.v.add("controller", f"rule {name} = {text}")
        self.v.believed[name] = name

    def timer_rule(self, name: str) -> None:
        """One timer over one signal."""
        v = self.v
        if not v.takes_timers():
            return self.plain_rule(name)
        kind = self.random.choice(TIMERS)
        lo, hi, window = v.window()
        x, outside = self.turned(0.15)
        v.timed.append(Timed(name, kind, outside, lo, hi))
        return self.rule(name, f"{kind}({x}, {window})")

    def chain_rule(self, name: str) -> None:
        """Timers that start where others end, or from the same signal: what holds depends on exact sums."""
        v = self.v
        before = [timed for timed in v.timed if timed.name in v.believed]
        if not before or not v.takes_timers():
            return self.timer_rule(name)
        kind = self.random.choice(TIMERS)
        lo, hi, window = v.window()
        first = self.random.choice(before)
        x = self.random.choice([first.name, first.name, f"not {first.name}"])
        if v.maybe(0.25) and first.x in v.believed.values():
            x = next(inside for inside, outside in v.believed.items() if outside == first.x)
        elif v.maybe(0.3):
            x = f"{x} and {self.signal()[0]}"
        v.timed.append(Timed(name, kind, x if x.count(" ") < 2 else name, lo, hi))
        return self.rule(name, f"{kind}({x}, {window})")

    def blink_rule(self, name: str) -> None:
        v = self.v
        if not v.takes_timers(2):
            return self.plain_rule(name)
        on, off = v.steps(self.random.choice([1, 1, 2])), v.steps(self.random.choice([1, 2]))
        return self.rule(name, f"blink({self.turned()[0]}, on {on}, off {off})")

    def memory_rule(self, name: str) -> None:
        """Something stored until told otherwise."""
        v = self.v
        one, other = self.turned(0.2)[0], self.turned()[0]
        retained = ", retained" if v.maybe(0.25) else ""
        if v.maybe(0.35):
            reset = f", reset {other}" if v.maybe(0.6) else ""
            text = f"impulse_relay({one}{reset}{retained})"
        else:
            if v.maybe(0.3):
                one = f"rises({one})"
            reset = f", reset {other}" if v.maybe(0.85) else ""
            wins = ", set wins" if reset and v.maybe(0.35) else ""
            text = f"bistable(set {one}{reset}{wins}{retained})"
        self.rule(name, text)

    def edge_rule(self, name: str) -> None:
        """An edge: alone it is gone when settled, so it sets or shoots something."""
        v = self.v
        word = self.random.choice(["rises", "falls"])
        edge = f"{word}({self.turned(0.15)[0]})"
        other = self.turned()[0]
        if v.maybe(0.4) and v.takes_timers():
            lo, hi, window = v.window()
            v.timed.append(Timed(name, "one_shot", name, lo, hi))
            return self.rule(name, f"one_shot({edge} and {other}, {window})")
        if v.maybe(0.2):
            return self.rule(name, f"{edge} and {other}")
        return self.rule(name, f"bistable(set {edge}, reset {other})")

    def plain_rule(self, name: str) -> None:
        self.rule(name, self.condition())

    def previous_rule(self, name: str) -> None:
        """Looks back one reaction: at another signal, or at itself."""
        v = self.v
        x, other = self.turned()[0], self.turned()[0]
        texts = {
            f"{x} or previous({name}) and {other}": 5,
            f"{x} and not previous({x})": 3,
            f"previous({x}) and {other}": 3,
        }
        if v.maybe(0.2):
            texts = {f"{x} and not previous({name})": 1}
        self.rule(name, self.random.choices(list(texts), list(texts.values()))[0])

    # ----------------------------------------------------------------------------------------------- outputs

    def add_output(self, name: str) -> None:
        v = self.v
        if v.maybe(0.35) and v.takes_timers():
            kind = self.random.choice(TIMERS)
            lo, hi, window = v.window()
            x, outside = self.turned(0.15)
            command = f"{kind}({x}, {window})"
            v.timed.append(Timed(name, kind, outside, lo, hi))
        elif v.maybe(0.6):
            command = self.turned()[0]
        else:
            command = self.condition()
        tail = ""
        if v.wires and v.maybe(0.12):
            tail = f" fed by {self.random.choice([w for w in v.wires if w != 'keep'] or ['main'])}"
        if "keep" in v.wires and name == "o0":
            tail += " feeds keep"
        elif v.maybe(0.12):
            v.add("harness", f"wire {name}_wire")
            tail += f" feeds {name}_wire"
            v.wires[f"{name}_wire"] = f"{name}_wire is live"
            if v.maybe(0.5):
                v.add("harness", f"relay k_{name} coil {name}_wire")
                v.relays.append(f"k_{name}")
        v.add("controller", f"output {name} when {command}{tail}")
        v.outputs.append(name)
        v.believed[name] = name
