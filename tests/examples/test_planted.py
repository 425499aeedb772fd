"""Each planted mistake is a small one, is found, and is told in its README."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from difflib import SequenceMatcher
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from logiccheck.base.span import Span
from logiccheck.cli.reader import DiskReader, posix
from logiccheck.engine.check import Check, check_program
from logiccheck.engine.verdict import Kind
from logiccheck.lang.load import Loaded, load_text
from logiccheck.report.report import Cause
from logiccheck.report.stories import replay, shown
from logiccheck.session.checking import check as check_file
from tests.examples.reading import ROOT, read

FOLDER = ROOT / "examples" / "planted-mistakes"
EXPECTED: dict[str, Any] = tomllib.loads((FOLDER / "expected.toml").read_text(encoding="utf-8"))
CLEAN = (FOLDER / EXPECTED["clean"]).read_text(encoding="utf-8").splitlines()
MAIN = "van.circuit"
FILES = [pytest.param(path, id=path.stem) for path in sorted(FOLDER.glob("*.circuit"))]


@cache
def changed_lines(path: Path) -> tuple[tuple[int, ...], int]:
    """The numbers of the lines that the clean van does not have, and how many lines differ on either side."""
    lines = path.read_text(encoding="utf-8").splitlines()
    numbers: list[int] = []
    differing = 0
    for what, a, b, c, d in SequenceMatcher(None, CLEAN, lines, autojunk=False).get_opcodes():
        if what != "equal":
            numbers += range(c + 1, d + 1)
            differing += max(b - a, d - c)
    return tuple(numbers), differing


def checked(path: Path) -> Check:
    """The check of a whole file with time enough."""
    return check_program(read(path.read_text(encoding="utf-8")), seconds_each=120)


@cache
def loaded(path: Path) -> Loaded:
    """The file, read."""
    return load_text(path.read_text(encoding="utf-8"), MAIN)


@cache
def failing(path: Path) -> Check:
    """The check of the requirements that fail, with time enough."""
    program = loaded(path).program
    assert program is not None
    return check_program(program, seconds_each=120, only=set(EXPECTED["mistakes"][path.stem]["fails"]))


def test_there_are_a_dozen_and_the_list_is_complete() -> None:
    """Every file has its entry, and every entry its file."""
    assert len(FILES) >= 12
    assert {path.stem for path in FOLDER.glob("*.circuit")} == set(EXPECTED["mistakes"])


@pytest.mark.parametrize("path", FILES)
def test_it_is_a_small_mistake(path: Path) -> None:
    """At most three lines differ from the van as it is meant to be. Who changes the van changes these files, too."""
    numbers, differing = changed_lines(path)
    assert 1 <= len(numbers) <= differing <= 3


@pytest.mark.parametrize("path", FILES)
def test_the_readme_tells_it(path: Path) -> None:
    """In its own row: the file, the mistake, and one sentence about what happens."""
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    rows = re.findall(rf"^\| `{path.name}` \| (.+) \| (.+\.) \|$", text, flags=re.MULTILINE)
    assert len(rows) == 1


@pytest.mark.parametrize("path", FILES)
def test_it_is_found(path: Path) -> None:
    """The requirements named fail, each with the shortest story of that length."""
    fails = EXPECTED["mistakes"][path.stem]["fails"]
    check = failing(path)
    assert [trouble.obstacle.value for trouble in check.troubles] == _obstacles(path)
    assert {v.requirement.name: v.kind for v in check.verdicts} == dict.fromkeys(fails, Kind.FAILS)
    assert {v.requirement.name: v.story.moments for v in check.verdicts if v.story is not None} == fails


@pytest.mark.slow
@pytest.mark.parametrize("path", FILES)
def test_nothing_else_is_said(path: Path) -> None:
    """All other requirements are proved or have no case; what stands in the way blocks them."""
    mistake = EXPECTED["mistakes"][path.stem]
    check = checked(path)
    assert [trouble.obstacle.value for trouble in check.troubles] == _obstacles(path)
    named = dict.fromkeys(mistake["fails"], Kind.FAILS) | dict.fromkeys(mistake.get("no_case", []), Kind.NO_CASE)
    others = Kind.BLOCKED if _obstacles(path) else Kind.PROVED
    for verdict in check.verdicts:
        name = verdict.requirement.name
        assert verdict.kind is named.get(name, others), name


def _obstacles(path: Path) -> list[str]:
    found: list[str] = EXPECTED["mistakes"][path.stem].get("obstacles", [])
    return found


def _places(path: Path) -> list[Span]:
    """Where an edit that takes the mistake back would change the rules; scenarios are left aside."""
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    places = []
    for number in changed_lines(path)[0]:
        begin = sum(map(len, lines[: number - 1]))
        if not lines[number - 1].startswith("    at "):
            places.append(Span(MAIN, begin + 4, begin + len(lines[number - 1]) - 1))
    return places


def _of_the_mistake(path: Path, cause: Cause) -> bool:
    """Whether it names a line that the clean van does not have, or the first line of what is continued there."""
    lines = path.read_text(encoding="utf-8").splitlines()
    wrong = set()
    for number in changed_lines(path)[0]:
        while lines[number - 1].startswith(" " * 5):
            wrong.add(number)
            number -= 1
        wrong.add(number)
    return cause.excerpt is not None and any(line.number in wrong for line in cause.excerpt.lines)


@pytest.mark.parametrize("path", FILES)
def test_where_an_edit_would_mend_it_that_line_leads(path: Path) -> None:
    """The lines under a story are three at most; told where an edit would mend it, they begin there."""
    program, texts = loaded(path).program, loaded(path).texts
    assert program is not None
    for verdict in failing(path).verdicts:
        assert verdict.story is not None
        played = replay(program, verdict.story, verdict.requirement.form)
        alone = shown(program, played, (), texts).causes
        told = shown(program, played, (), texts, _places(path)).causes
        assert 1 <= len(_lines(alone)) <= 3
        assert 1 <= len(_lines(told)) <= 3
        assert _of_the_mistake(path, next(cause for cause in told if cause.excerpt is not None))
        assert " because " in alone[0].sentence
        assert told[0].sentence == alone[0].sentence


def _lines(causes: Sequence[Cause]) -> list[int]:
    return [line.number for cause in causes if cause.excerpt is not None for line in cause.excerpt.lines]


@pytest.mark.slow
def test_the_edit_that_is_suggested_takes_the_mistake_back() -> None:
    """What `check` suggests is the line of the clean van, and the explanation begins with the mistaken one."""
    path = FOLDER / "missing-diode.circuit"
    file = posix(str(path))
    report = check_file(file, DiskReader(file), 120.0, (), None, edits=300.0).report
    part = next(part for part in report.verdicts if part.name == "no_key_no_spark")
    assert part.edits is not None
    ((excerpt,), *_) = part.edits.edits
    assert [line.text.split() for line in excerpt.lines] == [
        CLEAN[number - 1].split() for number in changed_lines(path)[0]
    ]
    assert part.shown is not None
    assert _of_the_mistake(path, next(cause for cause in part.shown.causes if cause.excerpt is not None))
