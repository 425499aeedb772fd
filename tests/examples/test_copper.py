"""Each planted mistake in copper leaves the rules as sound as they are, and is told in its README."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from logiccheck.cli.main import main
from tests.examples.reading import ROOT, read

FOLDER = ROOT / "examples" / "copper-mistakes"
MISTAKES: dict[str, dict[str, Any]] = tomllib.loads((FOLDER / "expected.toml").read_text(encoding="utf-8"))["mistakes"]
FILES = [pytest.param(path, id=path.stem) for path in sorted(FOLDER.glob("*.circuit"))]


def mended(path: Path) -> str:
    """The text of the file without its mistake, which stands there once."""
    text, mistake = path.read_text(encoding="utf-8"), MISTAKES[path.stem]
    assert text.count(mistake["mistaken"]) == 1
    return text.replace(mistake["mistaken"], mistake["mended"])


def test_the_list_is_complete() -> None:
    """Every file has its entry, and every entry its file."""
    assert {path.stem for path in FOLDER.glob("*.circuit")} == set(MISTAKES)


@pytest.mark.parametrize("path", FILES)
def test_the_readme_tells_it(path: Path) -> None:
    """In its own row: the file, the mistake, and one sentence about what happens."""
    text = (FOLDER / "README.md").read_text(encoding="utf-8")
    assert len(re.findall(rf"^\| `{path.name}` \| (.+) \| (.+\.) \|$", text, flags=re.MULTILINE)) == 1


@pytest.mark.parametrize("path", FILES)
def test_the_rules_are_sound(path: Path) -> None:
    """Every requirement is proved, and no finding tells of anything: what is wrong is wrong with copper."""
    assert main(["check", str(path)]) == 0
    assert main(["lint", str(path)]) == 0


@pytest.mark.parametrize("path", FILES)
def test_the_part_is_there(path: Path) -> None:
    """The file names the part that is wrong; its mended text is a vehicle without mistakes of the language."""
    text = path.read_text(encoding="utf-8")
    assert MISTAKES[path.stem]["part"] in re.sub(r"  +", " ", text)
    assert read(mended(path)).electrics.nominal == read(text).electrics.nominal == 12


ASKED = [param for param in FILES if MISTAKES[param.id]["command"] != "faults"]


@pytest.mark.parametrize("path", ASKED)
def test_it_is_found(path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Its command names the part and says the numbers; it says some of them no more once the mistake is mended."""
    mistake = MISTAKES[path.stem]
    without = tmp_path / "mended.circuit"
    without.write_text(mended(path), encoding="utf-8")
    said: list[str] = []
    status: list[int] = []
    for file in (path, without):
        status.append(main([mistake["command"], str(file)]))
        said.append(_finding(capsys.readouterr().out))
    assert mistake["part"] in said[0]
    assert [number for number in mistake["numbers"] if number not in said[0]] == []
    assert [number for number in mistake["numbers"] if number not in said[1]] != []
    assert status == mistake["exit"]


def test_a_short_in_the_diode_is_found(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Among the single faults that break the requirement is that diode; with the mistake mended none is a diode."""
    path, mistake = FOLDER / "shorted-diode.circuit", MISTAKES["shorted-diode"]
    without = tmp_path / "mended.circuit"
    without.write_text(mended(path), encoding="utf-8")
    said = []
    for file in (path, without):
        main([mistake["command"], str(file)])
        parts = capsys.readouterr().out.split("\n\n")
        said += [part for part in parts if f" {mistake['requirement']} " in part.partition("\n")[0]]
    assert len(said) == 2
    assert f"- {mistake['part']} shorted:" in said[0]
    assert "- diode " not in said[1]
    assert "- key_on live:" in said[1]


def _finding(text: str) -> str:
    """What a command says before it goes through all that fits, and before what it rests on."""
    head = text.partition("\nWhat fails\n")[2] or text
    return head.partition("\n\n")[0]
