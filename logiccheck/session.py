"""The whole pipeline on one screen: sources in, report out, no input or output of its own."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from logiccheck.base.budget import Budget
from logiccheck.base.bug import Bug, bug_of
from logiccheck.base.frozen import frozen
from logiccheck.certificate.document import Document, beside
from logiccheck.certificate.reading import Unfit, read
from logiccheck.certificate.taken import taken
from logiccheck.engine.engines import BOTH, Engine
from logiccheck.engine.verdict import SHORT_CIRCUIT, Check, Kind
from logiccheck.explain.aside import Beside, Sought
from logiccheck.explain.situation import signals
from logiccheck.lang.conditions import Asked, load_with
from logiccheck.lang.load import Loaded, Reader, Unreadable, load
from logiccheck.lang.program import Never, Program
from logiccheck.lang.tidy.tidied import Tidied, Unread, Untrue, tidied
from logiccheck.model.play import play_scenario
from logiccheck.model.timeline import Timeline
from logiccheck.report.basis import files_read
from logiccheck.report.checked import check_report
from logiccheck.report.linted import lint_report
from logiccheck.report.mistaken import mistaken, unknown
from logiccheck.report.played import Shape, play_report, played_part
from logiccheck.report.rechecked import changed, not_there, rechecked_report, unfit
from logiccheck.report.recorded import recorded
from logiccheck.report.report import PlayedPart, Report
from logiccheck.report.saved import Saved, saved
from logiccheck.report.stories import replay
from logiccheck.report.tidied import tidied_report
from logiccheck.report.waived import waived_asked
from logiccheck.study.findings import MESSAGES, Linted, accepted_of, known_kinds, linted, names_of
from logiccheck.study.simulate import simulate

if TYPE_CHECKING:
    from logiccheck.engine.check import Crew

WHEN = "--when"  # what the conditions of the call are called where a place in them is shown


@frozen
class Answer:
    """A report, and what may be written beside it: its stories, and the certificate of its proofs; and the mistakes in
    this program that were met on the way."""

    report: Report
    stories: tuple[Saved, ...] = ()
    certificate: Document | None = None
    bugs: tuple[Bug, ...] = ()


def check(
    path: str,
    reader: Reader,
    budget: float,
    only: tuple[str, ...],
    progress: Callable[[str], None] | None,
    decided: Callable[[], None] = lambda: None,
    engines: Collection[Engine] = BOTH,
    times: bool = False,
    crew: Crew | None = None,
    edits: float = 0.0,
    lint: float = 0.0,
    cases: float = 0.0,
) -> Answer:
    """Prove every requirement of the file (or those named in `only`), each within `budget` seconds.

    `decided` is called between the search and the report: what comes after it is not to be interrupted. `engines`
    search for proofs; `times`: the report says which of them decided what, and how long it took. A `crew` shares the
    work. `edits`: the seconds in which to look for edits that would mend what fails; 0 looks for none. `lint`: those
    for findings; 0 finds what the text alone shows. `cases`: those for situations in which what is proved decides
    something.
    """
    from logiccheck.engine.check import check_program  # loads sympy, which what only plays does not need

    loaded = known_kinds(load(path, reader))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    known = [requirement.name for requirement in program.requirements]
    if strange := [name for name in only if name not in known]:
        return Answer(waived_asked(program, strange[0]) or unknown("requirement", strange[0], known))
    found = check_program(program, budget, progress, set(only) or None, engines, crew)
    more = _beside(program, loaded, found, Sought(budget, edits, cases), progress or (lambda _: None))
    looked = _linted(program, 0.0 if only or more.interrupted else lint, progress, found)
    decided()
    report = check_report(
        program,
        loaded.files,
        found,
        linted=looked,
        played=_expected(program, loaded),
        left_out=len(known) - len(set(only)) if only else 0,
        times=times,
        beside=more,
        accepting=accepted_of(program, looked, found.verdicts),
    )
    bugs = (*found.bugs, *more.bugs, *looked.bugs)
    return Answer(report, saved(program, found, loaded.texts), taken(found, loaded.files), bugs)


def lint(
    path: str,
    reader: Reader,
    budget: float,
    only: tuple[str, ...],
    progress: Callable[[str], None] | None,
    decided: Callable[[], None],
) -> Answer:
    """All findings about the file, or those of these names or codes; `decided` is called between search and report."""
    loaded = known_kinds(load(path, reader))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    wanted, strange = names_of(only)
    if strange is not None:
        return Answer(unknown("finding", strange, [message.name for message in MESSAGES]))
    looked = _linted(program, budget, progress, None, wanted)
    decided()
    words = accepted_of(program, looked, None, wanted)
    return Answer(lint_report(program, loaded.files, looked, words), bugs=looked.bugs)


def _linted(
    program: Program,
    seconds: float,
    progress: Callable[[str], None] | None,
    found: Check | None,
    only: tuple[str, ...] = (),
) -> Linted:
    """Without any seconds, or where something stands in the way of all answers, only what the text shows. What was
    `found` by a check need not be sought again."""
    said = progress or (lambda _: None)
    if not seconds or (found is not None and (found.interrupted or found.troubles)):
        return linted(program, None, only, said)
    from logiccheck.explain.surveyed.survey import Survey  # loads sympy

    stories = () if found is None else tuple(v.story for v in found.verdicts if v.story is not None)
    return linted(program, Survey(program, Budget(seconds), stories), only, said)


def _beside(program: Program, loaded: Loaded, found: Check, sought: Sought, progress: Callable[[str], None]) -> Beside:
    told = any(verdict.kind in (Kind.FAILS, Kind.NO_CASE) for verdict in found.verdicts)
    if not (told or sought.cases or (sought.edits and found.troubles)):
        return Beside()
    from logiccheck.explain.beside import beside  # loads what explains, which a green check does not need

    return beside(program, loaded.texts, found, sought, progress)


def _expected(program: Program, loaded: Loaded) -> tuple[PlayedPart, ...]:
    """The scenarios that expect something, played; shown only where it was in vain."""
    simulations = [simulate(program, scenario) for scenario in program.scenarios if scenario.expectations]
    return tuple(played_part(program, simulation, loaded.texts, None) for simulation in simulations)


def show(path: str, reader: Reader, name: str | None) -> Report:
    """The rules and outputs of the file, or the one of that name, as written, unfolded and simplified."""
    from logiccheck.report.rules import rules_report  # loads sympy

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return mistaken(path, loaded)
    known = [rule.name for rule in (program.box.rules if program.box else ())]
    if name is not None and name not in known:
        return unknown("rule or output", name, known)
    report = rules_report(program, loaded.texts, known if name is None else [name])
    return replace(report, files=files_read(loaded.files))


def play(path: str, reader: Reader, name: str | None, other: str | None, shape: Shape) -> Answer:
    """Play the scenario of that name, or all: of the file, or of the file `other`, such as a saved story.

    The stories are the scenarios as they were played.
    """
    loaded = load(path, reader, () if other is None else (other,))
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    scenarios = [scenario for scenario in program.scenarios if other in (None, scenario.span.file)]
    known = [scenario.name for scenario in scenarios]
    if name is not None and name not in known:
        return Answer(unknown("scenario", name, known))
    chosen = [scenario for scenario in scenarios if name in (None, scenario.name)]
    played = [simulate(program, scenario) for scenario in chosen]
    stories = tuple(recorded(program, each, loaded.texts) for each in played)
    return Answer(play_report(program, loaded.files, played, shape), stories)


def unguarded(
    path: str,
    reader: Reader,
    names: tuple[str, ...],
    budget: float,
    stories: bool,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Answer:
    """Which small edits no requirement would notice: of all lines, or those on which these outputs, relays or loads
    hang. One question of an edit takes `budget` seconds at most; `stories`: that of each edit is told."""
    from logiccheck.engine.check import check_program  # loads sympy, as what follows
    from logiccheck.explain.guarding.guarding import guard
    from logiccheck.explain.guarding.unlike import watched
    from logiccheck.report.guarded import blocked_report, guarded_report

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    known = [name for name, _ in watched(program)]
    if strange := [name for name in names if name not in known]:
        return Answer(unknown("output, relay or load", strange[0], known))
    found = check_program(program, budget, progress)
    if found.troubles:
        return Answer(blocked_report(program, loaded.files, found.troubles), bugs=found.bugs)
    guarded = guard(program, loaded.files[0].path, loaded.texts, found, names, budget, progress)
    decided()
    return Answer(guarded_report(program, loaded.files, found.verdicts, guarded, stories), bugs=guarded.bugs)


def tour(
    path: str, reader: Reader, deep: bool, budget: float, progress: Callable[[str], None], decided: Callable[[], None]
) -> Answer:
    """The vehicle shown at work: one start-up, one shut-down, and how each thing it switches comes on and goes off.

    `decided` is called between the search and the report. All of it takes `budget` seconds at most.
    """
    from logiccheck.explain.touring import tour as guided  # loads sympy
    from logiccheck.report.tour import tour_report, tour_stories

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return Answer(mistaken(path, loaded))
    found = guided(program, Budget(budget), progress)
    decided()
    return Answer(tour_report(program, loaded.files, found, deep), tour_stories(program, loaded.files, found))


@frozen
class Why:
    """What is asked: why is the signal `name` as it is, in this scenario or in the story of this requirement, at this
    instant (microseconds)? None: the only scenario, the end.
    """

    name: str
    scenario: str | None = None
    story: str | None = None
    at: Fraction | None = None
    deep: bool = False


def why(path: str, reader: Reader, asked: Why, budget: float, progress: Callable[[str], None]) -> Report:
    """Why a signal is as it is; `budget` seconds are spent at most to find the story."""
    from logiccheck.report.why import askable, situated, why_report  # loads what explains, which nothing else needs

    loaded = load(path, reader)
    program = loaded.program
    if program is None:
        return mistaken(path, loaded)
    known = askable(program)
    if asked.name not in known:
        return unknown("signal", asked.name, known)
    found = _timeline(program, path, asked, budget, progress)
    situation = found if isinstance(found, Report) else situated(found, asked.at)
    if isinstance(situation, Report):
        return situation
    forms = [requirement.form for requirement in program.requirements if requirement.name == asked.story]
    passing = asked.at is None and any(isinstance(form, Never) and form.instant for form in forms)
    report = why_report(situation, asked.name, loaded.texts, asked.deep, passing)
    return replace(report, files=files_read(loaded.files))


def why_ever(
    path: str,
    reader: Reader,
    name: str,
    when: str | None,
    deep: bool,
    budget: float,
    progress: Callable[[str], None],
    decided: Callable[[], None],
) -> Report:
    """What the signal is in all situations that meet the conditions in `when`; without any, all ways in which it can
    ever be on.

    `decided` is called between the search and the report. All questions together take `budget` seconds at most.
    """
    from logiccheck.explain.all_ways import TooLarge, TooMany, all_ways  # loads sympy
    from logiccheck.explain.situations import situations
    from logiccheck.explain.written_out import narrowed
    from logiccheck.report.ways import Vehicle, no_signal, situations_report, too_many, ways_report

    asked = Asked(load(path, reader), ()) if when is None else load_with(path, reader, when, WHEN)
    program = asked.program
    if program is None:
        return mistaken(WHEN if _all_in_the_call(asked) else path, asked.loaded)
    signal = signals(program).get(name)
    if signal is None:
        return no_signal(program, name)
    signal = narrowed(program, signal)
    sources = tuple(file for file in asked.loaded.files if file.path != WHEN)
    vehicle = Vehicle(program, signal, sources, asked.conditions)
    if when is not None:
        met = situations(program, signal, [each.p for each in asked.conditions], Budget(budget), progress)
        decided()
        return situations_report(vehicle, met)
    try:
        found = all_ways(program, signal, Budget(budget), progress)
    except (TooLarge, TooMany):
        return too_many(vehicle)
    decided()
    return ways_report(vehicle, found, deep)


def _all_in_the_call(asked: Asked) -> bool:
    """The file itself can be read; it is the conditions that cannot."""
    return all(each.span.file == WHEN for each in asked.loaded.diagnostics)


def _timeline(
    program: Program, path: str, asked: Why, budget: float, progress: Callable[[str], None]
) -> Timeline | Report:
    """The scenario or the story, played; or what to say where there is none."""
    from logiccheck.report.why import chosen, one_of_both, without_story

    if asked.story is not None and asked.scenario is not None:
        return one_of_both()
    if asked.story is None:
        scenario = chosen(program, path, asked.name, asked.scenario)
        return scenario if isinstance(scenario, Report) else play_scenario(program, scenario)
    known = [*(requirement.name for requirement in program.requirements), SHORT_CIRCUIT]
    if asked.story not in known:
        return waived_asked(program, asked.story) or unknown("requirement", asked.story, known)
    from logiccheck.engine.check import check_program  # loads sympy

    verdict = check_program(program, budget, progress, {asked.story}).verdicts[0]
    if verdict.story is None:
        return without_story(verdict)
    form = None if verdict.builtin else verdict.requirement.form
    told = replay(program, verdict.story, form)
    return replace(told.timeline, end=told.end.time)


def tidy(files: Sequence[str], reader: Reader, check: bool, write: Callable[[str, bytes], bool] | None) -> Answer:
    """Lay out each of the files anew. `check`: that one should change is a fault. `write` says whether it could write
    a file; without it nothing is written. A file that would no longer say the same is left alone, which is a bug.
    """
    found: dict[str, Tidied | Unread] = {}
    bugs: list[Bug] = []
    for path in files:
        try:
            found[path] = tidied(path, reader)
        except Untrue as untrue:
            bugs.append(bug_of(untrue, path))
    lost = [path for path, each in found.items() if write and isinstance(each, Tidied) and not _kept(path, each, write)]
    done = {path: each for path, each in found.items() if path not in lost}
    return Answer(tidied_report(done, len(files), written=write is not None, check=check), bugs=tuple(bugs))


def _kept(path: str, each: Tidied, write: Callable[[str, bytes], bool]) -> bool:
    return not each.changed or write(path, each.raw)


def recheck(
    path: str,
    raw: bytes,
    file: str | None,
    reader_of: Callable[[str], Reader],
    budget: float,
    progress: Callable[[str], None],
) -> Report:
    """Prove the certificate `raw`, read from `path`, again: of the rules in `file`, or where it says that they lie.

    Each proof has `budget` seconds. z3 has to be there.
    """
    from logiccheck.certificate.recheck import recheck as prove_again  # loads z3, which nothing else needs

    try:
        document = read(raw)
    except Unfit as why:
        return unfit(path, str(why))
    main = file if file is not None else beside(path, document)
    first = reader_of(main)(main)
    if isinstance(first, Unreadable):
        return not_there(main, first.value, path)
    loaded = load(main, reader_of(main))
    if loaded.files and (report := changed(path, document, loaded.files)) is not None:
        return report
    if loaded.program is None:
        return mistaken(main, loaded)
    found = prove_again(document, loaded.program, budget, progress)
    return rechecked_report(path, document, loaded.program, loaded.files, found)
