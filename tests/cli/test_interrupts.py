"""Ctrl-C at any moment: never a traceback, and what is reported is true."""

from __future__ import annotations

import os
import random
import re
import signal
import subprocess
import sys
import time
from contextlib import suppress
from functools import cache
from pathlib import Path

import pytest

from tests.calling import EXAMPLES, call, environment, python

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C is sent in another way there")

VAN = EXAMPLES / "first-steps" / "van.circuit"
CALLS = (("check", str(VAN)), ("play", str(VAN)), ("show", str(VAN)), ("about",))
SOONEST = {"check": 16, "play": 8, "show": 6, "about": 4}  # calls of each kind; the long one has the most moments

# Nothing of ours can be there before Python is; from the byte on, which says that it is, nothing may go wrong.
BEGIN = """
import os, signal, sys
signal.signal(signal.SIGINT, signal.SIG_IGN)
sys.argv = ["logiccheck", *sys.argv[1:]]
os.write(1, b"!")
from logiccheck.__main__ import start
raise SystemExit(start())
"""


def interrupted(arguments: tuple[str, ...], *after: float) -> tuple[int, str, str]:
    """A call to which Ctrl-C is sent so many seconds after it began, once or more: exit status, output, errors."""
    command = [sys.executable, "-c", BEGIN, *arguments]
    pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE}
    process = subprocess.Popen(command, env=environment(), bufsize=0, start_new_session=True, **pipes)
    assert process.stdout is not None
    assert process.stdout.read(1) == b"!"
    for seconds in after:
        time.sleep(seconds)
        with suppress(ProcessLookupError):
            os.killpg(process.pid, signal.SIGINT)  # as a terminal does, to all processes of the call
    out, err = process.communicate(timeout=300)
    return process.returncode, out.decode(), err.decode()


@cache
def whole(arguments: tuple[str, ...]) -> tuple[int, str, float]:
    """The same call left alone: exit status, output, and the seconds it takes."""
    begun = time.monotonic()
    status, out, _ = interrupted(arguments)
    return status, out, time.monotonic() - begun


def verdicts(out: str) -> dict[str, str]:
    """The verdict on each requirement, of the list at the end of a report."""
    listed = out.partition("\nAll requirements\n")[2].partition("\n\n")[0]
    found = re.findall(r"^  (proved|FAILS|NOT DECIDED|BLOCKED|NO CASE) +(\w+)  ", listed, re.MULTILINE)
    return {name: word for word, name in found}


def complaints(arguments: tuple[str, ...], *after: float) -> list[str]:
    """What should not have been."""
    status, out, err = interrupted(arguments, *after)
    usual, text, _ = whole(arguments)
    found = [f"{word} in {err}" for word in ("Traceback", "Exception ignored", "our bug", "Error") if word in err]
    if status not in (usual, 3):
        found.append(f"exit status {status}")
    if arguments[0] != "check":
        if out not in ("", text) and not text.startswith(out):
            found.append(f"another text: {out[:300]}")
    elif len(after) == 1:
        known = verdicts(text)
        if out and (set(verdicts(out)) - {"short_circuit"}) - set(known):
            found.append(f"other requirements: {verdicts(out)}")
        wrong = {name: word for name, word in verdicts(out).items() if word not in (known.get(name), "NOT DECIDED")}
        if wrong or (not out and "nothing is reported" not in err):
            found.append(f"wrong: {wrong}, {out[:300]}")
        if "NOT DECIDED" in verdicts(out).values() and "interrupted" not in out.splitlines()[-1]:
            found.append(f"not said to be incomplete: {out.splitlines()[-1]}")
    return [f"{arguments[0]} after {after}: {each}" for each in found]


@pytest.mark.slow
@pytest.mark.parametrize("arguments", CALLS, ids=[call[0] for call in CALLS])
def test_at_any_moment(arguments: tuple[str, ...]) -> None:
    """Importing, reading, settling, searching, auditing, playing, printing: a true report or none."""
    chance = random.Random(arguments[0])
    seconds = whole(arguments)[2]
    moments = [chance.random() * seconds for _ in range(SOONEST[arguments[0]])]
    assert not [each for moment in moments for each in complaints(arguments, moment)]


def test_at_some_moments() -> None:
    """The same, shorter."""
    seconds = whole(CALLS[0])[2]
    assert not [each for part in (0.05, 0.2, 0.5, 0.8) for each in complaints(CALLS[0], part * seconds)]


@pytest.mark.slow
def test_at_any_moment_of_a_shared_search() -> None:
    """The same where several processes work: none of them says a word."""
    arguments = (*CALLS[0], "--jobs", "2")
    chance = random.Random(3)
    seconds = whole(arguments)[2]
    assert not [each for _ in range(5) for each in complaints(arguments, chance.random() * seconds)]
    assert not [each for _ in range(3) for each in complaints(arguments, chance.random() * seconds, 0.01)]


@pytest.mark.slow
def test_twice_at_any_moment() -> None:
    """The second ends it at once, and still without a traceback."""
    chance = random.Random(2)
    seconds = whole(CALLS[0])[2]
    for _ in range(6):
        first, second = sorted(chance.random() * seconds for _ in range(2))
        assert not complaints(CALLS[0], first, second - first)


def test_the_report_is_finished(tmp_path: Path) -> None:
    """Once all is decided the report is printed to its end; but a run that was interrupted is no success."""
    program = (
        "import os, signal, sys\n"
        "from logiccheck.__main__ import start\n"
        "from logiccheck.session import checking\n"
        "from logiccheck.cli import check\n"
        "before = checking.check_report\n"
        "def report(*given, **more):\n"
        "    os.kill(os.getpid(), signal.SIGINT)\n"
        "    return before(*given, **more)\n"
        "checking.check_report = report\n"
        f"sys.argv = ['logiccheck', 'check', {str(VAN)!r}, '--only', 'no_key_no_spark']\n"
        "raise SystemExit(start())\n"
    )
    done = python(program, tmp_path)
    alone = call("check", VAN, "--only", "no_key_no_spark", cwd=tmp_path)
    assert (alone.returncode, done.returncode) == (0, 3)
    assert done.stdout == alone.stdout
    assert "Ctrl-C again quits at once" in done.stderr


def test_a_search_in_the_solver_hears_of_it(tmp_path: Path) -> None:
    """The library is kept from catching Ctrl-C itself, and a long search pauses to hear of it."""
    program = (
        "import itertools, os, signal, threading, time\n"
        "from logiccheck.cli.interrupt import first_interrupt_reports\n"
        "from logiccheck.engine.sat import Sat\n"
        "n, sat = 11, Sat('minisat22')\n"
        "holes = [[sat.new() for _ in range(n)] for _ in range(n + 1)]\n"
        "for hole in holes:\n"
        "    sat.add(hole)\n"
        "for hole in range(n):\n"
        "    for a, b in itertools.combinations(range(n + 1), 2):\n"
        "        sat.add([-holes[a][hole], -holes[b][hole]])\n"
        "parent = os.getpid()\n"
        "if os.fork() == 0:\n"
        "    time.sleep(0.5); os.kill(parent, signal.SIGINT); os._exit(0)\n"
        "with first_interrupt_reports():\n"
        "    try:\n"
        "        print(sat.solve())\n"
        "    except KeyboardInterrupt:\n"
        "        print('heard')\n"
    )
    done = python(program, tmp_path)
    assert (done.stdout, "Traceback" in done.stderr) == ("heard\n", False), done.stderr


def test_no_module_stays_half_imported(tmp_path: Path) -> None:
    """Ctrl-C in the middle of an import waits for its end."""
    (tmp_path / "half.py").write_text(
        "import os, signal, time\nos.kill(os.getpid(), signal.SIGINT)\ntime.sleep(0.1)\nwhole = True\n",
        encoding="utf-8",
    )
    program = (
        "import sys, time\n"
        "sys.path.insert(0, '.')\n"
        "from logiccheck.cli.interrupt import first_interrupt_reports\n"
        "with first_interrupt_reports():\n"
        "    try:\n"
        "        import half\n"
        "        for _ in range(600): time.sleep(0.1)\n"
        "    except KeyboardInterrupt:\n"
        "        print(half.whole)\n"
    )
    assert python(program, tmp_path).stdout == "True\n"


def test_a_destructor_does_not_swallow_it(tmp_path: Path) -> None:
    """What is raised in a destructor goes no further; it is raised once more outside, and nothing is printed."""
    program = (
        "import os, signal, time\n"
        "from logiccheck.cli.interrupt import first_interrupt_reports\n"
        "class Doomed:\n"
        "    def __del__(self):\n"
        "        os.kill(os.getpid(), signal.SIGINT)\n"
        "        time.sleep(0.1)\n"
        "with first_interrupt_reports(b''):\n"
        "    try:\n"
        "        doomed = Doomed()\n"
        "        del doomed\n"
        "        for _ in range(600): time.sleep(0.1)\n"
        "    except KeyboardInterrupt:\n"
        "        print('heard')\n"
    )
    done = python(program, tmp_path)
    assert (done.stdout, done.stderr) == ("heard\n", "")
