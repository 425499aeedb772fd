"""A changed proof is refused, or it is still one: two solvers that share nothing say the same of each change."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection
from dataclasses import dataclass, replace
from random import Random
from typing import Any

import pytest

from logiccheck.audit.certificate import Ahead, Certificate, Clause, Cover
from logiccheck.audit.check import Audit
from logiccheck.base.budget import Budget
from logiccheck.certificate.claims import Claims
from logiccheck.certificate.document import About, Claim, Document, Within, meant
from logiccheck.certificate.judged import State
from logiccheck.certificate.reading import read
from logiccheck.certificate.written import written
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.sat import Sat
from logiccheck.lang.program import Program
from tests.bench.families import family
from tests.certificate.making import SECONDS, certified, with_claim
from tests.examples.reading import Example, examples

CHANGES = 100  # of each certificate

Change = Callable[[Certificate, Random], Certificate]


def _put(proof: Certificate, at: int, clause: Clause) -> Certificate:
    return replace(proof, clauses=(*proof.clauses[:at], clause, *proof.clauses[at + 1 :]))


def _place(proof: Certificate, random: Random, deadlines: bool = False) -> tuple[int, int]:
    """A clause and a literal in it; of deadlines, if that is wanted."""
    places = [(i, k) for i, clause in enumerate(proof.clauses) for k, _ in enumerate(clause)]
    return random.choice([(i, k) for i, k in places if not deadlines or isinstance(proof.clauses[i][k][0], Ahead)])


def clause_dropped(proof: Certificate, random: Random) -> Certificate:
    at = random.randrange(len(proof.clauses))
    return replace(proof, clauses=proof.clauses[:at] + proof.clauses[at + 1 :])


def literal_dropped(proof: Certificate, random: Random) -> Certificate:
    i, k = _place(proof, random)
    return _put(proof, i, proof.clauses[i][:k] + proof.clauses[i][k + 1 :])


def sign_flipped(proof: Certificate, random: Random) -> Certificate:
    i, k = _place(proof, random)
    name, sign = proof.clauses[i][k]
    return _put(proof, i, (*proof.clauses[i][:k], (name, not sign), *proof.clauses[i][k + 1 :]))


def bound_moved(proof: Certificate, random: Random) -> Certificate:
    i, k = _place(proof, random, deadlines=True)
    name, sign = proof.clauses[i][k]
    assert isinstance(name, Ahead)
    moved = name._replace(bound=name.bound + random.choice([-1, 1]))
    return _put(proof, i, (*proof.clauses[i][:k], (moved, sign), *proof.clauses[i][k + 1 :]))


def part_dropped(proof: Certificate, random: Random) -> Certificate:
    cover = random.choice(proof.covers)
    at = random.randrange(len(cover.parts))
    return _cover(proof, cover, parts=cover.parts[:at] + cover.parts[at + 1 :])


def part_moved(proof: Certificate, random: Random) -> Certificate:
    """Another bound, or a comparison the other way round."""
    places = [(c, i, k) for c in proof.covers for i, part in enumerate(c.parts) for k, _ in enumerate(part.apart)]
    cover, i, k = random.choice(places)
    (name, so), part = cover.parts[i].apart[k], cover.parts[i]
    moved = random.choice(
        [(name._replace(bound=name.bound + 1), so), (name._replace(bound=name.bound - 1), so), (name, not so)]
    )
    part = part._replace(apart=(*part.apart[:k], moved, *part.apart[k + 1 :]))
    return _cover(proof, cover, parts=(*cover.parts[:i], part, *cover.parts[i + 1 :]))


def sort_changed(proof: Certificate, random: Random) -> Certificate:
    """A choice leads elsewhere."""
    cover = random.choice(proof.covers)
    at = random.randrange(len(cover.choices))
    choice = cover.choices[at]._replace(**{random.choice(["then", "other"]): random.randrange(at + 2)})
    return _cover(proof, cover, choices=(*cover.choices[:at], choice, *cover.choices[at + 1 :]))


def _cover(proof: Certificate, cover: Cover, **fields: Any) -> Certificate:
    """The proof with this cover changed."""
    changed_cover = replace(cover, **fields)
    return replace(proof, covers=tuple(changed_cover if other is cover else other for other in proof.covers))


def line_dropped(proof: Certificate, random: Random) -> Certificate:
    return replace(proof, lines=proof.lines - {random.choice(sorted(proof.lines, key=str))})


def changed(proof: Certificate, random: Random) -> tuple[str, Certificate]:
    """The proof with one change, and its kind."""
    kinds: list[Change] = [clause_dropped, literal_dropped, sign_flipped] if proof.clauses else []
    if any(isinstance(name, Ahead) for clause in proof.clauses for name, _ in clause):
        kinds.append(bound_moved)
    if proof.covers:
        kinds += [part_dropped, part_moved, sort_changed] * 2
    if proof.lines:
        kinds.append(line_dropped)
    kind = random.choice(kinds)
    return kind.__name__, kind(proof, random)


@dataclass
class TwoOpinions:
    """The certificate of a program, and those who look at a changed one: z3, and the audit with its SAT solver."""

    program: Program
    document: Document

    def __post_init__(self) -> None:
        (self.settling,) = (claim for claim in self.document.claims if claim.subject.about is About.UNSETTLED)
        self.claims = Claims(self.program, self.document.repeats, SECONDS)
        self.audit = Audit(self.program, self.document.repeats, lambda: Sat("minisat22"))
        assert self.holds(self.settling)

    def holds(self, claim: Claim) -> bool:
        """Whether z3 finds it proved; the audit must find the same."""
        assert isinstance(claim.proof, Certificate)
        question = meant(claim.subject, self.program)
        assert question is not None
        if claim.subject.about is About.UNSETTLED:
            refusal = self.audit.settles(claim.proof, Budget(SECONDS))
        else:
            refusal = self.audit.check(question, claim.proof, Budget(SECONDS))
        judged = self.claims.judge(claim)
        assert judged.state in (State.HOLDS, State.REFUSED)
        assert (judged.state is State.HOLDS) == (refusal is None), (claim, judged, refusal)
        return refusal is None

    def still(self, claim: Claim) -> bool:
        """Whether a certificate with this claim in it is one; from its text on."""
        document = read(written(with_claim(self.document, claim)).encode())
        again = next(each for each in document.claims if each.subject.key == claim.subject.key)
        assert again == claim
        if claim.subject.about is not About.UNSETTLED:
            return self.holds(claim)
        anew = Claims(self.program, document.repeats, SECONDS)  # all the others rest on this one
        audit = Audit(self.program, document.repeats, lambda: Sat("minisat22"))
        assert isinstance(claim.proof, Certificate)
        settles = anew.judge(claim).state is State.HOLDS
        assert settles == (audit.settles(claim.proof, Budget(SECONDS)) is None)
        anew.look_together([each.subject for each in document.claims if isinstance(each.proof, Within)])
        return settles and all(anew.judge(each).state is State.HOLDS for each in document.claims if each != claim)


ASKED = [pytest.param(each, marks=() if each.name == "first-steps" else pytest.mark.slow) for each in examples()]


@pytest.mark.parametrize("example", ASKED, ids=lambda example: example.name)
def test_changes_of_an_example(example: Example) -> None:
    """A hundred changes of its certificate, seeded: nothing is accepted that only one of the two takes for a proof, and
    most are no proof any more."""
    found = look(example.file.read_text(encoding="utf-8"), example.name)
    refused = sum(count for kind, count in found.items() if kind.endswith("refused"))
    assert refused >= CHANGES / 2, found
    for kind in ("clause_dropped", "literal_dropped", "sign_flipped"):
        assert found[f"{kind}: refused"], found


@pytest.mark.parametrize("name", ["count:20", "two:2", "mix:4"])
def test_changes_of_covers(name: str) -> None:
    """The same of proofs by zones."""
    found = look(family(name), name, frozenset({Engine.ZONES}))
    for kind in ("part_dropped", "part_moved", "sort_changed"):
        assert found[f"{kind}: refused"], found


def look(text: str, name: str, engines: Collection[Engine] = BOTH) -> Counter[str]:
    """What became of each change of the certificate of a program."""
    program, _, document = certified(text, engines)
    opinions, random = TwoOpinions(program, document), Random(name)
    proofs = [claim for claim in document.claims if isinstance(claim.proof, Certificate) and any(claim.proof.names())]
    found: Counter[str] = Counter()
    for _ in range(CHANGES):
        claim = random.choice(proofs)
        assert isinstance(claim.proof, Certificate)
        kind, proof = changed(claim.proof, random)
        still = opinions.still(replace(claim, proof=proof))
        found[f"{kind}: {'still a proof' if still else 'refused'}"] += 1
    print(name, sorted(found.items()))
    return found
