"""Families of programs that grow by one number, each hard in its own way: `family("count:20")` is its text.

How long each engine takes for them: `tests.bench.engines`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

SHOTS = (2, 3, 5, 10, 30)
HOLDS = (5, 10, 60, 120, 300)
STAGES = ("2 s", "3 s", "5 s", "500 ms", "10 s")


@dataclass
class Box:
    """A box that is always powered, and contacts that it senses."""

    inputs: list[str] = field(default_factory=list)
    rules: list[str] = field(default_factory=list)

    def sensed(self, name: str) -> str:
        """A contact of the world, as the box senses it."""
        self.inputs.append(name)
        return f"s_{name}"

    def rule(self, name: str, text: str) -> str:
        self.rules.append(f"rule {name} = {text}")
        return name

    def text(self, requirement: str) -> str:
        """The program that asks this."""
        lines = ['vehicle "Family"', "", "world"]
        lines += [f"    {name} contact" for name in self.inputs]
        lines += ["", "harness", "    source plus", "    wire main from plus"]
        lines += [f"    wire w_{name} from plus when {name}" for name in self.inputs]
        lines += ["", 'controller "Box" powered by main']
        lines += [f"    sense s_{name} from w_{name} live" for name in self.inputs]
        lines += [f"    {rule}" for rule in self.rules]
        return "\n".join([*lines, "", "requirements", f"    danger asked {requirement}", ""])


def seconds(time: Fraction) -> str:
    return f"{int(time * 1000)} ms"


def counting(box: Box, total: Fraction, phase: Fraction, slack: str = "") -> tuple[str, bool]:
    """A blinker and a long hold from one contact: the edge at the hold's end, and whether the lamp is on there."""
    x = box.sensed("x")
    box.rule("lamp", f"blink({x}, on {seconds(phase)}{slack}, off {seconds(phase)}{slack})")
    box.rule("hold", f"on_delay({x}, {seconds(total + phase / 2)})")
    return "hold becomes on", int(total / phase) % 2 == 0


def count(n: int) -> str:
    """Which phase a blinker is in after n seconds: holds, and takes counting."""
    box = Box()
    end, lit = counting(box, Fraction(n), Fraction(1, 2))
    return box.text(f"never {end} and {'not lamp' if lit else 'lamp'}")


def countbad(n: int) -> str:
    """The same, the wrong way round: fails, after as many phases."""
    box = Box()
    end, lit = counting(box, Fraction(n), Fraction(1, 2))
    return box.text(f"never {end} and {'lamp' if lit else 'not lamp'}")


def mix(n: int) -> str:
    """Counting, and n off-delays beside it that all matter: phases and interleavings in one question."""
    box = Box()
    end, lit = counting(box, Fraction(10), Fraction(1, 2))
    any_of = " or ".join(_run_ons(box, n))
    return box.text(f"never {end} and {'not lamp' if lit else 'lamp'} and ({any_of})")


def _run_ons(box: Box, n: int) -> list[str]:
    times = (2, 3, 5, 10, 30, 60, 120)
    return [box.rule(f"d{k}", f"off_delay({box.sensed(f'y{k}')}, {times[k % len(times)]} s)") for k in range(n)]


def two(n: int) -> str:
    """Two blinkers of different periods from one contact: after n seconds both phases are known."""
    box = Box()
    x, total = box.sensed("x"), n + Fraction(1, 20)
    box.rule("hold", f"on_delay({x}, {seconds(total)})")
    wrong = []
    for name, phase in (("fast", Fraction(3, 10)), ("slow", Fraction(1, 2))):
        lamp = box.rule(name, f"blink({x}, on {seconds(phase)}, off {seconds(phase)})")
        wrong.append(lamp if int(total / phase) % 2 else f"not {lamp}")
    return box.text(f"never hold becomes on and ({' or '.join(wrong)})")


def par(n: int) -> str:
    """n timers on half as many contacts, none of which can meet its neighbour: each pair for a reason of its own."""
    box = Box()
    return box.text(f"never {' or '.join(_pairs(box, n // 2))}")


def _pairs(box: Box, n: int) -> list[str]:
    pairs = []
    for k in range(n):
        x = box.sensed(f"x{k}")
        shot = box.rule(f"shot{k}", f"one_shot({x}, {SHOTS[k % 5]} s)")
        hold = box.rule(f"held{k}", f"on_delay({x}, {HOLDS[k % 5]} s)")
        pairs.append(f"({shot} and {hold})")
    return pairs


def both(n: int) -> str:
    """Pairs as in `par`, or a count, under one condition."""
    box = Box()
    z, pairs = box.sensed("z"), _pairs(box, n // 2)
    end, lit = counting(box, Fraction(10), Fraction(1, 2))
    return box.text(f"never {z} and ({' or '.join(pairs)} or ({end} and {'not lamp' if lit else 'lamp'}))")


def indep(n: int) -> str:
    """n off-delays that have nothing to do with each other, against one hold of five minutes."""
    box = Box()
    any_of = " or ".join(_run_ons(box, n))
    key = box.sensed("key")
    box.rule("shot", f"one_shot({key}, 3 s)")
    box.rule("held", f"on_delay({key} and ({any_of} or {key}), 300 s)")
    return box.text(f"never shot and held and ({any_of})")


def chain(n: int) -> str:
    """n on-delays in a row against one shot as long as all of them together: hit exactly, so it holds."""
    box = Box()
    at, total = box.sensed("x"), Fraction(0)
    for k in range(n):
        stage = STAGES[k % 5]
        at = box.rule(f"a{k}", f"on_delay({at}, {stage})")
        number, unit = stage.split()
        total += Fraction(number) / (1000 if unit == "ms" else 1)
    box.rule("shot", f"one_shot(s_x, {seconds(total)})")
    return box.text(f"never {at} and shot")


FAMILIES: dict[str, Callable[[int], str]] = {
    f.__name__: f for f in (count, countbad, mix, two, par, both, indep, chain)
}


def family(name: str) -> str:
    """The program of a name like `count:20`."""
    kind, _, number = name.partition(":")
    return FAMILIES[kind](int(number))
