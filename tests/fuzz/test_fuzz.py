"""No text whatever ends in a traceback, a hang, or a message that does not help."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.calling import ROOT, environment
from tests.fuzz.asked import complaints
from tests.fuzz.texts import MAKERS, made

SEEDS = 240
WHOLE = 8  # every so many files is also checked and played, where it can be read
FOUND = sorted((Path(__file__).parent / "found").glob("*.circuit"))


def test_short() -> None:
    """A few files of every kind."""
    found = []
    kinds = set()
    for seed in range(SEEDS):
        each = made(seed)
        kinds.add(each.kind)
        found += [
            f"seed {seed}, {each.kind}: {line}" for line in complaints(each.raw, 0.02, 60.0, seed % WHOLE == 0)[1]
        ]
    assert not found
    assert kinds == {kind for kind, _ in MAKERS}


def test_the_same_seed_makes_the_same_file() -> None:
    """What a campaign has found can be found again."""
    assert [made(seed) for seed in range(40)] == [made(seed) for seed in range(40)]


@pytest.mark.parametrize("path", FOUND, ids=lambda path: path.stem)
def test_what_was_once_found(path: Path) -> None:
    """Files on which something was wrong; each says in its first line what."""
    assert complaints(path.read_bytes(), 0.5, 120.0)[1] == []


@pytest.mark.campaign
def test_campaign() -> None:
    """As many files as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on, in a process of its own."""
    seed, count = os.environ.get("CAMPAIGN_SEED", "1"), os.environ.get("CAMPAIGN_COUNT", "300")
    command = [sys.executable, "-m", "tests.fuzz.campaign", seed, count]
    done = subprocess.run(command, cwd=ROOT, env=environment(), capture_output=True, encoding="utf-8", check=False)
    print(done.stdout)
    assert done.returncode == 0, done.stdout + done.stderr
