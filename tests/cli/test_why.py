"""`why` says why a signal is as it is at a moment, or what to type instead."""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

import pytest

from logiccheck.cli.main import main
from logiccheck.cli.progress import Progress
from logiccheck.cli.values import instant
from logiccheck.engine.verdict import Kind, Undecided, Verdict
from logiccheck.lang.program import Const, Guard, Never, Requirement
from logiccheck.report.report import Outcome
from logiccheck.report.why import without_story
from tests.calling import EXAMPLES, call, python

VAN = EXAMPLES / "first-steps" / "van.circuit"
BOAT = EXAMPLES / "relay-only" / "boat.circuit"

TWO = """
import sys
from logiccheck.cli.main import main
main({arguments})
print("loaded:", *sorted({{"sympy", "oxidd", "rich", "z3"}} & {{name.split(".")[0] for name in sys.modules}}))
"""


def test_an_output_of_the_only_scenario(tmp_path: Path) -> None:
    """The answer, then the user's own lines; the whole of it."""
    (tmp_path / "van.circuit").write_bytes(VAN.read_bytes())
    done = call("why", "van.circuit", "fuel_pump", "--at", "12.5s", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.startswith(
        """\
Fuel pump is on at 12.5 s because prime is on (its time runs since 10 s, 0.5 s left) and crashed is off.
It has been so for 2.5 s: since 10 s, when door went to open.
Fewest facts that are enough: 2. No other set is as small.
    van.circuit:38:5
    38 │     output fuel_pump "Fuel pump"        when (prime or running or cranking) and not crashed
       │                                               ^^^^^                                 ^^^^^^^
    van.circuit:36:24
    36 │     rule prime       = one_shot(loads_awake, 3 s)
       │                        ^^^^^^^^^^^^^^^^^^^^^^^^^^
"""
    )


def test_a_vehicle_without_a_controller(tmp_path: Path) -> None:
    """A load, and with `--deep` all that is behind it, down to hands."""
    (tmp_path / "boat.circuit").write_bytes(BOAT.read_bytes())
    done = call("why", "boat.circuit", "ignition", "--scenario", "casting_off", "--at", "295 s", "--deep", cwd=tmp_path)
    assert done.returncode == 0
    lines = done.stdout.splitlines()
    assert lines[0] == "Ignition coil is on at 4 min 55 s because engine_relay is closed, key is run and master is on."
    begin = lines.index("What is behind it")
    assert lines[begin + 1 : begin + 7] == [
        "  - engine_relay is closed, because at 4 min 50 s key_wire is live, key is start (from 4 min 50 s on), aired is "
        "closed and stop_button is off (all along).  [boat.circuit:47]",
        "    - key_wire is live, because key is start (from 4 min 50 s on) and master is on (from 5 s on).  [boat.circuit:45]",
        "    - aired is closed, because on_delay(blower_wire, 4.5 min +- 10 %) is on (its delay was over at 4 min 40 s).  "
        "[boat.circuit:45]",
        "      - on_delay(blower_wire, 4.5 min +- 10 %) is on (its delay was over at 4 min 40 s); at 10 s its input is on, because "
        "blower_switch is on (from 10 s on) and master is on (from 5 s on).  [boat.circuit:39]",
        "  - key is run (from 4 min 52 s on).  [boat.circuit:43]",
        "  - master is on (from 5 s on).  [boat.circuit:19]",
    ]


def test_the_end_of_a_story(tmp_path: Path) -> None:
    """Without a time the moment at which the requirement is seen to fail."""
    done = call("why", VAN, "fuel_pump", "--story", "dead_engine_fuel", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.splitlines()[:2] == [
        "Fuel pump is on at 6 s because cranking is on and crashed is off.",
        "It has been so for 4 s: since 2 s, when key went to run.",
    ]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["fuel_pimp"], "There is no signal named fuel_pimp. Did you mean fuel_pump?"),
        (["fuel_pump", "--at=-1s"], "There is no moment at -1 s: all begins at 0 s."),
        (["fuel_pump", "--at", "40s"], "There is nothing at 40 s: what is played ends at 30 s."),
        (["fuel_pump", "--scenario", "arival"], "There is no scenario named arival. Did you mean arrival?"),
        (["fuel_pump", "--story", "no_flat"], "There is no requirement named no_flat."),
        (["fuel_pump", "--story", "x", "--scenario", "y"], "Is it the scenario or the story?"),
        (
            ["fuel_pump", "--story", "no_key_no_spark"],
            "no_key_no_spark has no story to look into: it is proved to hold, and nothing breaks it.",
        ),
    ],
)
def test_what_cannot_be_answered(arguments: list[str], said: str, tmp_path: Path) -> None:
    """One sentence that says what to do, status 2."""
    done = call("why", VAN, *arguments, cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout.startswith(said)
    assert len(done.stdout.splitlines()) == 1


@pytest.mark.parametrize("text", ["12", "3 s 2 s", "2 s 1 min", "1 min 2 s 1 min", "1 min -2 s"])
def test_a_time_that_cannot_be_read(text: str, tmp_path: Path) -> None:
    """What is meant, and an example; of several units each is less than the one before."""
    done = call("why", VAN, "fuel_pump", "--at", text, cwd=tmp_path)
    assert done.returncode == 2
    meant = f"a time with its unit is meant (s, min, h, ms, us), for example 12.5s, and not '{text}'"
    assert done.stderr.splitlines()[-1] == f"logiccheck why: error: argument --at: {meant}"


def test_a_time_in_several_units() -> None:
    assert instant("1 min 5 s") == instant("65s") == 65_000_000
    assert instant("1h 0min 0.5s 3 ms") == 3_600_503_000


def test_several_scenarios_and_none(tmp_path: Path) -> None:
    """Which there are, and a line that can be typed."""
    done = call("why", BOAT, "blower", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == (
        "In which scenario? There are: casting_off, moored, power_cut. "
        f"Type: logiccheck why {BOAT.as_posix()} blower --scenario casting_off\n"
    )
    text = VAN.read_text(encoding="utf-8")
    (tmp_path / "van.circuit").write_text(text[: text.index("scenario arrival")], encoding="utf-8")
    done = call("why", "van.circuit", "fuel_pump", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (
        2,
        "The file has no scenario. For a moment of the story in which a requirement fails, type: "
        "logiccheck why van.circuit fuel_pump --story no_key_no_spark\n",
    )


def test_a_moment_that_never_settles(tmp_path: Path) -> None:
    """It is said that nothing is on or off there, and where the last rest is; earlier moments are explained."""
    (tmp_path / "chatter.circuit").write_text(
        """\
vehicle "Chatter"
world
    button contact
harness
    source plus
    relay buzz coil button and not buzz
scenario pressed
    at 5 s button is on
    until 9 s
""",
        encoding="utf-8",
    )
    done = call("why", "chatter.circuit", "buzz", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (
        2,
        "At 5 s the rules or relays chase each other for ever, so nothing is on or off there. "
        "The last moment that comes to rest is at 0 s.\n",
    )
    done = call("why", "chatter.circuit", "buzz", "--at", "4.9 s", cwd=tmp_path)
    assert done.stdout.splitlines()[0] == "buzz is open at 4.9 s because button is off."


def test_hands_move_the_rest(tmp_path: Path) -> None:
    """A switch has no reason, a sensed number a plain one."""
    done = call("why", VAN, "key", "--at", "21s", cwd=tmp_path)
    assert done.stdout == "key is run at 21 s: hands and physics move it, no rule and no wire does.\n"
    done = call("why", VAN, "revs", cwd=tmp_path)
    assert done.stdout == "revs reads 900 rpm at 30 s because engine is 900 rpm and the box has power.\n"


def test_what_only_plays_loads_nothing_large(tmp_path: Path) -> None:
    """An answer from a scenario is there in no time, because the engines of `check` are not loaded."""
    done = python(TWO.format(arguments=["why", str(VAN), "fuel_pump"]), tmp_path)
    assert done.stdout.splitlines()[-1].strip() == "loaded:", done.stderr


PASSING = """\
vehicle "Passing"
world
    button contact
harness
    source plus
    wire a_wire from plus when button
controller powered by plus
    sense a from a_wire live
    output lamp when a and not previous(a)
requirements
    danger dark "Never on, not even for an instant"
        never lamp even for an instant
"""


def test_a_story_of_what_is_so_for_an_instant(tmp_path: Path) -> None:
    """It is said that the lamp is off again where all has come to rest."""
    (tmp_path / "passing.circuit").write_text(PASSING, encoding="utf-8")
    done = call("why", "passing.circuit", "lamp", "--story", "dark", cwd=tmp_path)
    lines = done.stdout.splitlines()
    assert lines[0] == "lamp is off at 0 s because previous(a) is on."
    assert lines[lines.index("For an instant only") + 1] == (
        "  What the story shows is so only for an instant at 0 s; told here is how all is once it has come to rest."
    )


def test_what_is_not_decided() -> None:
    """It is no mistake of the call, and what to do is said."""
    requirement = Requirement("r", "", Guard.DANGER, Never(Const(True), None, False, False), "never true")
    report = without_story(Verdict(requirement, Kind.NOT_DECIDED, undecided=Undecided.BUDGET))
    assert report.outcome is Outcome.OPEN
    assert report.opening == (
        "r has no story to look into: it is not decided; the time for it ran out (more time: --budget SECONDS)."
    )


@pytest.mark.parametrize(
    ("options", "short", "whole"),
    [
        (("--at", "12.5s"), "As long as the facts of the first sentence stay so, it stays on", "positions of switches"),
        (("--at", "12.5s", "--json"), "As long as the facts of the first sentence stay so", "positions of switches"),
        (("--all-ways",), "Way 1", "in the box its senses"),
        (("--all-ways", "--json"), "Way 1", "in the box its senses"),
    ],
)
def test_what_counts_as_a_fact_is_told_on_demand(options: tuple[str, ...], short: str, whole: str) -> None:
    """Who reads an answer for the first time is told what it means, and with `--deep` in full."""
    counted = f"Counted as facts: {whole}"
    plain, deep = (call("why", VAN, "fuel_pump", *options, *more, cwd=VAN.parent).stdout for more in ((), ("--deep",)))
    assert short in plain
    assert counted not in plain
    assert counted in deep


STARTING = """\
vehicle "Starting"
constants
    limit = 2 s
world
    button contact
harness
    source plus
    wire feed from plus when button
controller "Box" powered by feed after 1 s
    sense alive from feed live
    rule kept = alive and on_delay(alive, limit)
    output lamp when kept
scenario pressed
    at 5 s button is on
    until 9 s
"""


def test_the_start_of_the_box_is_a_delay(tmp_path: Path) -> None:
    """It has no name of its own; a time that is written as a name is told beside it."""
    (tmp_path / "start.circuit").write_text(STARTING, encoding="utf-8")
    lines = call("why", "start.circuit", "powered", "--at", "6s", cwd=tmp_path).stdout.splitlines()
    assert lines[1] == "It is so from this moment on, when the start-up delay was over."
    lines = call("why", "start.circuit", "powered", "--at", "5.5s", cwd=tmp_path).stdout.splitlines()
    assert "  If nothing else moves, it gets power at 6 s, when the start-up delay is over." in lines
    lines = call("why", "start.circuit", "lamp", "--at", "7s", cwd=tmp_path).stdout.splitlines()
    assert (
        lines[0]
        == "lamp is off at 7 s because on_delay(alive, limit) (2 s) is off (its time runs since 6 s, 1 s left)."
    )


def test_a_story_that_needs_more_memory(tmp_path: Path) -> None:
    """The bound of memory holds for the search behind a story, too."""
    done = call("why", VAN, "fuel_pump", "--story", "dead_engine_fuel", "--memory", "1", cwd=tmp_path)
    assert done.returncode == 3
    assert "it is not decided; the memory for it ran out" in done.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent in another way there")
def test_interrupted_while_the_story_is_sought(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is said, and that it is not decided; nothing else is lost."""
    monkeypatch.setattr(Progress, "__call__", lambda *_: os.kill(os.getpid(), signal.SIGINT))
    assert main(["why", str(VAN), "ignition", "--story", "no_key_no_spark"]) == 3
    assert "it is not decided; it was interrupted." in capsys.readouterr().out
