"""Random vehicles in which what is given demands much: small worlds, a relay or two, and several lines of what is given
that force, forbid and allow each other."""

from __future__ import annotations

from random import Random


class Demands:
    """One vehicle; the single requirement names all of the world, so that everything given belongs to it."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.world: list[str] = []
        self.facts: list[str] = []
        self.harness = ["source plus"]
        self.things: list[str] = []  # what else p of `after` and y of `changes only while` may name

    def text(self) -> str:
        self.add_world()
        for number in range(self.random.choice([0, 0, 1, 1, 2])):
            self.add_relay(number)
        given = [self.line() for _ in range(self.random.choice([2, 3, 3, 4, 5]))]
        named = " or ".join(f"({fact} and not {fact})" for fact in self.facts)
        lines = ['vehicle "Demands"', "world", *self.world, "harness", *self.harness]
        lines += ["given", *dict.fromkeys([*self.steps, *given]), "requirements", f"never {named}"]
        heads = {"vehicle", "world", "harness", "given", "requirements"}
        text = "\n".join(line if line.split()[0] in heads else f"    {line}" for line in lines)
        return text.replace("    never (", "    danger q never (") + "\n"

    def add_world(self) -> None:
        random, self.steps = self.random, list[str]()
        for name in "xyz"[: random.choice([2, 2, 3])]:
            self.world.append(f"{name} contact")
            self.facts.append(name)
        if random.random() < 0.35:
            self.world.append(f"s a | b | c{random.choice(['', ' one by one'])}")
            self.facts += [f"s is {position}" for position in "abc"]
        if random.random() < 0.25:
            self.world.append("n 0 .. 9 V")
            self.facts += ["n above 2 V", "n below 5 V"]
            if random.random() < 0.6:
                self.steps = ["n without jumps"]

    def add_relay(self, number: int) -> None:
        random, coil = self.random, self.fact()
        time = random.choice(["1 s", "2 s", "from 1 s to 2 s", "from 1 s to 3 s"])
        shape = random.choice(["{x}", "on_delay({x}, {t})", "off_delay({x}, {t})", "one_shot({x}, {t})"])
        self.harness.append(f"relay k{number} coil {shape.format(x=coil, t=time)}")
        self.things += [f"k{number}", f"not k{number}"]

    def fact(self) -> str:
        fact = self.random.choice(self.facts)
        return f"not {fact}" if self.random.random() < 0.35 else fact

    def any(self) -> str:
        return self.random.choice(self.things) if self.things and self.random.random() < 0.6 else self.fact()

    def line(self) -> str:
        random = self.random
        time = f"{random.choice([1, 2, 2, 3])} s"
        name = random.choice([line.split()[0] for line in self.world])
        ways = [
            f"never {self.fact()} and {self.fact()}",
            f"always {self.fact()} or {self.fact()}",
            f"{self.fact()} lasts at least {time}",
            f"{self.fact()} lasts at most {time}",
            f"({self.fact()} or {self.fact()}) lasts at most {time}",
            f"({self.fact()} and {self.fact()}) lasts at least {time}",
            f"{name} changes only while {self.any()}",
            f"{name} changes only while on_delay({self.any()}, {time})",
            f"{self.fact()} after {self.any()} has lasted {time}",
            f"{self.fact()} after {self.any()} has lasted {time}",
            f"({self.fact()} or {self.fact()}) after ({self.any()} and {self.any()}) has lasted {time}",
            f"{self.fact()} lasts at most {time}",
        ]
        return random.choice(ways)


def demanding_vehicle(seed: int) -> str:
    """The vehicle of this seed, as text."""
    return Demands(Random(seed)).text()
