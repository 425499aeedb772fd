"""The ways to a proof, by the names that users know them by."""

from __future__ import annotations

from enum import Enum


class Engine(Enum):
    """`portfolio` tries them in turn."""

    REFINEMENT = "refinement"
    ZONES = "zones"


BOTH = frozenset(Engine)
