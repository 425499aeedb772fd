"""Random small vehicles whose lines often say less than they seem to, for the findings about what never changes, what is
alike, and what goes on without end: as text in the language."""

from __future__ import annotations

from random import Random


class Lines:
    """One vehicle; the same for ever for a seed. `asleep`: only its box could wake its box."""

    def __init__(self, seed: int, asleep: bool) -> None:
        self.random, self.asleep = Random(seed), asleep
        self.hands = "abc"[: self.random.choice([1, 2, 2, 3])]
        self.wires = [f"w_{hand}" for hand in self.hands]
        self.signals = [f"s_{hand}" for hand in self.hands]
        self.timers = 2  # how many may still be written
        self.fast = self.maybe(0.3)  # all times are short
        self.relays: list[str] = []
        self.harness = ["source plus", *(f"wire w_{hand} from plus when {hand}" for hand in self.hands)]

    def maybe(self, chance: float) -> bool:
        return self.random.random() < chance

    def time(self) -> str:
        return f"{self.random.choice([40, 60, 80, 100, 120])} ms" if self.fast else f"{self.random.choice([1, 2])} s"

    def takes_timer(self) -> bool:
        self.timers -= 1
        return self.timers >= 0

    def text(self) -> str:
        for number in range(self.random.choice([0, 0, 1, 1, 2])):
            self.relay(f"k{number}")
        feed = self.power()
        lines = [f"sense s_{hand} from w_{hand} live{self.filter()}" for hand in self.hands]
        lines += [f"sense s_{name} from w_{name} live" for name in self.relays]
        self.signals += [f"s_{name}" for name in self.relays]
        if self.maybe(0.25):
            lines.append(f"sense again from {self.random.choice(self.wires)} live")
            self.signals.append("again")
        for number in range(self.random.choice([0, 1, 1, 2, 2])):
            lines.append(f"rule r{number} = {self.line()}")
            self.signals.append(f"r{number}")
        fed = self.maybe(0.3)
        for number in range(1, self.random.choice([2, 3, 3])):
            feeds = " feeds w_out" if fed else ""
            lines.append(f"output o{number} when {self.line()}{feeds}")
        if fed:
            self.harness.append("wire w_out")
        given = ["m changes only while o1 or o2"] if "output o2" in "\n".join(lines) and self.maybe(0.4) else []
        world = [f"{hand} contact" for hand in self.hands] + (["m contact"] if given else [])
        if self.maybe(0.6):
            world.append("at first " + ", ".join(f"{hand} is off" for hand in self.hands))
        blocks = {"world": world, "harness": self.harness, f"controller powered by {feed}": lines, "given": given}
        parts = [f"{head}\n" + "".join(f"    {line}\n" for line in body) for head, body in blocks.items() if body]
        return 'vehicle "random"\n' + "".join(parts)

    def filter(self) -> str:
        return f" filter {self.time()}" if self.maybe(0.06) and self.takes_timer() else ""

    def relay(self, name: str) -> None:
        wire, other = self.random.choice(self.wires), self.random.choice(self.wires)
        coil = self.random.choice(
            [
                f"{wire} or {name}",
                f"({wire} or {name}) and not {other}",
                f"{wire} and not {other}",
                f"{wire} and {other} or {name}",
                f"not {wire}",
                f"{wire} or not {other}",
                f"rises({wire})",
            ]
        )
        if self.maybe(0.2) and self.takes_timer():
            coil = f"off_delay({wire}, {self.time()})"
        supply = " supply plus" if self.maybe(0.3) else ""
        self.harness += [f"relay {name} coil {coil}{supply}", f"wire w_{name} from plus when {name}"]
        self.relays.append(name)
        self.wires.append(f"w_{name}")

    def power(self) -> str:
        if self.asleep:
            self.harness += ["relay hold coil o1", "wire feed from plus when hold"]
            return "feed"
        way = self.random.choices(["plus", "wire", "hold", "own"], [6, 2, 2, 0.6])[0]
        wire = self.random.choice(self.wires)
        if way == "own":
            self.harness += ["wire feed from plus when own", "relay own coil feed"]
            return "feed"
        if way == "hold" and self.takes_timer():
            self.harness += [f"relay hold coil off_delay({wire}, {self.time()})", "wire feed from plus when hold"]
            return "feed"
        return wire if way == "wire" else "plus"

    def signal(self) -> str:
        name = self.random.choice(self.signals)
        return name if self.maybe(0.65) else f"not {name}"

    def line(self) -> str:
        if self.maybe(0.25):
            return self.remembers()
        count = self.random.choice([1, 2, 2, 3, 3])
        words = [self.random.choice([" and ", " or "]) for _ in range(count - 1)]
        text = self.signal()
        for word in words:
            part = self.signal()
            if self.maybe(0.2):
                part = f"({part} {self.random.choice(['and', 'or'])} {self.signal()})"
            text += word + part
        return text

    def remembers(self) -> str:
        x, y = self.signal(), self.signal()
        kinds = ["rises", "bistable", "previous"]
        if self.takes_timer():
            kinds += ["on_delay", "off_delay", "blink", *(["blink", "blink"] if self.fast else [])]
        match kind := self.random.choice(kinds):
            case "rises":
                return f"{self.random.choice(['rises', 'falls'])}({x})" + (f" or {y}" if self.maybe(0.3) else "")
            case "bistable":
                return f"bistable(set {x}, reset {y})"
            case "previous":
                return f"previous({x}) and {y}"
            case "blink":
                return f"blink({x}, on {self.time()}, off {self.time()})"
            case _:
                return f"{kind}({x}, {self.time()})" + (f" or {y}" if self.maybe(0.3) else "")


def random_lines(seed: int, asleep: bool = False) -> str:
    """The vehicle of this seed."""
    return Lines(seed, asleep).text()
