"""Every mutant is killed by some test: `python -m pytest -m mutants tests/mutants` plants them all, one after another.

Without the marker only what is quick to tell: that each mutant still applies, and what the table `killed.md` says.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from tests.mutants.field import COPIED, PROGRAMS, Field, seed_of
from tests.mutants.killed import recorded
from tests.mutants.mutants import ROOT, Edit, Moved, Mutant, all_mutants
from tests.oracle.test_agreement import SEEDS

MUTANTS = all_mutants()
ROWS = recorded()


@pytest.fixture(scope="module")
def field(tmp_path_factory: pytest.TempPathFactory) -> Field:
    """A copy of the repository for all mutants."""
    return Field(tmp_path_factory.mktemp("field"))


def by_name(mutant: Mutant) -> str:
    return mutant.name


def test_there_are_many_and_each_has_its_own_name() -> None:
    assert len(MUTANTS) >= 20
    assert [name for name, count in Counter(m.name for m in MUTANTS).items() if count > 1] == []


@pytest.mark.parametrize("mutant", MUTANTS, ids=by_name)
def test_it_applies(mutant: Mutant) -> None:
    """Each old text stands in its file once; what the mutant changes still compiles, and is not what it was."""
    for file, text in mutant.texts().items():
        compile(text, file, "exec")
        assert ast.dump(ast.parse(text)) != ast.dump(ast.parse((ROOT / file).read_text(encoding="utf-8"))), file


@pytest.mark.parametrize("mutant", MUTANTS, ids=by_name)
def test_it_is_planted_in_the_package_and_its_first_tests_are_there(mutant: Mutant) -> None:
    assert all(edit.file.startswith("logiccheck/") for edit in mutant.edits)
    assert all(name.startswith("tests/") and (ROOT / name).exists() for name in mutant.first)


def test_the_old_text_must_stand_there_once() -> None:
    """An edit whose text is gone, or stands there twice, is told; it never changes nothing in silence."""
    edit = Edit("any.py", "a = 1", "a = 2")
    assert edit.made_in("a = 1\n") == "a = 2\n"
    for text in ("b = 1\n", "a = 1\na = 1\n"):
        with pytest.raises(Moved):
            edit.made_in(text)


def test_the_table_has_each_mutant_once() -> None:
    """In the order of the mutants, each with what kills it."""
    assert list(ROWS) == [mutant.name for mutant in MUTANTS]
    assert [name for name, row in ROWS.items() if not row.killer] == []


def test_the_table_names_tests_that_are_there() -> None:
    """Each by its whole name, and random programs by seeds that are played."""
    killers = sorted({row.killer for row in ROWS.values()})
    tests = [killer for killer in killers if not killer.startswith(PROGRAMS)]
    command = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-p", "no:cacheprovider", *tests]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr or done.stdout
    assert set(tests) <= set(done.stdout.splitlines())
    programs = [killer for killer in killers if killer.startswith(PROGRAMS)]
    programs += [row.programs for row in ROWS.values() if row.programs]
    assert all(int(seed_of(text)) < SEEDS for text in programs)


@pytest.mark.mutants
@pytest.mark.parametrize("mutant", MUTANTS, ids=by_name)
def test_it_is_killed(mutant: Mutant, field: Field) -> None:
    """By the test that once killed it; by another one if that does not any more; or by the random programs."""
    assert field.killer(mutant, ROWS[mutant.name].killer), "nothing notices it"


@pytest.mark.mutants
def test_a_mutant_that_changes_nothing_survives(field: Field) -> None:
    """Tests and programs that kill others find nothing where there is no mistake."""
    edit = Edit("logiccheck/engine/deadlines.py", "def _lit(value: bool) -> Lit:", "def _lit(value: bool) -> int:")
    with field.planted(Mutant("none", "nothing", (edit,), ())):
        assert field.failing(["tests/engine/test_deadlines.py", "tests/engine/test_contract.py"]) is None
        assert field.by_programs(*map(str, range(10))) is None


@pytest.mark.mutants
def test_a_killer_that_fails_anyway_is_none(field: Field) -> None:
    """Nor is one that is not there."""
    assert field.sound(["tests/engine/test_aig.py"])
    assert not field.sound(["tests/engine/test_aig.py::test_that_is_not_there"])


def test_a_copy_is_made_of_all_that_tests_need() -> None:
    assert all((ROOT / name).exists() for name in COPIED)
    assert {"logiccheck", "tests"} <= set(COPIED)
    assert not any(Path(name).is_absolute() for name in COPIED)
