"""Where current passes: sources, wires and outputs with a fuse or a size of their own, the box; what can pass there.

This goes by the copper as it is written, whatever the conditions of its contacts: where everything that reaches a thing
comes through the feed, it takes its current from there whenever it is on.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from fractions import Fraction

from logiccheck.base.frozen import frozen
from logiccheck.base.spread import spread
from logiccheck.copper.draws.draws import IN_BOX, Draw, draws, fed_from
from logiccheck.copper.faults.parts import is_own
from logiccheck.lang.program import Contact, Electrical, Load, Output, Program, Wire


class Kind(Enum):
    SOURCE = "source"
    WIRE = "wire"
    BOX = "box"
    OUTPUT = "output"


@frozen
class Feed:
    """`name` is that of the source, wire or output, or the end inside the box. `electrical` is of a wire or output."""

    kind: Kind
    name: str
    label: str
    electrical: Electrical | None = None


@frozen
class Passing:
    """`draw` can take its current from the feed; `shared`: there are other ways to it, too."""

    draw: Draw
    shared: bool


def feeds(program: Program) -> tuple[Feed, ...]:
    """Sources, then wires that say something of themselves, then the box, then outputs that do and feed a wire: those
    through which anything can pass. The box is left out where one of these wires carries just the same."""
    found = [(feed, passing(program, feed)) for feed in _feeds(program)]
    wires = [there for feed, there in found if feed.kind is Kind.WIRE]
    return tuple(feed for feed, there in found if there and not (feed.kind is Kind.BOX and there in wires))


def _feeds(program: Program) -> Iterator[Feed]:
    for source in program.sources:
        yield Feed(Kind.SOURCE, source.name, source.label)
    for wire in program.wires:
        if _has_data(wire.electrical):
            yield Feed(Kind.WIRE, wire.name, wire.label, wire.electrical)
    if program.box is not None:
        yield Feed(Kind.BOX, IN_BOX, program.box.label)
    for output in feeding(program):
        if _has_data(output.electrical):
            yield Feed(Kind.OUTPUT, output.name, output.label, output.electrical)


def _has_data(said: Electrical) -> bool:
    return said.fuse is not None or said.wire_size is not None


def passing(program: Program, feed: Feed) -> tuple[Passing, ...]:
    """What can take its current from the feed."""
    through, otherwise = reach(program, feed)
    all_of_it = draws(program)
    return tuple(
        Passing(draw, draw.at in otherwise) for draw in all_of_it if draw.at is not None and draw.at in through
    )


def reach(program: Program, feed: Feed) -> tuple[set[str], set[str]]:
    """The ends that the feed can reach, and those that can be live in another way, too.

    Where an output may keep itself supplied, anything may be live in another way.
    """
    ways = list(onward(program, own_contacts(program, feed)))
    if feed.kind in (Kind.BOX, Kind.OUTPUT):
        ways = [way for way in ways if way[1] != feed.name]
    through = spread({feed.name}, ways)
    if circles(program):
        return through, through
    others = {source.name for source in program.sources} - {feed.name}
    return through, spread(others, ways)


def guard(program: Program, item: Load | Wire) -> Feed | None:
    """The smallest fuse through which all comes that can flow to a load or a wire; None where there is none."""
    end = item.wire if isinstance(item, Load) else item.name
    fused = [feed for feed in _feeds(program) if feed.electrical is not None and feed.electrical.fuse is not None]
    found: list[tuple[Fraction, Feed]] = []
    for feed in fused:
        through, otherwise = reach(program, feed)
        if feed.name != item.name and end in through and end not in otherwise and feed.electrical is not None:
            found.append((feed.electrical.fuse or Fraction(0), feed))
    return min(found, key=lambda each: each[0], default=(None, None))[1]


def own_contacts(program: Program, feed: Feed) -> tuple[Contact, ...]:
    """The connections on a wire's own line, but for those to ground: there its fuse sits."""
    if feed.kind is not Kind.WIRE:
        return ()
    grounds = {ground.name for ground in program.grounds}
    wire = next(each for each in program.wires if each.name == feed.name)
    return tuple(each for each in program.contacts if is_own(each, wire) and each.left not in grounds)


def onward(program: Program, without: tuple[Contact, ...] = ()) -> Iterator[tuple[str, str]]:
    """Each way on which what is live can pass from end to end; an output leads from what feeds it to what it feeds."""
    wires = {wire.name for wire in program.wires}
    ends = wires | {source.name for source in program.sources}
    for contact in program.contacts:
        if not any(contact is each for each in without) and contact.left in ends and contact.right in ends:
            yield from ((a, b) for a, b in ((contact.left, contact.right), (contact.right, contact.left)) if b in wires)
    for diode in program.diodes:
        if diode.cathode in wires and diode.anode in ends:
            yield diode.anode, diode.cathode
    if program.box is not None:
        yield program.box.feed, IN_BOX
    for output in feeding(program):
        yield fed_from(output), output.name
        yield output.name, str(output.feeds)


def feeding(program: Program) -> tuple[Output, ...]:
    """The outputs that feed a wire."""
    return tuple(output for output in program.box.outputs if output.feeds is not None) if program.box else ()


def circles(program: Program) -> bool:
    """Whether what an output feeds can lead to what it takes its current from."""
    ways = list(onward(program))
    return any(fed_from(output) in spread({str(output.feeds)}, ways) for output in feeding(program))
