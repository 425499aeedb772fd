"""Which wires are live and which are grounded, as circuits: the least solutions over contacts and diodes.

Live reaches a wire through closed contacts both ways and through diodes from anode to cathode; grounded through closed
contacts and through diodes from cathode to anode. Sources and grounds are ends: what arrives at one goes no further.
The solution is found per strongly connected group of wires: inside a group of m wires, m rounds reach the fixed point,
because a shortest way visits no wire twice.
"""

from __future__ import annotations

from collections import defaultdict

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program
from logiccheck.model.circuit.aig import FALSE, Aig, Lit


@frozen
class Way:
    """Current state passes from `tail` to `head` while `open_` is true."""

    tail: str
    head: str
    when: Lit


def spread(aig: Aig, wires: list[str], ways: list[Way], seeds: dict[str, Lit]) -> dict[str, Lit]:
    """For each wire whether it is reached from a seed; `seeds` gives for ends and wires what is true of them by
    itself."""
    into: dict[str, list[Way]] = defaultdict(list)
    for way in ways:
        into[way.head].append(way)
    ends = {name: lit for name, lit in seeds.items() if name not in set(wires)}
    value: dict[str, Lit] = dict(ends)
    for group in groups(wires, ways):
        inside = set(group)
        base = {
            w: aig.any_of(
                [seeds.get(w, FALSE)]
                + [
                    aig.both(way.when, value[way.tail])
                    for way in into[w]
                    if way.tail not in inside and way.tail in value
                ]
            )
            for w in group
        }
        for w in group:
            value[w] = base[w]
        for _ in range(len(group) - 1):
            now = {w: value[w] for w in group}
            for w in group:
                near = [way for way in into[w] if way.tail in inside and way.tail != w]
                arrivals = [aig.both(way.when, now[way.tail]) for way in near]
                value[w] = aig.any_of([base[w], *arrivals])
    return {w: value[w] for w in wires}


def groups(wires: list[str], ways: list[Way]) -> list[list[str]]:
    """Strongly connected groups of wires, each after the groups that can reach it.

    Reference: R. Tarjan, "Depth-first search and linear graph algorithms", SIAM J. Comput. 1(2), 1972.
    """
    known = set(wires)
    back: dict[str, list[str]] = defaultdict(list)
    for way in ways:
        if way.tail in known and way.head in known:
            back[way.head].append(way.tail)
    index: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []
    found: list[list[str]] = []

    def visit(w: str) -> None:
        index[w] = low[w] = len(index)
        stack.append(w)
        for v in back[w]:
            if v not in index:
                visit(v)
            if v in stack:
                low[w] = min(low[w], low[v])
        if low[w] == index[w]:
            cut = stack.index(w)
            found.append(stack[cut:])
            del stack[cut:]

    for w in wires:
        if w not in index:
            visit(w)
    return found


def contact_ways(program: Program, closed: dict[int, Lit], forward: bool) -> list[Way]:
    """The ways of all contacts and diodes; `closed[i]` is the condition of contact i; `forward` for live, else
    grounded."""
    ways = []
    for i, contact in enumerate(program.contacts):
        ways.append(Way(contact.left, contact.right, closed[i]))
        ways.append(Way(contact.right, contact.left, closed[i]))
    for diode in program.diodes:
        tail, head = (diode.anode, diode.cathode) if forward else (diode.cathode, diode.anode)
        ways.append(Way(tail, head, FALSE ^ 1))
    return ways
