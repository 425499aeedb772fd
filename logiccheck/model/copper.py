"""Which wires are live and which are grounded, once it is known which contacts are closed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from logiccheck.lang.program import Contact, Diode


def live_wires(
    origins: Iterable[str], closed: Iterable[Contact], diodes: Iterable[Diode], wires: frozenset[str]
) -> frozenset[str]:
    """What live sources and true outputs reach: both ways through closed contacts, through diodes as they point."""
    return _reached(origins, closed, ((diode.anode, diode.cathode) for diode in diodes), wires)


def grounded_wires(
    origins: Iterable[str], closed: Iterable[Contact], diodes: Iterable[Diode], wires: frozenset[str]
) -> frozenset[str]:
    """What ground reaches: both ways through closed contacts, through diodes against their direction."""
    return _reached(origins, closed, ((diode.cathode, diode.anode) for diode in diodes), wires)


def _reached(
    origins: Iterable[str], closed: Iterable[Contact], one_way: Iterable[tuple[str, str]], wires: frozenset[str]
) -> frozenset[str]:
    """The least set of wires: sources and grounds are ends, so what arrives at one goes no further."""
    onward: defaultdict[str, list[str]] = defaultdict(list)
    for contact in closed:
        onward[contact.left].append(contact.right)
        onward[contact.right].append(contact.left)
    for begin, end in one_way:
        onward[begin].append(end)
    waiting = list(origins)
    reached = wires.intersection(waiting)
    while waiting:
        news = wires.intersection(onward[waiting.pop()]) - reached
        reached |= news
        waiting.extend(news)
    return reached
