"""How far a long search for disagreements goes: CAMPAIGN_COUNT seeds, from CAMPAIGN_SEED on."""

from __future__ import annotations

import os


def seeds(count: int = 60, first: int = 1_000_000) -> range:
    """The seeds that the environment names; what it leaves open is as said here."""
    begin = int(os.environ.get("CAMPAIGN_SEED", first))
    return range(begin, begin + int(os.environ.get("CAMPAIGN_COUNT", count)))
