"""Several things in one sentence."""

from __future__ import annotations

from collections.abc import Sequence


def joined(parts: Sequence[str]) -> str:
    """ "a, b and c" """
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)
