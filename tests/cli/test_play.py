"""`play` from outside: what is played, what was expected, and the exit status."""

from __future__ import annotations

from pathlib import Path

from tests.calling import EXAMPLES, call

VAN = EXAMPLES / "first-steps" / "van.circuit"
HEAD = VAN.read_text(encoding="utf-8").split("scenario arrival")[0]


def vehicle(folder: Path, scenarios: str) -> Path:
    """The first sketch with other scenarios."""
    path = folder / "van.circuit"
    path.write_text(HEAD + scenarios, encoding="utf-8")
    return path


def test_as_expected(tmp_path: Path) -> None:
    """All is met: status 0, and the last line says so."""
    done = call("play", VAN, "arrival", cwd=tmp_path)
    assert done.returncode == 0
    assert done.stdout.splitlines()[-1] == "scenarios 1, expectations met 8, not met 0: as expected"
    assert "  At 10 s as expected: fuel_pump, not ignition" in done.stdout.splitlines()


def test_not_as_expected(tmp_path: Path) -> None:
    """One is not met: status 1, and its own line is shown with the place marked."""
    path = vehicle(tmp_path, "scenario day\n    at 1 s  door is open\n    at 2 s  expect fuel_pump, ignition\n")
    done = call("play", path.name, cwd=tmp_path)
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert "  At 2 s as expected: fuel_pump" in lines
    at = lines.index("  At 2 s NOT as expected: ignition")
    assert lines[at + 2].endswith("\u2502     at 2 s  expect fuel_pump, ignition")
    assert lines[at + 3].strip().endswith("^^^^^^^^")
    assert lines[-1] == "scenarios 1, expectations met 1, not met 1: not as expected"


def test_nothing_expected_and_nothing_to_play(tmp_path: Path) -> None:
    """A scenario that expects nothing is only played; a file without one has nothing to play."""
    watched = call("play", vehicle(tmp_path, "scenario day\n    at 1 s  door is open\n    until 2 s\n"), cwd=tmp_path)
    assert watched.returncode == 0
    assert watched.stdout.splitlines()[0].endswith("played. Nothing was expected.")
    nothing = call("play", vehicle(tmp_path, ""), cwd=tmp_path)
    assert nothing.returncode == 1
    assert "NOTHING TO PLAY" in nothing.stdout


def test_what_is_shown_of_a_scenario(tmp_path: Path) -> None:
    """What changes, how long timers run, and in a line what hands leave alone; of a single moment everything."""
    day = "scenario day\n    at 1 s  door is open\n    until 9 s\n"
    lines = call("play", vehicle(tmp_path, day), "--table", cwd=tmp_path).stdout.splitlines()
    assert any(line.split() == ["timers", "prime", "runs", "3", "s", "ends"] for line in lines)
    assert "  All along: battery connected, key off, inertia closed, engine 0 rpm." in lines
    still = call("play", vehicle(tmp_path, "scenario day\n    until 1 s\n"), cwd=tmp_path).stdout.splitlines()
    assert "  hands   battery      connected" in still
    assert "          fuel_pump    off" in still


def test_a_scenario_that_breaks_what_is_given_says_so(tmp_path: Path) -> None:
    """It is played all the same."""
    scenario = "scenario day\n    at 1 s  key is run\n    at 2 s  key is off\n    until 3 s\n"
    done = call("play", vehicle(tmp_path, scenario), cwd=tmp_path)
    assert "From 1 s on this scenario breaks what is given: key moves one position at a time" in done.stdout


def test_an_unknown_scenario(tmp_path: Path) -> None:
    """The near name is offered."""
    done = call("play", VAN, "arival", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == "There is no scenario named arival. Did you mean arrival?\n"


def test_rules_that_chase_each_other_end_the_play(tmp_path: Path) -> None:
    """What never comes to rest is shown, and nothing after it."""
    text = HEAD.replace("rule prime       = one_shot(loads_awake, 3 s)", "rule prime = not previous(prime)")
    (tmp_path / "van.circuit").write_text(
        text + "scenario day\n    at 1 s  door is open\n    until 9 s\n", encoding="utf-8"
    )
    done = call("play", "van.circuit", cwd=tmp_path)
    assert done.returncode == 1
    assert "NEVER COMES TO REST" in done.stdout.splitlines()[0]
    assert "At 1 s the rules or relays chase each other for ever; nothing later was played." in done.stdout


def test_a_stretch_says_when_it_broke(tmp_path: Path) -> None:
    """Of an expectation from .. to that is not met, the first instant is named at which it is not so."""
    path = vehicle(tmp_path, "scenario day\n    at 1 s  door is open\n    from 2 s to 30 s expect fuel_pump\n")
    lines = call("play", path.name, cwd=tmp_path).stdout.splitlines()
    assert "  From 2 s to 30 s NOT as expected: fuel_pump. It is not so at 4 s." in lines


def test_bars(tmp_path: Path) -> None:
    """What changes or is expected has a bar; all else only if it is asked for, and then in the table, too."""
    day = "scenario day\n    at 1 s  door is open\n    at 2 s  expect not ignition\n    until 9 s\n"
    path = vehicle(tmp_path, day)
    lines = call("play", path, cwd=tmp_path).stdout.splitlines()
    assert lines[5:8] == [
        "                at first     1 s                     4 s                                     9 s",
        "                       ┴───────┴───────────────────────┴───────────────────────────────────────┴",
        "  hands   door         ├closed─├open───────────────────────────────────────────────────────────",
    ]
    assert "          fuel_pump    ────────████████████████████████────────────────────────────────────────" in lines
    assert any(line.split()[:1] == ["ignition"] for line in lines)
    assert not any("key_wire" in line for line in lines)
    assert any("key_wire" in line for line in call("play", path, "--all", cwd=tmp_path).stdout.splitlines())
    table = call("play", path, "--all", "--table", cwd=tmp_path).stdout.splitlines()
    assert any(line.split() == ["copper", "plus", "live"] for line in table)


def test_bars_in_ascii(tmp_path: Path) -> None:
    """A stream that can take nothing else gets nothing else."""
    done = call("play", VAN, cwd=tmp_path, PYTHONIOENCODING="ascii")
    assert "├" not in done.stdout
    assert any(line.startswith("          fuel_pump    ------") and "####" in line for line in done.stdout.splitlines())


def test_why_it_is_not_as_expected(tmp_path: Path) -> None:
    """Under the line of an expectation that is not met stand the lines that made it so."""
    path = vehicle(tmp_path, "scenario day\n    at 1 s  door is open\n    from 2 s to 30 s expect fuel_pump\n")
    lines = call("play", path.name, cwd=tmp_path).stdout.splitlines()
    at = lines.index("  From 2 s to 30 s NOT as expected: fuel_pump. It is not so at 4 s.")
    assert lines[at + 4].startswith("  fuel_pump is off because prime is off (ended at 4 s)")
    assert any("output fuel_pump" in line for line in lines[at + 5 : at + 14])


def test_saved_scenarios_play_again(tmp_path: Path) -> None:
    """What was played is written as a scenario that expects what was seen; nothing is overwritten."""
    (tmp_path / "van.circuit").write_text(VAN.read_text(encoding="utf-8"), encoding="utf-8")
    saved = call("play", "van.circuit", "--save", "kept", cwd=tmp_path)
    assert saved.stderr.splitlines() == [
        f"scenario: {Path('kept') / 'arrival.circuit'}",
        "To play a story again: logiccheck play van.circuit --scenario-file kept/arrival.circuit",
    ]
    again = call("play", "van.circuit", "--scenario-file", "kept/arrival.circuit", cwd=tmp_path)
    assert (saved.returncode, again.returncode) == (0, 0)
    assert "fails" not in again.stdout
    call("play", "van.circuit", "--save", "kept", cwd=tmp_path)
    assert [path.name for path in (tmp_path / "kept").iterdir()] == ["arrival.circuit"]
    (tmp_path / "kept" / "arrival.circuit").write_text("changed", encoding="utf-8")
    call("play", "van.circuit", "--save", "kept", cwd=tmp_path)
    assert sorted(path.name for path in (tmp_path / "kept").iterdir()) == ["arrival-2.circuit", "arrival.circuit"]


def test_a_scenario_of_a_saved_story_by_its_name(tmp_path: Path) -> None:
    """A file of saved stories may be played in part."""
    (tmp_path / "van.circuit").write_text(VAN.read_text(encoding="utf-8"), encoding="utf-8")
    call("check", "van.circuit", "--save", "stories", cwd=tmp_path)
    story = ("--scenario-file", "stories/no_flat_battery.circuit")
    done = call("play", "van.circuit", "no_flat_battery_story", *story, cwd=tmp_path)
    assert done.returncode == 1
    assert "BREAKS no_flat_battery" in done.stdout
    unknown = call("play", "van.circuit", "arrival", *story, cwd=tmp_path)
    assert unknown.returncode == 2
