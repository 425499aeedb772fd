"""A whole vehicle with every construct of the language in it."""

from __future__ import annotations

from pathlib import Path

WHOLE_VEHICLE = Path(__file__).with_name("whole.circuit").read_text(encoding="utf-8")
