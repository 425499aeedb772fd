"""Random rule sets without memory, and beside the text what each signal is as a z3 expression of the world.

Whatever the world may be is reached, so the greatest current is the optimum over the world.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from random import Random

import z3


@dataclass
class RuleSet:
    """`on`: by what draws, when, and how much; `through`: what draws by way of the fused wire; `given`: what is."""

    random: Random
    world: list[str] = field(default_factory=list)
    harness: list[str] = field(default_factory=list)
    controller: list[str] = field(default_factory=list)
    lines: list[str] = field(default_factory=list)
    facts: dict[str, z3.BoolRef] = field(default_factory=dict)
    on: list[tuple[z3.BoolRef, Fraction]] = field(default_factory=list)
    through: list[tuple[z3.BoolRef, Fraction]] = field(default_factory=list)
    given: list[z3.BoolRef] = field(default_factory=list)

    @property
    def text(self) -> str:
        parts = [
            'vehicle "random"',
            "world\n" + _block(self.world),
            "harness\n" + _block(self.harness),
            'controller "Box" powered by feed\n' + _block(self.controller),
        ]
        if self.lines:
            parts.append("given\n" + _block(self.lines))
        return "\n".join(parts) + "\n"

    def most(self, parts: list[tuple[z3.BoolRef, Fraction]]) -> Fraction:
        """The greatest sum, by z3, which counts in tenths of an ampere."""
        search = z3.Optimize()
        search.add(*self.given)
        total = search.maximize(z3.Sum([z3.If(on, int(amperes * 10), 0) for on, amperes in parts]))
        assert search.check() == z3.sat
        return Fraction(total.value().as_long(), 10)

    def amperes(self) -> Fraction:
        return Fraction(self.random.randint(1, 400), 10)

    def expr(self, names: dict[str, z3.BoolRef], depth: int = 2) -> tuple[str, z3.BoolRef]:
        """A random condition over these."""
        kind = self.random.choice(["name", "not", "and", "and", "or", "xor"]) if depth else "name"
        if kind == "name":
            name = self.random.choice(sorted(names))
            return name, names[name]
        one, x = self.expr(names, depth - 1)
        if kind == "not":
            return f"not ({one})", z3.Not(x)
        other, y = self.expr(names, depth - 1)
        joined = {"and": z3.And(x, y), "or": z3.Or(x, y), "xor": z3.Xor(x, y)}[kind]
        return f"({one}) {kind} ({other})", joined


def _block(lines: list[str]) -> str:
    return "\n".join(f"    {line}" for line in lines)


def rule_set(seed: int) -> RuleSet:
    """The rule set of this seed."""
    made = RuleSet(Random(seed))
    _world(made)
    live = _copper(made)
    _box(made, live)
    return made


def _world(made: RuleSet) -> None:
    random = made.random
    for number in range(random.randint(3, 7)):
        name = f"c{number}"
        made.world.append(f"{name} contact")
        made.facts[name] = z3.Bool(name)
    key = z3.Int("key")
    made.world.append("key off | run | start")
    made.given.append(z3.And(key >= 0, key <= 2))
    made.facts |= {"key is run": key == 1, "key is start": key == 2}
    for _ in range(random.choice([0, 1, 2])):
        one, other = random.sample(sorted(made.facts), 2)
        made.lines.append(f"never {one} and {other}")
        made.given.append(z3.Not(z3.And(made.facts[one], made.facts[other])))


def _copper(made: RuleSet) -> dict[str, z3.BoolRef]:
    """Wires from plus, some of them by way of a fused wire, and what hangs on them."""
    random = made.random
    made.harness.append("source plus")
    text, main = made.expr(made.facts)
    made.harness.append(f"wire main from plus when {text} or c0")
    main = z3.Or(main, made.facts["c0"])
    live: dict[str, z3.BoolRef] = {}
    fused: dict[str, bool] = {}
    for number in range(random.randint(2, 5)):
        name, (text, closed) = f"w{number}", made.expr(made.facts)
        fused[name] = random.random() < 0.5
        made.harness.append(f"wire {name} from {'main' if fused[name] else 'plus'} when {text}")
        live[name] = z3.And(main, closed) if fused[name] else closed
    if random.random() < 0.5:
        text, coil = made.expr(made.facts)
        made.harness += [f"relay k coil {text}", "wire wk from plus when k"]
        live["wk"], fused["wk"] = coil, False
    for name in live:
        amperes = made.amperes()
        made.harness.append(f"load on_{name} on {name} {float(amperes):g} A")
        made.on.append((live[name], amperes))
        if fused[name]:
            made.through.append((live[name], amperes))
    text, closed = made.expr(made.facts)
    made.harness.append(f"wire feed from plus when {text} or c1")
    live["feed"] = z3.Or(closed, made.facts["c1"])
    return live


def _box(made: RuleSet, live: dict[str, z3.BoolRef]) -> None:
    powered = live["feed"]
    known: dict[str, z3.BoolRef] = {}
    for name, is_live in live.items():
        if name != "feed":
            made.controller.append(f"sense s_{name} from {name} live")
            known[f"s_{name}"] = z3.And(powered, is_live)
    for number in range(made.random.randint(3, 8)):
        text, says = made.expr(known, 3)
        amperes = made.amperes()
        made.controller += [f"output o{number} when {text}", f"    load {float(amperes):g} A"]
        made.on.append((z3.And(powered, says), amperes))
        known[f"o{number}"] = z3.And(powered, says)
