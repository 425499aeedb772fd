"""Sentences about single faults: what they let happen, what becomes of a part, and how that is noticed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from logiccheck.base.frozen import frozen
from logiccheck.copper.faults.answers import Blocked, Open
from logiccheck.copper.faults.parts import Fault, Mode, PartKind, When
from logiccheck.engine.verdict import Kind, Obstacle, Undecided
from logiccheck.report.faults_part import Severity
from logiccheck.report.plain import typed
from logiccheck.report.words_cut_sets import untried
from logiccheck.report.words_pairs import PairsCounted
from logiccheck.report.words_pairs import counted as pairs_counted

# The words of IEC 60812:2018 (from memory): failure mode, local effect, end effect, severity, detection method.
PART, KIND, MODE, LOCAL, END = "part", "kind of part", "failure mode", "local effect", "end effect"
SEVERITY, NOTICED = "severity", "detection method"
LABEL, PLACE = "label", "where it is written"
WHEN, STORY, FAULT = "when", "shortest story", "fault"
MOST_NAMED = 12  # without an answer; of more it is said how many
NOTE = "note"  # the kind of a row that is about no part

BY_REQUIREMENT = "What single faults can let happen, by requirement"
FAULTS = "fault"  # over the rows of a story that say whether a fault is there
BY_PART = "What becomes of each part"
PAIRS = "Pairs of faults, where neither of them alone is enough"
STORIES = "The whole stories"
CAUTIONS = "What this does not say"
NO_EFFECT = "With these nothing fails that was asked"

FROM_START, LATER, LOOSE = "from the start", "if it breaks later", "only if it comes and goes"
START_OR_LATER = "from the start or later"
COMES_AND_GOES = "if it comes and goes"
TRIPS, DIPS = "if it trips", "if it dips"
NO_LONGER = "it can no longer happen: proved for all situations, orders and timings"
A_STORY = "a story, perhaps not the shortest: "
HIDDEN = "hidden"
NOT_KNOWN = "whether it is noticed was not decided"
NOT_ASKED = "whether it is noticed was not asked"
BOTH_SOMETIME = "if both are there at some time"
ON, OFF = "on", "off"

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
    Severity.SHORT: "SHORT CIRCUIT",
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
NOT_BEGUN = "Interrupted before the first fault was tried: nothing is known of what can break."
NO_TELL_TALE = (
    "No tell-tale is declared (`tell_tale` under `electrics`), so nothing tells anybody of a fault, and all are hidden."
)
TELL_TALES = (
    "Noticed: in every situation with the fault a tell-tale that is declared comes on within its time, for an instant "
    "at least, as long as its `while` lasts; where its `while` does not hold, nothing need show the fault. Hidden: not "
    "in every one."
)
ON_ANYWAY = "These come on in time with nothing broken, too, and so count as a sign of no fault"
PERHAPS_ANYWAY = (
    "Whether these come on in time with nothing broken, too, was not decided, so none of them counts as a sign"
)
ON_AT_TIMES = "These can be on with nothing broken, too, so one that is on need not be taken for a fault"
PERHAPS_AT_TIMES = "Whether these can be on with nothing broken was not decided"


@frozen
class Tally:
    """How many single faults there are, by the worst that fails with them (`by` has those that cause nothing, too);
    how many are hidden, how many of the dangerous ones; how many have a requirement that is not decided. `dangers`: how
    many requirements that guard against danger, and that somebody wrote, were asked; `unasked`: requirements that were
    not; `without_any`: of these those that guard against danger and fail when nothing is broken; `idle`: requirements
    that were asked, and have no case when nothing is broken; `untried`: switches and numbers of the world in coils,
    which are no parts. `pairs`: None where no pairs were asked for."""

    by: Mapping[Severity, int]
    hidden: int
    hidden_dangers: int
    open: int
    dangers: int
    unasked: int = 0
    without_any: int = 0
    interrupted: bool = False
    idle: int = 0
    untried: int = 0
    pairs: PairsCounted | None = None

    @property
    def faults(self) -> int:
        return sum(self.by.values())


def opening(vehicle: str, tally: Tally) -> str:
    """The first line: how many things are enough for danger."""
    if not tally.faults:
        return f"{vehicle}: nothing that could break is declared."
    count = tally.by[Severity.DANGER]
    told = [f"{vehicle}: Single faults that can let something dangerous happen: {count} of {tally.faults}."]
    if count:
        told.append(f"Hidden of these: {tally.hidden_dangers}.")
    if tally.without_any:
        told.append(f"Requirements against danger that fail when nothing is broken: {tally.without_any}.")
    if not tally.dangers:
        told.append("But no requirement of yours that guards against danger to people was asked.")
    if tally.open:
        told.append(f"Not all decided: {tally.open}.")
    if tally.untried:
        told.append(untried(tally.untried))
    if tally.pairs is not None:
        told.append(pairs_counted(tally.pairs))
    if tally.interrupted:
        told.append("This run was interrupted.")
    return " ".join(told)


def closing(tally: Tally) -> str:
    """The last line."""
    parts = [f"faults {tally.faults}", *(f"{each.value} {tally.by[each]}" for each in _COUNTED)]
    parts += [
        f"nothing fails {tally.by[Severity.NONE]}",
        f"not all decided {tally.open}",
        f"hidden of all {tally.hidden}",
    ]
    if tally.pairs is not None:
        parts.append(f"pairs {tally.pairs.found}")
    return f"{', '.join(parts)}: {_comes_to(tally)}"


_COUNTED = (Severity.DANGER, Severity.SHORT, Severity.DAMAGE, Severity.FUNCTION)


def _comes_to(tally: Tally) -> str:
    if tally.without_any:
        return "there is danger without any fault"
    if tally.by[Severity.DANGER]:
        return "one fault is enough for danger"
    if tally.interrupted:
        return "interrupted"
    if tally.open or tally.unasked:
        return "not all decided" if tally.open else "not all asked"
    if tally.idle:
        return "not all have a case when nothing is broken"
    if tally.pairs is not None and tally.pairs.open:
        return "not all decided of pairs"
    if not tally.dangers:
        return "danger was not asked about"
    return "not all tried" if tally.untried else "no single fault of these is enough for danger"


def shorts(count: int) -> str:
    """Faults that are short circuits themselves."""
    return (
        f"Shorts of a wire to ground or to supply that end in a short circuit, and in no other danger: {count}. "
        "A fuse on the way has to end that, and whether there is one is not looked at; such a fault does not count as "
        "dangerous here."
    )


def unproved(names: Sequence[tuple[str, Kind]]) -> str:
    """Requirements that are not asked, each with what becomes of it when nothing is broken."""
    told = ", ".join(f"{name} ({kind.value})" for name, kind in names)
    return f"Not proved when nothing is broken, and so not asked here: {told}."


def idle(names: Sequence[str]) -> str:
    """Requirements that are asked though they have no case when nothing is broken."""
    return (
        "These hold when nothing is broken, but say nothing then, since something in them can never be so; a fault may "
        f"bring it about, so they are asked all the same: {', '.join(names)}."
    )


def lit(why: str, tell_tales: Sequence[str]) -> str:
    """What tell-tales do while nothing is broken."""
    return f"{why}: {', '.join(tell_tales)}."


def held(names: Sequence[str]) -> str:
    """Requirements that no single fault breaks, of those that were tried."""
    return f"Proved with each single fault that was tried: {', '.join(names)}."


def in_coils(names: Mapping[str, Sequence[str]]) -> str:
    """Switches and numbers of the world, each with the relays whose coils name it: there they are no parts."""
    told = [f"{name} (coil of {', '.join(relays)})" for name, relays in names.items()]
    return f"Not tried, that these stick where the coil of a relay names them: {'; '.join(told)}. {_AT_A_WIRE}"


def only_in_a_coil(name: str, relays: Sequence[str]) -> str:
    """Somebody asked for the faults of one of these."""
    return f"No fault of {name} can be tried: it stands in the coil of {', '.join(relays)}. {_AT_A_WIRE}"


def way_without_sets(mode: str) -> str:
    """A way of failing named for --only, which takes those for sets alone."""
    return f"{mode} is a way of failing: --only takes that together with --sets alone. Name a part, or a fault of it."


_AT_A_WIRE = "At a wire (`wire NAME from plus when ...`), and the wire in the coil, such a switch is a part."


def nothing_asked(file: str) -> str:
    """No requirement is proved when nothing is broken."""
    none = "No requirement was proved when nothing is broken, so there is nothing to ask."
    return f"{none} See: logiccheck check {typed(file)}"


def hits(count: int, hidden: int) -> str:
    """How many faults let a requirement fail."""
    return f"Single faults with which it fails: {count}. Hidden: {hidden}."


def unanswered(names: Sequence[str], why: str) -> str:
    """Faults, or requirements, of which something is not known, and why."""
    more = f", and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return f"{why}: {', '.join(names[:MOST_NAMED])}{more}"


def blocked(by: Obstacle) -> str:
    """What stands in the way of an answer."""
    return _BLOCKED[by]


_BLOCKED = {
    Obstacle.CONTRADICTION: "no answer: with this fault what is given contradicts itself",
    Obstacle.TIME_STOPS: "no answer: with this fault what is given brings time to a stop",
    Obstacle.UNSETTLED: "no answer: with this fault the rules or relays can chase each other for ever",
    Obstacle.UNSETTLED_UNKNOWN: "not decided: whether with this fault the rules and relays always come to rest",
}


def why_open(outcome: Open | Blocked) -> str:
    """Why it is not known whether a requirement fails with a fault."""
    if isinstance(outcome, Blocked):
        return blocked(outcome.by)
    return _OPEN.get(outcome.why, f"not decided: {outcome.why.value}") if outcome.why is not None else "not decided"


_OPEN = {
    Undecided.BUDGET: "not decided: the time ran out (more: --budget SECONDS)",
    Undecided.MEMORY: "not decided: the memory ran out (more: --memory MB)",
}


def whens(start: bool, later: bool, loose: bool, only: bool) -> str:
    """When it fails; a loose contact can do what a break can, and is told only where that does not fail. `only`: the
    others are proved."""
    if start and later:
        return START_OR_LATER
    told = [FROM_START] * start + [LATER] * later
    if loose and not later:
        told.append(LOOSE if only else COMES_AND_GOES)
    return " and ".join(told)


def noticed(tell_tale: str, within: str, while_: str = "") -> str:
    """Somebody sees it, as long as `while_` lasts; empty: always."""
    return f"noticed{f' while {while_}' if while_ else ''}: {tell_tale} within {within}"


def manner(fault: Fault, when: When) -> str:
    """In which manner the fault is there."""
    return _ITS_OWN.get(fault.mode) or _MANNERS[when]


_ITS_OWN = {Mode.DIPPED: DIPS, Mode.TRIPPED: TRIPS}
_MANNERS = {
    When.START: FROM_START,
    When.LATER: LATER,
    When.LOOSE: COMES_AND_GOES,
    When.SOMETIME: BOTH_SOMETIME,
}


def in_story(number: int) -> str:
    """After "hidden": the story that shows that."""
    return f", story {number}"


def hiding_title(number: int, fault: str, when: str, tell_tale: str) -> str:
    """The title over a whole story that hides a fault."""
    return f"Story {number}: {fault} is hidden, {when}: {tell_tale} does not show it in time"


def end(requirement: str, when: str) -> str:
    """One requirement that fails, in the table of parts."""
    return f"{requirement} fails {when}"


NO_END = "nothing fails that was asked"


def comes_and_goes(fault: str) -> tuple[str, str, str]:
    """A fault in a story: there at first, coming, going."""
    return f"{fault} is there", f"{fault} begins", f"{fault} ends"


def story_title(number: int, requirement: str, fault: str, when: str) -> str:
    """The title over a whole story."""
    return f"Story {number}: {requirement} fails with {fault}, {when}"


def how_to_see(file: str) -> str:
    """The calls that show more."""
    whole = f"More: logiccheck faults {typed(file)} --requirement NAME, --stories"
    return f"{whole}; the whole table of parts: --html OUT or --csv OUT"


# ----------------------------------------------------------------------------------------------------- local effects


def local(fault: Fault, reads: str = "") -> str:
    """What becomes of the part itself; `reads`: what a sense then reads."""
    if fault.kind in (PartKind.SENSE, PartKind.NUMBER):
        return _SENSED.get(fault.mode, f"it reads {reads}")
    return _LOCAL[fault.kind, fault.mode]


_SENSED = {Mode.HOLDING: "it goes on reading what it read just before"}

_LOCAL: Mapping[tuple[PartKind, Mode], str] = {
    (PartKind.SOURCE, Mode.DEAD): "nothing is live from it",
    (PartKind.SOURCE, Mode.DIPPED): "for a while nothing is live from it",
    (PartKind.GROUND, Mode.LOST): "nothing is grounded through it",
    (PartKind.WIRE, Mode.OPEN): "nothing passes: what hangs on it sees a wire that is neither live nor grounded",
    (PartKind.WIRE, Mode.LIVE): "it is live whenever any source is",
    (PartKind.WIRE, Mode.GROUNDED): "it is grounded, and a short circuit whenever something feeds it",
    (PartKind.CONTACT, Mode.STUCK_CLOSED): "it stays closed",
    (PartKind.CONTACT, Mode.STUCK_OPEN): "it stays open",
    (PartKind.FUSE, Mode.OPEN): "nothing passes it",
    (PartKind.DIODE, Mode.OPEN): "nothing passes it",
    (PartKind.DIODE, Mode.SHORTED): "it passes both ways",
    (PartKind.RELAY, Mode.WELDED): "its contact stays closed, whatever its coil does",
    (PartKind.RELAY, Mode.DEAD): "its contact stays open, whatever its coil does",
    (PartKind.OUTPUT, Mode.STUCK_ON): "it stays on while what feeds it is live, whether the box has power or not",
    (PartKind.OUTPUT, Mode.STUCK_OFF): "it stays off",
    (PartKind.OUTPUT, Mode.TRIPPED): "it goes off, and can come back only after the box was without power",
}
