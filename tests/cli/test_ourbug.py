"""A bug of ours is named as ours, with what to send, and never as a traceback."""

from __future__ import annotations

import pytest

from logiccheck import session
from logiccheck.cli import check
from logiccheck.cli.main import main
from tests.calling import EXAMPLES

VAN = str(EXAMPLES / "first-steps" / "van.circuit")


def test_our_bug(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit status 4, version and place, and no verdict."""

    def broken(*_: object) -> None:
        raise ZeroDivisionError("oh")

    monkeypatch.setattr(session, "load", broken)
    assert main(["check", VAN]) == 4
    captured = capsys.readouterr()
    assert captured.out == ""
    assert "This is our bug, not a mistake in your file. Nothing was decided." in captured.err
    assert "ZeroDivisionError: oh" in captured.err
    assert "Traceback" not in captured.err


def test_an_interrupt_before_anything(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Ctrl-C while the file is read: nothing decided, status 3."""

    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(check, "check", stopped)
    assert main(["check", VAN]) == 3
    assert "Interrupted; nothing is reported." in capsys.readouterr().err
