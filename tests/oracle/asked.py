"""What is given about a random small vehicle, and what is asked of it: every form, with times that matter."""

from __future__ import annotations

from collections.abc import Callable

from tests.oracle.vehicle import Timed, Vehicle


class Asked:
    """Adds assumptions and requirements to a vehicle whose parts are there."""

    def __init__(self, vehicle: Vehicle) -> None:
        self.v = vehicle
        self.random = vehicle.random
        self.count = 0
        self.used: set[str] = set()  # what the line in the making names already: a line that repeats itself is dull
        vehicle.timers += self.random.choice([1, 1, 2])

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
        for _ in range(6):
            text = self.random.choice(self.random.choices([p for p, _ in usable], [w for _, w in usable])[0])
            if text.split()[0] not in self.used:
                break
        self.used.add(text.split()[0])
        return text

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
        if way < 0.2 and v.takes_timers():
            kind = self.random.choice(["on_delay", "off_delay", "one_shot"])
            return f"{kind}({self.truth()}, {v.window()[2]})"
        if way < 0.31:
            return f"bistable(set {self.truth(0.1)}, reset {self.truth(0.1)})"
        if way < 0.48:
            return self.edge()
        if way < 0.56:
            return f"impulse_relay({self.truth(0.1)})"
        if way < 0.62:
            return f"previous({self.truth(0.1)})"
        if way < 0.7 and v.takes_timers(2):
            return f"blink({self.truth(0.1)}, on {v.steps(1)}, off {v.steps(1)})"
        return self.plain()

    def edge(self) -> str:
        v = self.v
        if v.outputs and v.maybe(0.4):
            return f"{self.random.choice(v.outputs)} becomes {self.random.choice(['on', 'off'])}"
        word = self.random.choice(["rises", "falls"])
        return f"{word}({self.truth(0.1)})"

    # --------------------------------------------------------------------------------------------------- given

    def add_given(self) -> None:
        """Sometimes one assumption, sometimes two."""
        for _ in range(self.random.choices([0, 1, 2], [8, 9, 4])[0]):
            self.given()

    def given(self) -> None:
        v = self.v
        self.used.clear()
        ways = [self.excluded] * 4 + [self.at_least, self.at_most, self.bounded]
        ways += [self.changes] * 2 + [self.after] * 2
        if v.numbers:
            ways = ways + [self.without_jumps] * 9
        self.random.choice(ways)()

    def excluded(self) -> None:
        facts = [self.world_fact(), self.world_fact()]
        if self.v.maybe(0.45):
            self.v.add("given", f"always {facts[0]} or {facts[1]}")
        else:
            self.v.add("given", f"never {facts[0]} and {facts[1]}")

    def world_fact(self) -> str:
        facts = [fact for fact in self.v.facts if fact.split()[0] in self.v.variables]
        return self.v.turned(self.random.choice(facts), 0.25)

    def at_least(self) -> None:
        time = self.v.steps(self.random.choice([1, 2, 2]))
        self.v.add("given", f"{self.world_fact()} lasts at least {time}")

    def at_most(self) -> None:
        time = self.v.steps(self.random.choice([1, 2, 2]))
        self.v.add("given", f"{self.world_fact()} lasts at most {time}")

    def bounded(self) -> None:
        """Both at once; where the shortest is longer than the longest, time stops."""
        fact = self.world_fact()
        least, most = self.random.choice([(1, 2), (2, 2), (2, 1), (1, 1)])
        self.v.add("given", f"{fact} lasts at least {self.v.steps(least)}")
        self.v.add("given", f"{fact} lasts at most {self.v.steps(most)}")

    def changes(self) -> None:
        name, y = self.random.choice(list(self.v.variables)), self.plain()
        if self.v.maybe(0.4) and self.v.takes_timers():
            y = f"{self.random.choice(['on_delay', 'off_delay'])}({self.truth()}, {self.v.window()[2]})"
        self.v.add("given", f"{name} changes only while {y}")

    def after(self) -> None:
        time = self.v.steps(self.random.choice([1, 2, 3]))
        self.v.add("given", f"{self.world_fact()} after {self.plain()} has lasted {time}")

    def without_jumps(self) -> None:
        name = self.random.choice(list(self.v.numbers))
        self.v.add("given", f"{name} without jumps")

    # -------------------------------------------------------------------------------------------- requirements

    def add_requirements(self) -> None:
        for _ in range(self.random.choice([3, 4])):
            v = self.v
            self.used.clear()
            if v.timed and v.maybe(0.6):
                self.about(self.random.choice(v.timed))
            else:
                self.any_form()

    def require(self, text: str) -> None:
        guard = self.random.choice(["danger", "damage", "function"])
        self.v.add("requirements", f"{guard} q{self.count} {text}")
        self.count += 1

    def near(self, *counts: int) -> str:
        """A time of one of these step counts, or one step beside it."""
        count = self.random.choice(counts) + self.random.choice([-1, 0, 0, 0, 1])
        return self.v.steps(max(1, count))

    def about(self, timed: Timed) -> None:
        """What ought to hold of a timer, if the time is right and nothing comes between."""
        special = {"on_delay": self.about_on_delay, "off_delay": self.about_off_delay, "one_shot": self.about_one_shot}
        others = [other for other in self.v.timed if other.name != timed.name]
        self.used |= {timed.name, *timed.x.split()}
        x = f"({timed.x})" if " " in timed.x else timed.x
        way = self.random.random()
        if others and way < 0.4:
            forms = self.about_two(timed, self.random.choice(others))
        elif way < 0.75:
            forms = special[timed.kind](timed.name, x, self.near(timed.lo, timed.hi))
        else:
            forms = self.about_any(timed.name, self.near(timed.lo, timed.hi))
        self.require(self.random.choice(forms))

    def about_any(self, q: str, time: str) -> list[str]:
        return [
            f"never {q} for longer than {time}",
            f"never {q} while {self.truth()} for longer than {time}",
            f"{q} calls for not {q} no later than {time}",
            f"{self.edge()} calls for {q} no later than {time}",
            f"{q} waits for {self.truth()} after {self.truth()}",
            f"possible {q} and {self.inner()}",
        ]

    def about_on_delay(self, q: str, x: str, time: str) -> list[str]:
        return [
            f"{q} only after {x} has lasted {time}",
            f"never {x} and not {q} for longer than {time}",
            f"{x} calls for {q} no later than {time}, excused by not {x}",
        ]

    def about_off_delay(self, q: str, x: str, time: str) -> list[str]:
        return [
            f"never {q} while not {x} for longer than {time}",
            f"{x} calls for {q} lasting {time}",
            f"falls({x}) calls for {q} lasting {time}, excused by {self.truth()}",
            f"not {x} calls for not {q} no later than {time}, excused by {x}",
        ]

    def about_one_shot(self, q: str, x: str, time: str) -> list[str]:
        return [
            f"rises({x}) calls for {q} lasting {time}",
            f"{q} only after {x} since {self.truth()}",
            f"rises({q}) calls for {q} lasting {time}",
        ]

    def about_two(self, one: Timed, other: Timed) -> list[str]:
        """Two timers against each other, with the times that their sums and differences make."""
        time = self.near(one.lo, other.hi, abs(one.lo - other.hi), one.hi + other.lo)
        p, q = one.name, other.name
        return [
            f"never {p} and not {q}",
            f"never {p} while {q}",
            f"never falls({p}) and {q} and {self.inner()}",
            f"never falls({p}) and not {q}",
            f"falls({p}) calls for {self.truth()} lasting {time}",
            f"never {p} and not {q} for longer than {time}",
            f"never {p} and {q} for longer than {time}",
            f"{p} calls for {q} no later than {time}",
            f"falls({p}) calls for {q} no later than {time}",
            f"{p} only after {q}",
            f"{p} only after {q} has lasted {time}",
            f"never falls({p}) and rises({q})",
            f"never rises({p}) and rises({q})",
        ]

    def any_form(self) -> None:
        """One of all forms, over anything."""
        time = self.v.steps(self.random.choice([1, 1, 2, 2, 3]))
        excuse = f", excused by {self.truth()}" if self.v.maybe(0.35) else ""
        since = f" since {self.truth()}" if self.v.maybe(0.3) else ""
        forms: list[tuple[Callable[[], str], int]] = [
            (lambda: f"never {self.rich()} and {self.inner()}", 3),
            (lambda: f"never {self.rich()} while {self.truth()}", 3),
            (lambda: f"always {self.rich()} while {self.truth()}", 2),
            (lambda: f"never {self.inner()} and {self.inner()} even for an instant", 2),
            (lambda: f"always {self.truth()} while {self.truth()} even for an instant", 1),
            (lambda: f"never {self.plain()} for longer than {time}", 2),
            (lambda: f"never {self.plain()} while {self.truth()} for longer than {time}", 1),
            (lambda: f"{self.rich()} calls for {self.truth()} no later than {time}{excuse}", 3),
            (lambda: f"{self.rich()} calls for {self.truth()} lasting {time}{excuse}", 3),
            (lambda: f"{self.truth()} only after {self.rich()}{since}", 2),
            (lambda: f"{self.truth()} only after {self.truth()} has lasted {time}{since}", 2),
            (lambda: f"{self.truth()} waits for {self.truth()}", 2),
            (lambda: f"{self.truth()} waits for {self.truth()} after {self.rich()}", 2),
            (lambda: f"possible {self.rich()} and {self.inner()}", 2),
        ]
        self.require(self.random.choices([f for f, _ in forms], [w for _, w in forms])[0]())
