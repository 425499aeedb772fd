"""The first and the last line of a check, its limits and its cautions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Kind
from logiccheck.report.plain import typed

CAUTION = "This checks what the files say, not the vehicle: prove it on the bench before anybody relies on it."

TAKEN_AS_GIVEN = "What was taken as given"
NOT_COVERED = "What a proof does not cover"
NOTHING_BREAKS = "Nothing breaks: no broken wire, no stuck switch, no welded relay."
LIMITS = (
    "Reactions take no time: a pulse shorter than the scan or a filter time of your box is taken as seen.",
    "Outputs and contacts switch at once and together: no bounce, no delay between the stages of one reaction.",
    "A relay race that settles when all relays move together is not seen.",
    "Numbers are taken as sensed: no sensor error, no noise.",
    NOTHING_BREAKS,
)


def believing(requirements: Sequence[str]) -> str:
    """The limit of requirements that name senses or rules."""
    return f"These requirements speak of what the box believes, which need not be so: {', '.join(requirements)}."


NO_ASSUMPTION = "Nothing but what the world, the harness and the controller say."


NONE_EXCUSED: Mapping[Kind, int] = {}


@frozen
class Tally:
    """What a check came to, in numbers.

    `counts` of all verdicts, `asked` how many of them somebody wrote a requirement for (the others are built in),
    `unmet` expectations of scenarios, `left_out` requirements that were not to be checked this time, `waived` those of
    checklists that are never asked, `dangers` findings from which danger to people may come and that nobody accepts.
    `excused`: of `counts`, those that somebody accepts and that do not make the run fail; `accepted`: all requirements
    that do not hold and somebody accepts, `accepted_findings` beside them; `vain`: lines that accept what is not so.
    `open_dangers`: questions without an answer from whose findings danger to people would come; `unlooked`: no finding
    that rests on what can happen was looked for.
    """

    counts: Mapping[Kind, int]
    asked: int
    unmet: int = 0
    left_out: int = 0
    interrupted: bool = False
    waived: int = 0
    dangers: int = 0
    excused: Mapping[Kind, int] = NONE_EXCUSED
    accepted: int = 0
    accepted_findings: int = 0
    vain: int = 0
    open_dangers: int = 0
    unlooked: bool = False

    @property
    def total(self) -> int:
        return sum(self.counts.values())

    @property
    def excuses(self) -> int:
        return sum(self.excused.values())

    def left(self, kind: Kind) -> int:
        """How many of a kind nobody's word excuses."""
        return self.counts[kind] - self.excused.get(kind, 0)


def opening(label: str, tally: Tally) -> str:
    """The first line: can this be loaded, and why not."""
    ends = [f"Not checked: {tally.left_out}."] if tally.left_out else []
    if tally.waived:
        ends.append(f"Waived: {tally.waived}.")
    if tally.excuses:
        ends.append(f"Accepted although they do not hold: {tally.excuses}.")
    if tally.interrupted:
        ends.append("This run was interrupted.")
    return " ".join([f"{label}: {_opening(tally)}", *ends])


def _opening(tally: Tally) -> str:
    counts, total = tally.counts, tally.total
    if tally.left(Kind.FAILS):
        return f"NOT SAFE TO LOAD. Requirements that fail: {tally.left(Kind.FAILS)} of {total}."
    if counts[Kind.BLOCKED]:
        return f"NOT SHOWN SAFE. Requirements without a verdict: {counts[Kind.BLOCKED]} of {total}."
    if tally.unmet:
        return f"NOT AS EXPECTED. Expectations not met: {tally.unmet}."
    if tally.left(Kind.NO_CASE):
        return f"NOT SHOWN SAFE. Requirements that can never matter: {tally.left(Kind.NO_CASE)} of {total}."
    if counts[Kind.NOT_DECIDED] or tally.interrupted:
        return f"NOT SHOWN SAFE. Requirements not decided: {counts[Kind.NOT_DECIDED]} of {total}."
    if tally.dangers:
        return f"NOT SHOWN SAFE. Findings from which danger to people may come: {tally.dangers}."
    if tally.open_dangers:
        return f"NOT SHOWN SAFE. Findings from which danger to people may come, not decided: {tally.open_dangers}."
    if tally.vain:
        return f"ACCEPTED IN VAIN. Lines under `accepted` with nothing to accept: {tally.vain}."
    if not tally.asked:
        return "NOTHING WAS ASKED. Without a requirement of your own nothing is shown."
    proved = "PROVED BUT FOR WHAT IS ACCEPTED." if tally.excuses else "PROVED."
    return f"{proved} Requirements that hold in all situations, orders and timings: {total - tally.excuses} of {total}."


def closing(tally: Tally) -> str:
    """The last line: the five counts, then what they come to."""
    parts = [f"{kind.value} {tally.counts[kind]}" for kind in Kind]
    if tally.unmet:
        parts.append(f"expectations not met {tally.unmet}")
    if tally.dangers:
        parts.append(f"findings of danger {tally.dangers}")
    if tally.open_dangers:
        parts.append(f"findings of danger not decided {tally.open_dangers}")
    if tally.unlooked:
        parts.append("findings looked for in the text only")
    if tally.left_out:
        parts.append(f"not checked {tally.left_out}")
    if tally.waived:
        parts.append(f"waived {tally.waived}")
    if tally.accepted:
        parts.append(f"accepted requirements {tally.accepted}")
    if tally.accepted_findings:
        parts.append(f"accepted findings {tally.accepted_findings}")
    if tally.vain:
        parts.append(f"accepted in vain {tally.vain}")
    if tally.interrupted:
        parts.append("interrupted")
    return f"{', '.join(parts)}: {_comes_to(tally)}"


def _comes_to(tally: Tally) -> str:
    counts = tally.counts
    if tally.left(Kind.FAILS):
        return "not safe to load"
    if counts[Kind.BLOCKED] or tally.left(Kind.NO_CASE) or counts[Kind.NOT_DECIDED] or tally.interrupted:
        return "not shown safe"
    if tally.unmet:
        return "not as expected"
    if tally.dangers or tally.open_dangers:
        return "not shown safe"
    if tally.vain:
        return "nothing to accept"
    if not tally.asked:
        return "nothing was asked"
    if tally.excuses:
        return "all but what is accepted is proved, within what is given and the limits above"
    subject = "what was checked is" if tally.left_out or tally.waived else "all"
    return f"{subject} proved, within what is given and the limits above"


def same_story(name: str) -> str:
    """Said instead of showing one story twice."""
    return f"The story is the one shown for {name}."


def how_to_save(file: str) -> str:
    """The call that writes every story as a scenario file; `file` is a path."""
    return f"To keep the stories as files that can be played again: logiccheck check {typed(file)} --save stories"


SHORTS_LEFT_OUT = (
    "Not checked because of --only: whether a wire can be live and grounded at once. That is a danger in every "
    "vehicle: check without --only before loading."
)

NO_STORY = "There is no story to keep; nothing was written."


def how_to_replay(file: str, story: str) -> str:
    """The call that plays one saved story; both are paths."""
    return f"To play a story again: logiccheck play {typed(file)} --scenario-file {typed(story)}"


def at_first(facts: Sequence[str]) -> str:
    """How the world stands at time 0."""
    return f"At first: {', '.join(facts)}."


def as_expected(scenarios: Sequence[str], expectations: int) -> str:
    """The scenarios that went as they should."""
    return f"Scenarios played as expected ({expectations} expectations met): {', '.join(scenarios)}."


def one_by_one(name: str, positions: tuple[str, ...]) -> str:
    """A switch that passes its positions in turn."""
    return f"{name} moves one position at a time: {', '.join(positions)}."


def without_jumps(name: str) -> str:
    """A number that passes through every value on its way."""
    return f"{name} passes every value on its way."


def tool(version: str, language: int) -> str:
    """Which tool said so."""
    return f"logiccheck {version}, language {language}"


def read(path: str, sha256: str) -> str:
    """Which file it read; the sum is that of the whole file, cut short."""
    return f"read: {path}  sha256 {sha256[:16]}"
