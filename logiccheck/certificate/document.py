"""What a certificate says, in names only: which rules it is about, what each verdict was, and the claims behind
them."""

from __future__ import annotations

import posixpath
from collections.abc import Sequence
from enum import Enum
from typing import TypeAlias

from logiccheck.audit.certificate import Certificate
from logiccheck.audit.given import LineName
from logiccheck.audit.relation import Broken, Occurs, Question, Shorted, Stuck, TurnsOn, Unsettled
from logiccheck.audit.stuck import Plan
from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program

FORMAT = 1  # a change that an older reader would misread makes it one more
SHORT_CIRCUIT = "short circuit"  # stands for the built-in requirement; no name of a user has a blank


class About(Enum):
    """What a claim says never happens, or can happen."""

    UNSETTLED = "unsettled moment"
    STUCK = "time stands still"
    BROKEN = "broken"  # of `possible`: what it wants
    CASE = "case"
    ON = "output on"
    SHORT = SHORT_CIRCUIT


Key: TypeAlias = tuple[About, str, int, str, frozenset[LineName]]


@frozen
class Subject:
    """One thing that may happen. `requirement` of BROKEN, CASE and ON; `case` of CASE, from 0; `output` of ON;
    `plans` and `lines` of STUCK."""

    about: About
    requirement: str = ""
    case: int = 0
    output: str = ""
    plans: tuple[Plan, ...] = ()
    lines: frozenset[LineName] = frozenset()

    @property
    def key(self) -> Key:
        """Two claims with the same key are one too many."""
        return self.about, self.requirement, self.case, self.output, self.lines


@frozen
class Within:
    """It can happen: some story of at most so many moments shows it (those in which only a time is over on top)."""

    moments: int


Proof: TypeAlias = Certificate | Within
"""Why a claim is true. A `Certificate`: it never happens. Each kind is written, read and checked by itself."""


@frozen
class Claim:
    subject: Subject
    proof: Proof


@frozen
class Document:
    """`main` is the main file of the rules as seen from the certificate; `files` are all files read and their sha256,
    named as seen from the folder of the main file, which comes first; `verdicts` in the order of the check."""

    main: str
    files: tuple[tuple[str, str], ...]
    verdicts: tuple[tuple[str, str], ...]
    repeats: int
    claims: tuple[Claim, ...]
    tool: str
    language: int


def named(question: Question) -> Subject:
    """The question of a proof, in names."""
    match question:
        case Broken(requirement):
            return Subject(About.BROKEN, requirement.name)
        case Occurs(requirement, case):
            return Subject(About.CASE, requirement.name, case=case)
        case TurnsOn(requirement, output):
            return Subject(About.ON, requirement.name, output=output)
        case Shorted():
            return Subject(About.SHORT)
        case Unsettled():
            return Subject(About.UNSETTLED)
        case Stuck(plans, lines):
            return Subject(About.STUCK, plans=plans, lines=lines)


def meant(subject: Subject, program: Program) -> Question | None:
    """The question that is meant; None if the program has no such requirement."""
    match subject.about:
        case About.UNSETTLED:
            return Unsettled()
        case About.STUCK:
            return Stuck(subject.plans, subject.lines)
        case About.SHORT:
            return Shorted()
        case About.BROKEN | About.CASE | About.ON:
            pass
    requirement = next((r for r in program.requirements if r.name == subject.requirement), None)
    if requirement is None:
        return None
    if subject.about is About.BROKEN:
        return Broken(requirement)
    if subject.about is About.CASE:
        return Occurs(requirement, subject.case)
    return TurnsOn(requirement, subject.output)


def names(paths: Sequence[str]) -> list[str]:
    """Paths as seen from the folder of the first; what does not lie in it (a checklist that ships with the program)
    keeps its name."""
    folder = posixpath.dirname(posixpath.normpath(paths[0]))
    begin = f"{folder.rstrip('/')}/" if folder else ""
    return [posixpath.normpath(path).removeprefix(begin) for path in paths]


def beside(path: str, document: Document) -> str:
    """Where the main file of the rules lies, as the certificate at `path` says."""
    return posixpath.normpath(posixpath.join(posixpath.dirname(path), document.main))
