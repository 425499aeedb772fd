"""Certificates by hand that claim what is not so, or what does not follow: each is refused, with the reason."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logiccheck.audit.certificate import Ahead, Certificate, Choice, Clause, Cover, Part
from logiccheck.audit.check import Flaw
from logiccheck.audit.stuck import Plan
from logiccheck.certificate.document import About, Claim, Document, Subject, Within
from logiccheck.certificate.judged import Fault, Rechecked, Standing
from logiccheck.engine.verdict import Kind
from logiccheck.lang.program import Program
from tests.certificate.making import certified, proved_again, standings, with_claim

VEHICLE = """
vehicle "V"
world
    a contact
    b contact
    at first a is off
harness
    source plus
    wire w from plus when a
    wire v from plus when b, to ground when a
    relay k coil off_delay(w, 5 s)
    wire lamp from plus when k
controller "Box" powered by plus
    sense x from w live
    output pump when x
given
    a lasts at most 5 s
    never a and b
requirements
    danger held never lamp while not w for longer than 5 s
    danger dark never lamp while not w for longer than 4 s
    danger quiet never pump while not a
    danger odd never pump while b
    function can possible pump and b
"""

NOT_OVER: Clause = (("dark:run.over", False),)
NEVER_RUNS: Clause = (("dark:run.run", False),)
DEAD: Clause = (("dark:run.run", False), ("k.on", False))
IN_TIME: Clause = (("dark:run.run", False), (Ahead("k", "dark:run", 0, or_same=False), False))
LINES = frozenset({("at first", 0), ("given", 0), ("given", 1)})


@pytest.fixture(scope="module")
def right() -> tuple[Program, Document]:
    """The vehicle and its certificate: what is `dark` fails, `odd` has no case, `can` never happens, and so on."""
    program, check, document = certified(VEHICLE)
    kinds = [verdict.kind for verdict in check.verdicts]
    assert kinds == [Kind.PROVED, Kind.FAILS, Kind.PROVED, Kind.PROVED, Kind.FAILS, Kind.PROVED]
    assert not check.troubles
    return program, document


def refused(program: Program, document: Document) -> list[Flaw | Fault | None]:
    found = proved_again(document, program)
    return [each.why for stands in (*found.bases, found.shorts, *found.requirements) for each in stands.refused]


def test_what_is_right(right: tuple[Program, Document]) -> None:
    """Nothing is refused; what fails is not in it, or in it as what never happens."""
    program, document = right
    assert refused(program, document) == []
    found = standings(proved_again(document, program))
    assert found["held"] == found["quiet"] == found["odd"] == found["short circuit"] == "shown"
    assert found["dark"] == "missing"
    assert found["can"] == "fails"


FALSE_PROOFS = [
    ("nothing at all", Certificate(), Flaw.SAFETY),
    ("what is given alone", Certificate(lines=LINES), Flaw.SAFETY),
    ("that it does not come so far", Certificate((NOT_OVER,)), Flaw.SAFETY),
    ("that it never begins", Certificate((NEVER_RUNS,)), Flaw.CLOSURE),
    ("that it is not over, and ends in time", Certificate((NOT_OVER, DEAD, IN_TIME)), Flaw.CLOSURE),
    ("nothing can be", Certificate(((),)), Flaw.INITIATION),
    ("something that is not so at first", Certificate(((("k.coil", True),),)), Flaw.INITIATION),
    ("a bit that nobody knows", Certificate(((("nothing.run", False),),)), Flaw.NAMES),
    ("a timer that nobody knows", Certificate((((Ahead("k", "nothing", 0, False), False),),)), Flaw.NAMES),
    ("a line that nobody gave", Certificate(lines=frozenset({("given", 7)})), Flaw.NAMES),
    ("a cover of all", Certificate(covers=(Cover((), (Part(1),)),)), Flaw.SAFETY),
    ("a cover of nothing", Certificate(covers=(Cover((), ()),)), Flaw.INITIATION),
    (
        "a cover of what never begins",
        Certificate(covers=(Cover((Choice("dark:run.run", 0, 1),), (Part(2),)),)),
        Flaw.CLOSURE,
    ),
    ("a cover with an unknown sort", Certificate(covers=(Cover((), (Part(5),)),)), Flaw.NAMES),
    ("a cover that refers to itself", Certificate(covers=(Cover((Choice("k.on", 2, 1),), (Part(2),)),)), Flaw.NAMES),
]


@pytest.mark.parametrize(("proof", "why"), [case[1:] for case in FALSE_PROOFS], ids=[case[0] for case in FALSE_PROOFS])
def test_a_requirement_that_fails_has_no_proof(right: tuple[Program, Document], proof: Certificate, why: Flaw) -> None:
    """Whatever is claimed of it, also where the certificate calls it proved."""
    program, document = right
    forged = with_claim(document, Claim(Subject(About.BROKEN, "dark"), proof))
    forged = replace(forged, verdicts=tuple((name, "proved") for name, _ in document.verdicts))
    assert refused(program, forged) == [why]
    assert standings(proved_again(forged, program))["dark"] == "refused"


def test_its_true_proof_is_none_for_less_time(right: tuple[Program, Document]) -> None:
    """What proves 5 s does not prove 4 s."""
    program, document = right
    true = next(claim for claim in document.claims if claim.subject == Subject(About.BROKEN, "held"))
    assert isinstance(true.proof, Certificate)
    renamed = tuple(
        tuple((name.replace("held:", "dark:") if isinstance(name, str) else name, so) for name, so in clause)
        for clause in true.proof.clauses
    )
    forged = with_claim(document, Claim(Subject(About.BROKEN, "dark"), replace(true.proof, clauses=renamed)))
    assert refused(program, forged)


WINDOWS = """
vehicle "V"
world
    a contact
    at first a is off
harness
    source plus
    wire w from plus when a
    relay k coil off_delay(w, {time})
    wire lamp from plus when k
requirements
    danger late never lamp while not w for longer than 5 s
    function early w calls for lamp lasting 5 s
"""


@pytest.mark.parametrize(
    ("time", "fail"),
    [
        ("5 s", []),
        ("5 s +- 1 s", ["late", "early"]),
        ("from 4.999999 s to 5 s", ["early"]),
        ("from 5 s to 5.000001 s", ["late"]),
        ("5.1 s", ["late"]),
        ("4.9 s", ["early"]),
    ],
)
def test_both_ends_of_a_window_count(time: str, fail: list[str]) -> None:
    """A proof about a timer of 5 s is none about one that may take longer, or less."""
    _, _, document = certified(WINDOWS.format(time="5 s"))
    program, check, _ = certified(WINDOWS.format(time=time))
    assert [v.requirement.name for v in check.verdicts if v.kind is Kind.FAILS] == fail
    found = standings(proved_again(document, program))
    assert {found[name] for name in fail} <= {"refused"}
    assert time != "5 s" or found["late"] == found["early"] == "shown"


@pytest.mark.parametrize(("time", "why"), [("5 s", []), ("4.9 s", []), ("from 4 s to 5.000001 s", [Flaw.CLOSURE])])
def test_no_run_is_longer_than_its_window(time: str, why: list[Flaw]) -> None:
    """The end of a run that begins now lies ahead by at most the most it may take."""
    text = WINDOWS.format(time=time) + "    danger idle never a and not a\n"
    program, _, document = certified(text)
    in_time = Certificate((((Ahead("k", None, 5_000_000, or_same=False), False),),))
    assert refused(program, with_claim(document, Claim(Subject(About.BROKEN, "idle"), in_time))) == why


@pytest.mark.parametrize(
    ("claim", "why"),
    [
        (Claim(Subject(About.BROKEN, "can"), Within(3)), Fault.NO_STORY),
        (Claim(Subject(About.CASE, "odd", case=7), Within(3)), Fault.STRANGE),
        (Claim(Subject(About.ON, "quiet", output="horn"), Within(3)), Fault.STRANGE),
        (Claim(Subject(About.CASE, "odd", case=0), Certificate()), Flaw.SAFETY),
        (Claim(Subject(About.ON, "quiet", output="pump"), Certificate()), Flaw.SAFETY),
        (Claim(Subject(About.SHORT), Certificate()), Flaw.SAFETY),
    ],
    ids=str,
)
def test_other_claims(right: tuple[Program, Document], claim: Claim, why: Flaw | Fault) -> None:
    """What cannot happen, what can, what is not there, and a short that only what is given rules out."""
    program, document = right
    assert refused(program, with_claim(document, claim)) == [why]


LESS = LINES - {("given", 1)}
ALL_ON: Plan = ((("a", 1), ("b", 1)),)


@pytest.mark.parametrize(
    ("plans", "lines", "proof", "why"),
    [
        ((ALL_ON,), LESS, Certificate(), Flaw.LINES),
        ((ALL_ON,), LINES, Certificate(lines=LINES), Flaw.GRANTED),
        ((((("a", 1), ("z", 1)),),), LINES, Certificate(), Fault.STRANGE),
        ((((("a", 2),),),), LINES, Certificate(), Fault.STRANGE),
        (((),), LINES, Certificate(), Fault.STRANGE),
        ((), LINES | {("given", 9)}, Certificate(), Fault.STRANGE),
        ((((),) * 10_001,), LINES, Certificate(), Fault.TOO_MANY),
    ],
)
def test_claims_about_time(
    right: tuple[Program, Document],
    plans: tuple[Plan, ...],
    lines: frozenset[tuple[str, int | str]],
    proof: Certificate,
    why: Flaw | Fault,
) -> None:
    """What is left out, taken for granted, unknown, or too much to look at; then nothing stands."""
    program, document = right
    forged = with_claim(document, Claim(Subject(About.STUCK, plans=plans, lines=lines), proof))
    assert refused(program, forged) == [why]
    assert standings(proved_again(forged, program))["held"] == "without a base"


STOPS = """
vehicle "V"
world
    a contact
    b contact
    at first a is on
harness
    source plus
    wire w from plus when a
given
    a lasts at most 5 s
    a lasts at least 6 s
requirements
    danger it never w while b
"""


def judged(text: str, proofs: dict[About, Certificate]) -> Rechecked:
    """A forged certificate: what is claimed of each thing, and all is called proved."""
    program, _, document = certified(text)
    name = program.requirements[0].name
    claims = [
        Claim(Subject(about, name if about in (About.BROKEN, About.CASE) else ""), proof)
        for about, proof in proofs.items()
        if about is not About.STUCK
    ]
    if About.STUCK in proofs:
        lines = frozenset(("given", i) for i in range(len(program.givens))) | {("at first", 0)}
        claims.append(Claim(Subject(About.STUCK, plans=(ALL_ON,), lines=lines), proofs[About.STUCK]))
    return proved_again(replace(document, claims=tuple(claims), verdicts=((name, "proved"),)), program)


def test_time_that_stops() -> None:
    """A world in which time cannot go on has no proof that it does, and nothing stands."""
    proofs = {About.UNSETTLED: Certificate(), About.STUCK: Certificate(), About.BROKEN: Certificate()}
    found = judged(STOPS, proofs)
    assert found.settling.standing is Standing.SHOWN
    assert found.time.standing is Standing.REFUSED
    del proofs[About.STUCK]
    assert judged(STOPS, proofs).time.standing is Standing.MISSING


def test_time_is_shown_to_go_on_by_every_line() -> None:
    """Lines that share nothing have a claim each; without one of them nothing stands."""
    given = "a lasts at most 5 s\n    b lasts at most 6 s"
    program, _, document = certified(STOPS.replace("a lasts at most 5 s\n    a lasts at least 6 s", given))
    claims = [claim for claim in document.claims if claim.subject.about is About.STUCK]
    assert len(claims) == 2
    assert proved_again(document, program).time.standing is Standing.SHOWN
    for left_out in claims:
        rest = tuple(claim for claim in document.claims if claim is not left_out)
        assert proved_again(replace(document, claims=rest), program).time.standing is Standing.MISSING


def test_a_contradiction() -> None:
    """Where no world meets what is given at time 0, everything follows, and nothing is shown by that."""
    text = STOPS.replace("a lasts at most 5 s\n    a lasts at least 6 s", "never a")
    lines = frozenset({("given", 0), ("at first", 0)})
    found = judged(text, {About.UNSETTLED: Certificate(), About.BROKEN: Certificate(lines=lines)})
    assert found.held == found.claims
    assert found.begins.standing is Standing.FAILS
    assert [each.standing for each in found.requirements] == [Standing.CASE_MISSING]


CHATTERS = """
vehicle "V"
world
    a contact
harness
    source plus
    wire w from plus when a
    relay k coil w and not k
requirements
    danger it never k while not a
"""


@pytest.mark.parametrize("repeats", [0, 1, 2, 5])
def test_what_never_settles(repeats: int) -> None:
    """No number of repeats settles a relay that chases itself; without that nothing else is looked at."""
    program, _, document = certified(CHATTERS)
    claims = (Claim(Subject(About.UNSETTLED), Certificate()), Claim(Subject(About.BROKEN, "it"), Certificate()))
    found = proved_again(replace(document, claims=claims, repeats=repeats), program)
    assert found.settling.standing is Standing.REFUSED
    assert standings(found)["it"] == "without a base" or standings(found)["it"] == "case missing"
    assert found.held == 0


def test_too_few_repeats(right: tuple[Program, Document]) -> None:
    """A moment that is not over yet is no moment."""
    program, document = right
    assert document.repeats > 0
    found = proved_again(replace(document, repeats=document.repeats - 1), program)
    assert found.settling.standing is Standing.REFUSED
    assert found.held == 0


def test_a_short_that_nobody_rules_out(right: tuple[Program, Document]) -> None:
    """The wires alone do not: it has to be claimed."""
    program, document = right
    rest = tuple(claim for claim in document.claims if claim.subject.about is not About.SHORT)
    assert len(rest) == len(document.claims) - 1
    assert standings(proved_again(replace(document, claims=rest), program))["short circuit"] == "missing"


def test_names_that_the_rules_do_not_have(right: tuple[Program, Document]) -> None:
    """A claim or verdict about another requirement is not passed over."""
    program, document = right
    forged = with_claim(document, Claim(Subject(About.BROKEN, "elsewhere"), Certificate()))
    forged = replace(forged, verdicts=(*forged.verdicts, ("nowhere", "proved")))
    assert proved_again(forged, program).strange == ("nowhere", "elsewhere")


def test_verdicts_that_contradict_their_proofs(right: tuple[Program, Document]) -> None:
    """Who says that it fails and proves that it does not, says nothing that can be relied on."""
    program, document = right
    forged = replace(document, verdicts=tuple((name, "fails") for name, _ in document.verdicts))
    assert standings(proved_again(forged, program))["held"] == "otherwise"
