"""The report of a whole check: obstacles and verdicts, worst first, and what they rest on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from logiccheck.base.place import source_text
from logiccheck.base.span import Span
from logiccheck.engine.verdict import Check, Kind, Obstacle, Trouble, Verdict
from logiccheck.explain.accepting import Accepting
from logiccheck.explain.aside import Beside, Bindings, Hollow
from logiccheck.explain.mending import Mending
from logiccheck.lang.program import Expr, Guard, Program
from logiccheck.lang.reading import SourceFile
from logiccheck.lang.resolve.accepted import REQUIREMENT
from logiccheck.model.circuit.system import Line
from logiccheck.model.signals import Instant
from logiccheck.report import words_cases, words_tour, words_trouble, words_verdict
from logiccheck.report import words_check as words
from logiccheck.report.accepted import (
    accepted_findings,
    accepted_notes,
    accepted_part,
    accepted_requirements,
    in_vain,
    to_accept,
)
from logiccheck.report.basis import basis, believed, files_read, texts
from logiccheck.report.causes import excluding
from logiccheck.report.emptied import emptied
from logiccheck.report.excerpt import in_a_sentence, where
from logiccheck.report.linted import DANGERS, NOBODY, found, notes, unaccepted
from logiccheck.report.mended import calming_part, edits_part
from logiccheck.report.report import LinesPart, Outcome, PlayedPart, Report, Shown, TroublePart, VerdictPart
from logiccheck.report.stories import Replay, replay, shorted_at_the_end, shown
from logiccheck.report.waived import waived_parts
from logiccheck.study.findings import Linted

NO_FINDINGS = Linted((), situations=True)
NOTHING = Beside()
WORST_FIRST = (Kind.FAILS, Kind.BLOCKED, Kind.NO_CASE, Kind.NOT_DECIDED, Kind.PROVED)


def check_report(
    program: Program,
    sources: tuple[SourceFile, ...],
    check: Check,
    linted: Linted = NO_FINDINGS,
    played: tuple[PlayedPart, ...] = (),
    left_out: int = 0,
    times: bool = False,
    beside: Beside = NOTHING,
    accepting: Accepting = NOBODY,
) -> Report:
    """`sources` are the files read, the main file first; `played` are its scenarios that expect something; `left_out`
    counts the requirements that nobody wanted checked this time; `times`: say how long each took, and which engine.
    `linted`: what was found in the files; `beside`: what was found out about the requirements beside their verdicts;
    `accepting`: what somebody takes responsibility for.
    """
    files = texts(sources)
    unmet = sum(not part.met for each in played for part in each.expectations)
    tally = _tally(program, check, linted, unmet, left_out, accepting)
    return Report(
        opening=words.opening(program.label, tally),
        closing=words.closing(tally),
        outcome=outcome(tally, check.troubles),
        notices=(*in_vain(accepting, files), *found(program, linted, accepting, files, DANGERS)),
        troubles=tuple(_trouble(program, trouble, beside, files) for trouble in check.troubles),
        verdicts=tuple(
            _with_more(part, beside, program.box is not None, files)
            for part in _verdicts(program, check, files, beside.mendings, accepting)
        ),
        played=tuple(_in_vain(part) for part in played if not _as_expected(part)),
        notes=(
            *_notes(check, played, sources[0].path, linted, beside),
            *accepted_notes(accepting),
            *(_times(check) if times else ()),
        ),
        basis=basis(program, sources),
        cases=_cases(program, sources, beside.bound),
        files=files_read(sources),
        as_expected=tuple(_met(part) for part in played if part.met),
        waived=waived_parts(program, files),
    )


def _tally(
    program: Program, check: Check, linted: Linted, unmet: int, left_out: int, accepting: Accepting
) -> words.Tally:
    return words.Tally(
        counts=Counter(verdict.kind for verdict in check.verdicts),
        asked=sum(not verdict.builtin for verdict in check.verdicts),
        unmet=unmet,
        left_out=left_out + check.unasked,
        waived=len(program.waived),
        interrupted=check.interrupted,
        dangers=unaccepted(linted, accepting)[Guard.DANGER],
        excused=Counter(v.kind for v in check.verdicts if _is_excused(v, accepting)),
        accepted=accepted_requirements(accepting),
        accepted_findings=accepted_findings(accepting),
        vain=len(accepting.vain),
        open_dangers=linted.open_dangers,
        unlooked=not (linted.situations or left_out or check.troubles),
    )


def _cases(program: Program, sources: tuple[SourceFile, ...], bound: Bindings | None) -> tuple[LinesPart, ...]:
    if bound is None:
        return ()
    from logiccheck.report.cases import cases  # loads what explains, which is not always asked for

    return cases(program, sources, bound)


def _with_more(
    part: VerdictPart,
    beside: Beside,
    ruled: bool,
    files: Mapping[str, str],
) -> VerdictPart:
    """The same with what was found out after it was decided; `ruled`: the vehicle has a box."""
    mending, empty = beside.mendings.get(part.name), beside.empty.get(part.name)
    edits = None if mending is None else edits_part(mending, files)
    anyhow = empty is not None and empty.kind is Hollow.ANYTHING  # no line of the rules is to blame
    causes = () if anyhow else excluding(beside.excluded.get(part.name, ()), files)
    return replace(part, edits=edits, causes=causes if empty is None else (*emptied(empty, ruled, files), *causes))


def _as_expected(part: PlayedPart) -> bool:
    return all(each.met for each in part.expectations) and not part.remarks


def _in_vain(part: PlayedPart) -> PlayedPart:
    return replace(part, expectations=tuple(each for each in part.expectations if not each.met))


def _met(part: PlayedPart) -> PlayedPart:
    return replace(part, expectations=tuple(each for each in part.expectations if each.met), remarks=())


def _notes(check: Check, played: tuple[PlayedPart, ...], file: str, linted: Linted, beside: Beside) -> Iterator[str]:
    if check.unasked:
        yield words.SHORTS_LEFT_OUT
    fine = [part for part in played if _as_expected(part)]
    if fine:
        yield words.as_expected([part.name for part in fine], sum(part.met for part in fine))
    stories = [verdict.story for verdict in check.verdicts if verdict.kind is Kind.FAILS]
    if any(story is not None for story in (*stories, *(trouble.story for trouble in check.troubles))):
        yield words.how_to_save(file)
    yield from notes(linted, "--lint")
    if check.verdicts and all(verdict.kind is Kind.PROVED for verdict in check.verdicts):
        if beside.bound is None:
            yield words_cases.how_to_see(file)
        yield words_tour.how_to_tour(file)


def _times(check: Check) -> Iterator[str]:
    for verdict in check.verdicts:
        engines = sorted(engine.value for engine in verdict.engines)
        yield words_verdict.time_used(verdict.requirement.name, verdict.seconds, engines)


def outcome(tally: words.Tally, troubles: Iterable[Trouble]) -> Outcome:
    """What the whole check comes to; a check that asked nothing has failed."""
    obstacles = {trouble.obstacle for trouble in troubles}
    bad = (Kind.FAILS, Kind.BLOCKED, Kind.NO_CASE)
    if any(tally.left(kind) for kind in bad) or tally.unmet or tally.dangers or tally.vain:
        return Outcome.FAILS
    if obstacles - {Obstacle.UNSETTLED_UNKNOWN}:
        return Outcome.FAILS
    if tally.interrupted or tally.counts[Kind.NOT_DECIDED] or obstacles or tally.open_dangers:
        return Outcome.OPEN
    return Outcome.GOOD if tally.asked else Outcome.FAILS


def _is_excused(verdict: Verdict, accepting: Accepting) -> bool:
    """Somebody accepts that it does not hold, and it guards against no danger to people."""
    return accepting.of_requirement(verdict.requirement.name).holds and verdict.requirement.guard is not Guard.DANGER


def _verdicts(
    program: Program, check: Check, files: Mapping[str, str], mendings: Mapping[str, Mending], accepting: Accepting
) -> tuple[VerdictPart, ...]:
    """Worst first, danger before damage before function, else as written; what is shown already is not shown again."""
    guards = list(Guard)
    ordered = sorted(check.verdicts, key=lambda v: (WORST_FIRST.index(v.kind), guards.index(v.requirement.guard)))
    told: list[tuple[str, Shown]] = []
    parts = (_verdict(program, verdict, files, _edited(verdict, mendings), told) for verdict in ordered)
    words = (accepting.of_requirement(verdict.requirement.name) for verdict in ordered)
    dangers = (verdict.requirement.guard is Guard.DANGER for verdict in ordered)
    return tuple(
        replace(
            part,
            accepted=accepted_part(word, files, danger),
            to_accept=to_accept(word, REQUIREMENT, part.name, danger),
        )
        for part, word, danger in zip(parts, words, dangers, strict=True)
    )


def _edited(verdict: Verdict, mendings: Mapping[str, Mending]) -> tuple[Span, ...]:
    """What the smallest edit changes that would mend it."""
    mending = mendings.get(verdict.requirement.name)
    mending = mendings.get(mending.like) if mending is not None and mending.like else mending
    return tuple(change.span for change in mending.edits[0].changes) if mending is not None and mending.edits else ()


def _verdict(
    program: Program,
    verdict: Verdict,
    files: Mapping[str, str],
    edited: tuple[Span, ...],
    told: list[tuple[str, Shown]],
) -> VerdictPart:
    """`told`: the stories shown so far, each with the name of its requirement; this one is added."""
    requirement, story = verdict.requirement, verdict.story
    played = replay(program, story, requirement.form) if story is not None else None
    laid_out = shown(program, played, (), files, edited) if played is not None else None
    remarks = _remarks(verdict)
    if laid_out is not None:
        same = next((name for name, other in told if _says_no_more(laid_out, other)), None)
        if same is None:
            told.append((requirement.name, laid_out))
        else:
            laid_out, remarks = None, (*remarks, words.same_story(same))
    return VerdictPart(
        name=requirement.name,
        label=requirement.label,
        guards=words_verdict.GUARDS[requirement.guard],
        text=requirement.text,
        place="" if verdict.builtin else where(requirement.span, files),
        kind=verdict.kind,
        sentence=_sentence(program, verdict, played, files),
        shown=laid_out,
        remarks=remarks,
    )


def _says_no_more(shown: Shown, other: Shown) -> bool:
    """All that the one shows stands in the other as well: the same table, and none of its causes is missing there."""
    return (shown.table, shown.remarks) == (other.table, other.remarks) and set(shown.causes) <= set(other.causes)


def _sentence(program: Program, verdict: Verdict, played: Replay | None, files: Mapping[str, str]) -> str:
    end = played.end if played is not None else Instant(0)

    def say(expr: Expr) -> str:
        return in_a_sentence(expr, files)

    match verdict.kind:
        case Kind.PROVED:
            return words_verdict.WITNESS if verdict.story is not None else words_verdict.PROVED
        case Kind.FAILS:
            if verdict.builtin and played is not None:
                return words_verdict.short_circuit(shorted_at_the_end(program, played), end)
            return words_verdict.went_wrong(verdict.requirement.form, say, end)
        case Kind.NOT_DECIDED:
            assert verdict.undecided is not None
            return words_verdict.UNDECIDED[verdict.undecided]
        case Kind.NO_CASE:
            assert verdict.empty is not None
            return words_verdict.no_case(say(verdict.empty))
        case Kind.BLOCKED:
            assert verdict.obstacle is not None
            return words_verdict.OBSTACLES[verdict.obstacle]


def _remarks(verdict: Verdict) -> tuple[str, ...]:
    names, is_open = believed(verdict.requirement.form), verdict.kind is Kind.NOT_DECIDED
    return (
        *([words_verdict.in_doubt(verdict.doubtful)] if is_open and verdict.doubtful else []),
        *([words_verdict.covered(verdict.covered)] if is_open and verdict.covered else []),
        *([words_verdict.believed(names)] if names else []),
    )


def _trouble(program: Program, trouble: Trouble, beside: Beside, files: Mapping[str, str]) -> TroublePart:
    played = replay(program, trouble.story, None) if trouble.story is not None else None
    return TroublePart(
        title=words_trouble.TITLES[trouble.obstacle],
        sentences=words_trouble.sentences(trouble),
        givens=tuple(_placed(line, files) for line in trouble.lines),
        shown=shown(program, played, trouble.chasing, files) if played is not None else None,
        edits=calming_part(beside.calm, files) if beside.calm is not None else None,
    )


def _placed(line: Line, files: Mapping[str, str]) -> str:
    place = where(line.span, files)
    if not place:
        return line.text
    fact = f" {source_text(line.span, files[line.span.file])}" if line.kind == "at first" else ""
    return f"{line.text}{fact}  [{place}]"
