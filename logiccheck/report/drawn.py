"""The harness of a vehicle as a drawing: each part once, with its name and what is said of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logiccheck.base.units import show_number
from logiccheck.copper.faults.parts import is_own
from logiccheck.copper.tables.size import size_of
from logiccheck.lang.program import (
    NO_ELECTRICAL,
    Const,
    Contact,
    Electrical,
    Expr,
    Not,
    NumberSense,
    Output,
    Program,
    Relay,
    Signal,
    SignalKind,
)
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import references
from logiccheck.report import words_drawing as words
from logiccheck.report.basis import colophon, texts
from logiccheck.report.drawing import Drawing, End, Link, Node, NodeSort, Symbol
from logiccheck.report.excerpt import as_written
from logiccheck.report.plain import printable
from logiccheck.report.words_sizing import size

ON_WIRES = (SignalKind.LIVE, SignalKind.GROUNDED)


def drawn(program: Program, sources: tuple[SourceFile, ...]) -> Drawing:
    """The whole harness and the box; `sources` are the files read, the main file first."""
    draws = _Draws(program, texts(sources))
    box = program.box
    return Drawing(
        printable(program.label),
        words.SUBTITLE,
        tuple(draws.nodes()),
        tuple(draws.links()),
        tuple(draws.ends()),
        () if box is None else (printable(box.label),),
        words.KEY,
        words.LEGEND,
        (words.CAUTION, *map(printable, colophon(sources))),
    )


class _Draws:
    def __init__(self, program: Program, files: Mapping[str, str]) -> None:
        self.program, self.files = program, files
        self.wires = {wire.name: wire for wire in program.wires}

    def text(self, condition: Expr) -> str:
        """The condition as written; nothing for one that is always so. The other side of `not r` says `r`."""
        while isinstance(condition, Not) and isinstance(condition.x, Not):
            condition = condition.x.x
        return "" if condition == Const(True) else printable(as_written(condition, self.files))

    # ------------------------------------------------------------------------------------------------------- nodes

    def nodes(self) -> Iterator[Node]:
        for source in self.program.sources:
            lines = self._end(source.name, source.label, source.condition)
            yield Node(f"source {source.name}", NodeSort.SOURCE, source.name, lines)
        used = {end for contact in self.program.contacts for end in (contact.left, contact.right)}
        used |= {end for diode in self.program.diodes for end in (diode.anode, diode.cathode)}
        for ground in self.program.grounds:
            if ground.name in used or ground.condition != Const(True):
                lines = self._end(ground.name, ground.label, ground.condition)
                yield Node(f"ground {ground.name}", NodeSort.GROUND, ground.name, lines)
        for wire in self.program.wires:
            lines = (*_label(wire.name, wire.label), *_lies(wire.electrical))
            yield Node(f"wire {wire.name}", NodeSort.WIRE, wire.name, lines)

    def _end(self, name: str, label: str, condition: Expr) -> tuple[str, ...]:
        text = self.text(condition)
        return (*_label(name, label), *([words.when(text)] if text else ()))

    # ------------------------------------------------------------------------------------------------------- links

    def links(self) -> Iterator[Link]:
        fused = set()
        for number, contact in enumerate(self.program.contacts, start=1):
            wire = self.wires.get(contact.right)
            own = wire is not None and is_own(contact, wire)
            fuse = wire.electrical.fuse if own and wire is not None and self._feeds(contact) else None
            fused.add(contact.right)
            text = self.text(contact.condition)
            symbols = (*([Symbol.CONTACT] if text else ()), *([Symbol.FUSE] if fuse is not None else ()))
            below = "" if fuse is None else _amount(fuse, "A")
            yield Link(f"contact {number}", contact.left, contact.right, symbols, text, below)
        for number, diode in enumerate(self.program.diodes, start=1):
            yield Link(f"diode {number}", diode.anode, diode.cathode, (Symbol.DIODE,), "", "")

    def _feeds(self, contact: Contact) -> bool:
        """It is a connection `from`: what it leads from is no ground."""
        return contact.left not in {ground.name for ground in self.program.grounds}

    # -------------------------------------------------------------------------------------------------------- ends

    def ends(self) -> Iterator[End]:
        for load in self.program.loads:
            data = load.electrical
            fuse = (Symbol.FUSE,) if data.fuse is not None else ()
            lines = (*_label(load.name, load.label), *_said(data))
            yield End(f"load {load.name}", load.wire, False, (*fuse, Symbol.LOAD), load.name, lines)
        for relay in self.program.relays:
            yield from self._relay(relay)
        yield from self._box()

    def _relay(self, relay: Relay) -> Iterator[End]:
        leaves = [x for x in references(relay.coil) if isinstance(x, Signal) and x.kind in ON_WIRES]
        looked = list(dict.fromkeys(leaf.name for leaf in leaves))
        lines = [*_label(relay.name, relay.label), words.coil(self.text(relay.coil) or "true")]
        supply = relay.supply
        if isinstance(supply, Signal):
            lines.append(words.supply(supply.name))
        first = looked[0] if looked else ""
        yield End(f"relay {relay.name}", first, False, (Symbol.COIL,), relay.name, tuple(lines))
        for name in looked[1:]:
            yield End("", name, False, (), words.coil_of(relay.name), ())

    def _box(self) -> Iterator[End]:
        box = self.program.box
        if box is None:
            return
        yield End("box", box.feed, True, (), words.POWER, ())
        for sense in box.senses:
            if isinstance(sense, NumberSense):
                lines = (*_label(sense.name, sense.label), words.number(sense.number))
                yield End(f"sense {sense.name}", "", True, (), sense.name, lines)
            else:
                lines = (*_label(sense.name, sense.label), words.read("grounded" if sense.grounded else "live"))
                yield End(f"sense {sense.name}", sense.wire, True, (), sense.name, lines)
        for output in sorted(box.outputs, key=lambda each: (each.span.file, each.span.begin)):
            yield from self._output(output)

    def _output(self, output: Output) -> Iterator[End]:
        lines, told = _label(output.name, output.label), _said(output.electrical)
        fuse = (Symbol.FUSE,) if output.electrical.fuse is not None else ()
        part = f"output {output.name}"
        if output.feeds is None:
            beyond = (*fuse, Symbol.LOAD)
            wire = output.fed_by or ""
            yield End(part, wire, True, (), output.name, lines, beyond=beyond, beyond_lines=told)
            return
        lines = (*lines, words.OUTPUT, *told)
        yield End(part, output.feeds, True, fuse, output.name, lines, feeds=True)
        if output.fed_by is not None:
            yield End("", output.fed_by, True, (), words.feeds_output(output.name), ())


def _label(name: str, label: str) -> tuple[str, ...]:
    return (printable(label),) if label != name else ()


def _amount(value: object, unit: str) -> str:
    return f"{show_number(value)} {unit}"  # type: ignore[arg-type]


def _lies(data: Electrical) -> tuple[str, ...]:
    """How a wire lies."""
    if data.wire_size is None:
        return ()
    known = size_of(data.wire_size)
    shown = data.wire_size if known is None else size(known)
    return (shown if data.wire_length is None else f"{shown}, {_amount(data.wire_length, 'm')}",)


def _said(data: Electrical) -> tuple[str, ...]:
    """What is said of a load: current and fuse, then its wire."""
    if data == NO_ELECTRICAL:
        return ()
    amounts = [_amount(data.current, "A")] if data.current is not None else []
    amounts += [f"fuse {_amount(data.fuse, 'A')}"] if data.fuse is not None else []
    return (*([", ".join(amounts)] if amounts else ()), *_lies(data))
