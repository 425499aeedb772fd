"""`why --when` and `why --all-ways`: what a signal is whenever something is so, and in what ways it can be on."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.calling import EXAMPLES, ROOT, call, environment

VAN = EXAMPLES / "first-steps" / "van.circuit"
CAFE = EXAMPLES / "coffee-van" / "van.circuit"
BOAT = EXAMPLES / "relay-only" / "boat.circuit"


def why(file: Path, name: str, *options: str, status: int = 0) -> list[str]:
    """The lines of the answer, up to what was taken as given."""
    done = call("why", file.relative_to(ROOT), name, *options, cwd=ROOT)
    assert done.returncode == status, done.stdout + done.stderr
    assert done.stderr == ""
    return done.stdout.split("\nWhat was taken as given")[0].splitlines()


def test_what_differs() -> None:
    """What makes the difference, then an example of either, with the fewest facts and the whole story."""
    lines = why(VAN, "fuel_pump", "--when", "key is run, engine is 0 rpm")
    assert lines[:6] == [
        "When key is run and engine is 0 rpm, Fuel pump can be on and can be off.",
        "At the end of both examples hands and physics are the same; what is stored is not (first / second): prime on / off.",
        "",
        "Example 1: on",
        "  Fuel pump is on at 2 h because prime is on (its time runs since 2 h, 3 s left) and crashed is off.",
        "  Fewest facts that are enough: 2. No other set is as small.",
    ]
    second = lines[lines.index("Example 2: off") :]
    assert second[1].startswith("  Fuel pump is off at 4 s because prime is off (ended at 4 s)")
    assert "  timers  prime                  runs 3 s   ends" in second


OWN = """vehicle "Own timer"
world
    key off | run
    door contact
harness
    source plus
    wire key_wire from plus when key is run
    wire feed     from plus
controller "Box" powered by feed
    sense k from key_wire live
    output lamp when k
"""


@pytest.mark.parametrize(
    "when",
    [
        "one_shot(key is run, 1 s +- 0.5 s) and bistable(set k, reset false)",
        "bistable(set rises(door) and rises(on_delay(key is run, 1 s)), reset false)",
    ],
)
def test_a_timer_of_the_call_is_no_part_of_the_vehicle(when: str, tmp_path: Path) -> None:
    """Nothing is said of how long it lasts, and of what falls together with its end: it has no name that the user
    knows."""
    (tmp_path / "own.circuit").write_text(OWN, encoding="utf-8")
    done = call("why", "own.circuit", "lamp", "--when", when, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Example 2: off\n" in done.stdout
    for unheard in ("question", "nominal time", "conditions_of_the_call", "such a coincidence"):
        assert unheard not in done.stdout


def test_what_is_always_so() -> None:
    """A proof, and that it says something."""
    lines = why(CAFE, "starter_motor", "--when", "lever is drive")
    assert lines[0] == "Starter is always off when lever is drive. Proved for all situations, orders and timings."
    assert "An example" in lines


def test_what_never_comes() -> None:
    assert why(CAFE, "fuel_pump", "--when", "door is open, fuel_pump and inertia is tripped, key is run")[:2] == [
        "It never comes to that: door is open and fuel_pump and inertia is tripped and key is run. "
        "Proved for all situations, orders and timings.",
        "This alone is never so: fuel_pump and inertia is tripped.",
    ]


def test_mistakes_in_the_conditions() -> None:
    """Where in the option, and what to type."""
    lines = why(VAN, "fuel_pump", "--when", "door is open, key is runn", status=2)
    assert lines[0] == "--when: CANNOT BE READ AS IT STANDS. Mistakes: 1. Nothing was checked."
    assert "    --when:1:22" in lines
    assert "  Did you mean `key is run`?" in lines


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (("--when", "door is open", "--all-ways"), "--when and --all-ways ask different things: give one of them."),
        (
            ("--all-ways", "--at", "3 s"),
            "--all-ways asks about all situations, so --at has nothing to choose: leave one of them out.",
        ),
        (
            ("--when", "door is open", "--scenario", "arrival"),
            "--when asks about all situations, so --scenario has nothing to choose: leave one of them out.",
        ),
    ],
)
def test_options_that_do_not_go_together(options: tuple[str, ...], sentence: str) -> None:
    done = call("why", VAN, "fuel_pump", *options, cwd=ROOT)
    assert (done.returncode, done.stdout, done.stderr.strip()) == (2, "", sentence)


def test_names_that_are_no_signals() -> None:
    assert why(VAN, "fuel_pum", "--all-ways", status=2) == [
        "There is no signal named fuel_pum. Did you mean fuel_pump?"
    ]
    assert why(VAN, "key", "--all-ways", status=2) == [
        "key only follows hands and physics: no rule and no wire decides it. Ask about something that hangs on it."
    ]


def test_all_ways_of_an_output() -> None:
    """The whole of it."""
    assert why(CAFE, "fuel_pump", "--all-ways")[:14] == [
        "Ways in which Fuel pump can be on: 4.",
        "Whenever it is on, one of these is so, or several are, and each makes it on. In none of them can a fact be left "
        "out. Proved for all situations, orders and timings.",
        "",
        "Way 1: prime and key_on and not crash_stop",
        "  Shortest story: at 1 s key goes to accessory; at 2 s key goes to run.",
        "",
        "Way 2: prime and not key_was_on and not crash_stop",
        "  Shortest story: at 1 h door goes to open.",
        "",
        "Way 3: key_on and running and not crash_stop",
        "  Shortest story: at 1 h key goes to accessory; at 2 h engine goes to 1000 rpm and key goes to run.",
        "",
        "Way 4: cranking and not on_delay(cranking, crank_limit) and revs at least 60 rpm and not crash_stop",
        "  Shortest story: at 1 h key goes to accessory; at 2 h engine goes to 60 rpm and key goes to run; at 3 h key "
        "goes to start.",
    ]


def test_all_ways_without_a_controller() -> None:
    """A load hangs on copper; `--deep` shows the whole story of each way."""
    lines = why(BOAT, "bilge_pump", "--all-ways", "--deep")
    assert lines[0] == "Ways in which Bilge pump can be on: 2."
    assert [line for line in lines if line.startswith("Way ")] == ["Way 1: pump_hold", "Way 2: master and pump_switch"]
    assert sum("at first" in line and "Shortest" not in line for line in lines) == 2
    holding = why(BOAT, "engine_relay", "--all-ways")
    assert "Way 1: master and key is not off and engine_relay holds itself and not stop_button" in holding


def test_nothing_is_claimed_that_is_not_decided() -> None:
    """Too little time: exit status 3, and how many are open."""
    lines = why(CAFE, "fuel_pump", "--all-ways", "--budget", "0.001", status=3)
    assert lines[0] == "Ways shown in which Fuel pump can be on: 0 of 4 that the text allows; not decided: 4."
    assert not any("Proved" in line for line in lines)


def test_what_stands_in_the_way(tmp_path: Path) -> None:
    """Exit status as for a blocked requirement, and where to see what it is."""
    text = VAN.read_text(encoding="utf-8") + "\ngiven\n    never door is open\n    always door is open\n"
    (tmp_path / "van.circuit").write_text(text, encoding="utf-8")
    done = call("why", "van.circuit", "fuel_pump", "--when", "key is run", cwd=tmp_path)
    assert done.returncode == 1
    assert done.stdout.splitlines()[:3] == [
        "Whether Fuel pump is on or off when key is run was not decided.",
        "No answer: what is given contradicts itself, so nothing at all could ever be so.",
        "What stands in the way is shown by: logiccheck check van.circuit",
    ]


def test_what_never_comes_to_rest() -> None:
    """Ways are shown, but nothing is called proved, and the exit status is that of what is blocked."""
    lines = why(EXAMPLES / "planted-mistakes" / "after-you.circuit", "step_down", "--all-ways", status=1)
    assert lines[:4] == [
        "Ways in which Step motor down can be on: 1.",
        "Whenever it is on, this is so, and this makes it on.",
        "The rules or relays can chase each other for ever. This is said of what comes to rest.",
        "What stands in the way is shown by: logiccheck check examples/planted-mistakes/after-you.circuit",
    ]


def test_as_json() -> None:
    """The same report for machines."""
    done = call("why", CAFE, "fuel_pump", "--all-ways", "--json", cwd=ROOT)
    assert done.returncode == 0
    assert '"Way 1: prime and key_on and not crash_stop"' in done.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent in another way there")
@pytest.mark.parametrize("after", [0.3, 0.9, 1.2, 1.6])
def test_interrupted(after: float) -> None:
    """Never a traceback; what is reported is true and says that it was cut."""
    command = [sys.executable, "-m", "logiccheck", "why", str(CAFE), "fuel_pump", "--all-ways"]
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    process = subprocess.Popen(command, env=environment(), start_new_session=True, text=True, **pipes)  # type: ignore[call-overload]
    time.sleep(after)
    os.killpg(process.pid, signal.SIGINT)
    out, err = process.communicate(timeout=300)
    assert "Traceback" not in err
    if "Ways" in out:
        whole = out.startswith("Ways in which Fuel pump can be on: 4.\n")
        cut = "The run was interrupted: what is not said here was not decided." in out
        assert whole or cut
        assert process.returncode == 3 or (process.returncode == 0 and not cut)  # 0: all was said before it came
