"""A copy of the repository in which mutants are planted, one at a time, and tests run until one fails."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Collection, Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from tests.mutants.mutants import ROOT, Mutant

COPIED = ("logiccheck", "tests", "grammar", "rules", "examples", "pyproject.toml", "README.md", "DEVELOPERS.md")
ALL_TESTS = ("tests/model", "tests/engine", "tests/audit", "tests/certificate", "tests/oracle", "tests/meaning")
LAST = "tests/engine/test_check.py"  # looks at the clock, too
MARKED = "not slow and not campaign and not mutants"
PATIENCE = 900  # seconds for one run of tests; one that takes longer has killed nothing
PROGRAMS = "random programs"  # the killer, if it is a random program: followed by its seed and its complaint


class Field:
    """`root` is where the copy stands. A killer is the name of a test, or PROGRAMS with the seed and the complaint."""

    def __init__(self, root: Path) -> None:
        self.root = root
        for name in COPIED:
            source = ROOT / name
            if source.is_dir():
                shutil.copytree(source, root / name, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(source, root / name)
        self._sound: set[str] = set()  # tests that pass without any mutant
        self._python("-m", "compileall", "-q", "logiccheck")  # while a mutant stands nothing compiled is written

    @contextmanager
    def planted(self, mutant: Mutant) -> Iterator[None]:
        """The copy with the mutant in it."""
        texts = mutant.texts(self.root)
        before = {file: (self.root / file).read_text(encoding="utf-8") for file in texts}
        try:
            self._write(texts)
            yield
        finally:
            self._write(before)

    def killer(self, mutant: Mutant, likely: str | None = None) -> str | None:
        """The first test found to fail with the mutant and pass without it; None: the mutant survives."""
        with self.planted(mutant):
            killer = likely if likely is not None and self._still(likely) else None
            killer = killer or self._by_tests(mutant) or self.by_programs()
        if killer is not None and not self.sound([killer]):
            raise AssertionError(f"{killer} fails without the mutant, too")
        return killer

    def _still(self, likely: str) -> bool:
        """Whether this killer kills again; a test that is not there any more does not."""
        return bool(self.by_programs(seed_of(likely)) if likely.startswith(PROGRAMS) else self.failing([likely]))

    def _by_tests(self, mutant: Mutant) -> str | None:
        return self.failing(self._files(mutant.first)) or self.failing(self._files(ALL_TESTS))

    def _files(self, tests: Iterable[str]) -> list[str]:
        """The files of tests, in the order given, each once."""
        found = [file for name in tests for file in self._inside(name)]
        return sorted(dict.fromkeys(found), key=lambda file: file == LAST)

    def _inside(self, name: str) -> list[str]:
        paths = (self.root / name).glob("test_*.py") if (self.root / name).is_dir() else [self.root / name]
        return sorted(path.relative_to(self.root).as_posix() for path in paths)

    def by_programs(self, *seeds: str) -> str | None:
        """The first random program (of these) on which the engine and the explorer contradict each other."""
        done = self._python("-m", "tests.mutants.first_complaint", *seeds)
        if done.returncode == 0:
            return None
        return f"{PROGRAMS}: {done.stdout.strip() or done.stderr.strip()}"

    def sound(self, killers: Collection[str]) -> bool:
        """Whether these tests pass without any mutant."""
        new = sorted({*killers} - self._sound)
        tests = [killer for killer in new if not killer.startswith(PROGRAMS)]
        seeds = [seed_of(killer) for killer in new if killer.startswith(PROGRAMS)]
        passed = (not tests or self._pytest(tests).returncode == 0) and not (seeds and self.by_programs(*seeds))
        self._sound |= {*new} if passed else set()
        return passed

    def failing(self, tests: Sequence[str]) -> str | None:
        """The name of the first of these tests to fail."""
        done = self._pytest(tests)
        if done.returncode == 1:
            found = re.search(r"^(?:FAILED|ERROR) (tests/.*?)(?: - .*)?$", done.stdout, re.MULTILINE)
            assert found, done.stdout
            return found[1]
        gone = done.returncode == 4 and "not found" in done.stderr  # there is no such test any more
        assert done.returncode == 0 or gone, f"{done.stdout}\n{done.stderr}"
        return None

    def _pytest(self, tests: Sequence[str]) -> subprocess.CompletedProcess[str]:
        options = ("-x", "-q", "--tb=no", "-p", "no:cacheprovider", "--hypothesis-seed=0", "-m", MARKED)
        return self._python("-m", "pytest", *options, *tests)

    def _python(self, *arguments: str) -> subprocess.CompletedProcess[str]:
        shutil.rmtree(self.root / ".hypothesis", ignore_errors=True)
        environment = {**os.environ, "PYTHONDONTWRITEBYTECODE": "1", "COLUMNS": "1000"}
        command = [sys.executable, *arguments]
        how = {"cwd": self.root, "env": environment, "capture_output": True, "text": True, "timeout": PATIENCE}
        try:
            return subprocess.run(command, **how)
        except subprocess.TimeoutExpired:
            return subprocess.CompletedProcess(command, 0, "", "")

    def _write(self, texts: dict[str, str]) -> None:
        for file, text in texts.items():
            path = self.root / file
            path.write_text(text, encoding="utf-8")
            for compiled in (path.parent / "__pycache__").glob(f"{path.stem}.*.pyc"):
                compiled.unlink()


def seed_of(killer: str) -> str:
    """The seed of the random program that a killer names."""
    found = re.match(rf"{PROGRAMS}: program (\d+)", killer)
    assert found, killer
    return found[1]
