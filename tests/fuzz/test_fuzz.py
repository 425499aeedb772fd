"""No text whatever ends in a traceback, a hang, or a message that does not help."""

from __future__ import annotations

import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from logiccheck.cli.main import main
from tests.calling import EXAMPLES, ROOT, environment
from tests.campaign import seeds
from tests.fuzz.asked import complaints
from tests.fuzz.texts import MAKERS, made

SEEDS = 180
CALLS = 120
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


ARGUMENTS = (
    *(
        "van.circuit",
        "van.circuit",
        "arrival",
        "prime",
        "proved",
        "E101",
        "--only",
        "no_key_no_spark",
        "--save",
        "--budget",
    ),
    *(
        "--budget=",
        "1",
        "0.5",
        "--memory=1",
        "--certify=",
        "--scenario-file",
        "--help",
        "--version",
        "-h",
        "-",
        "--",
        "-x",
    ),
    *(
        "",
        ".",
        "..",
        "/",
        "van.circuit/x",
        "@x",
        "~",
        "\n",
        "\udcff",
        "\u6cf5",
        "x" * 5_000,
        "--budget=1e400",
        "--memory=1_0",
    ),
)


def test_random_calls(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Arguments in any order end in one of the statuses that are documented, and in no bug of ours."""
    monkeypatch.chdir(tmp_path)
    shutil.copy(EXAMPLES / "first-steps" / "van.circuit", tmp_path)
    chance = random.Random(1)
    for _ in range(CALLS):
        command = chance.choice(("check", "play", "show", "about", "begin", "recheck", "chek"))
        arguments = [command, *(chance.choice(ARGUMENTS) for _ in range(chance.randrange(5)))]
        status = main(arguments)
        assert status in (0, 1, 2, 3), arguments
        assert "our bug" not in capsys.readouterr().err, arguments


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
    chosen = seeds(300, first=1)
    command = [sys.executable, "-m", "tests.fuzz.campaign", str(chosen.start), str(len(chosen))]
    done = subprocess.run(command, cwd=ROOT, env=environment(), capture_output=True, encoding="utf-8", check=False)
    print(done.stdout)
    assert done.returncode == 0, done.stdout + done.stderr
