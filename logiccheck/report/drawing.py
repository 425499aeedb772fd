"""A harness to be drawn: what there is, what joins what, and the texts beside it; where each stands is not yet said."""

from __future__ import annotations

from enum import Enum

from logiccheck.base.frozen import frozen


class NodeSort(Enum):
    SOURCE = "source"
    GROUND = "ground"
    WIRE = "wire"


class Symbol(Enum):
    """A part as IEC 60617 draws it."""

    CONTACT = "contact"  # make contact
    DIODE = "diode"
    FUSE = "fuse"
    LOAD = "load"
    COIL = "coil"  # operating device of a relay


@frozen
class Node:
    """Where parts meet: a wire, or a source or ground at which all begins. `part` says what it is: "wire wake"."""

    part: str
    sort: NodeSort
    name: str
    lines: tuple[str, ...]


@frozen
class Link:
    """What joins two nodes, by name; a diode lets pass from `tail` to `head`. `above` and `below` stand at it."""

    part: str
    tail: str
    head: str
    symbols: tuple[Symbol, ...]
    above: str
    below: str


@frozen
class End:
    """What hangs on the node `wire`, or on none (empty), as the last thing on the right: in the box or outside.

    `part` is empty where it is a part that stands elsewhere too, and is drawn there. `feeds`: current comes from here.
    `beyond`: what the box switches there, with the words at it.
    """

    part: str
    wire: str
    inside: bool
    symbols: tuple[Symbol, ...]
    name: str
    lines: tuple[str, ...]
    below: str = ""
    feeds: bool = False
    beyond: tuple[Symbol, ...] = ()
    beyond_lines: tuple[str, ...] = ()


@frozen
class Drawing:
    """All of a harness, in the order of the file. `box` is what stands above the box, nothing if there is none; `key`
    says what each symbol is, `legend` and `foot` are lines under the drawing."""

    title: str
    subtitle: str
    nodes: tuple[Node, ...]
    links: tuple[Link, ...]
    ends: tuple[End, ...]
    box: tuple[str, ...]
    key: tuple[tuple[Symbol, str], ...]
    legend: tuple[str, ...]
    foot: tuple[str, ...]
