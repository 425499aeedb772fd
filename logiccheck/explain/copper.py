"""Edits of the harness and of how the box hangs in it: diodes, feeds and supplies, what a sense reads."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from logiccheck.base.span import Span
from logiccheck.explain.blame import Why
from logiccheck.explain.edit import Change, Edit, EditKind
from logiccheck.explain.site import Site
from logiccheck.explain.spots import spots
from logiccheck.explain.terms import Place, inserted, inverted
from logiccheck.lang.program import Const, Contact, Or, Output, Program, Relay, Signal, SignalKind, Wire, WireSense, Xor
from logiccheck.lang.walk import references


def copper_edits(site: Site) -> Iterator[Edit]:
    """All edits of these kinds in the lines that are to blame."""
    yield from _senses(site)
    yield from _contacts(site)
    yield from _joined(site)
    yield from _diodes(site)
    yield from _feeds(site)
    yield from _no_longer_feeding(site)
    yield from _box_feed(site)


# --------------------------------------------------------------------------------------------------------- inverted


def _senses(site: Site) -> Iterator[Edit]:
    """A sense that takes live for grounded, or the other way."""
    terms = {leaf.name for line in site.lines for term in line.terms for leaf in references(term)}
    named = terms | {line.name for line in site.lines}
    for sense in site.program.box.senses if site.program.box else ():
        if isinstance(sense, WireSense) and sense.name in named and site.is_written(sense.span):
            other = "live" if sense.grounded else "grounded"
            yield from reworded(site, sense.span, rf"\bfrom\s+{re.escape(sense.wire)}\s+(live|grounded)\b", other)
            yield from _elsewhere(site, sense)


def _elsewhere(site: Site, sense: WireSense) -> Iterator[Edit]:
    """A sense that reads another wire, on which it would read the opposite where the story ends."""
    kind = SignalKind.GROUNDED if sense.grounded else SignalKind.LIVE
    now = site.end.holds(Signal(SignalKind.SENSE, sense.name))
    for wire in site.program.wires:
        if site.end.holds(Signal(kind, wire.name)) != now and site.is_related(Signal(kind, wire.name)):
            yield from reworded(site, sense.span, r"\bfrom\s+(\w+)", wire.name, EditKind.READ)


def reworded(site: Site, span: Span, pattern: str, new: str, kind: EditKind = EditKind.INVERT) -> Iterator[Edit]:
    """The first group of the pattern, at its first place in the span, replaced."""
    found = re.search(pattern, site.text(span))
    if found is not None:
        yield Edit(kind, (Change(Span(span.file, span.begin + found.start(1), span.begin + found.end(1)), new),))


def _contacts(site: Site) -> Iterator[Edit]:
    """A contact that opens where it closed."""
    for contact in _blamed(site, site.program.contacts):
        span = contact.condition.span
        if not isinstance(contact.condition, Const) and site.is_written(span):
            want = not site.end.holds(contact.condition)
            for spot in spots(contact.condition, want, site.end):
                yield from inverted(site, Place(spot, None))


def _joined(site: Site) -> Iterator[Edit]:
    """A connection from elsewhere; and one more relay contact in it."""
    hanging = {joint.span for line in site.lines for joint in line.joints}
    for contact in site.program.contacts:
        if contact.span in hanging and site.is_written(contact.span):
            yield from _from_elsewhere(site, contact)
    for contact in _blamed(site, site.program.contacts):
        on = site.end.holds(contact.condition)
        if not site.is_written(contact.span):
            continue
        yield from _from_elsewhere(site, contact)
        for relay in site.program.relays if on else ():
            closed = site.end.holds(Signal(SignalKind.RELAY, relay.name))
            yield from _one_more(site, contact, f"not {relay.name}" if closed else relay.name)


def _from_elsewhere(site: Site, contact: Contact) -> Iterator[Edit]:
    for name in _ends(site.program, sources=True):
        other = site.end.live(name) != site.end.live(contact.left)
        if name != contact.right and other and _is_related(site, name):
            yield from reworded(site, contact.span, r"^from\s+(\w+)", name, EditKind.FEED)


def _one_more(site: Site, contact: Contact, text: str) -> Iterator[Edit]:
    condition = contact.condition
    if site.is_written(condition.span):
        span = site.outer(condition.span)
        loose = isinstance(condition, Or | Xor) and span == condition.span
        yield Edit(EditKind.GUARD, inserted(span, "(" if loose else "", f"{')' if loose else ''} and {text}"))
    elif isinstance(condition, Const) and not site.text(contact.span).startswith("otherwise"):
        yield Edit(EditKind.GUARD, inserted(contact.span, "", f" when {text}"))


def _marked(site: Site) -> set[Span]:
    """What is marked in the lines of the wires that are to blame."""
    return {span for line in site.lines if line.why is Why.WIRE for span in line.marked}


def _blamed(site: Site, contacts: Iterable[Contact]) -> list[Contact]:
    """Those that let through, or keep off, what they should not."""
    marked = _marked(site)
    return [contact for contact in contacts if {contact.span, contact.condition.span} & marked]


# ----------------------------------------------------------------------------------------------------------- diodes


def _diodes(site: Site) -> Iterator[Edit]:
    """A diode instead of a connection that lets through both ways; a diode turned round."""
    for contact in _blamed(site, site.program.contacts):
        if isinstance(contact.condition, Const) and site.is_written(contact.span):
            for anode, cathode in ((contact.left, contact.right), (contact.right, contact.left)):
                yield from _diode(site, contact, f"diode {anode} -> {cathode}")
    marked = _marked(site)
    for diode in (diode for diode in site.program.diodes if diode.span in marked and site.is_written(diode.span)):
        turned = f"diode {diode.cathode} -> {diode.anode}"
        yield Edit(EditKind.DIODE, (Change(diode.span, turned),))


def _diode(site: Site, contact: Contact, line: str) -> Iterator[Edit]:
    if site.text(contact.span).startswith("join"):
        yield Edit(EditKind.DIODE, (Change(contact.span, line),))
        return
    wire = next((w for w in site.program.wires if _holds(w, contact.span)), None)
    alone = wire is not None and sum(_holds(wire, other.span) for other in site.program.contacts) == 1
    if wire is None or not alone:
        return
    text, file = site.files[wire.span.file], wire.span.file
    begin = text.rfind("\n", 0, wire.span.begin) + 1
    bare = Change(Span(file, len(text[: contact.span.begin].rstrip()), contact.span.end), "")
    own = Change(Span(file, begin, begin), f"{text[begin : wire.span.begin]}{line}\n")
    yield Edit(EditKind.DIODE, (own, bare))


def _holds(wire: Wire, span: Span) -> bool:
    return wire.span.file == span.file and wire.span.begin <= span.begin and span.end <= wire.span.end


# ------------------------------------------------------------------------------------------------ feeds and supplies


def _feeds(site: Site) -> Iterator[Edit]:
    """An output fed, or a relay supplied, by another wire or source: one that would turn it where the story ends."""
    for line in site.lines:
        item = line.item
        if not isinstance(item, Output | Relay) or not site.is_written(item.span):
            continue
        for name in _ends(site.program, sources=isinstance(item, Relay)):
            if site.end.live(name) != line.on and _is_related(site, name):
                yield from _fed_by(site, item, name)


def _fed_by(site: Site, item: Output | Relay, name: str) -> Iterator[Edit]:
    word = r"\bfed\s+by\s+" if isinstance(item, Output) else r"\bsupply\s+"
    behind = item.command if isinstance(item, Output) else item.coil
    if not site.is_written(behind.span):
        return
    end = site.outer(behind.span).end
    rest = Span(behind.span.file, end, item.span.end)
    present = item.fed_by if isinstance(item, Output) else item.supply
    if present is not None:
        yield from reworded(site, rest, word + r"(\w+)", name, EditKind.FEED)
    else:
        new = f" fed by {name}" if isinstance(item, Output) else f" supply {name}"
        yield Edit(EditKind.FEED, (Change(Span(rest.file, end, end), new),))


def _no_longer_feeding(site: Site) -> Iterator[Edit]:
    """An output that makes a wire live, no longer joined to it."""
    marked = _marked(site)
    for output in site.program.box.outputs if site.program.box else ():
        if output.span in marked and output.feeds is not None and site.is_written(output.span):
            found = re.search(rf"\s+feeds\s+{re.escape(output.feeds)}\b", site.text(output.span))
            if found is not None:
                begin = output.span.begin
                gone = Span(output.span.file, begin + found.start(), begin + found.end())
                yield Edit(EditKind.DROP, (Change(gone, ""),))


def _is_related(site: Site, name: str) -> bool:
    """Whether the wire can have to do with what the requirement names; a source can always."""
    return all(wire.name != name for wire in site.program.wires) or site.is_related(Signal(SignalKind.LIVE, name))


def _box_feed(site: Site) -> Iterator[Edit]:
    """A box without power, fed from what is live."""
    box = site.program.box
    if box is None or not any(line.why is Why.NO_POWER for line in site.lines):
        return
    for name in _ends(site.program, sources=True):
        if site.end.live(name) and name != box.feed:
            yield from reworded(site, box.span, r"\bby\s+(\w+)", name, EditKind.FEED)


def _ends(program: Program, sources: bool) -> list[str]:
    names = [source.name for source in program.sources] if sources else []
    return [*names, *(wire.name for wire in program.wires)]
