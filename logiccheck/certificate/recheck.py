"""Proves a certificate again, from the rules alone; and finds out what it does not prove."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from logiccheck.audit.certificate import Certificate
from logiccheck.base.budget import OutOfTime
from logiccheck.certificate.claims import Claims
from logiccheck.certificate.document import SHORT_CIRCUIT, About, Claim, Document, Key, Subject, Within
from logiccheck.certificate.judged import Judged, Rechecked, Standing, Stands, State
from logiccheck.lang.program import Possible, Program, Requirement, Signal, SignalKind
from logiccheck.lang.walk import form_expressions, subexpressions

PROVED = "proved"
STANDING = {
    State.HOLDS: Standing.SHOWN,
    State.REFUSED: Standing.REFUSED,
    State.OPEN: Standing.OPEN,
    State.FULL: Standing.FULL,
    State.BASELESS: Standing.BASELESS,
}


def recheck(document: Document, program: Program, seconds: float, progress: Callable[[str], None]) -> Rechecked:
    """Judges every claim, each within `seconds`, and each requirement of the program by them.

    The files must be those that the document names. A KeyboardInterrupt ends it: the rest is not decided.
    """
    return _Recheck(document, program, seconds, progress).run()


class _Recheck:
    """`judged`: what came of each claim so far, by its key."""

    def __init__(self, document: Document, program: Program, seconds: float, progress: Callable[[str], None]) -> None:
        self.document, self.program, self.progress = document, program, progress
        self.claims = Claims(program, document.repeats, seconds)
        self.judged: dict[Key, Judged] = {}
        self.begins = self.time = self.shorts = Standing.OPEN
        self.interrupted = False

    def run(self) -> Rechecked:
        try:
            self._judge()
        except KeyboardInterrupt:
            self.interrupted = True
        settling = self._base(About.UNSETTLED, self._standing_of(About.UNSETTLED))
        begins = Stands("beginning", "", self.begins)
        time = self._base(About.STUCK, self._standing_of_time())
        based = all(base.standing is Standing.SHOWN for base in (settling, begins, time))
        requirements = [self._stands(requirement) for requirement in self.program.requirements]
        return Rechecked(
            tuple(each if based else _without_base(each) for each in requirements),
            settling,
            begins,
            time,
            shorts=self._base(About.SHORT, self.shorts),
            strange=tuple(self._strange()),
            held=sum(each.state is State.HOLDS for each in self.judged.values()),
            claims=len(self.document.claims),
            interrupted=self.interrupted,
        )

    def _judge(self) -> None:
        """What all rests on first."""
        self.progress("settling")
        self._each(lambda claim: claim.subject.about is About.UNSETTLED)
        self.progress("what is given")
        self.begins = self._begins()
        self.progress("what can happen")
        self.claims.look_together([c.subject for c in self.document.claims if isinstance(c.proof, Within)])
        self._each(lambda claim: claim.subject.about in (About.STUCK, About.SHORT))
        self.shorts = self._without_shorts()
        self._each(lambda claim: True)

    def _begins(self) -> Standing:
        try:
            return Standing.SHOWN if self.claims.begins() else Standing.FAILS
        except OutOfTime:
            return Standing.OPEN
        except MemoryError:
            return Standing.FULL

    def _each(self, wanted: Callable[[Claim], bool]) -> None:
        for claim in self.document.claims:
            if wanted(claim) and claim.subject.key not in self.judged:
                self.progress(claim.subject.requirement or claim.subject.about.value)
                self.judged[claim.subject.key] = self.claims.judge(claim)

    def _without_shorts(self) -> Standing:
        """No wire is both live and grounded: by the claim, or where there is none, by the wires alone."""
        standing = self._standing_of(About.SHORT)
        if standing is not Standing.MISSING:
            return standing
        alone = self.claims.judge(Claim(Subject(About.SHORT), Certificate()))
        return Standing.MISSING if alone.state is State.REFUSED else STANDING[alone.state]

    # where things stand

    def _base(self, about: About, standing: Standing) -> Stands:
        verdict = self._said(SHORT_CIRCUIT) if about is About.SHORT else ""
        return Stands(about.value, "", standing, verdict, self._refused(self._about(about)))

    def _standing_of(self, about: About) -> Standing:
        """Of a thing that never happens, of which there is at most one claim."""
        claims = self._about(about)
        return self._standing_of_one(claims[0]) if claims else Standing.MISSING

    def _standing_of_one(self, claim: Claim) -> Standing:
        if isinstance(claim.proof, Within) and self._state(claim) is State.HOLDS:
            return Standing.FAILS
        return STANDING[self._state(claim)]

    def _standing_of_time(self) -> Standing:
        """The worst that the claims about time come to; they have to be about every line that demands something."""
        claims = self._about(About.STUCK)
        found = [self._standing_of_one(claim) for claim in claims]
        left = self.claims.demanding().difference(*(claim.subject.lines for claim in claims))
        found += [Standing.MISSING] if left else []
        return min(found, key=list(Standing).index, default=Standing.SHOWN)

    def _stands(self, requirement: Requirement) -> Stands:
        own = [claim for claim in self.document.claims if claim.subject.requirement == requirement.name]
        said, refused = self._said(requirement.name), self._refused(own)
        return Stands(requirement.name, requirement.label, self._standing(requirement, own, said), said, refused)

    def _standing(self, requirement: Requirement, own: list[Claim], said: str) -> Standing:
        """The worst that its claims come to."""
        main = Subject(About.BROKEN, requirement.name).key
        cases = {case.key for case in self._cases(requirement)}
        claimed = {claim.subject.key for claim in own}
        holds = [claim for claim in own if self._state(claim) is State.HOLDS]
        happens = {claim.subject.key for claim in holds if isinstance(claim.proof, Within)}
        never = {claim.subject.key for claim in holds} - happens
        wanted, unwanted = (happens, never) if isinstance(requirement.form, Possible) else (never, happens)
        states = {self._state(claim) for claim in own}
        if State.REFUSED in states:
            return Standing.REFUSED
        if main in unwanted:
            return Standing.FAILS
        if never & cases:
            return Standing.NO_CASE
        if main not in claimed:
            return Standing.MISSING
        if not cases <= claimed:
            return Standing.CASE_MISSING
        if {main} <= wanted and cases <= happens and states == {State.HOLDS}:
            return Standing.SHOWN if said == PROVED else Standing.OTHERWISE
        if State.BASELESS in states:
            return Standing.BASELESS
        return Standing.FULL if State.FULL in states else Standing.OPEN

    def _cases(self, requirement: Requirement) -> Iterator[Subject]:
        """Everything without which the requirement says nothing: each has to be shown to happen."""
        case = Subject(About.CASE, requirement.name)
        while self.claims.lit(case) is not None:
            yield case
            case = replace(case, case=case.case + 1)
        for part in form_expressions(requirement.form):
            for e in subexpressions(part):
                if isinstance(e, Signal) and e.kind is SignalKind.OUTPUT:
                    yield Subject(About.ON, requirement.name, output=e.name)

    def _strange(self) -> Iterator[str]:
        """Names of requirements that the rules do not have."""
        known = {requirement.name for requirement in self.program.requirements} | {SHORT_CIRCUIT}
        named = [name for name, _ in self.document.verdicts]
        named += [claim.subject.requirement for claim in self.document.claims if claim.subject.requirement]
        yield from (name for name in dict.fromkeys(named) if name not in known)

    def _about(self, about: About) -> list[Claim]:
        return [claim for claim in self.document.claims if claim.subject.about is about]

    def _state(self, claim: Claim) -> State:
        judged = self.judged.get(claim.subject.key)
        return judged.state if judged is not None else State.OPEN

    def _refused(self, claims: list[Claim]) -> tuple[Judged, ...]:
        found = (self.judged.get(claim.subject.key) for claim in claims)
        return tuple(each for each in found if each is not None and each.state is State.REFUSED)

    def _said(self, name: str) -> str:
        return dict(self.document.verdicts).get(name, "")


def _without_base(stands: Stands) -> Stands:
    return replace(stands, standing=Standing.BASELESS) if stands.standing is Standing.SHOWN else stands
