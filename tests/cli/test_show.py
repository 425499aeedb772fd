"""`show` prints rules and outputs as written, unfolded and simplified, each way once."""

from __future__ import annotations

from pathlib import Path

from tests.calling import EXAMPLES, call

VAN = EXAMPLES / "first-steps" / "van.circuit"


def test_show_one(tmp_path: Path) -> None:
    """The whole output for one name."""
    (tmp_path / "van.circuit").write_bytes(VAN.read_bytes())
    done = call("show", "van.circuit", "loads_awake", cwd=tmp_path)
    assert done.returncode == 0
    assert (
        done.stdout
        == """\
Harbour coffee van, first sketch: rules and outputs as they are understood: 1.

loads_awake  [van.circuit:34]
  as written  key_on or not key_was_on
  unfolded    key_on or not bistable(set key_on)
  on in these ways
    - key_on
    - not bistable(set key_on)
"""
    )


def test_show_all_in_the_order_of_the_file(tmp_path: Path) -> None:
    """Every rule and output, and nothing else."""
    done = call("show", VAN, cwd=tmp_path)
    names = [line.split()[0] for line in done.stdout.splitlines()[1:] if line and not line.startswith(" ")]
    assert names == ["key_was_on", "loads_awake", "running", "prime", "fuel_pump", "ignition"]


def test_show_an_unknown_name(tmp_path: Path) -> None:
    """The near name is offered, and the call has failed."""
    done = call("show", VAN, "fuel_pimp", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout == "There is no rule or output named fuel_pimp. Did you mean fuel_pump?\n"


def test_simplified_is_shown_where_it_is_shorter(tmp_path: Path) -> None:
    """A term that does nothing goes."""
    text = VAN.read_text(encoding="utf-8").replace("when key_on and not crashed", "when key_on and (key_on or crashed)")
    (tmp_path / "van.circuit").write_text(text, encoding="utf-8")
    done = call("show", "van.circuit", "ignition", cwd=tmp_path)
    assert done.stdout.splitlines()[-2:] == ["  as written  key_on and (key_on or crashed)", "  simplified  key_on"]
