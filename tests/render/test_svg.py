"""The picture of a harness: well formed, every part in it once, and nothing that is written under something else."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import combinations, pairwise
from pathlib import Path
from random import Random
from xml.etree import ElementTree

import pytest

from logiccheck.base.widths import columns_of
from logiccheck.cli.reader import DiskReader
from logiccheck.lang.load import load, load_text
from logiccheck.lang.program import Const, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.render.svg import render
from logiccheck.report.drawn import drawn
from tests.calling import EXAMPLES
from tests.campaign import seeds
from tests.copper.harnesses import random_harness_text

SVG = "{http://www.w3.org/2000/svg}"
FILES = sorted(EXAMPLES.rglob("*.circuit"))

CROWDED = """vehicle "A vehicle with <every> kind of & part"
world
    a contact
    b "A switch with a very long label that nobody would ever want to write on a label" contact
    c contact
harness
    source plus "Battery" when a and (b or c) and not (a and b and c) or a and not b and not c
    source aux
    ground strap when b
    wire main from plus when a and b and c and not (a and not b) and (b or not c) and a
    wire loop from main, to ground when c
    wire back from loop when b
    wire spare
    wire alone from alone_feed
    wire alone_feed
    join back with main when a
    join loop with aux
    join spare with plus when c
    diode loop -> back
    diode back -> loop
    diode loop -> spare
    diode spare -> loop
    relay pull "A relay of both" coil off_delay(main and loop or back, 4 min +- 10 %) supply main
    relay free coil a and b
    load lamp "Lamp" on loop 4 A, fuse 10 A, wire 1.5 mm2 over 4.2 m
    load lamp_two on main
controller "Box" powered by main
    sense s "Sense" from loop live
    sense t from back grounded
    output out_one "One" when s fed by loop feeds spare
        load 4 A, fuse 10 A
    output out_two when t fed by main
    output out_three when s and t
"""


@dataclass(frozen=True)
class Area:
    """A rectangle, and what is in it."""

    left: float
    top: float
    right: float
    bottom: float
    what: str

    def meets(self, other: Area) -> bool:
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


def read(path: Path) -> tuple[Program, tuple[SourceFile, ...]]:
    loaded = load(path.as_posix(), DiskReader(path.as_posix()))
    assert loaded.program is not None
    return loaded.program, loaded.files


def picture(program: Program, files: tuple[SourceFile, ...] = ()) -> ElementTree.Element:
    return ElementTree.fromstring(render(drawn(program, files)))


def texts(root: ElementTree.Element) -> list[Area]:
    """Where each text stands: as wide as it is held to be, its letters above its foot, what hangs down below."""
    found = []
    for each in root.iter(f"{SVG}text"):
        x, y, size = (float(each.get(name, "")) for name in ("x", "y", "font-size"))
        length = float(each.get("textLength", ""))
        assert length == pytest.approx(columns_of(each.text or "") * size * 0.6)
        found.append(Area(x, y - 0.8 * size, x + length, y + 0.25 * size, each.text or ""))
    return found


def lines(root: ElementTree.Element) -> list[Area]:
    """Each straight piece of a line, as thin as it is."""
    found = []
    for each in (*root.iter(f"{SVG}polyline"), *root.iter(f"{SVG}polygon")):
        points = [tuple(map(float, pair.split(","))) for pair in each.get("points", "").split()]
        for (a, b), (c, d) in pairwise(points):
            found.append(
                Area(min(a, c) - 0.5, min(b, d) - 0.5, max(a, c) + 0.5, max(b, d) + 0.5, each.get("points", ""))
            )
    return found


def check(root: ElementTree.Element) -> None:
    """Nothing that is written meets anything else that is written, or a line; and all of it is on the sheet."""
    written, drawn_ = texts(root), lines(root)
    assert not [(a, b) for a, b in combinations(written, 2) if a.meets(b)]
    assert not [(a, b) for a in written for b in drawn_ if a.meets(b)]
    width, height = float(root.get("width", "")), float(root.get("height", ""))
    for each in (*written, *drawn_):
        assert min(each.left, width - each.right) >= 0, each
        assert min(each.top, height - each.bottom) >= 0, each


def parts(program: Program) -> Counter[str]:
    """All parts of the file: each is to be in the picture once."""
    found = [f"source {each.name}" for each in program.sources]
    used = {end for contact in program.contacts for end in (contact.left, contact.right)}
    used |= {end for diode in program.diodes for end in (diode.anode, diode.cathode)}
    found += [f"ground {g.name}" for g in program.grounds if g.name in used or g.condition != Const(True)]
    found += [f"wire {each.name}" for each in program.wires]
    found += [f"contact {number}" for number, _ in enumerate(program.contacts, start=1)]
    found += [f"diode {number}" for number, _ in enumerate(program.diodes, start=1)]
    found += [f"relay {each.name}" for each in program.relays]
    found += [f"load {each.name}" for each in program.loads]
    if program.box is not None:
        found += ["box", *(f"sense {each.name}" for each in program.box.senses)]
        found += [f"output {each.name}" for each in program.box.outputs]
    return Counter(found)


def shown(root: ElementTree.Element) -> Counter[str]:
    return Counter(name for each in root.iter(f"{SVG}g") if (name := each.get("data-part")) is not None)


@pytest.mark.parametrize("path", FILES, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_of_every_example(path: Path) -> None:
    """Every part once, and everything can be read."""
    program, files = read(path)
    root = picture(program, files)
    assert shown(root) == parts(program)
    names = {each.what for each in texts(root)}
    assert {part.split()[1] for part in parts(program) if not part.startswith(("contact", "diode", "box"))} <= names
    check(root)


def test_the_other_side_of_a_change_over_contact() -> None:
    """What is so while not `not r` is so while `r`."""
    text = """vehicle "Mill"
world
    r contact
harness
    source plus
    source spare
    wire feed from plus when not r, otherwise from spare
"""
    loaded = load_text(text)
    assert loaded.program is not None, loaded.diagnostics
    above = [link.above for link in drawn(loaded.program, loaded.files).links]
    assert above == ["not r", "r"]


def test_of_a_crowded_vehicle() -> None:
    """Long conditions, circles, ways that lead back, letters that XML escapes."""
    loaded = load_text(CROWDED)
    assert loaded.program is not None, loaded.diagnostics
    root = picture(loaded.program, loaded.files)
    assert shown(root) == parts(loaded.program)
    check(root)


@pytest.mark.parametrize("seed", seeds(40, 3_000))
def test_of_random_harnesses(seed: int) -> None:
    """Whatever joins what."""
    loaded = load_text(random_harness_text(Random(seed)))
    assert loaded.program is not None
    root = picture(loaded.program, loaded.files)
    assert shown(root) == parts(loaded.program)
    check(root)


def ends(root: ElementTree.Element, part: str) -> set[tuple[float, float]]:
    """Where the lines of a part end."""
    (group,) = (each for each in root.iter(f"{SVG}g") if each.get("data-part") == part)
    found = set()
    for line in group.iter(f"{SVG}polyline"):
        pairs = [tuple(map(float, pair.split(","))) for pair in line.get("points", "").split()]
        found |= {(x, y) for x, y in (pairs[0], pairs[-1])}
    return found


def dots(root: ElementTree.Element, part: str) -> set[tuple[float, float]]:
    """Where a wire, a source or a ground is joined."""
    (group,) = (each for each in root.iter(f"{SVG}g") if each.get("data-part") == part)
    return {(float(dot.get("cx", "")), float(dot.get("cy", ""))) for dot in group.iter(f"{SVG}circle")}


@pytest.mark.parametrize("seed", seeds(40, 4_000))
def test_lines_lead_where_they_should(seed: int) -> None:
    """Each contact and diode begins at a dot of the one thing and ends at a dot of the other, and nobody shares a dot."""
    loaded = load_text(random_harness_text(Random(seed)))
    program = loaded.program
    assert program is not None
    root = picture(program, loaded.files)
    named = {
        part.split()[1]: dots(root, part) for part in parts(program) if part.startswith(("source", "ground", "wire"))
    }
    assert sum(map(len, named.values())) == len(set().union(*named.values()))
    pairs = {f"contact {n}": (c.left, c.right) for n, c in enumerate(program.contacts, start=1)}
    pairs |= {f"diode {n}": (d.anode, d.cathode) for n, d in enumerate(program.diodes, start=1)}
    for part, (one, other) in pairs.items():
        reached = ends(root, part)
        assert reached & named[one], part
        assert reached & named[other], part
        assert not any(reached & found for name, found in named.items() if name not in (one, other)), part


def bars(root: ElementTree.Element, part: str) -> list[Area]:
    """The upright lines at which what is joined at a wire, a source or a ground meets."""
    (group,) = (each for each in root.iter(f"{SVG}g") if each.get("data-part") == part)
    heavy = [line for line in group.iter(f"{SVG}polyline") if line.get("stroke-width")]
    points = [[tuple(map(float, pair.split(","))) for pair in line.get("points", "").split()] for line in heavy]
    return [Area(a - 1, min(b, d), a + 1, max(b, d), part) for (a, b), (c, d) in points if a == c]


@pytest.mark.parametrize("seed", seeds(40, 8_000))
def test_no_two_wires_look_like_one(seed: int) -> None:
    """The upright lines of two of them never lie on one another, nor on a dot of another."""
    loaded = load_text(random_harness_text(Random(seed)))
    program = loaded.program
    assert program is not None
    root = picture(program, loaded.files)
    nodes = [part for part in parts(program) if part.startswith(("source", "ground", "wire"))]
    upright = [bar for part in nodes for bar in bars(root, part)]
    assert not [(a, b) for a, b in combinations(upright, 2) if a.what != b.what and a.meets(b)]
    for part in nodes:
        joined = [Area(x - 1, y - 1, x + 1, y + 1, part) for x, y in dots(root, part)]
        assert not [(a, b) for a in joined for b in upright if a.what != b.what and a.meets(b)]


def test_nothing_leads_outside() -> None:
    """No script, no address but the name of the format, no colours but black and white."""
    text = render(drawn(*read(EXAMPLES / "coffee-van" / "van.circuit")))
    assert text.replace("http://www.w3.org/2000/svg", "").find("http") == -1
    assert not any(word in text for word in ("<script", "href", "url(", "@import", "<image", "<style", " onload"))
    root = ElementTree.fromstring(text)
    colours = {each.get(name) for each in root.iter() for name in ("fill", "stroke")}
    assert colours <= {None, "none", "#000000", "#ffffff"}
    assert text == render(drawn(*read(EXAMPLES / "coffee-van" / "van.circuit")))
