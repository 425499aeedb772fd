"""Single faults as text, CSV and HTML: nothing is lost, and the page needs neither scripts, colours nor a network."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from logiccheck.render import as_csv, as_html, as_json
from logiccheck.render.drawn.lines import Look
from logiccheck.render.terminal import render
from logiccheck.render.told.faults import draw_faults
from logiccheck.report.report import Report
from tests.render.machines import MISTAKEN
from tests.report.faulty import FAULTY, PART

HERE = Path(__file__).parent
VOID = {"meta", "br"}


def test_as_text() -> None:
    """The whole text, to the last character; and JSON gives it back."""
    text = render(FAULTY, Look(width=None, colour=False, ascii=False))
    assert text == (HERE / "faults.txt").read_text(encoding="utf-8")
    assert as_json.read(as_json.render(FAULTY)) == FAULTY


def test_narrow() -> None:
    """No line of what is told of faults is wider than the terminal."""
    lines = [line for text in draw_faults(PART, Look(width=60, colour=False, ascii=True)) for line, _ in text]
    assert lines
    assert all(len(line) <= 60 for line in lines)


# --------------------------------------------------------------------------------------------------------------- CSV


def test_one_row_a_part_and_mode() -> None:
    """All rows are as wide as the heads; the notes come last and say what stands with every output."""
    text = as_csv.render(FAULTY)
    assert text.endswith("\r\n")
    heads, *rows = csv.reader(io.StringIO(text, newline=""))
    assert heads == [
        "part",
        "label",
        "kind of part",
        "where it is written",
        "failure mode",
        "local effect",
        "end effect",
        "severity",
        "detection method",
    ]
    assert {len(row) for row in rows} == {len(heads)}
    assert FAULTY.basis is not None
    notes = [row[5] for row in rows if row[2] == "note"]
    assert [f"What was taken as given: {line}" for line in FAULTY.basis.assumptions] == [
        note for note in notes if note.startswith("What was taken")
    ]
    parts = [row for row in rows if row[2] != "note"]
    assert [(row[0], row[4]) for row in parts] == [(each.part, each.mode) for each in PART.effects]
    assert parts[1][6:] == ["no_key_no_spark fails from the start; starts: not decided", "danger", "hidden"]
    assert parts[0][1] == "'=Zündung"  # nothing for a table program to compute
    assert [row[5] for row in rows[len(parts) :]][:2] == [FAULTY.opening, PART.cautions[0]]


# -------------------------------------------------------------------------------------------------------------- HTML


class Page(HTMLParser):
    """What a page holds: its elements with what they are inside of, and its text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.elements: list[tuple[str, dict[str, str | None], tuple[str, ...]]] = []
        self.texts: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, dict(attrs), tuple(self.open)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag, f"</{tag}> ends another element"

    def handle_data(self, data: str) -> None:
        if self.open[-1:] != ["style"]:
            self.texts.append(data)

    def all(self, tag: str) -> Iterator[dict[str, str | None]]:
        return (attributes for name, attributes, _ in self.elements if name == tag)


def page(report: Report = FAULTY) -> Page:
    """The page as read back: each element is ended, in order."""
    text = as_html.render(report)
    assert text.startswith("<!DOCTYPE html>\n")
    read = Page(text)
    assert read.open == []
    return read


def test_everything_is_there() -> None:
    """Every sentence of the report, as it is, whatever signs are in it."""
    told = "".join(page().texts)
    hits = [hit for each in (*PART.endangered, *PART.pairs) for hit in each.hits]
    wanted = [FAULTY.opening, FAULTY.closing, *PART.answer, *PART.cautions, "No spark <without> a key & hand"]
    wanted += [text for hit in hits for text in (hit.fault, hit.when, hit.story, hit.noticed)]
    wanted += [text for each in PART.effects for text in (each.part, each.mode, each.local, *each.ends, each.noticed)]
    wanted += [each for part in PART.endangered for each in part.open]
    assert FAULTY.basis is not None
    wanted += [FAULTY.basis.caution, *FAULTY.basis.colophon, *FAULTY.basis.assumptions, *FAULTY.basis.limits]
    wanted += ["=Zündung", "Schlüssel"]
    assert [text for text in wanted if text not in told] == []


def test_it_needs_nothing_else() -> None:
    """No script, no form, no picture, no address but places in the page itself, and these are there."""
    read = page()
    tags = {tag for tag, *_ in read.elements}
    assert not tags & {"script", "link", "img", "iframe", "form", "input", "object", "video", "audio", "base"}
    assert not [name for _, attributes, _ in read.elements for name in attributes if name.startswith("on")]
    ids = [attributes["id"] for _, attributes, _ in read.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    links = [attributes["href"] for attributes in read.all("a")]
    assert links
    assert {link[1:] for link in links if link} <= set(ids)
    assert all(link and link.startswith("#") for link in links)
    text = as_html.render(FAULTY)
    assert not re.search(r"https?:|url\(|@import|//", text)


def test_tables_have_heads() -> None:
    """Each head says whether it is of a column or of rows; each cell of a table that a phone lays out anew names its
    column."""
    read = page()
    heads = [attributes.get("scope") for attributes in read.all("th")]
    assert heads
    assert set(heads) == {"col", "row", "rowgroup"}
    named = {attributes["data-head"] for attributes in read.all("td") if "data-head" in attributes}
    assert named == {
        "when",
        "shortest story",
        "failure mode",
        "local effect",
        "end effect",
        "severity",
        "detection method",
    }
    assert sum(attributes.get("role") == "cell" for attributes in read.all("td")) == 6 * 3 + 6 * 5


def luminance(colour: str) -> float:
    """As WCAG 2.2 defines relative luminance."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_colours() -> None:
    """Black and one blue on white, each with a contrast of 4.5 to 1 at least."""
    colours = set(re.findall(r"#[0-9a-f]{3,6}\b", as_html.STYLE))
    assert colours == {"#000", "#fff", "#0072b2"}
    assert 1.05 / (luminance("#0072b2") + 0.05) >= 4.5


def test_words_carry_the_meaning() -> None:
    """Each severity stands as a word beside its sign, which is not read out."""
    read = page()
    told = "".join(read.texts)
    for severity, sign in as_html.SIGNS.items():
        assert f"{sign} {severity.value}" in told
    assert len(set(as_html.SIGNS.values())) == len(as_html.SIGNS)


@pytest.mark.parametrize("report", [MISTAKEN, replace(FAULTY, faults=None, why=None)])
def test_without_faults(report: Report) -> None:
    """Mistakes of the files stand there as well; a table without rows is still one."""
    told = "".join(page(report).texts)
    assert report.opening in told
    assert all(notice.sentence in told for notice in report.notices)
    assert as_csv.render(report).startswith("part,label,")
