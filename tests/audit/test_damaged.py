"""A damaged certificate is refused, or it is still one: a solver that knows real numbers says so of the other circuit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from random import Random

import pytest

from logiccheck.audit.certificate import Ahead, Certificate, Clause
from logiccheck.audit.relation import Apart, Question
from logiccheck.base.budget import Budget
from logiccheck.engine.refine import TimedProof
from logiccheck.lang.program import Program
from tests.audit.auditing import SECONDS, Seen, Watched, watched
from tests.audit.realcheck import holds
from tests.campaign import seeds
from tests.examples.reading import examples, read
from tests.oracle.loading import loaded
from tests.oracle.programs import random_program

__all__ = ["watched"]

SEEDS = 30
TIMES = 10  # of damage to each proof

Damage = Callable[[list[Clause], Random], None]


def _place(clauses: list[Clause], random: Random, deadlines: bool = False) -> tuple[int, int]:
    """A clause and a literal in it; of deadlines, if that is wanted."""
    places = [(i, k) for i, clause in enumerate(clauses) for k, _ in enumerate(clause)]
    return random.choice([(i, k) for i, k in places if not deadlines or isinstance(clauses[i][k][0], Ahead)])


def clause_dropped(clauses: list[Clause], random: Random) -> None:
    del clauses[random.randrange(len(clauses))]


def literal_dropped(clauses: list[Clause], random: Random) -> None:
    i, k = _place(clauses, random)
    clauses[i] = clauses[i][:k] + clauses[i][k + 1 :]


def sign_flipped(clauses: list[Clause], random: Random) -> None:
    i, k = _place(clauses, random)
    name, sign = clauses[i][k]
    clauses[i] = (*clauses[i][:k], (name, not sign), *clauses[i][k + 1 :])


def bound_moved(clauses: list[Clause], random: Random) -> None:
    i, k = _place(clauses, random, deadlines=True)
    name, sign = clauses[i][k]
    assert isinstance(name, Ahead)
    moved = name._replace(bound=name.bound + random.choice([-1, 1]))
    clauses[i] = (*clauses[i][:k], (moved, sign), *clauses[i][k + 1 :])


def strictness_turned(clauses: list[Clause], random: Random) -> None:
    i, k = _place(clauses, random, deadlines=True)
    name, sign = clauses[i][k]
    assert isinstance(name, Ahead)
    clauses[i] = (*clauses[i][:k], (name._replace(or_same=not name.or_same), sign), *clauses[i][k + 1 :])


ALWAYS: list[Damage] = [clause_dropped, literal_dropped, sign_flipped]
OF_DEADLINES: list[Damage] = [bound_moved, strictness_turned]


def damaged(certificate: Certificate, random: Random) -> tuple[str, Certificate]:
    """The certificate with one damage, and its kind."""
    clauses = list(certificate.clauses)
    timed = any(isinstance(name, Ahead) for clause in clauses for name, _ in clause)
    damage = random.choice(OF_DEADLINES) if timed and random.random() < 0.6 else random.choice(ALWAYS)
    damage(clauses, random)
    return damage.__name__, replace(certificate, clauses=tuple(clauses))


def in_the_circuit(question: Question | Apart, certificate: Certificate) -> Certificate:
    """The same as the circuit of the search puts it: there nothing ever falls together, and no bit says that it has."""
    if not isinstance(question, Apart):
        return certificate
    clauses = [clause for clause in certificate.clauses if (question.bit, False) not in clause]
    together = (question.bit, True)
    return replace(certificate, clauses=tuple(tuple(x for x in clause if x != together) for clause in clauses))


def look(seen: Seen, random: Random) -> Counter[str]:
    """One proof and its damages."""
    found: Counter[str] = Counter()
    if seen.cone is None or not isinstance(seen.timed, TimedProof) or not seen.certificate.clauses:
        return found
    assert holds(seen.cone, seen.timed, in_the_circuit(seen.question, seen.certificate), seen.settling)
    found["whole"] += 1
    for _ in range(TIMES):
        kind, certificate = damaged(seen.certificate, random)
        refusal = seen.audit._doubt(seen.question, certificate, seen.settling, Budget(SECONDS))
        if refusal is None:
            circuit = in_the_circuit(seen.question, certificate)
            assert holds(seen.cone, seen.timed, circuit, seen.settling), (seen.question, kind, certificate)
        found[f"{kind}, {'still a proof' if refusal is None else 'refused'}"] += 1
    return found


def looks(program: Program, watched: Watched, random: Random) -> Counter[str]:
    watched.check(program)
    return sum((look(seen, random) for seen in tuple(watched.seen)), Counter[str]())


def test_damaged_proofs(watched: Watched) -> None:
    """Of the examples and of random programs; each kind of damage is refused often."""
    programs = [read(example.file.read_text(encoding="utf-8")) for example in examples()]
    programs += [loaded(random_program(seed).text) for seed in range(SEEDS)]
    random = Random(1)
    found = sum((looks(program, watched, random) for program in programs), Counter[str]())
    assert found["whole"] > 60
    for damage in (*ALWAYS, *OF_DEADLINES):
        assert found[f"{damage.__name__}, refused"] > 10, found


@pytest.mark.campaign
def test_damaged_proofs_at_length(watched: Watched) -> None:
    """As many programs as the environment says, from the seed it says."""
    for each in seeds():
        looks(loaded(random_program(each).text), watched, Random(each))
