"""Every question of the bench programs, decided by `check` and by z3: `python -m tests.bench.against [NAME ...]`.

Prints one line a program: how many questions each decided within the limit, the median time of each, the median and the
greatest ratio of our time to that of z3's fixed-point engine, and the peak memory of a `check` of the program. The time
of `check` holds everything: the search, the audit of the proof, the shortest story and its replay. What z3 does not
decide counts with the limit. An answer that differs is printed and ends the run with 1.
"""

from __future__ import annotations

import argparse
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from logiccheck.base.budget import Budget
from logiccheck.engine.check import check_program
from logiccheck.engine.question import Questions
from logiccheck.engine.troubles import settled_moment
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.lang.load import load_text
from logiccheck.lang.program import Possible, Program
from logiccheck.model.circuit.reaction import Forms
from tests.bench.peers import Answer, bounded, fixed_point
from tests.bench.programs import BENCH, text_of
from tests.calling import ROOT, environment

LIMIT = 10.0  # seconds for each question and engine
SETTLING = 120.0  # seconds to see that every moment settles, before anything is timed


class Unsettled(ValueError):
    """It is not so that every moment of the program settles, as what z3 is asked supposes."""


@dataclass(frozen=True, slots=True)
class Row:
    """One question: our verdict, and what z3 found by either of its ways; `clocks` of its exact cone."""

    name: str
    clocks: int
    verdict: Verdict
    fixed: Answer
    bounded: Answer

    @property
    def ours(self) -> bool | None:
        """Whether we say that what was asked for happens; None when it was not decided."""
        return happens(self.verdict)

    @property
    def ratio(self) -> float:
        return self.verdict.seconds / self.fixed.seconds

    @property
    def contradicted(self) -> bool:
        answers = {self.ours, self.fixed.happens, self.bounded.happens} - {None}
        return len(answers) > 1


def happens(verdict: Verdict) -> bool | None:
    """Whether the bad thing of a verdict (or what is `possible`) happens; None when it was not decided."""
    wanted = isinstance(verdict.requirement.form, Possible)
    match verdict.kind:
        case Kind.PROVED | Kind.NO_CASE:
            return wanted
        case Kind.FAILS:
            return not wanted
        case Kind.NOT_DECIDED | Kind.BLOCKED:
            return None


def rows(program: Program, limit: float = LIMIT, depth: int | None = None) -> Iterator[Row]:
    """All questions of a program, one after the other; `depth`: of `peers.bounded`. Raises `Unsettled`."""
    moment, trouble, _ = settled_moment(program, Forms(), Budget(SETTLING))
    if trouble is not None:
        raise Unsettled
    verdicts = {v.requirement.name: v for v in check_program(program, limit).verdicts}
    questions = Questions(moment, settles=True)
    for question in questions.all:
        cone = questions.cone(question, question.bad)
        name = question.requirement.name
        yield Row(
            name,
            len(cone.clocks) + len(cone.watches),
            verdicts[name],
            fixed_point(cone, limit),
            bounded(cone, limit, depth),
        )


def peak(text: str) -> float:
    """The peak memory of a `check` of this text in a process of its own, in megabytes (where /proc tells it: Linux)."""
    measure = (
        "import re, sys; from logiccheck.cli.main import main\n"
        "try: main()\n"
        "finally: print(re.search(r'VmHWM:\\s+(\\d+) kB', open('/proc/self/status').read())[1], file=sys.stderr)"
    )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "vehicle.circuit"
        path.write_text(text, encoding="utf-8")
        command = [sys.executable, "-c", measure, "check", str(path)]
        done = subprocess.run(command, cwd=ROOT, env=environment(), capture_output=True, text=True, check=False)
    return int(done.stderr.split()[-1]) / 1024


def line(name: str, found: Sequence[Row], memory: float) -> str:
    """One row of the table."""
    cells = [name, str(len(found))]
    cells += [str(sum(answer is not None for answer in answers)) for answers in _decided(found)]
    cells += [f"{statistics.median(times):.3f}" for times in _times(found)]
    cells += [f"{max(r.verdict.seconds for r in found):.2f}"]
    cells += [f"{statistics.median(r.ratio for r in found):.3f}", f"{max(r.ratio for r in found):.2f}", f"{memory:.0f}"]
    return f"| {' | '.join(cells)} |"


def _decided(found: Sequence[Row]) -> tuple[list[bool | None], ...]:
    return [r.ours for r in found], [r.fixed.happens for r in found], [r.bounded.happens for r in found]


def _times(found: Sequence[Row]) -> tuple[list[float], ...]:
    return [r.verdict.seconds for r in found], [r.fixed.seconds for r in found], [r.bounded.seconds for r in found]


HEADS = (
    "program", "asked", "decided: check", "fixed point", "bounded", "median s: check", "fixed point", "bounded",
    "longest s: check", "median ratio to fixed point", "greatest", "peak MB",
)  # fmt: skip


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("names", nargs="*", default=list(BENCH))
    parser.add_argument("--limit", type=float, default=LIMIT, help="seconds for each question and engine")
    arguments = parser.parse_args()
    print(f"| {' | '.join(HEADS)} |\n|{' --- |' * len(HEADS)}", flush=True)
    contradicted = 0
    for name in arguments.names:
        text = text_of(name)
        program = load_text(text, name).program
        assert program is not None, name
        found = list(rows(program, arguments.limit))
        print(line(name, found, peak(text)), flush=True)
        for row in found:
            if row.contradicted:
                contradicted += 1
                print(f"CONTRADICTION: {name} {row.name}: {row.verdict.kind} {row.fixed} {row.bounded}", flush=True)
    return 1 if contradicted else 0


if __name__ == "__main__":
    sys.exit(main())
