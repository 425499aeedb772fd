"""To which questions an edit can matter, by names alone: all others have the answer that they had."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping

from logiccheck.lang.matters import WORLD, Item, Names
from logiccheck.lang.program import Contact, Diode, Output, Program, Requirement, SignalKind
from logiccheck.lang.walk import form_expressions

_BOXED = (SignalKind.RULE, SignalKind.COMMAND, SignalKind.OUTPUT)
_WIRED = (SignalKind.LIVE, SignalKind.GROUNDED)


class Touched:
    """Asks it of one vehicle, whatever the edit is; what can matter to a question is worked out once."""

    def __init__(self, program: Program) -> None:
        self.program = program
        self._names = Names(program)
        self._cones: dict[str, frozenset[Item]] = {}
        self._asked = {each.name: each for each in program.requirements}

    def those(self, edited: Program, asked: Iterable[Requirement]) -> list[Requirement]:
        """The requirements whose answer can be another one on the edited vehicle than on this one.

        Where nothing that can matter here is written otherwise there, nothing else can matter there either.
        """
        changed = _changed(self.program, edited)
        return [each for each in asked if changed is None or self._is_other(each) or self._cone(each) & changed]

    def _is_other(self, requirement: Requirement) -> bool:
        """It asks something else than the one of its name did."""
        known = self._asked.setdefault(requirement.name, requirement)
        return known.form != requirement.form

    def _cone(self, requirement: Requirement) -> frozenset[Item]:
        if requirement.name not in self._cones:
            self._cones[requirement.name] = self._names.matter(form_expressions(requirement.form)).items
        return self._cones[requirement.name]


def _changed(before: Program, after: Program) -> frozenset[Item] | None:
    """What is made otherwise; None: everything can be, as what is given is."""
    if (before.givens, before.at_first, before.switches) != (after.givens, after.at_first, after.switches):
        return None
    if (before.box is None) != (after.box is None):
        return None
    found = {(kind, name) for kind, name in _differing(_items(before), _items(after))}
    ways = _ways(before) ^ _ways(after)
    joined = _joined((before, after), {end for way in ways for end in way[:2]})
    return frozenset(found | {(kind.value, name) for kind in _WIRED for name in joined})


def _items(program: Program) -> Iterator[tuple[Item, Hashable]]:
    yield from (((WORLD, each.name), each) for each in program.numbers)
    yield from (((SignalKind.SOURCE.value, each.name), each) for each in program.sources)
    yield from (((SignalKind.GROUND.value, each.name), each) for each in program.grounds)
    yield from (((SignalKind.RELAY.value, each.name), each) for each in program.relays)
    if (box := program.box) is not None:
        yield (SignalKind.POWERED.value, "powered"), (box.feed, box.startup)
        yield from (((SignalKind.SENSE.value, each.name), each) for each in box.senses)
        yield from (((kind.value, each.name), each) for each in box.rules for kind in _BOXED)


def _differing(before: Iterable[tuple[Item, Hashable]], after: Iterable[tuple[Item, Hashable]]) -> Iterator[Item]:
    old: Mapping[Item, Hashable] = dict(before)
    new: Mapping[Item, Hashable] = dict(after)
    yield from (item for item in {*old, *new} if old.get(item) != new.get(item))


def _ways(program: Program) -> set[tuple[str, str, Contact | Diode | Output]]:
    """All that is written of how current goes from one end to another; what an output feeds begins and ends there."""
    found: set[tuple[str, str, Contact | Diode | Output]] = {(c.left, c.right, c) for c in program.contacts}
    found |= {(diode.anode, diode.cathode, diode) for diode in program.diodes}
    outputs = program.box.outputs if program.box else ()
    return found | {(each.feeds, each.feeds, each) for each in outputs if each.feeds is not None}


def _joined(programs: Iterable[Program], start: set[str]) -> set[str]:
    """All that hangs together with these ends in any of the vehicles, through no source and no ground."""
    beside: dict[str, set[str]] = {}
    for program in programs:
        ends = {*(source.name for source in program.sources), *(ground.name for ground in program.grounds)}
        for left, right, _ in _ways(program):
            for here, there in ((left, right), (right, left)):
                beside.setdefault(here, set()).update({there} - ends)
    found, todo = set(start), list(start)
    while todo:
        news = beside.get(todo.pop(), set()) - found
        found |= news
        todo += news
    return found
