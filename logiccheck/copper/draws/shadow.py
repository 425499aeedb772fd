"""A vehicle with a copy of its copper for a feed, in which only the feed is a source: what is live there, is fed by it.

Nothing of the vehicle names the copy, so it does all as before. An output is in the copy a contact between what feeds
it and what it feeds, closed while the output is on; a diode before it lets nothing back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from logiccheck.copper.draws.draws import IN_BOX, Draw, fed_from, is_source
from logiccheck.copper.draws.feeds import Feed, Kind, circles, feeding, own_contacts, reach
from logiccheck.lang.program import (
    And,
    Contact,
    Diode,
    Expr,
    Program,
    Relay,
    Signal,
    SignalKind,
    Wire,
)


@dataclass(slots=True)
class Shadows:
    """`program` is the vehicle of the user with all copies made so far, under names that no user can have."""

    user: Program
    program: Program = field(init=False)
    _copied: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.program = self.user

    def through(self, feed: Feed, draw: Draw) -> Expr:
        """The draw is on and takes its current from this feed; the feed can reach it."""
        assert draw.at is not None
        if draw.at == feed.name and feed.kind is Kind.SOURCE:
            return And((draw.on, Signal(SignalKind.SOURCE, feed.name)))
        if feed.name not in self._copied:
            self._copied.add(feed.name)
            self._copy(feed)
        return And((draw.on, Signal(SignalKind.LIVE, f"{draw.at} through {feed.name}")))

    def _copy(self, feed: Feed) -> None:
        own = own_contacts(self.user, feed)
        cut = feed.name if feed.kind in (Kind.BOX, Kind.OUTPUT) else ""
        if feed.kind is Kind.SOURCE:
            self._add(_Copy(self.user, "through", feed.name, frozenset({feed.name}), own, cut))
            return
        before = ""
        if feed.name in reach(self.user, feed)[1] or circles(self.user):  # it may be live from behind
            sources = frozenset(source.name for source in self.user.sources)
            copy = _Copy(self.user, "without", feed.name, sources, own, cut)
            self._add(copy)
            before = f" without {feed.name}"
        self._add(_Copy(self.user, "through", feed.name, frozenset(), own, cut))
        self._enter(feed, own, before)

    def _enter(self, feed: Feed, own: tuple[Contact, ...], before: str) -> None:
        """What lets current into the copy, just where the feed begins."""
        begin = f"{feed.name} through {feed.name}"
        if feed.kind is not Kind.WIRE:
            self._plus(diodes=[Diode(self._before(_entrance(self.user, feed.name), before), begin)])
        for number, contact in enumerate(own):
            tap = f"{number} into {feed.name}"
            diode = Diode(self._before(contact.left, before), tap)
            self._plus([Wire(tap, "")], [replace(contact, left=tap, right=begin)], [diode])

    def _before(self, end: str, before: str) -> str:
        if end == IN_BOX and not before:
            end = _entrance(self.user, IN_BOX)
        return end if is_source(self.user, end) else f"{end}{before}"

    def _add(self, copy: _Copy) -> None:
        known = {relay.name for relay in self.program.relays}
        repeaters = tuple(
            Relay(_repeater(output.name), "", Signal(SignalKind.OUTPUT, output.name), None)
            for output in feeding(self.user)
            if _repeater(output.name) not in known
        )
        self.program = replace(self.program, relays=(*self.program.relays, *repeaters))
        self._plus(list(copy.wires()), list(copy.contacts()), list(copy.diodes()))

    def _plus(
        self, wires: list[Wire] | None = None, contacts: list[Contact] | None = None, diodes: list[Diode] | None = None
    ) -> None:
        self.program = replace(
            self.program,
            wires=(*self.program.wires, *(wires or ())),
            contacts=(*self.program.contacts, *(contacts or ())),
            diodes=(*self.program.diodes, *(diodes or ())),
        )


def _repeater(output: str) -> str:
    return f"{output} on"


def _entrance(user: Program, name: str) -> str:
    """The end from which current comes into the box, or into an output."""
    assert user.box is not None
    return user.box.feed if name == IN_BOX else next(fed_from(o) for o in user.box.outputs if o.name == name)


@dataclass(frozen=True, slots=True)
class _Copy:
    """The copper of a vehicle without these contacts, and without what feeds the box or output `cut`; of its sources
    only these are kept."""

    user: Program
    how: str
    feed: str
    sources: frozenset[str]
    without: tuple[Contact, ...]
    cut: str

    def _end(self, name: str) -> str | None:
        """The same end in the copy; None where it is left out."""
        if name == IN_BOX or any(wire.name == name for wire in self.user.wires):
            return f"{name} {self.how} {self.feed}"
        return name if name in self.sources else None

    def _out(self, output: str) -> str:
        return f"{output} {self.how} {self.feed}"

    def wires(self) -> Iterator[Wire]:
        names = [wire.name for wire in self.user.wires] + ([IN_BOX] if self.user.box is not None else [])
        yield from (Wire(str(self._end(name)), "") for name in names)
        yield from (Wire(self._out(output.name), "") for output in feeding(self.user))

    def contacts(self) -> Iterator[Contact]:
        for contact in self.user.contacts:
            left, right = self._end(contact.left), self._end(contact.right)
            if left is not None and right is not None and not any(contact is each for each in self.without):
                yield replace(contact, left=left, right=right)
        for output in feeding(self.user):
            on = Signal(SignalKind.RELAY, _repeater(output.name))
            yield Contact(self._out(output.name), str(self._end(str(output.feeds))), on)

    def diodes(self) -> Iterator[Diode]:
        for diode in self.user.diodes:
            yield from self._diode(diode.anode, self._end(diode.cathode))
        if self.user.box is not None and self.cut != IN_BOX:
            yield from self._diode(self.user.box.feed, self._end(IN_BOX))
        for output in feeding(self.user):
            if output.name != self.cut:
                yield from self._diode(fed_from(output), self._out(output.name))

    def _diode(self, tail: str, head: str | None) -> Iterator[Diode]:
        begin = self._end(tail)
        if begin is not None and head is not None:
            yield Diode(begin, head)


def without_shadows(program: Program, user: Program) -> Program:
    """A part of a vehicle with copies as it is without them: a part of the vehicle of the user."""
    wires, relays = {each.name for each in user.wires}, {each.name for each in user.relays}
    ends = wires | {each.name for each in user.sources} | {each.name for each in user.grounds}
    return replace(
        program,
        wires=tuple(each for each in program.wires if each.name in wires),
        contacts=tuple(each for each in program.contacts if each.left in ends and each.right in ends),
        diodes=tuple(each for each in program.diodes if each.anode in ends and each.cathode in ends),
        relays=tuple(each for each in program.relays if each.name in relays),
        requirements=(),
    )
