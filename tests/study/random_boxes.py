"""Random small vehicles whose boxes fall asleep, hold themselves awake, and remember a lot: as text in the language."""

from __future__ import annotations

from random import Random

NAMES = "abc"


class Boxes:
    """One vehicle; the same for ever for a seed."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.hands = NAMES[: self.random.choice([1, 2, 2, 2, 3])]
        self.signals = [f"s_{hand}" for hand in self.hands]
        self.timers = 4  # how many may still be written
        self.feeds: list[str] = []

    def maybe(self, chance: float) -> bool:
        return self.random.random() < chance

    def time(self) -> str:
        lo = self.random.choice([1, 1, 2, 2, 3, 4])
        return f"{lo} s" if self.maybe(0.8) else f"from {lo} s to {lo + 1} s"

    def takes_timer(self) -> bool:
        self.timers -= 1
        return self.timers >= 0

    def text(self) -> str:
        harness = ["source plus", *(f"wire w_{hand} from plus when {hand}" for hand in self.hands)]
        feed = self.power(harness)
        lines = [f"sense s_{hand} from w_{hand} live{self.filter()}" for hand in self.hands]
        for number in range(self.random.choice([1, 2, 2, 3])):
            lines.append(f"rule r{number} = {self.remembers()}")
            self.signals.append(f"r{number}")
        for number in range(1, 1 + len(self.feeds) if self.feeds else 2):
            feeds = f" feeds {self.feeds[number - 1]}" if self.feeds else ""
            lines.append(f"output o{number} when {self.command()}{feeds}")
        given = [f"never {self.hands[0]} and {self.hands[1]}"] if len(self.hands) > 1 and self.maybe(0.2) else []
        world = [f"{hand} contact" for hand in self.hands]
        if self.maybe(0.7):
            world.append("at first " + ", ".join(f"{hand} is off" for hand in self.hands))
        blocks = {"world": world, "harness": harness, f"controller powered by {feed}": lines, "given": given}
        parts = [f"{head}\n" + "".join(f"    {line}\n" for line in body) for head, body in blocks.items() if body]
        return 'vehicle "random"\n' + "".join(parts)

    def filter(self) -> str:
        return f" filter {self.time()}" if self.maybe(0.08) and self.takes_timer() else ""

    def power(self, harness: list[str]) -> str:
        way = self.random.choices(["plus", "wire", "hold", "self", "relay"], [2, 4, 6, 3, 2])[0]
        hand = self.random.choice(self.hands)
        wake = f"w_{hand}"
        if len(self.hands) > 1 and self.maybe(0.4) and way in ("hold", "self"):
            harness += ["wire wake", *(f"diode w_{each} -> wake" for each in self.hands[:2])]
            wake = "wake"
        match way:
            case "plus":
                return "plus"
            case "wire":
                return f"w_{hand}{' after 1 s' if self.maybe(0.2) and self.takes_timer() else ''}"
            case "relay":
                harness += [f"relay hold coil bistable(set {wake}, reset {self.random.choice(self.hands)} is off)"]
            case "hold":
                self.timers -= 1
                harness.append(f"relay hold coil off_delay({wake}, {self.time()}) supply plus")
            case _:
                self.feeds = ["keep"]
                harness += ["wire keep", "wire both", f"diode {wake} -> both", "diode keep -> both"]
                if self.maybe(0.5) or not self.takes_timer():
                    return "both"
                harness.append(f"relay hold coil off_delay(both, {self.time()}) supply plus")
        harness.append("wire feed from plus when hold")
        return "feed"

    def signal(self, fresh: float = 0.4) -> str:
        name = self.signals[-1] if self.maybe(fresh) else self.random.choice(self.signals)
        return name if self.maybe(0.7) else f"not {name}"

    def condition(self) -> str:
        if self.maybe(0.6):
            return self.signal()
        word = self.random.choice(["and", "and", "or"])
        return f"{self.signal()} {word} {self.signal()}"

    def command(self) -> str:
        return self.remembers() if self.maybe(0.4) else self.condition()

    def remembers(self) -> str:
        x, y = self.condition(), self.condition()
        kinds = ["bistable", "bistable", "impulse", "edge", "edge", "edge", "rises"]
        if self.takes_timer():
            kinds = ["on_delay", "off_delay", "off_delay", "one_shot", "blink", "blink", *kinds[:6]]
        else:
            self.timers = 0
        kind = self.random.choice(kinds)
        retained = ", retained" if self.maybe(0.3) else ""
        match kind:
            case "bistable":
                reset = f", reset {y}" if self.maybe(0.7) else ""
                wins = ", set wins" if reset and self.maybe(0.3) else ""
                return f"bistable(set {x}{reset}{wins}{retained})"
            case "impulse":
                reset = f", reset {y}" if self.maybe(0.4) else ""
                return f"impulse_relay({x}{reset}{retained})"
            case "edge" | "rises":
                word = "rises" if kind == "rises" or self.maybe(0.2) else "falls"
                return f"bistable(set {word}({x}), reset {y})"
            case "blink":
                return f"blink({self.short(x)}, on {self.time()}, off {self.time()})"
            case _:
                return f"{kind}({self.short(x)}, {self.time()})"

    def short(self, x: str) -> str:
        """Sometimes, of what a timer looks at, a pulse of it."""
        if self.maybe(0.25) and self.takes_timer():
            return f"one_shot({x}, {self.time()})"
        return x


def random_box(seed: int) -> str:
    """The vehicle of this seed."""
    return Boxes(seed).text()
