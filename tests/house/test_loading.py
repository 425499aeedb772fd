"""What a command loads and reaches: `--help` none of the large libraries, and no command the network."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.calling import EXAMPLES, python

LARGE = ("lark", "sympy", "pysat", "oxidd", "rich")

LOADED = """
import sys
from logiccheck.cli.main import main
try:
    main({arguments})
except SystemExit:
    pass
print("loaded:", *sorted({large} & {{name.split(".")[0] for name in sys.modules}}))
"""

WATCHED = """
import sys
def watch(event, arguments):
    if event.startswith("socket."):
        sys.stderr.write(f"REACHED {{event}}\\n")
sys.addaudithook(watch)
from logiccheck.cli.main import main
try:
    sys.exit(main({arguments}))
except SystemExit as end:
    sys.stderr.write(f"ended with {{end.code}}\\n")
"""

VAN = str(EXAMPLES / "first-steps" / "van.circuit")


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "--help"], ["recheck", "--help"], []])
def test_help_loads_no_large_library(arguments: list[str], tmp_path: Path) -> None:
    """Help and version answer before any library is loaded."""
    done = python(LOADED.format(arguments=arguments, large=set(LARGE)), tmp_path)
    assert done.stdout.splitlines()[-1].strip() == "loaded:", done.stderr


@pytest.mark.parametrize(
    "arguments",
    [
        ["check", VAN, "--budget", "2"],
        ["check", "missing.circuit"],
        ["check", VAN, "--certify", "van.certificate"],
        ["recheck", "missing.certificate"],
        ["play", VAN],
        ["show", VAN],
        ["about", "blocked"],
        ["begin", "somewhere"],
    ],
)
def test_no_command_opens_a_socket(arguments: list[str], tmp_path: Path) -> None:
    """No command asks the network for anything."""
    done = python(WATCHED.format(arguments=arguments), tmp_path)
    assert "ended with" in done.stderr
    assert "REACHED" not in done.stderr
    assert "our bug" not in done.stderr
