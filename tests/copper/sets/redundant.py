"""Random vehicles that a few broken wires together, and seldom one alone, lead astray; as text in the language."""

from __future__ import annotations

from random import Random


def redundant(seed: int) -> str:
    """Wires with one or two ways to be live, a relay, and a box whose output needs several of them lost, in some order
    or for some time."""
    random = Random(seed)
    wires = [f"w{number}" for number in range(random.choice([3, 4, 5]))]
    lines = ['vehicle "Redundant"', "world", "    key off | on", "    lever contact", "harness"]
    lines += ["    source plus", "    source aux" + random.choice(["", "", " when key is on"]), "    source feed"]
    for number, wire in enumerate(wires):
        ways = [_way(random, ["plus", "aux", *wires[:number]])]
        if random.random() < 0.3:
            ways.append(_way(random, ["plus", "aux"]))
        lines.append(f"    wire {wire} {', '.join(ways)}")
    if random.random() < 0.4:
        coil = random.choice([wires[0], f"not {wires[0]}", f"off_delay({wires[1]}, 2 s)"])
        lines += [f"    relay spare coil {coil}", "    wire k from plus when spare"]
        wires.append("k")
    lines += ["    wire box from feed", 'controller "Box" powered by box']
    lines += [f"    sense s{number} from {wire} live" for number, wire in enumerate(wires)]
    names = [f"s{number}" for number in range(len(wires))]
    lines += [f"    rule lost = {_lost(random, names, 2)}"]
    lines += [f"    output top when lost and {_lost(random, names, 2)}", "requirements"]
    return "\n".join([*lines, f"    danger  goes_wrong  {_required(random)}", ""])


def _way(random: Random, ends: list[str]) -> str:
    return f"from {random.choice(ends)}" + random.choice([*[""] * 8, " when lever", " when key is on"])


def _lost(random: Random, names: list[str], depth: int) -> str:
    """A condition that holds when some of these are off."""
    if depth == 0 or random.random() < 0.15:
        off = f"not {random.choice(names)}"
        return random.choice([off, off, off, off, f"on_delay({off}, {random.choice([1, 2])} s)"])
    one, other = _lost(random, names, depth - 1), _lost(random, names, depth - 1)
    kind = random.random()
    if kind < 0.5:
        return f"({one} and {other})"
    if kind < 0.75:
        return f"({one} or {other})"
    if kind < 0.9:
        return f"(bistable(set {one}, reset {random.choice(names)}) and {other})"
    return f"(one_shot({one}, 1 s) and {other})"


def _required(random: Random) -> str:
    return random.choice(
        [
            "never top",
            "never top while key is on",
            "never top even for an instant",
            "never top for longer than 2 s",
            "top calls for key is on no later than 1 s, excused by lever",
            "top calls for lever lasting 1 s",
            "top only after lever",
            "top only after lever has lasted 1 s since key is on",
            "top waits for lever",
        ]
    )
