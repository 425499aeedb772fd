"""Sentences about single faults: what they let happen, what becomes of a part, and how that is noticed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logiccheck.base.frozen import frozen
from logiccheck.report.faults_part import Severity
from logiccheck.report.lists import joined
from logiccheck.report.plain import typed

# The words of IEC 60812:2018 (from memory): failure mode, local effect, end effect, severity, detection method.
PART, KIND, MODE, LOCAL, END = "part", "kind of part", "failure mode", "local effect", "end effect"
SEVERITY, NOTICED = "severity", "detection method"
LABEL, PLACE = "label", "where it is written"
WHEN, STORY, FAULT = "when", "shortest story", "fault"
NOTE = "note"  # the kind of a row that is about no part

BY_REQUIREMENT = "What single faults can let happen, by requirement"
BY_PART = "What becomes of each part"
PAIRS = "Pairs of faults, where neither of them alone is enough"
STORIES = "The whole stories"
CAUTIONS = "What this does not say"
NO_EFFECT = "With these nothing that is required changes"

FROM_START, LATER, LOOSE = "from the start", "if it breaks later", "only if it comes and goes"
HIDDEN = "hidden"
NOT_KNOWN = "whether it is noticed was not decided"

LISTED = (
    "This goes by the parts that the file declares, one fault at a time. The vehicle has more parts, and more can "
    "break: a proof about these faults is no proof about the vehicle."
)
PAIRED = (
    "This goes by the parts that the file declares, two faults at a time at most. The vehicle has more parts, and more "
    "can break: a proof about these faults is no proof about the vehicle."
)
HANDS_ON = (
    "Before you touch copper, disconnect the battery.",
    "A fuse protects its wire, not the device behind it, and not people.",
    "Local codes and licensed practice decide, not this list.",
)
MARKS: Mapping[Severity, str] = {
    Severity.DANGER: "DANGER",
    Severity.DAMAGE: "DAMAGE",
    Severity.FUNCTION: "FUNCTION",
    Severity.OPEN: "NOT DECIDED",
    Severity.NONE: "NONE",
}
KINDS_OF_START = (
    "Each fault is tried alone, in all situations, orders and timings: there from the start; or whole at first and "
    "then broken for good, at the worst moment; or coming and going at will, as a loose contact does."
)
ONLY_COPPER = "A fault changes copper and what senses read, never the rules."
NO_TELL_TALE = (
    "No tell-tale is declared (`tell_tale` under `electrics`), so nothing tells anybody of a fault, and all are hidden."
)
TELL_TALES = (
    "Noticed: in every situation with the fault a tell-tale that is declared comes on within its time. Hidden: not in "
    "every one."
)


@frozen
class Tally:
    """How many single faults there are, by the worst that fails with them (those that cause nothing, too); how many of
    them are hidden, how many of the dangerous ones; `dangers`: requirements that guard against danger and were asked;
    `left`: not tried."""

    faults: int
    by: Mapping[Severity, int]
    hidden: int
    hidden_dangers: int
    dangers: int
    open: int = 0
    left: int = 0
    interrupted: bool = False


def opening(vehicle: str, tally: Tally) -> str:
    """The first line: how many things are enough for danger."""
    if tally.faults == 0:
        return f"{vehicle}: nothing is declared here that could break."
    count = tally.by[Severity.DANGER]
    ends = [f"Not decided: {tally.open}."] if tally.open else []
    if tally.interrupted:
        ends.append("This run was interrupted.")
    if not tally.dangers:
        some = sum(tally.by[each] for each in (Severity.DAMAGE, Severity.FUNCTION))
        said = f"Single faults with which something required fails: {some} of {tally.faults}."
        ends.insert(0, "No requirement that guards against danger to people was asked.")
    else:
        said = f"Single faults that can let something dangerous happen: {count} of {tally.faults}."
        if count:
            ends.insert(0, f"Of these hidden: {tally.hidden_dangers}.")
    return " ".join([f"{vehicle}: {said}", *ends])


def closing(tally: Tally) -> str:
    """The last line."""
    parts = [f"faults {tally.faults}"]
    parts += [f"{each.value} {tally.by[each]}" for each in (Severity.DANGER, Severity.DAMAGE, Severity.FUNCTION)]
    parts += [f"nothing fails {tally.by[Severity.NONE]}", f"not decided {tally.open}", f"hidden {tally.hidden}"]
    if tally.by[Severity.DANGER]:
        end = "one fault is enough for danger"
    elif tally.interrupted:
        end = "interrupted"
    elif tally.open:
        end = "not all decided"
    elif tally.dangers:
        end = "no single fault of these is enough for danger"
    else:
        end = "danger was not asked about"
    return f"{', '.join(parts)}: {end}"


def unproved(names: Sequence[str]) -> str:
    """Requirements that are not asked."""
    return f"Not proved even when nothing is broken, and so not asked here: {', '.join(names)}."


def held(names: Sequence[str]) -> str:
    """Requirements that no single fault breaks."""
    return f"Proved with every single fault: {', '.join(names)}."


def nothing_asked(file: str) -> str:
    """No requirement is proved when nothing is broken."""
    return f"No requirement is proved when nothing is broken, so there is nothing to ask. See: logiccheck check {file}"


def hits(count: int, hidden: int) -> str:
    """How many faults let a requirement fail."""
    return f"Single faults with which it fails: {count}. Hidden: {hidden}."


def pair_hits(count: int, hidden: int) -> str:
    """How many pairs let a requirement fail."""
    return f"Pairs of faults with which it fails, though with neither alone: {count}. Hidden: {hidden}."


def unanswered(fault: str, why: str) -> str:
    """A fault of which it is not decided whether a requirement fails with it."""
    return f"{fault}: {why}"


def whens(start: bool, later: bool, loose: bool) -> str:
    """When a fault lets it fail; a loose contact can do what a break can, and is told only where it alone does."""
    told = [FROM_START] * start + [LATER] * later
    if not later and loose:
        told.append(LOOSE if not told else "if it comes and goes")
    return joined(told) if len(told) == 1 else " and ".join(told)


def noticed(tell_tale: str, within: str) -> str:
    """Somebody sees it."""
    return f"noticed: {tell_tale} within {within}"


def end(requirement: str, when: str) -> str:
    """One requirement that fails, in the table of parts."""
    return f"{requirement} fails {when}"


def end_open(requirement: str) -> str:
    """One requirement of which it is not decided whether it fails."""
    return f"{requirement}: not decided"


def no_end() -> str:
    """Nothing that is required changes."""
    return "nothing that is required changes"


def pair(first: str, second: str) -> str:
    """Two faults at once."""
    return f"{first} and {second}"


def story_title(number: int, requirement: str, fault: str, when: str) -> str:
    """The title over a whole story."""
    return f"Story {number}: {requirement} fails with {fault}, {when}"


def how_to_see(file: str) -> str:
    """The calls that show more."""
    whole = f"The whole stories: logiccheck faults {typed(file)} --stories"
    return f"{whole}; the whole table of parts: --html OUT or --csv OUT"
