"""What can matter to some expressions of a program, found by names alone, and the smaller program made of it.

A *node* is a pair (kind, name): a world variable, a wire as live or as grounded, a relay, a sense, and so on. A node
needs the nodes its item names; a wire needs what can arrive at it through closed contacts, and through diodes in their
direction (for grounded: against it). What is given joins in when it names a node that is already needed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from logiccheck.lang.program import (
    AfterLasting,
    And,
    AtMostOne,
    Bistable,
    Blink,
    Box,
    ChangesOnlyWhile,
    Compare,
    Edge,
    Excluded,
    Expr,
    Given,
    Impulse,
    LastsAtLeast,
    LastsAtMost,
    Not,
    NumberSense,
    Or,
    Output,
    Position,
    Previous,
    Program,
    Requirement,
    Rule,
    Signal,
    Timer,
    Xor,
)

Node = tuple[str, str]


def parts(expr: Expr) -> tuple[Expr, ...]:
    """The expressions directly inside `expr`."""
    match expr:
        case Not(x=x) | Timer(x=x) | Blink(x=x) | Edge(x=x) | Previous(x=x):
            return (x,)
        case And(parts=xs) | Or(parts=xs) | AtMostOne(parts=xs):
            return xs
        case Xor(left=left, right=right):
            return (left, right)
        case Bistable(set=one, reset=other) | Impulse(x=one, reset=other):
            return (one, other)
        case _:
            return ()


def walk(expr: Expr) -> Iterator[Expr]:
    """`expr` and all expressions inside it."""
    yield expr
    for part in parts(expr):
        yield from walk(part)


def named(expr: Expr) -> set[Node]:
    """The nodes that `expr` names itself."""
    found: set[Node] = set()
    for part in walk(expr):
        match part:
            case Signal(kind=kind, name=name):
                found.add((kind.value, name))
            case Position(name=name):
                found.add(("world", name))
            case Compare(name=name, sense=sense):
                found.add(("sense" if sense else "world", name))
            case _:
                pass
    return found


def given_exprs(given: Given) -> tuple[Expr, ...]:
    """The expressions of an assumption."""
    match given:
        case Excluded(p=p) | LastsAtLeast(p=p) | LastsAtMost(p=p):
            return (p,)
        case ChangesOnlyWhile(y=y):
            return (y,)
        case AfterLasting(c=c, p=p):
            return (c, p)


def given_names(given: Given) -> set[Node]:
    """The nodes that an assumption names itself."""
    found = {("world", given.name)} if isinstance(given, ChangesOnlyWhile) else set()
    return found.union(*(named(expr) for expr in given_exprs(given)))


class Slicer:
    """Finds, for one program, what a set of nodes needs; see the module for the words."""

    def __init__(self, program: Program) -> None:
        self.program = program
        self.ends = {x.name for x in program.sources} | {x.name for x in program.grounds}
        self.feeders: dict[str, list[str]] = {}
        for output in program.box.outputs if program.box else ():
            if output.feeds:
                self.feeders.setdefault(output.feeds, []).append(output.name)
        self.known: dict[Node, set[Node]] = {}

    # ------------------------------------------------------------------------------------------------- wires

    def links(self, grounded: bool) -> list[tuple[str, str, Node]]:
        """Each way (from, to, node) that live (or grounded) can take: out of a source or ground, never into one."""
        ways: list[tuple[str, str, Node]] = []
        for index, contact in enumerate(self.program.contacts):
            node = ("contact", str(index))
            ways += [(contact.left, contact.right, node), (contact.right, contact.left, node)]
        for index, diode in enumerate(self.program.diodes):
            way = (diode.cathode, diode.anode) if grounded else (diode.anode, diode.cathode)
            ways.append((*way, ("diode", str(index))))
        return [way for way in ways if way[1] not in self.ends]

    def arriving(self, wire: str, grounded: bool) -> set[Node]:
        """The contacts, diodes, and sources and outputs (or grounds) by which `wire` can come to be live (grounded)."""
        ways = self.links(grounded)
        if grounded:
            origins = {x.name for x in self.program.grounds}
        else:
            origins = {x.name for x in self.program.sources} | set(self.feeders)
        forward = spread(origins, [(a, b) for a, b, _ in ways])
        backward = spread({wire}, [(b, a) for a, b, _ in ways])
        between = forward & backward
        found: set[Node] = {node for a, b, node in ways if a in between and b in between}
        found |= {("wire", name) for name in between - self.ends}
        for name in between & origins:
            if grounded:
                found.add(("ground", name))
            elif name in self.ends:
                found.add(("source", name))
            found |= {("output", output) for output in self.feeders.get(name, ()) if not grounded}
        return found

    # ------------------------------------------------------------------------------------------------- nodes

    def needs(self, node: Node) -> set[Node]:
        """The nodes that `node` needs directly."""
        if node not in self.known:
            self.known[node] = self.find_needs(node)
        return self.known[node]

    def find_needs(self, node: Node) -> set[Node]:
        program, (kind, name) = self.program, node
        match kind:
            case "source":
                return named(next(x for x in program.sources if x.name == name).condition)
            case "ground":
                return named(next(x for x in program.grounds if x.name == name).condition)
            case "contact":
                return named(program.contacts[int(name)].condition)
            case "live" | "grounded":
                return self.arriving(name, kind == "grounded")
            case "relay":
                relay = next(x for x in program.relays if x.name == name)
                return named(relay.coil) | (named(relay.supply) if relay.supply else set())
            case "world" | "diode" | "wire":
                return set()
            case _:
                return self.box_needs(kind, name)

    def box_needs(self, kind: str, name: str) -> set[Node]:
        box = self.program.box
        assert box is not None
        if kind == "powered":
            return {("source" if box.feed in self.ends else "live", box.feed)}
        powered: Node = ("powered", "powered")
        if kind == "sense":
            sense = next(x for x in box.senses if x.name == name)
            if isinstance(sense, NumberSense):
                return {powered, ("world", sense.number)}
            read = named(sense.filter.x) if sense.filter else set()
            return {powered, ("grounded" if sense.grounded else "live", sense.wire)} | read
        item = next(x for x in box.rules if x.name == name)
        if kind in ("rule", "command"):
            return {powered} | named(item.expr if isinstance(item, Rule) else item.command)
        assert kind == "output"
        assert isinstance(item, Output)
        return {powered, ("command", name)} | ({("live", item.fed_by)} if item.fed_by else set())

    def close(self, nodes: Iterable[Node]) -> set[Node]:
        """`nodes` and all that they need, by way of others too."""
        found: set[Node] = set()
        todo = list(nodes)
        while todo:
            node = todo.pop()
            if node not in found:
                found.add(node)
                todo += self.needs(node)
        return found

    # ------------------------------------------------------------------------------------------------ slices

    def slice(self, nodes: Iterable[Node], requirements: tuple[Requirement, ...] = ()) -> Program:
        """The program that holds what `nodes` need and what is given about that, and of requirements only these."""
        found = self.close(nodes)
        while True:
            more = set(found)
            for names in [given_names(x) for x in self.program.givens] + [named(x) for x in self.program.at_first]:
                if names & more:
                    more |= self.close(names)
            if more == found:
                return replace(self.cut(found), requirements=requirements)
            found = more

    def cut(self, nodes: set[Node]) -> Program:
        """The program without the items that are not among `nodes`."""
        program = self.program
        return replace(
            program,
            switches=tuple(x for x in program.switches if ("world", x.name) in nodes),
            numbers=tuple(x for x in program.numbers if ("world", x.name) in nodes),
            at_first=tuple(x for x in program.at_first if named(x) & nodes),
            sources=tuple(x for x in program.sources if ("source", x.name) in nodes),
            grounds=tuple(x for x in program.grounds if ("ground", x.name) in nodes),
            wires=tuple(x for x in program.wires if {(k, x.name) for k in ("live", "grounded", "wire")} & nodes),
            contacts=tuple(x for i, x in enumerate(program.contacts) if ("contact", str(i)) in nodes),
            diodes=tuple(x for i, x in enumerate(program.diodes) if ("diode", str(i)) in nodes),
            relays=tuple(x for x in program.relays if ("relay", x.name) in nodes),
            loads=(),
            box=self.cut_box(nodes),
            givens=tuple(x for x in program.givens if given_names(x) & nodes),
            scenarios=(),
        )

    def cut_output(self, output: Output, nodes: set[Node]) -> Output:
        """The output without the wires that are not among `nodes`."""
        whole = ("output", output.name) in nodes
        feeds = output.feeds if whole and {("live", output.feeds), ("wire", output.feeds)} & nodes else None
        return replace(output, fed_by=output.fed_by if whole else None, feeds=feeds)

    def cut_box(self, nodes: set[Node]) -> Box | None:
        """The box with the senses, rules and outputs that are among `nodes`; no box when none needs its power."""
        box = self.program.box
        if box is None or ("powered", "powered") not in nodes:
            return None
        senses = tuple(x for x in box.senses if ("sense", x.name) in nodes)
        kept = [x for x in box.rules if {("rule", x.name), ("command", x.name)} & nodes]
        rules = tuple(x if isinstance(x, Rule) else self.cut_output(x, nodes) for x in kept)
        return replace(box, senses=senses, rules=rules)


def spread(start: set[str], ways: list[tuple[str, str]]) -> set[str]:
    """All names reached from `start` along the ways (from, to)."""
    found = set(start)
    todo = list(start)
    while todo:
        name = todo.pop()
        for a, b in ways:
            if a == name and b not in found:
                found.add(b)
                todo.append(b)
    return found
