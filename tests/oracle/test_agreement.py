"""The engine against the explorer, on random small programs and on those on which they once disagreed."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from tests.campaign import seeds
from tests.oracle.agreement import compare, undecided
from tests.oracle.explorer import TooBig
from tests.oracle.loading import loaded
from tests.oracle.programs import CONSTRUCTS, Made, Mix, programs, random_program

SEEDS = 300
RICH_SEEDS = 60
LIMIT = 4_000  # states of one requirement
SECONDS = 5.0  # for the engine, for one requirement
REGRESSIONS = sorted((Path(__file__).parent / "regressions").glob("*.circuit"))


def run(mix: Mix, made: Made, seconds: float = SECONDS) -> list[str]:
    """Compares on one program; what they contradict each other in."""
    try:
        compared = compare(loaded(made.text), seconds, LIMIT)
    except TooBig:
        mix.skipped += 1
        return []
    except Exception as error:  # the next programs are to be compared all the same
        return [f"program {made.seed}: {type(error).__name__}: {error}"]
    mix.add(made)
    for each in (x for x in compared if not x.verdict.builtin):
        mix.note(each.answer.kind.value, each.answer.moments, undecided(each.verdict))
    return [f"program {made.seed}, {x.name}: {x.complaint}" for x in compared if x.complaint]


def test_engine_and_explorer_agree(capsys: pytest.CaptureFixture[str]) -> None:
    """Never contradict each other; equally short stories; and the run is not dull."""
    mix = Mix()
    complaints = [line for seed in range(SEEDS) for line in run(mix, random_program(seed))]
    with capsys.disabled():
        print("", *mix.lines(), sep="\n")
    assert not complaints, "\n".join(complaints)
    assert mix.skipped < SEEDS / 20
    assert mix.share("proved") >= 0.25
    assert mix.share("fails") >= 0.25
    assert mix.long(4) >= 0.10
    assert mix.undecided.total() <= 0.01 * mix.requirements
    rare = [name for name in CONSTRUCTS if mix.constructs[name] < 0.03 * mix.programs]
    assert not rare, f"hardly ever made: {rare}"


RICH = {
    "blinker": r"coil .*blink\(", "impulse relay": r"coil .*impulse_relay\(", "edge": r"coil .*(?:rises|falls)\(",
    "two thresholds": "coil .* until below", "bistable": r"coil .*bistable\(", "set wins": "coil .* set wins",
    "timer of a memory": r"coil .*(?:delay|shot)\((?:\w*relay|bistable|blink|rises|falls)",
    "memory of a timer": r"coil .*(?:relay|set|rises|falls|blink)[( ](?:on_delay|off_delay|one_shot)",
}  # fmt: skip


def test_engine_and_explorer_agree_on_coils_that_remember() -> None:
    """The same where the coils of relays hold all that the language allows there; and each of it is there."""
    made = [random_program(seed, rich=True) for seed in range(RICH_SEEDS)]
    mix = Mix()
    complaints = [line for each in made for line in run(mix, each)]
    assert not complaints, "\n".join(complaints)
    assert mix.skipped < RICH_SEEDS / 10
    for name, shape in RICH.items():
        assert sum(re.search(shape, each.text) is not None for each in made) >= 2, name


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(programs())
def test_engine_and_explorer_agree_wherever_hypothesis_looks(made: Made) -> None:
    """The same on programs that Hypothesis draws, and shrinks when it finds a disagreement."""
    assert not run(Mix(), made), made.text


@pytest.mark.campaign
def test_engine_and_explorer_agree_at_length(capsys: pytest.CaptureFixture[str]) -> None:
    """As many programs as CAMPAIGN_COUNT says, from seed CAMPAIGN_SEED on; CAMPAIGN_SECONDS are for a busy machine, and
    with CAMPAIGN_RICH coils remember."""
    seconds, rich = float(os.environ.get("CAMPAIGN_SECONDS", SECONDS)), "CAMPAIGN_RICH" in os.environ
    mix = Mix()
    complaints = [line for each in seeds() for line in run(mix, random_program(each, rich), seconds)]
    with capsys.disabled():
        print("", *mix.lines(), sep="\n")
    assert not complaints, "\n".join(complaints)


@pytest.mark.parametrize("path", REGRESSIONS, ids=lambda path: path.stem)
def test_what_once_was_wrong(path: Path) -> None:
    """Programs on which engine and explorer once disagreed; each says in its first lines what was wrong."""
    compared = compare(loaded(path.read_text(encoding="utf-8")), SECONDS, LIMIT)
    assert not [f"{x.name}: {x.complaint}" for x in compared if x.complaint]
