"""Everything worth saying about a program although nothing of it is a mistake: all findings, in a fixed order."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

from logiccheck.base.budget import OutOfTime
from logiccheck.base.bug import Bug, bug_of
from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Kind, Obstacle, Verdict
from logiccheck.explain.accepting import Accepting, accepting, unknown_kinds
from logiccheck.explain.finding import Finding, FindingMessage
from logiccheck.lang.load import Loaded
from logiccheck.lang.program import Guard, Program
from logiccheck.study.lint import (
    acts_on_waking,
    always_on,
    always_true,
    backward_diode,
    belief_only,
    blink_cut_short,
    both_directions,
    delay_never_over,
    endless_run_on,
    exact_number,
    exact_relay_time,
    expects_nothing,
    fall_lost_at_waking,
    fall_never_seen,
    fed_from_behind,
    flicker,
    hold_too_short,
    idle_term,
    instant,
    joined_for_good,
    joined_outputs,
    keeps_itself_awake,
    kept_for_ever,
    lost_brackets,
    never_let_go,
    never_on,
    never_powered,
    never_reset,
    never_set,
    never_true,
    repeated_requirement,
    same_label,
    same_meaning,
    says_nothing,
    set_meets_reset,
    single_threshold,
    small_fuse,
    time_cut_short,
    timer_never_starts,
    twin_output,
    two_polarities,
    two_units,
    unasked,
    unfed,
    unused,
)

if TYPE_CHECKING:
    from logiccheck.explain.surveyed.survey import Survey  # loads sympy, which findings of the text do not need

OfText: TypeAlias = Callable[[Program], Iterator[Finding]]
OfSituations: TypeAlias = Callable[[Program, "Survey"], Iterator[Finding]]

TEXT: tuple[tuple[type[FindingMessage], OfText], ...] = (
    (unused.Unused, unused.find),
    (unasked.Unasked, unasked.find),
    (unfed.Unfed, unfed.find),
    (backward_diode.BackwardDiode, backward_diode.find),
    (joined_for_good.JoinedForGood, joined_for_good.find),
    (fed_from_behind.FedFromBehind, fed_from_behind.find),
    (lost_brackets.LostBrackets, lost_brackets.find),
    (single_threshold.SingleThreshold, single_threshold.find),
    (exact_number.ExactNumber, exact_number.find),
    (repeated_requirement.RepeatedRequirement, repeated_requirement.find),
    (belief_only.BeliefOnly, belief_only.find),
    (says_nothing.SaysNothing, says_nothing.find),
    (expects_nothing.ExpectsNothing, expects_nothing.find),
    (two_polarities.TwoPolarities, two_polarities.find),
    (same_label.SameLabel, same_label.find),
    (small_fuse.SmallFuse, small_fuse.find),
    (exact_relay_time.ExactRelayTime, exact_relay_time.find),
    (two_units.TwoUnits, two_units.find),
)
"""Findings that the text alone shows, each with what finds it."""

SITUATIONS: tuple[tuple[type[FindingMessage], OfSituations], ...] = (
    (timer_never_starts.TimerNeverStarts, timer_never_starts.find),
    (delay_never_over.DelayNeverOver, delay_never_over.find),
    (time_cut_short.TimeCutShort, time_cut_short.find),
    (blink_cut_short.BlinkCutShort, blink_cut_short.find),
    (fall_never_seen.FallNeverSeen, fall_never_seen.find),
    (acts_on_waking.ActsOnWaking, acts_on_waking.find),
    (fall_lost_at_waking.FallLostAtWaking, fall_lost_at_waking.find),
    (never_set.NeverSet, never_set.find),
    (never_reset.NeverReset, never_reset.find),
    (kept_for_ever.KeptForEver, kept_for_ever.find),
    (set_meets_reset.SetMeetsReset, set_meets_reset.find),
    (hold_too_short.HoldTooShort, hold_too_short.find),
    (keeps_itself_awake.KeepsItselfAwake, keeps_itself_awake.find),
    (never_powered.NeverPowered, never_powered.find),
    (never_on.NeverOn, never_on.find),
    (always_on.AlwaysOn, always_on.find),
    (instant.OnForAnInstant, instant.find),
    (never_true.NeverTrue, never_true.find),
    (always_true.AlwaysTrue, always_true.find),
    (idle_term.IdleTerm, idle_term.find),
    (same_meaning.SameMeaning, same_meaning.find),
    (twin_output.TwinOutput, twin_output.find),
    (flicker.Flicker, flicker.find),
    (endless_run_on.EndlessRunOn, endless_run_on.find),
    (both_directions.BothDirections, both_directions.find),
    (joined_outputs.JoinedOutputs, joined_outputs.find),
    (never_let_go.NeverLetGo, never_let_go.find),
)
"""Findings that what can ever be so decides, each with what finds it."""

MESSAGES: tuple[type[FindingMessage], ...] = tuple(message for message, _ in (*TEXT, *SITUATIONS))


@frozen
class Linted:
    """What came of looking: what guards against danger first, then damage, then functions, else in the order found.

    `undecided` counts questions about situations that have no answer, `obstacle` is why, where something stands in the
    way of all of them; `unfinished`: the names of findings that were not looked for, or not to the end. `situations`:
    what needs an answer about situations was looked for as well. `open_dangers`: how many questions have no answer, or
    were not asked, from whose findings danger to people would come.
    """

    findings: tuple[Finding, ...]
    undecided: int = 0
    obstacle: Obstacle | None = None
    out_of_time: bool = False
    unfinished: tuple[str, ...] = ()
    situations: bool = False
    interrupted: bool = False
    bugs: tuple[Bug, ...] = ()
    open_dangers: int = 0

    @property
    def whole(self) -> bool:
        """Everything that was looked for was decided."""
        return not (self.undecided or self.unfinished or self.interrupted)


def linted(
    program: Program,
    survey: Survey | None,
    only: Collection[str] = (),
    progress: Callable[[str], None] = lambda _: None,
) -> Linted:
    """All findings, or those whose names are in `only`; those of situations only with a survey that answers.

    A KeyboardInterrupt ends it, what was found stays. A mistake of ours costs one kind of finding and no other.
    """
    wanted = only or frozenset(message.name for message in MESSAGES)
    lint, guards = _Lint(progress), list(Guard)
    for message, of_text in TEXT:
        if message.name in wanted:
            lint.look(message, partial(of_text, program))
    if survey is not None:
        for message, of_situations in sorted(SITUATIONS, key=lambda each: guards.index(each[0].guards)):
            if message.name in wanted:  # the worst first, as the time may run out
                lint.look(message, partial(of_situations, program, survey))
    dangers = {message.name for message in MESSAGES if message.guards is Guard.DANGER}
    return Linted(
        tuple(sorted(lint.findings, key=lambda each: guards.index(each.guards))),
        survey.undecided if survey is not None else 0,
        survey.obstacle if survey is not None else None,
        survey.out_of_time if survey is not None else False,
        tuple(lint.unfinished),
        survey is not None,
        lint.interrupted,
        tuple(dict.fromkeys(lint.bugs)),
        len(dangers & set(lint.unfinished)) + (survey.open_dangers if survey is not None else 0),
    )


@dataclass(slots=True)
class _Lint:
    progress: Callable[[str], None]
    findings: list[Finding] = field(default_factory=list)
    unfinished: list[str] = field(default_factory=list)
    bugs: list[Bug] = field(default_factory=list)
    interrupted: bool = False

    def look(self, message: type[FindingMessage], find: Callable[[], Iterable[Finding]]) -> None:
        """All findings of one kind."""
        if self.interrupted:
            self.unfinished.append(message.name)
            return
        self.progress(message.name)
        try:
            self.findings.extend(find())
            return
        except KeyboardInterrupt:
            self.interrupted = True
        except (OutOfTime, MemoryError):
            pass
        except RecursionError:
            raise
        except Exception as error:
            self.bugs.append(bug_of(error))
        self.unfinished.append(message.name)


def looked_for(linted: Linted, only: Collection[str] = ()) -> frozenset[str]:
    """The names of the kinds of findings that were looked for to the end, `only` of those wanted where any are."""
    whole = linted.situations and not linted.undecided and linted.obstacle is None
    kinds = (*TEXT, *(SITUATIONS if whole else ()))
    names = {message.name for message, _ in kinds} - set(linted.unfinished)
    return frozenset(names & set(only) if only else names)


def called() -> Mapping[str, str]:
    """The name of each finding by its name and by its code in small letters."""
    return {word: each.name for each in MESSAGES for word in (each.name, each.code.casefold())}


def names_of(words: Sequence[str]) -> tuple[tuple[str, ...], str | None]:
    """The names of the findings that these names or codes call; and the first that calls none, if there is one."""
    known = called()
    folded = [word.casefold().replace("_", "-") for word in words]
    strange = [word for word, fold in zip(words, folded, strict=True) if fold not in known]
    return tuple(dict.fromkeys(known[fold] for fold in folded if fold in known)), strange[0] if strange else None


def known_kinds(loaded: Loaded) -> Loaded:
    """The same, without a program where it accepts what is no kind of finding."""
    mistakes = () if loaded.program is None else unknown_kinds(loaded.program, called())
    return replace(loaded, program=None, diagnostics=mistakes) if mistakes else loaded


def accepted_of(
    program: Program, looked: Linted, verdicts: Sequence[Verdict] | None, only: tuple[str, ...] = ()
) -> Accepting:
    """Who accepts what was found and what does not hold. Without verdicts nothing is said of requirements, and of
    findings only of those wanted."""
    of = verdicts or ()
    failing = [verdict.requirement for verdict in of if verdict.kind in (Kind.FAILS, Kind.NO_CASE)]
    holding = {verdict.requirement.name for verdict in of if verdict.kind is Kind.PROVED}
    found = accepting(program, looked.findings, failing, called(), looked_for(looked, only), holding)
    if verdicts is not None:
        return found
    sought = frozenset(only or called().values())
    return replace(found, unseen=tuple(line for line in found.unseen if called().get(line.kind) in sought))
