"""What is given about a random small vehicle, and what is asked of it: every form, with times that matter."""

from __future__ import annotations

from tests.oracle.vehicle import Timed, Vehicle


class Asked:
    """Adds assumptions and requirements to a vehicle whose parts are there."""

    def __init__(self, vehicle: Vehicle) -> None:
        self.v = vehicle
        self.random = vehicle.random
        self.count = 0

    # ------------------------------------------------------------------------------------------------- signals

    def outside(self) -> str:
        """Something that a requirement may name."""
        v = self.v
        pools = [v.facts, v.outputs * 2, list(v.believed.values()), list(v.believed), v.relays]
        pools.append([f"{wire} is live" for wire in v.wires] + [f"{wire} is grounded" for wire in v.ground_wires])
        pools.append([timed.name for timed in v.timed] * 2)
        if v.lines["controller"]:
            pools.append(["powered"])
        weights = [4, 4, 2, 2, 1, 1, 4, 0.3]
        usable = [(pool, weight) for pool, weight in zip(pools, weights, strict=False) if pool]
        return self.random.choice(self.random.choices([p for p, _ in usable], [w for _, w in usable])[0])

    def truth(self, chance: float = 0.3) -> str:
        """A fact or its opposite, in brackets where that is needed."""
        return self.v.turned(self.outside(), chance)

    def plain(self) -> str:
        """A plain condition over one or two signals."""
        if self.v.maybe(0.65):
            return self.truth()
        return f"{self.inner()} {self.random.choice(['and', 'and', 'or'])} {self.inner()}"

    def inner(self) -> str:
        text = self.truth()
        return f"({text})" if " " in text else text

    def rich(self) -> str:
        """A condition that may remember, or be an edge."""
        v = self.v
        way = self.random.random()
        if way < 0.1 and v.takes_timers():
            kind = self.random.choice(["on_delay", "off_delay", "one_shot"])
            v.marks.add(f"asked: {kind}")
            return f"{kind}({self.truth()}, {v.window()[2]})"
        if way < 0.16:
            v.marks.add("asked: bistable")
            return f"bistable(set {self.truth(0.1)}, reset {self.truth(0.1)})"
        if way < 0.24:
            return self.edge()
        if way < 0.27:
            v.marks.add("asked: impulse_relay")
            return f"impulse_relay({self.truth(0.1)})"
        if way < 0.3:
            v.marks.add("asked: previous")
            return f"previous({self.truth(0.1)})"
        if way < 0.31 and v.takes_timers(2):
            v.marks.add("asked: blink")
            return f"blink({self.truth(0.1)}, on {v.steps(1)}, off {v.steps(1)})"
        return self.plain()

    def edge(self) -> str:
        v = self.v
        if v.outputs and v.maybe(0.4):
            v.marks.add("asked: becomes")
            return f"{self.random.choice(v.outputs)} becomes {self.random.choice(['on', 'off'])}"
        word = self.random.choice(["rises", "falls"])
        v.marks.add(f"asked: {word}")
        return f"{word}({self.truth(0.1)})"

    # --------------------------------------------------------------------------------------------------- given

    def add_given(self) -> None:
        """Sometimes one assumption, sometimes two."""
        for _ in range(self.random.choices([0, 1, 2], [11, 7, 2])[0]):
            self.given()

    def given(self) -> None:
        v = self.v
        ways = [self.excluded, self.at_least, self.at_most, self.changes, self.after, self.after]
        if v.numbers:
            ways += [self.without_jumps] * 2
        self.random.choice(ways)()

    def excluded(self) -> None:
        facts = [self.world_fact(), self.world_fact()]
        if self.v.maybe(0.25):
            self.v.add("given", f"always {facts[0]} or {facts[1]}", "given: always")
        else:
            self.v.add("given", f"never {facts[0]} and {facts[1]}", "given: never")

    def world_fact(self) -> str:
        facts = [fact for fact in self.v.facts if fact.split()[0] in self.v.variables]
        return self.v.turned(self.random.choice(facts), 0.25)

    def at_least(self) -> None:
        time = self.v.steps(self.random.choice([1, 2, 2]))
        self.v.add("given", f"{self.world_fact()} lasts at least {time}", "given: at least")

    def at_most(self) -> None:
        time = self.v.steps(self.random.choice([1, 2, 2]))
        self.v.add("given", f"{self.world_fact()} lasts at most {time}", "given: at most")

    def changes(self) -> None:
        name, y = self.random.choice(list(self.v.variables)), self.plain()
        if self.v.maybe(0.2) and self.v.takes_timers():
            y = f"{self.random.choice(['on_delay', 'off_delay'])}({self.truth()}, {self.v.window()[2]})"
            self.v.marks.add("given: timer")
        self.v.add("given", f"{name} changes only while {y}", "given: changes only while")

    def after(self) -> None:
        time = self.v.steps(self.random.choice([1, 2, 3]))
        self.v.add("given", f"{self.world_fact()} after {self.plain()} has lasted {time}", "given: after")

    def without_jumps(self) -> None:
        name = self.random.choice(list(self.v.numbers))
        self.v.add("given", f"{name} without jumps", "given: without jumps")

    # -------------------------------------------------------------------------------------------- requirements

    def add_requirements(self) -> None:
        for _ in range(self.random.choice([3, 4])):
            v = self.v
            if v.timed and v.maybe(0.6):
                self.about(self.random.choice(v.timed))
            else:
                self.any_form()

    def require(self, text: str, mark: str) -> None:
        guard = self.random.choice(["danger", "damage", "function"])
        self.v.add("requirements", f"{guard} q{self.count} {text}", f"asked: {mark}")
        self.count += 1

    def near(self, *counts: int) -> str:
        """A time of one of these step counts, or one step beside it."""
        count = self.random.choice(counts) + self.random.choice([-1, 0, 0, 0, 1])
        return self.v.steps(max(1, count))

    def about(self, timed: Timed) -> None:
        """What ought to hold of a timer, if the time is right and nothing comes between."""
        q, x, lo, hi = timed.name, timed.x, timed.lo, timed.hi
        x = f"({x})" if " " in x else x
        time = self.near(lo, hi)
        general = [
            (f"never {q} for longer than {time}", "longer than"),
            (f"never {q} while {self.truth()} for longer than {time}", "longer than"),
            (f"{q} calls for not {q} no later than {time}", "no later than"),
            (f"{self.edge()} calls for {q} no later than {time}", "no later than"),
            (f"{q} waits for {self.truth()} after {self.truth()}", "waits for"),
            (f"possible {q} and {self.inner()}", "possible"),
        ]
        special = {
            "on_delay": [
                (f"{q} only after {x} has lasted {time}", "only after"),
                (f"never {x} and not {q} for longer than {time}", "longer than"),
                (f"{x} calls for {q} no later than {time}, excused by not {x}", "no later than"),
            ],
            "off_delay": [
                (f"never {q} while not {x} for longer than {time}", "longer than"),
                (f"{x} calls for {q} lasting {time}", "lasting"),
                (f"falls({x}) calls for {q} lasting {time}, excused by {self.truth()}", "lasting"),
                (f"not {x} calls for not {q} no later than {time}, excused by {x}", "no later than"),
            ],
            "one_shot": [
                (f"rises({x}) calls for {q} lasting {time}", "lasting"),
                (f"{q} only after {x} since {self.truth()}", "only after"),
                (f"{q} becomes on calls for {q} lasting {time}", "lasting"),
            ],
        }[timed.kind]
        pool = special * 2 + general
        others = [other for other in self.v.timed if other.name != q]
        if others:
            pool += self.pairs(timed, self.random.choice(others)) * 2
        text, mark = self.random.choice(pool)
        if "falls(" in text or "rises(" in text:
            self.v.marks.add("asked: edge")
        self.require(text, mark)

    def pairs(self, one: Timed, other: Timed) -> list[tuple[str, str]]:
        """Two timers against each other."""
        time = self.near(one.lo, other.hi, abs(one.lo - other.hi), one.hi + other.lo)
        return [
            (f"never {one.name} and not {other.name}", "never"),
            (f"never {one.name} while {other.name}", "never while"),
            (f"never {one.name} and {other.name} for longer than {time}", "longer than"),
            (f"{one.name} calls for {other.name} no later than {time}", "no later than"),
            (f"{one.name} only after {other.name}", "only after"),
            (f"never falls({one.name}) and rises({other.name})", "never"),
        ]

    def any_form(self) -> None:
        time = self.v.steps(self.random.choice([1, 1, 2, 2, 3]))
        excuse = f", excused by {self.truth()}" if self.v.maybe(0.35) else ""
        since = f" since {self.truth()}" if self.v.maybe(0.3) else ""
        forms = [
            (f"never {self.rich()} and {self.inner()}", "never", 3),
            (f"never {self.rich()} while {self.truth()}", "never while", 3),
            (f"always {self.rich()} while {self.truth()}", "always", 2),
            (f"never {self.inner()} and {self.inner()} even for an instant", "instant", 2),
            (f"always {self.truth()} while {self.truth()} even for an instant", "instant", 1),
            (f"never {self.plain()} for longer than {time}", "longer than", 2),
            (f"never {self.plain()} while {self.truth()} for longer than {time}", "longer than", 1),
            (f"{self.rich()} calls for {self.truth()} no later than {time}{excuse}", "no later than", 3),
            (f"{self.rich()} calls for {self.truth()} lasting {time}{excuse}", "lasting", 3),
            (f"{self.truth()} only after {self.rich()}{since}", "only after", 2),
            (f"{self.truth()} only after {self.truth()} has lasted {time}{since}", "only after", 2),
            (f"{self.truth()} waits for {self.truth()}", "waits for", 2),
            (f"{self.truth()} waits for {self.truth()} after {self.rich()}", "waits for", 2),
            (f"possible {self.rich()} and {self.inner()}", "possible", 2),
        ]
        text, mark, _ = self.random.choices(forms, [weight for _, _, weight in forms])[0]
        if excuse and excuse in text:
            self.v.marks.add("asked: excused by")
        if since and since in text:
            self.v.marks.add("asked: since")
        if "has lasted" in text:
            self.v.marks.add("asked: has lasted")
        self.require(text, mark)
