"""Every block of the language reference is read, its scenarios hold, and its marked requirements come out as marked.

The first block is a whole small vehicle. All blocks under one heading are added to it and make one program: an item is
added to the block of the same kind, a `controller`, if one is written, takes the place of the small one's header.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import pytest

from logiccheck.base.units import Dimension, units_of
from logiccheck.engine.check import check_program
from logiccheck.lang.load import load_text
from logiccheck.lang.words import RESERVED
from logiccheck.study.simulate import simulate
from tests.examples.reading import ROOT, read

PAGE = (ROOT / "grammar" / "LANGUAGE.md").read_text(encoding="utf-8")
FENCE = re.compile(r"^```(.*)\n((?:.*\n)*?)^```$", re.MULTILINE)
MARKED = re.compile(r"^ +(?:danger|damage|function) +(\w+) .*# (proved|fails|no case|blocked)$", re.MULTILINE)


@dataclass(slots=True)
class Section:
    """The blocks under one heading, as written."""

    heading: str
    blocks: list[str] = field(default_factory=list)
    mistakes: list[str] = field(default_factory=list)
    checklists: list[str] = field(default_factory=list)


def _sections() -> list[Section]:
    found = []
    for part in re.split(r"^(?=##+ )", PAGE, flags=re.MULTILINE):
        section = Section(part.splitlines()[0].lstrip("# "))
        for info, text in FENCE.findall(part):
            assert info in {"circuit", "circuit mistake"}, f"{section.heading}: a block of no known kind: {info}"
            if info == "circuit mistake":
                section.mistakes.append(text)
            elif text.startswith("checklist"):
                section.checklists.append(text)
            else:
                section.blocks.append(text)
        found.append(section)
    return found


def _cut(text: str) -> dict[str, str]:
    """The text by its headers; the lines of a block are kept together with those that continue its header."""
    parts = re.split(r"^(?=[a-z])", text, flags=re.MULTILINE)
    return {part.splitlines()[0]: "".join(part.splitlines(keepends=True)[1:]) for part in parts if part.strip()}


SECTIONS = _sections()
BASE = _cut(SECTIONS[1].blocks[0])


def _kind(header: str) -> str:
    """What makes two headers the same block; scenarios and uses are each their own."""
    word = header.split()[0]
    return header if word in {"scenario", "use"} else word


def _program(texts: list[str]) -> str:
    """The small vehicle with the items of these texts added to it."""
    headers = {_kind(header): header for header in BASE}
    items = {_kind(header): lines for header, lines in BASE.items()}
    for text in texts:
        for header, lines in _cut(text).items():
            headers[_kind(header)] = header
            items[_kind(header)] = items.get(_kind(header), "") + lines
    return "".join(f"{headers[kind]}\n{items[kind]}\n" for kind in headers)


def _text(section: Section) -> str:
    return _program(section.blocks if section is not SECTIONS[1] else section.blocks[1:])


WITH_BLOCKS = [pytest.param(section, id=section.heading) for section in SECTIONS if section.blocks]
WITH_MARKS = [
    pytest.param(section, id=section.heading) for section in SECTIONS if MARKED.search("".join(section.blocks))
]


@pytest.mark.parametrize("section", WITH_BLOCKS)
def test_blocks_are_read_and_scenarios_hold(section: Section) -> None:
    """The program of a heading has no mistakes, and whatever its scenarios expect is so."""
    program = read(_text(section))
    for scenario in program.scenarios:
        played = simulate(program, scenario)
        assert [each.expectation.text for each in played.expectations if not each.held] == [], scenario.name
        assert played.held
        assert played.warnings == (), scenario.name
        assert played.unused == (), scenario.name


@pytest.mark.parametrize("section", WITH_MARKS)
def test_marked_requirements_come_out_as_marked(section: Section) -> None:
    """`# proved`, `# fails`, `# no case` and `# blocked` behind a requirement are what the check says of it."""
    marked = dict(MARKED.findall("".join(section.blocks)))
    check = check_program(read(_text(section)), seconds_each=20, only=set(marked))
    assert {each.requirement.name: each.kind.value for each in check.verdicts} == marked


@pytest.mark.parametrize(
    "text", [pytest.param(text, id=f"{s.heading}-{i}") for s in SECTIONS for i, text in enumerate(s.mistakes)]
)
def test_mistakes_are_mistakes(text: str) -> None:
    """A block shown as a mistake is one: the program is not read."""
    loaded = load_text(_program([text]))
    assert loaded.program is None
    assert loaded.diagnostics


def test_a_whole_vehicle_comes_first() -> None:
    """The first block of the page is the small vehicle, complete in itself."""
    assert next(iter(BASE)) == "language 1"
    assert "vehicle" in {_kind(header) for header in BASE}
    read(SECTIONS[1].blocks[0])


def test_all_units_are_listed() -> None:
    """The table of units names every unit of every kind, in the order of the code."""
    for dimension in Dimension:
        units = " ".join(f"`{unit}`" for unit in units_of(dimension))
        assert f"| {dimension.value.partition(' ')[2]} | {units} |\n" in PAGE


def test_all_reserved_words_are_listed() -> None:
    """The paragraph of words that cannot be names holds exactly those that cannot."""
    listed = PAGE.partition("as positions of\na switch they are free:\n\n")[2].partition("\n\n")[0]
    assert listed.replace("`", "").split() == sorted(RESERVED)
