"""`check --certify` and `recheck` from outside: what is written, first and last lines, exit statuses, what is
refused."""

from __future__ import annotations

import json
import os
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.calling import EXAMPLES, call, environment

HIDDEN = """
import sys
sys.meta_path.insert(0, type("Hidden", (), {"find_spec": staticmethod(lambda name, *_: (_ for _ in ()).throw(
    ModuleNotFoundError(name)) if name == "z3" else None)}))
"""
SKETCH, BOAT = EXAMPLES / "first-steps" / "van.circuit", EXAMPLES / "relay-only" / "boat.circuit"


@pytest.fixture(scope="module")
def boat(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the boat in `rules` and its certificate beside that folder."""
    folder = tmp_path_factory.mktemp("boat")
    (folder / "rules").mkdir()
    shutil.copy(BOAT, folder / "rules")
    done = call("check", "rules/boat.circuit", "--certify", "boat.certificate", cwd=folder)
    assert done.returncode == 0
    assert done.stderr.splitlines() == [
        "certificate: boat.certificate  (requirements proved in it: 13 of 13)",
        "To prove it again with another solver: logiccheck recheck boat.certificate",
    ]
    return folder


@pytest.fixture
def copied(boat: Path, tmp_path: Path) -> Path:
    """The same in a folder of its own, to be spoilt."""
    shutil.copytree(boat, tmp_path, dirs_exist_ok=True)
    return tmp_path


def edit(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_without_memory_nothing_is_proved_again(boat: Path) -> None:
    """What needs more than it may hold is not decided, and the report says what may help."""
    done = call("recheck", "boat.certificate", "--memory", "20", cwd=boat)
    assert done.returncode == 3, done.stderr
    assert "NOT DECIDED. Requirements not proved again in the time and memory given: 14 of 14." in done.stdout
    assert "The memory for it ran out: more may help (--memory)." in done.stdout
    assert done.stderr == ""


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_what_several_processes_proved_is_proved_again(jobs: str, tmp_path: Path) -> None:
    """They may find other proofs than one does, and all of them hold."""
    van = EXAMPLES / "coffee-van" / "van.circuit"
    call("check", van, "--budget", "300", "--jobs", jobs, "--certify", "van.certificate", cwd=tmp_path)
    done = call("recheck", "van.certificate", cwd=tmp_path)
    assert done.returncode == 0, done.stdout
    assert done.stdout.splitlines()[0].startswith("Harbour coffee van: PROVED AGAIN.")


def test_all_is_proved_again(boat: Path) -> None:
    """The first line says so, the last says how many, and the caution stands in between."""
    done = call("recheck", "boat.certificate", cwd=boat)
    lines = done.stdout.splitlines()
    assert done.returncode == 0, done.stderr
    assert lines[0] == (
        "Day boat Heron: PROVED AGAIN. Requirements that a second solver proves from the rules alone: 13 of 13."
    )
    assert lines[-1] == "proved again 13 of 13: everything required holds, within what is given and the limits above"
    assert any(line.startswith("This checks what the files say, not the vehicle") for line in lines)
    assert "certificate: boat.certificate, written by logiccheck" in done.stdout


def test_the_rules_may_lie_elsewhere(copied: Path) -> None:
    """Then they have to be named; only their content counts."""
    (copied / "rules" / "boat.circuit").rename(copied / "heron.circuit")
    done = call("recheck", "boat.certificate", cwd=copied)
    assert done.returncode == 2
    assert "The rules of this certificate cannot be read at rules/boat.circuit: there is no such file." in done.stdout
    assert "logiccheck recheck boat.certificate FILE" in done.stdout
    assert call("recheck", "boat.certificate", "heron.circuit", cwd=copied).returncode == 0


def test_only_some_are_proved(tmp_path: Path) -> None:
    """What fails is not in it, and the certificate does not look as if it were."""
    shutil.copy(SKETCH, tmp_path)
    done = call("check", "van.circuit", "--certify", "van.certificate", cwd=tmp_path)
    assert done.returncode == 1
    assert "(requirements proved in it: 3 of 5)" in done.stderr
    done = call("recheck", "van.certificate", cwd=tmp_path)
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert lines[0].endswith("NOT ALL PROVED. Requirements that this certificate does not prove: 2 of 5.")
    assert [line.split()[3] for line in lines if line.startswith("NOT IN IT")] == [
        "dead_engine_fuel",
        "no_flat_battery",
    ]
    assert "  The check that wrote the certificate said of it: fails." in lines
    assert lines[-1] == "proved again 3 of 5: not all proved"


def test_what_was_not_asked_is_missing(copied: Path) -> None:
    """A check of one requirement certifies that one."""
    call("check", "rules/boat.circuit", "--only", "aired_first", "--certify", "one", cwd=copied)
    done = call("recheck", "one", cwd=copied)
    assert done.returncode == 1
    assert done.stdout.splitlines()[-1].startswith("proved again 1 of ")


def test_changed_rules_are_refused(copied: Path) -> None:
    """Also where the change means nothing: both sums are named."""
    edit(copied / "rules" / "boat.circuit", "\n", " \n")
    done = call("recheck", "boat.certificate", cwd=copied)
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert lines[0] == ("rules/boat.circuit: NOT PROVED. The certificate is about other rules. Files that differ: 1.")
    assert lines[2].startswith("boat.circuit: sha256 ")
    assert " in the certificate, " in lines[2]
    assert "PROVED AGAIN" not in done.stdout


def test_a_file_more_is_refused(copied: Path) -> None:
    """A file that the certificate knows and nobody reads any more."""
    certificate = copied / "boat.certificate"
    top = json.loads(certificate.read_text(encoding="utf-8"))
    top["files"]["lights.circuit"] = "0" * 64
    certificate.write_text(json.dumps(top), encoding="utf-8")
    done = call("recheck", "boat.certificate", cwd=copied)
    assert done.returncode == 1
    assert "lights.circuit: the certificate is about it, and the rules do not read it now." in done.stdout


def test_a_false_claim_is_refused(copied: Path) -> None:
    """A sign turned in what all rests on."""
    certificate = copied / "boat.certificate"
    top = json.loads(certificate.read_text(encoding="utf-8"))
    claim = next(each for each in top["claims"] if each.get("never", {}).get("clauses") and "requirement" in each)
    claim["never"]["clauses"] = [["-begun"]]
    certificate.write_text(json.dumps(top), encoding="utf-8")
    done = call("recheck", "boat.certificate", cwd=copied)
    assert done.returncode == 1
    lines = done.stdout.splitlines()
    assert "NOT PROVED. Claims of this certificate that are not so, or do not follow from the rules: 1." in lines[0]
    assert lines[2].startswith(f"REFUSED  {claim['requirement']} ")
    assert lines[-1].startswith("proved again 12 of 13: ")


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"", "It does not begin as a certificate does"),
        (b"\xff\xfe\x00", "It is no text"),
        (b'{"logiccheck certificate": 1, "tool": ', "It is damaged or cut off"),
        (b'{"logiccheck certificate": 9, "tool": "7.0"}', "It is of format 9, written by logiccheck 7.0"),
        (b'{"logiccheck certificate": 1}', '"tool" is missing'),
        (BOAT.read_bytes(), "It does not begin as a certificate does"),
    ],
)
def test_what_is_no_certificate(content: bytes, sentence: str, tmp_path: Path) -> None:
    """One sentence on what it is instead, and the status of a mistake."""
    (tmp_path / "it").write_bytes(content)
    done = call("recheck", "it", cwd=tmp_path)
    assert done.returncode == 2
    assert done.stdout.startswith("it is no certificate that can be read. ")
    assert sentence in done.stdout
    assert "bug" not in done.stdout + done.stderr


def test_no_certificate_there(tmp_path: Path) -> None:
    """Nothing, or a folder."""
    done = call("recheck", "nothing", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (2, "nothing cannot be read: there is no such file.\n")
    assert call("recheck", ".", cwd=tmp_path).returncode == 2


def test_nothing_is_overwritten(copied: Path) -> None:
    """Neither a certificate nor anything else; the check is not begun."""
    before = (copied / "boat.certificate").read_bytes()
    done = call("check", "rules/boat.circuit", "--certify", "boat.certificate", cwd=copied)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "boat.certificate is there already. Nothing was checked; name another file.\n"
    assert (copied / "boat.certificate").read_bytes() == before
    done = call("check", "rules/boat.circuit", "--certify", "no/such/folder", cwd=copied)
    assert done.returncode == 2
    assert "Cannot write no/such/folder" in done.stderr


def test_mistaken_rules_have_no_certificate(tmp_path: Path) -> None:
    """Nothing was checked, so nothing is written."""
    (tmp_path / "bad.circuit").write_text("vehicle\n", encoding="utf-8")
    assert call("check", "bad.circuit", "--certify", "out", cwd=tmp_path).returncode == 2
    assert not (tmp_path / "out").exists()


def test_without_z3(boat: Path, tmp_path: Path) -> None:
    """What is missing, and what to type."""
    (tmp_path / "sitecustomize.py").write_text(HIDDEN, encoding="utf-8")
    path = os.pathsep.join([str(tmp_path), environment()["PYTHONPATH"]])
    done = call("recheck", "boat.certificate", cwd=boat, PYTHONPATH=path)
    assert done.returncode == 2
    assert done.stderr.splitlines() == [
        "recheck needs the solver z3, which is not installed. Nothing was checked.",
        "To install it: python -m pip install z3-solver   (it is also part of logiccheck[certify])",
    ]
    assert call("check", "rules/boat.circuit", cwd=boat, PYTHONPATH=path).returncode == 0


@pytest.mark.skipif(os.name == "nt", reason="no such signal there")
def test_an_interrupted_recheck_is_no_success(tmp_path: Path) -> None:
    """Ctrl-C while the solver works: what is not proved again by then is not decided, and said not to be."""
    shutil.copy(EXAMPLES / "coffee-van" / "van.circuit", tmp_path)
    call("check", "van.circuit", "--certify", "van.certificate", "--budget", "60", cwd=tmp_path)
    command = [sys.executable, "-m", "logiccheck", "recheck", "van.certificate"]
    slow = tmp_path / "sitecustomize.py"
    slow.write_text(SLOW, encoding="utf-8")
    path = os.pathsep.join([str(tmp_path), environment()["PYTHONPATH"]])
    process = subprocess.Popen(
        command,
        cwd=tmp_path,
        env=environment(PYTHONPATH=path),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        encoding="utf-8",
    )
    assert process.stdout is not None
    while not (tmp_path / "working").exists():
        time.sleep(0.05)
    time.sleep(0.5)
    process.send_signal(signal.SIGINT)
    out, error = process.communicate(timeout=120)
    assert process.returncode in (1, 3), error
    assert out.splitlines()[0].endswith("This run was interrupted.")
    assert "PROVED AGAIN" not in out


SLOW = """
import threading, time, sys
from pathlib import Path

def patch():
    import logiccheck.certificate.claims as claims
    import z3
    right = claims.Claims.begins

    def begins(self):
        Path("working").touch()
        solver = z3.Solver()  # fourteen pigeons in thirteen holes: no solver of this kind finds out before long
        sits = [[z3.Bool(f"{pigeon} in {hole}") for hole in range(13)] for pigeon in range(14)]
        solver.add(*(z3.Or(holes) for holes in sits))
        solver.add(*(z3.Not(z3.And(sits[a][h], sits[b][h])) for h in range(13) for a in range(14) for b in range(a)))
        from logiccheck.certificate.reals import Asked
        self_asked = Asked(self.relation)
        self_asked.solver = solver
        from logiccheck.base.budget import Budget
        self_asked.possible(z3.BoolVal(True), Budget(60))
        return right(self)

    claims.Claims.begins = begins

class Finder:
    def find_spec(self, name, *rest):
        if name == "logiccheck.certificate.recheck":
            sys.meta_path.remove(self)
            patch()
        return None

sys.meta_path.insert(0, Finder())
"""
