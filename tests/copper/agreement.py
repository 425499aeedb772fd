"""Holds what the checker says of single faults against the explorer that breaks the parts itself."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from logiccheck.copper.faults.answers import (
    Blocked,
    Broken,
    Fails,
    Hidden,
    Holds,
    Notice,
    Noticed,
    Open,
    Outcome,
    Unclear,
)
from logiccheck.copper.faults.changed import together
from logiccheck.engine.replay import StoryRefused, played
from logiccheck.lang.program import Possible, Requirement
from tests.copper.changing import told
from tests.copper.naming import WHENS, matched
from tests.copper.replaying import Replay
from tests.oracle.broken.asked import Explored
from tests.oracle.broken.parts import Fault, When, whens
from tests.oracle.explorer import TooBig
from tests.oracle.oracle import Answer, Kind


@dataclass
class Tally:
    """How often each mode was met, with what came of it."""

    pairs: Counter[tuple[str, str]] = field(default_factory=Counter)
    notices: Counter[str] = field(default_factory=Counter)
    vehicles: int = 0
    stories: int = 0
    skipped: int = 0
    undecided: int = 0

    def lines(self) -> list[str]:
        """For people."""
        modes = sorted({mode for mode, _ in self.pairs})
        kinds = sorted({kind for _, kind in self.pairs})
        notices = ", ".join(f"{kind} {count}" for kind, count in self.notices.most_common())
        return [
            f"{self.vehicles} vehicles, {self.pairs.total()} pairs ({self.undecided} not decided, {self.skipped} too big), "
            f"{self.stories} stories played; faults: {notices}",
            *(f"  {mode:24}" + "".join(f" {kind}: {self.pairs[mode, kind]}" for kind in kinds) for mode in modes),
        ]


class Comparing:
    """One vehicle, and all that the checker says of its faults."""

    def __init__(self, vehicle: Explored, broken: Broken, tally: Tally) -> None:
        self.vehicle, self.broken, self.tally = vehicle, broken, tally
        self.same = matched(vehicle.program, vehicle.faults)
        self.theirs = {each.id: fault for fault, each in self.same.items()}
        self.found: list[str] = []

    def all(self) -> list[str]:
        """How the two differ."""
        self.tally.vehicles += 1
        self.asked()
        self.pairs()
        self.notices()
        return self.found

    def asked(self) -> None:
        """Just what holds of the whole vehicle is asked of broken ones."""
        asked = {requirement.name for requirement in self.broken.asked}
        for requirement in self.vehicle.program.requirements:
            try:
                holds = self.vehicle.whole(requirement).kind in (Kind.PROVED, Kind.NO_CASE)
            except TooBig:
                continue
            if holds is not (requirement.name in asked):
                self.found.append(f"{requirement.name} is {'proved and not' if holds else 'not proved and'} asked")

    def pairs(self) -> None:
        met = Counter((pair.fault.id, pair.requirement.name) for pair in self.broken.pairs)
        expected = {(each.id, requirement.name) for each in self.same.values() for requirement in self.broken.asked}
        if set(met) != expected or set(met.values()) - {1}:
            self.found.append(f"not each pair once: {expected ^ set(met)}")
        for pair in self.broken.pairs:
            fault, outcomes = self.theirs[pair.fault.id], dict(pair.outcomes())
            possible = isinstance(pair.requirement.form, Possible)
            due = [when for when in whens(fault) if not possible or when is When.START]
            if set(outcomes) != {WHENS[when] for when in due}:
                self.found.append(f"{fault.name}, {pair.requirement.name}: asked {[x.value for x in outcomes]}")
            for when in due:
                if (outcome := outcomes.get(WHENS[when])) is not None:
                    self.pair(fault, when, self.own(pair.requirement), outcome)

    def own(self, requirement: Requirement) -> Requirement:
        """The requirement as the vehicle has it; the built-in one is nowhere else."""
        own = (each for each in self.vehicle.program.requirements if each.name == requirement.name)
        return next(own, requirement)

    def pair(self, fault: Fault, when: When, requirement: Requirement, outcome: Outcome) -> None:
        try:
            answer = self.vehicle.with_faults(requirement, {fault: when})
        except TooBig:
            self.tally.skipped += 1
            return
        kind = f"{type(fault.part).__name__} {fault.mode.value}"
        self.tally.pairs[kind, answer.kind.value] += 1
        if isinstance(outcome, Open):
            self.tally.undecided += 1
        elif complaint := self.complaint(fault, when, requirement, outcome, answer):
            self.found.append(f"{told(fault, when, requirement)}: {complaint}")

    def complaint(self, fault: Fault, when: When, requirement: Requirement, outcome: Outcome, answer: Answer) -> str:
        said = {Holds: (Kind.PROVED, Kind.NO_CASE), Fails: (Kind.FAILS,), Blocked: (Kind.BLOCKED,)}[type(outcome)]
        if answer.kind not in said:
            return f"{type(outcome).__name__}, explored: {answer.kind.value} {answer.moments or ''} {answer.reason}"
        if not isinstance(outcome, Fails) or outcome.story is None:
            return ""
        if answer.exact and answer.moments is not None:
            moments = outcome.story.moments
            if moments < answer.moments or (outcome.shortest and moments != answer.moments):
                return f"a story of {moments} moments, explored: {answer.moments}"
        return self.replayed(fault, when, requirement, outcome)

    def replayed(self, fault: Fault, when: When, requirement: Requirement, outcome: Fails) -> str:
        """The story, on the vehicle with this fault alone, and on that which the explorer breaks."""
        assert outcome.story is not None
        self.tally.stories += 1
        changed = together(self.vehicle.program, (self.same[fault],), WHENS[when])
        try:
            timeline = played(changed, outcome.story)
        except StoryRefused as refused:
            return f"the story does not play: {refused}"
        replay = Replay(self.vehicle.program, requirement, {fault: when}, timeline, {fault: self.same[fault].id})
        return replay.shows()

    def notices(self) -> None:
        """Whether each fault is noticed."""
        for each, notice in zip(self.broken.faults, self.broken.notices, strict=False):
            fault = self.theirs[each.id]
            try:
                shown = self.shown(fault)
            except TooBig:
                self.tally.skipped += 1
                continue
            if complaint := self.misjudged(notice, shown):
                self.found.append(f"{fault.name}: {complaint}")

    def shown(self, fault: Fault) -> list[bool | None]:
        """For each tell-tale line whether it shows the fault, each time it can be there; None where nothing is known."""
        answers = [self.vehicle.noticed(fault, when) for when in whens(fault)]
        found: list[bool | None] = []
        for each in zip(*answers, strict=True):
            blocked = any(answer.kind is Kind.BLOCKED for answer in each)
            found.append(None if blocked else all(shows(answer) for answer in each))
        return found

    def misjudged(self, notice: Notice, shown: list[bool | None]) -> str:
        tales = self.broken.tales
        if tales is not None:  # what comes on with nothing broken, too, shows nothing
            lit = {(tale.text, tale.time) for tale in (*tales.always, *tales.unknown)}
            theirs = self.vehicle.program.electrics.tell_tales
            shown = [x and (tale.text, tale.time) not in lit for x, tale in zip(shown, theirs, strict=True)]
        self.tally.notices[f"{type(notice).__name__}, {'shown' if True in shown else 'not shown'}"] += 1
        match notice:
            case Unclear():
                return ""
            case Noticed(by=by):
                place = self.vehicle.program.electrics.tell_tales
                this = [
                    x for x, tale in zip(shown, place, strict=True) if tale.text == by.text and tale.time == by.time
                ]
                return "" if True in this or None in this else f"noticed by {by.text}, explored: {shown}"
            case Hidden():
                return f"hidden, explored: {shown}" if True in shown else ""


def shows(answer: Answer) -> bool:
    """A tell-tale shows a fault if that is proved and it ever counts while the fault is there; whether all outputs that
    it names can be on is another matter."""
    never = answer.kind is Kind.NO_CASE and "p" in answer.reason.split(", ")
    return answer.kind in (Kind.PROVED, Kind.NO_CASE) and not never
