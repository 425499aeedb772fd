"""`begin` writes an example to start from and never touches what is there."""

from __future__ import annotations

from pathlib import Path

from tests.calling import EXAMPLES, call


def test_begin_writes_the_first_example(tmp_path: Path) -> None:
    """A new folder gets the example, byte for byte, and is told what to call next."""
    done = call("begin", "garage", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.splitlines() == [
        f"written: {Path('garage') / 'van.circuit'}",
        f"Next:    logiccheck check {Path('garage') / 'van.circuit'}",
    ]
    assert (tmp_path / "garage" / "van.circuit").read_bytes() == (EXAMPLES / "first-steps/van.circuit").read_bytes()


def test_begin_here(tmp_path: Path) -> None:
    """Without a folder the example is written where one is."""
    assert call("begin", cwd=tmp_path).returncode == 0
    assert [path.name for path in tmp_path.iterdir()] == ["van.circuit"]


def test_begin_never_overwrites(tmp_path: Path) -> None:
    """A file that is there stays as it is, and the exit status says that nothing was done."""
    (tmp_path / "van.circuit").write_text("mine", encoding="utf-8")
    done = call("begin", ".", cwd=tmp_path)
    assert done.returncode == 2
    assert "is there already. Nothing was written" in done.stderr
    assert (tmp_path / "van.circuit").read_text(encoding="utf-8") == "mine"


def test_begin_where_nothing_can_be_written(tmp_path: Path) -> None:
    """A folder that is a file is a sentence, not a traceback."""
    (tmp_path / "garage").write_text("", encoding="utf-8")
    done = call("begin", "garage", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stderr.startswith("Cannot write")
