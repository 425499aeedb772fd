"""The README does what it says: its job in few words, and every command of its tour with the output it shows."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

from tests.calling import ROOT, call

README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```$", README, flags=re.MULTILINE | re.DOTALL)


def test_the_job_in_one_paragraph() -> None:
    """After the title comes one paragraph of at most 120 words."""
    title, job, *_ = README.split("\n\n")
    assert title == "# logiccheck"
    assert len(job.split()) <= 120


def test_the_two_commands_are_there_for_both_shells() -> None:
    """First what checks the coffee van, then what passes the tests, each for both shells."""
    languages = [language for language, _ in BLOCKS]
    assert languages[:4] == ["sh", "powershell", "sh", "powershell"]
    assert all("examples" in text and "check" in text for _, text in BLOCKS[:2])
    assert all("pytest" in text for _, text in BLOCKS[2:4])
    assert all(len(text.splitlines()) == 1 for _, text in BLOCKS[:4])


def matches(shown: list[str], printed: list[str]) -> bool:
    """Whether the printed lines are those shown, where "..." stands for any lines or none."""
    pattern = "".join(r"(?:.*\n)*?" if line == "..." else re.escape(line) + r"\n" for line in shown)
    return re.fullmatch(pattern, "".join(line + "\n" for line in printed)) is not None


def edit(folder: Path, diff: str) -> None:
    """Replace the line after each `-` by the one after the `+` below it, in the file of the tour."""
    path = folder / "garage" / "van.circuit"
    text = path.read_text(encoding="utf-8")
    lines = diff.splitlines()
    for old, new in zip(lines[::2], lines[1::2], strict=True):
        assert (old[0], new[0]) == ("-", "+")
        assert text.count(old[1:] + "\n") == 1, old
        text = text.replace(old[1:] + "\n", new[1:] + "\n")
    path.write_text(text, encoding="utf-8")


def test_the_tour(tmp_path: Path) -> None:
    """Every command prints what is shown, and ends with the status that is shown."""
    status = None
    for language, text in BLOCKS:
        if language == "diff":
            edit(tmp_path, text)
        if language != "console":
            continue
        for command, shown in re.findall(r"^\$ (.*)\n((?:(?!\$ ).*\n)*)", text, flags=re.MULTILINE):
            if command == "echo $?":
                assert shown == f"{status}\n"
                continue
            program, *arguments = shlex.split(command)
            assert program == "logiccheck"
            done = call(*arguments, cwd=tmp_path)
            status = done.returncode
            assert matches(shown.splitlines(), done.stdout.splitlines()), f"{command} printed:\n{done.stdout}"
    assert status == 0
