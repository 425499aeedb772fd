"""How the sentences that say what a program means are put to the test: each with a small program and its answer.

Every answer is worked out from the sentence alone. Stretches and times are in seconds, "[2,4) [6,..)", as in
`tests.model.driven`. A `wrong` says why an answer of the program is another, and whose ("engine", "explorer", "judge" or
"interpreter"): that test is known to fail.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import pytest

HEAD = 'vehicle "Sentence"\n'


@dataclass(frozen=True)
class Course:
    """In one course of the world ("0 a on, n 5 rpm; 2 a off") each condition is true in just these stretches.

    `lasts` chooses runs ("hold 12 216": the run of hold that begins at 12 lasts 216). `blips`: the named thing is true
    at these times for an instant only, not when settled.
    """

    slug: str
    says: str
    text: str
    course: str
    shows: Mapping[str, str]
    until: str = "20"
    lasts: str = ""
    blips: Mapping[str, str] = field(default_factory=dict)
    wrong: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class OnSignals:
    """A requirement on signals p, q and r of a given course "holds", has "no case", or fails "at 3" or "after 3"."""

    slug: str
    says: str
    form: str
    p: str
    q: str
    r: str
    answer: str
    wrong: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Asked:
    """Requirements on a whole vehicle whose world is free, each with its answer.

    "proved", "no case", "fails 3" (a story of three moments), "possible 2" (so does the witness), "impossible" (a
    `possible` that fails), "blocked contradiction", "blocked time stops", "blocked unsettled". The requirement of the
    name "short" is the built-in one.
    """

    slug: str
    says: str
    text: str
    answers: Mapping[str, str]
    wrong: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Lawful:
    """Whether what is given allows a course of the world: "holds", or up to "at 3", when it is first not met."""

    slug: str
    says: str
    text: str
    course: str
    answer: str
    wrong: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Named:
    """Whether a line may stand in its block: the mistakes it makes ("" when it is right)."""

    slug: str
    says: str
    text: str
    mistake: str
    wrong: Mapping[str, str] = field(default_factory=dict)


def rows(cases: Iterable[Course | OnSignals | Asked | Lawful | Named], asked: str) -> Sequence[object]:
    """The cases as parameters, those of which this answer is known to be wrong marked so."""
    found = []
    for each in cases:
        reason = each.wrong.get(asked)
        marks = [pytest.mark.xfail(strict=True, reason=reason)] if reason else []
        found.append(pytest.param(each, id=each.slug, marks=marks))
    return found


def fed(rules: str, copper: str = "", world: str = "", rest: str = "", feed: str = "plus") -> str:
    """A vehicle with a box; without `feed` it is always powered. All lines of a block are given without indentation."""
    return (
        block("world", world)
        + block("harness", "source plus\n" + copper)
        + block(f"controller powered by {feed}", rules)
        + rest
    )


def block(head: str, lines: str) -> str:
    """A block with these lines, given without indentation; nothing if there are none."""
    kept = [line for line in lines.strip().splitlines() if line.strip()]
    return "\n".join([head, *("    " + line for line in kept)]) + "\n" if kept else ""


def contacts(names: str, first: str = "") -> str:
    """Lines of the world: a contact for each name."""
    return "\n".join(f"{name} contact" for name in names.split()) + (f"\nat first {first}" if first else "")


def sensed(names: str) -> tuple[str, str]:
    """For each contact a wire that is live with it, and a sense of it: the lines of copper, and those of the box."""
    wires = "\n".join(f"wire {name}_wire from plus when {name}" for name in names.split())
    return wires, "\n".join(f"sense s{name} from {name}_wire live" for name in names.split())
