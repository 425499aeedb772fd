"""The report of why a signal is as it is at a moment, and what is said where there is no such moment."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from logiccheck.base.span import Span
from logiccheck.engine.verdict import Kind, Verdict
from logiccheck.explain.behind import Behind, behind
from logiccheck.explain.facts import function
from logiccheck.explain.reasons import Reason, reason
from logiccheck.explain.situation import Asked, Situation, signals
from logiccheck.lang.program import Compare, Expr, NumberSense, Position, Program, Scenario, Signal
from logiccheck.model.timeline import Timeline
from logiccheck.report import words_why as words
from logiccheck.report.due import ended
from logiccheck.report.durations import said
from logiccheck.report.excerpt import excerpt, where
from logiccheck.report.facts import Teller
from logiccheck.report.involved import involved
from logiccheck.report.mistaken import unknown
from logiccheck.report.own import own_line
from logiccheck.report.plain import typed
from logiccheck.report.report import Excerpt, Outcome, Report, Step, WhyPart, WhySection
from logiccheck.report.turned import as_it_reads, turned
from logiccheck.report.values import things


def askable(program: Program) -> list[str]:
    """The names that can be asked about: every signal, and what hands and physics move."""
    return [*dict.fromkeys([*signals(program), *(thing.name for thing in things(program))])]


def chosen(program: Program, file: str, name: str, scenario: str | None) -> Scenario | Report:
    """The scenario of that name, or the only one; else what to type."""
    known = [each.name for each in program.scenarios]
    if scenario is None and len(known) == 1:
        return program.scenarios[0]
    if scenario is None:
        first = program.requirements[0].name if program.requirements else ""
        say = words.which_scenario(typed(file), name, known) if known else words.no_scenario(typed(file), name, first)
        return Report(say, "", Outcome.MISTAKE)
    if scenario not in known:
        return unknown("scenario", scenario, known)
    return program.scenarios[known.index(scenario)]


def one_of_both() -> Report:
    """The call names a scenario and a story."""
    return Report(words.not_both(), "", Outcome.MISTAKE)


def without_story(verdict: Verdict) -> Report:
    """What `--story` asks for is not there."""
    outcomes = {Kind.NOT_DECIDED: Outcome.OPEN, Kind.BLOCKED: Outcome.FAILS}
    opening = words.without_story(verdict.requirement.name, verdict.kind, verdict.undecided)
    return Report(opening, "", outcomes.get(verdict.kind, Outcome.MISTAKE))


def situated(timeline: Timeline, time: Fraction | int | None) -> Situation | Report:
    """The situation at that time, or at the end; else why there is none."""
    at = timeline.end if time is None else time
    if at < 0:
        return Report(words.before_the_start(f"-{said(-at)}"), "", Outcome.MISTAKE)
    if timeline.settles and at > timeline.end:
        return Report(words.after_the_end(said(at), said(timeline.end)), "", Outcome.MISTAKE)
    if not timeline.settles and at >= timeline.end:
        rest = said(timeline.settled[-1].time) if timeline.settled else ""
        return Report(words.never_rests(said(timeline.end), rest), "", Outcome.MISTAKE)
    return Situation(timeline, at)


def why_report(situation: Situation, name: str, files: Mapping[str, str], deep: bool, passing: bool = False) -> Report:
    """Why the signal is as it is there; `deep`: also what is behind each fact. `passing`: what the story is told for is
    so for an instant only, and not in what is settled.
    """
    asked = signals(situation.program).get(name)
    if asked is None:
        return Report(_not_ours(situation, name), "", Outcome.GOOD)
    asked = as_it_reads(situation, asked)
    state = asked.yes if situation.values.holds(asked.on) else asked.no
    f = function(situation.program, situation.values, asked.on)
    found = reason(f)
    teller = Teller(situation, files, name)
    facts = [teller.tell(fact) for fact in found.facts]
    opening = words.because(asked.label or asked.name, state, said(situation.time), facts)
    deeper = (_behind(situation, asked.on, found, files),) if deep and found.facts else ()
    part = WhyPart(
        answer=(_since(situation, asked), *_fewest(found)),
        excerpts=_excerpts(situation.program, asked, found, files),
        sections=(*_passing(situation, passing), *deeper, turned(situation, asked, files, deep)) if found.facts else (),
        counted=_counted(found, state, deep),
    )
    return Report(opening, "", Outcome.GOOD, why=part)


def _counted(found: Reason, state: str, deep: bool) -> str:
    if not found.facts:
        return ""
    return words.COUNTED if deep else words.keep(state, len(found.facts))


def _passing(situation: Situation, passing: bool) -> Iterator[WhySection]:
    if passing:
        yield WhySection(words.INSTANT, (words.for_an_instant(said(situation.time)),))


def _not_ours(situation: Situation, name: str) -> str:
    """A switch or number of the world, or a number as it is sensed."""
    program, time = situation.program, said(situation.time)
    thing = next(each for each in things(program) if each.name == name)
    value = thing.read(situation.values)
    for sense in program.box.senses if program.box else ():
        if isinstance(sense, NumberSense) and sense.name == name:
            return words.sensed(name, value, time, sense.number, name in situation.values.numbers)
    return words.moved_by_hand(name, value, time)


def _fewest(found: Reason) -> Iterator[str]:
    if found.facts:
        yield words.fewest(len(found.facts), found.others, found.all_found, found.fewest)


def _since(situation: Situation, asked: Asked) -> str:
    """Since when it is so, and what of all that can matter to it came then."""
    settled = situation.timeline.settled
    at = situation.at
    while at and settled[at - 1].moment.settled.holds(asked.on) == settled[at].moment.settled.holds(asked.on):
        at -= 1
    if at == 0:
        return words.since("", "", ())
    time = settled[at].time
    ago = said(situation.time - time) if situation.time > time else ""
    return words.since(said(time), ago, tuple(_came(situation, asked, at)))


def _came(situation: Situation, asked: Asked, at: int) -> Iterator[str]:
    """What hands moved and which timers ended at the settled moment of this number, not the first."""
    before, then = situation.timeline.settled[at - 1 : at + 1]
    names = involved(situation.program, [asked.name])
    for thing in things(situation.program):
        if thing.name in names and before.world.get(thing.name) != then.world.get(thing.name):
            yield words.went_to(thing.name, thing.read(then.moment.settled.values))
    for key in sorted(then.due):
        if re.split("[ ,.]", key)[0] in names:
            yield ended(situation.program, key)


def _excerpts(program: Program, asked: Asked, found: Reason, files: Mapping[str, str]) -> tuple[Excerpt, ...]:
    """The signal's own line with the terms that lead to the facts, then where these are written, file by file."""
    own = own_line(program, asked.name)
    groups: dict[str, list[Span]] = {"": [own]}
    for fact in found.facts:
        for span in (*fact.via, *fact.spans):
            inside = own.file == span.file and own.begin <= span.begin < own.end
            groups.setdefault("" if inside else span.file, []).append(span)
    shown = [excerpt(each, files) for each in groups.values()]
    return tuple(each for each in shown if each is not None)


def _behind(situation: Situation, on: Expr, found: Reason, files: Mapping[str, str]) -> WhySection:
    """What is behind each fact, down to what hands and physics did."""
    facts = tuple(fact for fact in found.facts if fact.value or fact.leaf != on)
    steps = [step for each in behind(situation, facts) for step in _steps(situation, each, files, 0)]
    return WhySection(words.BEHIND, steps=tuple(steps))


def _steps(situation: Situation, each: Behind, files: Mapping[str, str], depth: int) -> Iterator[Step]:
    told = Teller(situation, files).tell(each.fact, deep=True)
    place = where(each.fact.spans[0], files) if each.fact.spans else ""
    if each.reason is None:
        end = words.KNOWN if each.known else words.CUT if each.cut else ""
        yield Step(depth, words.told(told, end), "" if each.known else place)
        return
    then = Situation(situation.timeline, each.at)
    teller = Teller(then, files, each.fact.leaf.name if isinstance(each.fact.leaf, Signal) else "")
    facts = [teller.tell(fact, deep=True) for fact in each.reason.facts]
    at = said(each.at) if each.at != situation.time else ""
    yield Step(depth, words.behind(told, words.about(each.about, each.value), at, facts), place)
    for further in each.next:
        if not isinstance(further.fact.leaf, Position | Compare) and further.fact.leaf != each.fact.leaf:
            yield from _steps(then, further, files, depth + 1)
