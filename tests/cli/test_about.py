"""`about` explains every message and every verdict, by name or by code."""

from __future__ import annotations

from pathlib import Path

import pytest

from logiccheck.cli.about import texts
from tests.calling import call


@pytest.mark.parametrize("name", ["blocked", "NO CASE", "no_case", "unused-name", "W101", "w101"])
def test_about_knows_names_and_codes(name: str, tmp_path: Path) -> None:
    """However it is typed."""
    done = call("about", name, cwd=tmp_path)
    assert done.returncode == 0
    assert len(done.stdout.splitlines()) > 3


def test_about_an_unknown_name(tmp_path: Path) -> None:
    """The near names are offered."""
    done = call("about", "bloked", cwd=tmp_path)
    assert done.returncode == 2
    assert "Did you mean blocked?" in done.stderr


def test_about_nothing_lists_all_names(tmp_path: Path) -> None:
    """One name a line, each of which can be asked for."""
    done = call("about", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.splitlines() == [text.names[0] for text in texts()]


def test_every_message_can_be_asked_for() -> None:
    """No two texts share a name, and the mistakes of the front end are among them."""
    names = [name for text in texts() for name in text.names]
    assert len(names) == len(set(names))
    assert {"unknown-name", "e301", "unused-name", "fails"} <= set(names)
