"""Random programs about time alone: few contacts, many timers from one trigger, questions that hang on exact sums."""

from __future__ import annotations

from tests.oracle.vehicle import Vehicle


class Clockwork:
    """A box that is always powered, with timers in chains or side by side, and what is asked of how they end."""

    def __init__(self, vehicle: Vehicle) -> None:
        self.v = vehicle
        self.random = vehicle.random
        self.names: list[str] = []  # of all stages
        self.ends: list[str] = []  # of the last stages
        self.loose = vehicle.random.choice([0.0, 0.4, 0.7])  # how many of the durations have a tolerance

    def build(self) -> None:
        """World, harness, box and requirements."""
        v = self.v
        for name in "ab":
            v.add("world", f"{name} contact")
            v.add("harness", f"wire w_{name} from plus when {name}")
            v.add("controller", f"sense s_{name} from w_{name} live")
        v.add("world", "at first a is off" + (", b is off" if v.maybe(0.6) else ""))
        v.lines["harness"][:0] = ["source plus", "wire main from plus"]
        v.feed = "main"
        self.random.choice([self.add_chains, self.add_snapshot])()
        v.add("controller", f"output o0 when {self.ends[-1]}")
        for index in range(self.random.choice([3, 4])):
            guard = self.random.choice(["danger", "damage", "function"])
            v.add("requirements", f"{guard} q{index} {self.question()}")

    def window(self) -> str:
        v = self.v
        count = self.random.choice([1, 2, 2, 3, 3, 4])
        if not v.maybe(self.loose):
            return v.steps(count)
        return f"from {v.steps(count)} to {v.steps(count + self.random.choice([1, 1, 2]))}"

    def stage(self, text: str) -> str:
        name = f"r{len(self.names)}"
        self.v.add("controller", f"rule {name} = {text}")
        self.names.append(name)
        return name

    # -------------------------------------------------------------------------------------------------- shapes

    def add_chains(self) -> None:
        """Two or three chains from one trigger; each stage comes some time after the one before."""
        timers = self.random.choice([3, 4, 4, 5])
        chains = 2 if timers < 5 else self.random.choice([2, 3])
        ends = ["s_a"] * chains
        for index in range(timers):
            chain = index if index < chains else self.random.randrange(chains)
            ends[chain] = self.later(ends[chain])
        self.ends = ends

    def later(self, before: str) -> str:
        """A stage that comes a time after `before` and goes with it (or stays until the trigger goes)."""
        kind = self.random.choice(["on_delay", "on_delay", "on_delay", "off_delay", "one_shot"])
        if kind == "on_delay":
            text = f"on_delay({before}, {self.window()})"
        elif kind == "off_delay":
            text = f"{before} and not {self.stage(f'off_delay(not {before}, {self.window()})')}"
        else:
            shot = self.stage(f"one_shot({before}, {self.window()})")
            text = f"{before} and not {shot}"
            if self.v.maybe(0.3):
                text = f"bistable(set {text}, reset not s_a)"
        if self.v.maybe(0.15):
            text = f"{text} and s_b"
        return self.stage(text)

    def add_snapshot(self) -> None:
        """Timers side by side from one trigger, a gate that remembers which came first, and a late one by hand."""
        first = []
        for _ in range(self.random.choice([2, 2, 3])):
            kind = self.random.choice(["on_delay", "on_delay", "off_delay", "one_shot"])
            first.append(self.stage(f"{kind}({self.random.choice(['s_a', 's_a', 's_a', 'not s_a'])}, {self.window()})"))
        gate = self.random.choice(first)
        texts = [f"s_a and {gate}", f"bistable(set {gate}, reset not s_a)", f"s_a and not {gate}"]
        opened = self.stage(self.random.choice(texts))
        late = self.stage(f"{self.random.choice(['on_delay', 'one_shot'])}({opened} and s_b, {self.window()})")
        self.ends = [late, *first]
        if self.v.maybe(0.4):
            self.ends.append(self.stage(f"{self.random.choice(['on_delay', 'off_delay'])}({late}, {self.window()})"))

    # ------------------------------------------------------------------------------------------------ questions

    def question(self) -> str:
        """Two stages against each other, mostly last ones."""
        pool = self.ends if self.v.maybe(0.7) and len(self.ends) > 1 else self.names
        p, q = self.random.sample(pool, 2)
        time = self.v.steps(self.random.randint(1, 6))
        hand = self.random.choice(["s_b", "not s_b", "s_a", "a", "b"])
        forms = [
            (f"never {p} and not {q}", 5),
            (f"never {p} and {q}", 2),
            (f"never {p} and not {q} and {hand}", 2),
            (f"never rises({p}) and rises({q})", 2),
            (f"never rises({p}) and falls({q})", 2),
            (f"{p} only after {q}", 2),
            (f"{p} only after {self.random.choice(['s_a', q])} has lasted {time}", 3),
            (f"never {p} and not {q} for longer than {time}", 3),
            (f"never s_a and not {p} for longer than {time}", 2),
            (f"{p} calls for {q} no later than {time}, excused by not s_a", 3),
            (f"rises({p}) calls for {p} lasting {time}, excused by not s_a", 1),
            (f"{q} waits for {p} after rises(a)", 1),
            (f"possible {p} and not {q}", 1),
        ]
        return self.random.choices([form for form, _ in forms], [weight for _, weight in forms])[0]
