"""The reports of all ways in which a signal can be on, and of what it is in all situations of a kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from logiccheck.explain.all_ways import AllWays, Way, is_itself
from logiccheck.explain.asking import Answer, Blocked, Never, Open, Seen, can_matter
from logiccheck.explain.bare import bare
from logiccheck.explain.situation import Asked, Situation, signals
from logiccheck.explain.situations import Situations, Stored, end_of
from logiccheck.explain.written_out import Unfolded
from logiccheck.lang.program import Expectation, Expr, Output, Program, Relay, Signal, SignalKind
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.walk import condition_of, timer_windows
from logiccheck.model.play import play_story
from logiccheck.model.story import Story
from logiccheck.report import words_ways as words
from logiccheck.report import words_why
from logiccheck.report.answered import hindered, outcome
from logiccheck.report.basis import basis, files_read, texts
from logiccheck.report.excerpt import in_a_sentence
from logiccheck.report.happenings import happenings
from logiccheck.report.involved import named
from logiccheck.report.literals import Literals
from logiccheck.report.mistaken import unknown
from logiccheck.report.report import Outcome, Report, Shown, WhyPart, WhySection
from logiccheck.report.stories import replay, shown
from logiccheck.report.values import things
from logiccheck.report.why import why_report

MOST_OPEN = 12  # ways that are not decided, listed one by one


class Vehicle:
    """The vehicle as its user wrote it, and the signal that is asked about; `played` is the part of it on which stories
    are played, for it can matter to the signal and to the conditions of the call."""

    def __init__(
        self,
        program: Program,
        asked: Asked,
        sources: Sequence[SourceFile],
        when: Sequence[Expectation] = (),
        played: Program | None = None,
    ) -> None:
        self.program, self.asked, self.when, self.sources = program, asked, tuple(when), tuple(sources)
        self.played = played or can_matter(program, asked.on, *(each.p for each in when))
        self.timers = timer_windows(self.played).keys()
        self.files: Mapping[str, str] = texts(sources)
        self.subject = asked.label or asked.name
        self.read = {thing.name: thing.read for thing in things(program)}

    def report(self, opening: str, outcome: Outcome, part: WhyPart) -> Report:
        return Report(
            opening, "", outcome, why=part, basis=basis(self.program, self.sources), files=files_read(self.sources)
        )

    def shown(self, story: Story, facts: Iterable[Expr] = ()) -> Shown:
        """The story moment by moment, with the signal and what is named in the facts in any case."""
        about = named([self.asked.on, *facts])
        return shown(self.played, replay(self.played, bare(story, self.timers), None), about, self.files)

    def steps(self, story: Story) -> Iterator[str]:
        """What happens in a story, moment by moment, as short as can be."""
        return happenings(self.program, self.played, story)


# -------------------------------------------------------------------------------------------------------- all ways


def ways_report(vehicle: Vehicle, found: AllWays, deep: bool) -> Report:
    """All ways in which the signal can be on; `deep`: with the whole story of each."""
    told = Literals(vehicle.program, vehicle.files, _names(vehicle, found.text))
    facts = found.text.facts
    sections = [_way(vehicle, told, found.text, number, way, deep) for number, way in enumerate(found.ways, start=1)]
    if found.excluded:
        lines = [words.cannot(told.term(each.by, facts), len(each.terms)) for each in found.excluded]
        sections.append(WhySection(words.CANNOT, tuple(lines)))
    if found.undecided:
        each_open = [words.undecided(told.term(t, facts), words.why_open(w)) for t, w in found.undecided[:MOST_OPEN]]
        if len(found.undecided) > MOST_OPEN:
            each_open.append(words.and_more(len(found.undecided) - MOST_OPEN))
        sections.append(WhySection(words.OPEN_WAYS, tuple(each_open)))
    part = WhyPart(tuple(_claims(vehicle, found)), sections=tuple(sections), counted=words.COUNTED if deep else "")
    return vehicle.report(
        _ways_opening(vehicle, found),
        outcome([why for _, why in found.undecided], found.interrupted, found.unsettled),
        part,
    )


def _names(vehicle: Vehicle, text: Unfolded) -> dict[Expr, str]:
    """The facts that are another rule or output of the user as a whole."""
    box = vehicle.program.box
    known = {rule.name for rule in (box.rules if box is not None else ())} - {vehicle.asked.name}
    inside = (SignalKind.RULE, SignalKind.COMMAND)
    signals = [(fact, outside) for fact, outside in text.asked.items() if isinstance(outside, Signal)]
    found = {fact: outside.name for fact, outside in signals if outside.kind in inside and outside.name in known}
    return found | {
        fact: words.holds_itself(vehicle.asked.name) for fact in text.facts if is_itself(fact, vehicle.asked)
    }


def _ways_opening(vehicle: Vehicle, found: AllWays) -> str:
    subject, yes = vehicle.subject, vehicle.asked.yes
    if not found.complete:
        return words.ways_so_far(subject, yes, len(found.ways), len(found.undecided), found.terms)
    if any(not way.term for way in found.ways):
        return words.always_so(subject, yes)
    if not found.terms:
        return words.no_way_written(subject, yes)
    return words.ways(subject, yes, len(found.ways)) if found.ways else words.never_so(subject, yes)


def _claims(vehicle: Vehicle, found: AllWays) -> Iterator[str]:
    shortest = all(way.short for way in found.ways)
    if found.complete and found.ways and all(way.term for way in found.ways):
        yield words.these(vehicle.asked.yes, len(found.ways), shortest, proved=found.unsettled is None)
    excluded = sum(len(each.terms) for each in found.excluded)
    if found.merged or excluded:
        yield words.counted(found.terms, found.merged, excluded)
    open_ = [why for _, why in found.undecided]
    yield from hindered(vehicle.sources[0].path, open_, found.interrupted, found.unsettled)


def _way(vehicle: Vehicle, told: Literals, text: Unfolded, number: int, way: Way, deep: bool) -> WhySection:
    steps = tuple(vehicle.steps(way.story))
    shortest = not way.holds_itself and all(text.outside(fact) is not None for fact, _ in way.term)
    sentences = [words.shortest_story(steps) if shortest else words.a_story(steps)]
    if not way.short and not way.holds_itself:
        sentences.append(words.NOT_SHORT)
    title = words.way(number, told.term(way.term, text.facts)) if way.term else words.EXAMPLE
    if not deep:
        return WhySection(title, tuple(sentences))
    whole = vehicle.shown(way.story, [fact for fact, _ in way.term])
    return WhySection(title, (*sentences, *whole.remarks), table=whole.table)


# ------------------------------------------------------------------------------------------------------ situations


def situations_report(vehicle: Vehicle, found: Situations) -> Report:
    """What the signal is when all of the conditions are so."""
    given = [each.text for each in vehicle.when]
    said_when = " and ".join(map(_inside, given)) if len(given) > 1 else given[0]
    part = WhyPart(tuple(_situated(vehicle, found)), sections=tuple(_examples(vehicle, found)))
    answers = [answer for answer in (found.on, found.off) if isinstance(answer, Open | Blocked)]
    return vehicle.report(_situations_opening(vehicle, said_when, found), outcome(answers, found.interrupted), part)


def _inside(text: str) -> str:
    return f"({text})" if any(f" {word} " in text for word in ("or", "xor")) else text


def _situations_opening(vehicle: Vehicle, when: str, found: Situations) -> str:
    subject, yes, no = vehicle.subject, vehicle.asked.yes, vehicle.asked.no
    match found.on, found.off:
        case Seen(), Seen():
            return words.differs(subject, yes, no, when)
        case Seen(), Never():
            return words.always(subject, yes, when)
        case Never(), Seen():
            return words.always(subject, no, when)
        case Never(), Never():
            return words.nowhere(when)
        case Seen(), _:
            return words.can_be(subject, yes, no, when)
        case _, Seen():
            return words.can_be(subject, no, yes, when)
        case Never(), _:
            return words.never_yet(subject, yes, when)
        case _, Never():
            return words.never_yet(subject, no, when)
        case _:
            return words.open_(subject, yes, no, when)


def _situated(vehicle: Vehicle, found: Situations) -> Iterator[str]:
    if found.apart and len(found.apart) < len(vehicle.when):
        yield words.already([vehicle.when[number].text for number in found.apart])
    if found.moved and isinstance(found.on, Seen) and isinstance(found.off, Seen):
        here, there = (end_of(found.program, answer.story) for answer in (found.on, found.off))
        read = vehicle.read
        yield words.moved([words.reads(name, read[name](here), read[name](there)) for name in found.moved])
    if found.stored:
        yield words.stored(found.same_hands, [_stored(vehicle, each) for each in found.stored])
    answers = [answer for answer in (found.on, found.off) if isinstance(answer, Open | Blocked)]
    yield from hindered(vehicle.sources[0].path, answers, found.interrupted, found.unsettled)


def _stored(vehicle: Vehicle, stored: Stored) -> str:
    what = stored.what
    if isinstance(what, Relay):
        name, states = what.name, (words.CLOSED, words.OPENED)
    else:
        name = what.name if isinstance(what, Output) else _rule_of(vehicle, what)
        states = (words.ON, words.OFF)
    return words.reads(name, *(states if stored.on else states[::-1]))


def _rule_of(vehicle: Vehicle, what: Expr) -> str:
    """The rule that is nothing else, the sense whose filter it is, or what is written."""
    box = vehicle.program.box
    for sense in box.senses if box is not None else ():
        if what == sense.filter:
            return words_why.through_filter(sense.name, False)
    for rule in box.rules if box is not None else ():
        if what == (condition_of(rule)):
            return rule.name
    return in_a_sentence(what, vehicle.files)


def _examples(vehicle: Vehicle, found: Situations) -> Iterator[WhySection]:
    both = isinstance(found.on, Seen) and isinstance(found.off, Seen)
    answers: tuple[tuple[Answer, str], ...] = ((found.on, vehicle.asked.yes), (found.off, vehicle.asked.no))
    for number, (answer, state) in enumerate(answers, start=1):
        if isinstance(answer, Seen):
            title = words.example(number, state) if both else words.EXAMPLE
            whole = vehicle.shown(answer.story)
            yield WhySection(title, (*_reason(vehicle, answer.story), *whole.remarks), table=whole.table)


def _reason(vehicle: Vehicle, story: Story) -> tuple[str, ...]:
    """The fewest facts that make the signal what it is at the end of a story."""
    timeline = play_story(vehicle.played, story)
    report = why_report(Situation(timeline, timeline.end), vehicle.asked.name, vehicle.files, deep=False)
    return (report.opening, *(report.why.answer[-1:] if report.why is not None else ()))


def no_signal(program: Program, name: str) -> Report:
    """What is asked about is no signal: what to type, or why there is no answer."""
    if any(thing.name == name for thing in things(program)):
        return Report(words.moved_by_hand(name), "", Outcome.MISTAKE)
    return unknown("signal", name, list(signals(program)))


def too_many(vehicle: Vehicle) -> Report:
    """The text allows more ways than are worth listing."""
    return Report(words.too_many(vehicle.subject, vehicle.asked.yes), "", Outcome.OPEN)
