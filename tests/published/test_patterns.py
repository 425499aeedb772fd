"""Property patterns: what the published formulas say of a course, and what the language says of it, for every short one.

Source: M. Dwyer, G. Avrunin, J. Corbett, "Patterns in property specifications for finite-state verification", ICSE 1999,
DOI 10.1145/302405.302672; formulas as at matthewbdwyer.github.io/psp/patterns/ltl.html. Timed patterns: S. Konrad,
B. Cheng, "Real-time specification patterns", ICSE 2005; maximum duration as at ps-patterns.wikidot.com, the other formulas
from memory.

How they were brought into the language: P, Q, R and S are facts of the world, a step lasts one second, time is dense.
A published bound [0,t] is closed, and so is `no later than t`. `lasting t` leaves out the instant t itself; but a fact
that holds through a whole step asks from each of its instants on, and from the last of them to nearly t + 1: for such
facts it is the closed reading.

Not sayable, because the language has no unbounded "some time": existence globally, after Q, and after Q until R; response
globally and after Q. Precedence after Q is published with "some Q"; in the language each Q counts.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice, product
from random import Random

import pytest

from logiccheck.lang.program import Program
from logiccheck.model.judge import violated
from tests.engine.following import wave
from tests.model.driven import drive
from tests.published.ltl import (
    Course,
    Formula,
    always,
    both,
    either,
    implies,
    letter,
    no,
    some_time,
    throughout,
    unless,
    until,
    within,
)
from tests.published.written import answered, read

P, Q, R, S = (letter(each) for each in "PQRS")
NEVER_P, NEVER_R = no(P), no(R)
OPEN = "bistable(set q and not r, reset r)"  # after a Q and before the next R
OPENS, CLOSES = both(Q, no(R)), some_time(R)


@dataclass(frozen=True)
class Pattern:
    """One pattern in one scope: the published formula, and the words of the language."""

    name: str
    formula: Formula
    words: str


ORDER = [
    Pattern("absence-globally", always(NEVER_P), "never p"),
    Pattern(
        "absence-before", implies(CLOSES, until(NEVER_P, R)), "never r and bistable(set p and not bistable(set r))"
    ),
    Pattern("absence-after", always(implies(Q, always(NEVER_P))), "never p while bistable(set q)"),
    Pattern(
        "absence-between",
        always(implies(both(OPENS, CLOSES), until(NEVER_P, R))),
        f"never r and bistable(set p and {OPEN})",
    ),
    Pattern("absence-until", always(implies(OPENS, unless(NEVER_P, R))), f"never p while {OPEN}"),
    Pattern("absence-until-2", always(implies(OPENS, unless(NEVER_P, R))), "p waits for r after q and not r"),
    Pattern("universality-globally", always(P), "always p"),
    Pattern(
        "universality-before", implies(CLOSES, until(P, R)), "never r and bistable(set not p and not bistable(set r))"
    ),
    Pattern("universality-after", always(implies(Q, always(P))), "always p while bistable(set q)"),
    Pattern(
        "universality-between",
        always(implies(both(OPENS, CLOSES), until(P, R))),
        f"never r and bistable(set not p and {OPEN})",
    ),
    Pattern("universality-until", always(implies(OPENS, unless(P, R))), f"always p while {OPEN}"),
    Pattern("existence-before", unless(NEVER_R, both(P, NEVER_R)), "r waits for p and not r"),
    Pattern(
        "existence-between",
        always(implies(OPENS, unless(NEVER_R, both(P, NEVER_R)))),
        "r waits for p and not r after q and not r",
    ),
    Pattern("precedence-globally", unless(NEVER_P, S), "p waits for s"),
    Pattern(
        "precedence-before",
        implies(CLOSES, until(NEVER_P, either(S, R))),
        "never r and bistable(set p and not bistable(set s or r))",
    ),
    Pattern(
        "precedence-between",
        always(implies(both(OPENS, CLOSES), until(NEVER_P, either(S, R)))),
        "never r and bistable(set p and bistable(set q, reset r or s))",
    ),
    Pattern(
        "precedence-until",
        always(implies(OPENS, unless(NEVER_P, either(S, R)))),
        "p waits for s or r after q and not r",
    ),
    Pattern(
        "response-before",
        implies(CLOSES, until(implies(P, until(NEVER_R, both(S, NEVER_R))), R)),
        "never r and bistable(set p and not bistable(set r), reset s and not r)",
    ),
    Pattern(
        "response-between",
        always(implies(both(OPENS, CLOSES), until(implies(P, until(NEVER_R, both(S, NEVER_R))), R))),
        f"never r and bistable(set p and {OPEN}, reset s and not r)",
    ),
    Pattern(
        "bounded-existence",
        unless(NEVER_P, unless(P, unless(NEVER_P, unless(P, always(NEVER_P))))),
        "never p and bistable(set not p and bistable(set p and bistable(set not p and bistable(set p))))",
    ),
]
AFTER_SOME_Q = either(always(no(Q)), some_time(both(Q, unless(NEVER_P, S))))
TIMED = [
    Pattern(name, formula(t), words.format(t=t))
    for t in (1, 2, 3)
    for name, formula, words in (
        (f"recurrence-{t}", lambda t: always(within(t, P)), "never not p for longer than {t} s"),
        (f"response-{t}", lambda t: always(implies(P, within(t, S))), "p calls for s no later than {t} s"),
        (f"invariance-{t}", lambda t: always(implies(P, throughout(t, S))), "p calls for s lasting {t} s"),
        (
            f"maximum-duration-{t}",
            lambda t: always(either(P, unless(NEVER_P, both(P, within(t, NEVER_P))))),
            "never p and bistable(set not p) for longer than {t} s",
        ),
    )
]


def courses(letters: str, steps: int) -> list[Course]:
    """All courses of so many steps."""
    alphabet = [
        frozenset(x for x, on in zip(letters, bits, strict=True) if on) for bits in product((0, 1), repeat=len(letters))
    ]
    return list(product(alphabet, repeat=steps))


def stretches(course: Course, name: str) -> str:
    """When the letter is true: a step is a second, and the last one does not end."""
    ends = [*range(1, len(course)), ".."]
    return " ".join(f"[{i},{ends[i]})" for i, step in enumerate(course) if name in step)


def vehicle(patterns: list[Pattern]) -> Program:
    """Free contacts, and what is said of them."""
    lines = [f"    danger d{i} {each.words}" for i, each in enumerate(patterns)]
    return read(
        "\n".join(['vehicle "Free"', "world", *(f"    {x} contact" for x in "pqrs"), "requirements", *lines, ""])
    )


def holds(program: Program, course: Course) -> list[bool]:
    """For each requirement whether the interpreter's judge finds nothing against it in the course."""
    timeline = drive(program, str(len(course) + 5), **{x: stretches(course, x.upper()) for x in "pqrs"})
    return [violated(timeline, each.form) is None for each in program.requirements]


def some(letters: str) -> list[Course]:
    """All courses of three steps, and a choice of longer ones."""
    random = Random(7)
    alphabet = [step for (step,) in courses(letters, 1)]
    return courses(letters, 3) + [[random.choice(alphabet) for _ in range(6)] for _ in range(150)]


@pytest.mark.parametrize(
    ("patterns", "letters"),
    [
        ([each for each in ORDER if each.name.split("-")[0] not in {"precedence", "response"}], "PQR"),
        ([each for each in ORDER if each.name.split("-")[1] in {"globally", "before", "existence"}], "PRS"),
        ([each for each in ORDER if each.name.split("-")[0] in {"precedence", "response"}], "PQRS"),
        (TIMED, "PS"),
    ],
    ids=["scopes", "order", "order-in-scopes", "timed"],
)
def test_every_course(patterns: list[Pattern], letters: str) -> None:
    """The language says of each course what the published formula says; each says yes to one and no to another."""
    program = vehicle(patterns)
    seen: dict[str, set[bool]] = {each.name: set() for each in patterns}
    chosen = courses(letters, 2) + courses(letters, 5) if letters == "PS" else some(letters)
    if letters == "PQRS":
        chosen = list(islice(reversed(chosen), 400))
    for course in chosen:
        expected = [each.formula(course, 0) for each in patterns]
        assert holds(program, course) == expected, course
        for each, value in zip(patterns, expected, strict=True):
            seen[each.name].add(value)
    assert set(map(len, seen.values())) == {2}


def test_precedence_after_each_q() -> None:
    """`waits for ... after` asks it of each Q, the published formula of some Q: it holds wherever the words do."""
    program = vehicle([Pattern("after", AFTER_SOME_Q, "p waits for s after q")])
    pairs = {(holds(program, course)[0], AFTER_SOME_Q(course, 0)) for course in courses("PQS", 3)}
    assert pairs == {(True, True), (False, False), (False, True)}


def driven(pattern: Pattern, course: Course) -> Program:
    """A vehicle that can do nothing but this course: relays that go by the time alone."""
    relays = "".join(f"    relay {x} coil {wave(stretches(course, x.upper()))}\n" for x in "pqrs")
    return read(f'vehicle "Clockwork"\nharness\n{relays}requirements\n    danger d {pattern.words}\n')


@pytest.mark.parametrize("pattern", ORDER + TIMED, ids=lambda each: each.name)
def test_check_of_one_course(pattern: Pattern) -> None:
    """The check proves it for vehicles of which the formula is true, and shows a story where it is not.

    Where the scope of a pattern never begins, what holds is told as "no case".
    """
    random = Random(pattern.name)
    left = {True: 2, False: 2}
    alphabet = [step for (step,) in courses("PQRS", 1)]
    for _ in range(1000):
        course = random.choices(alphabet, k=5 if pattern.name == "bounded-existence" else 3)
        expected = pattern.formula(course, 0)
        if left[expected]:
            left[expected] -= 1
            (found,) = answered(driven(pattern, course)).values()
            assert found in ({"proved", "no case"} if expected else {"fails"}), course
    assert set(left.values()) == {0}
