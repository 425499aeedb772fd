"""Sentences about minimal cut sets: which faults together let a requirement fail, and whether these are all."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.base.frozen import frozen
from logiccheck.engine.verdict import Obstacle, Undecided
from logiccheck.report.plain import typed

TITLE = "The fewest faults that together let a requirement fail"
WHAT_THEY_ARE = (
    "A set is told if its faults together let the requirement fail, and without any one of them the others cannot: "
    "that is proved. Each fault may come at any moment, from the start on too, and then stays; a supply that dips "
    "comes back. The trade's word is minimal cut set."
)
ONE_A_PART = "A part has one fault at a time: nothing is both open and shorted in one set."
NO_SHORT = (
    "The short circuit that every vehicle must not have is left out: a wire shorted to ground is one. It can be asked "
    "for: --requirement no_short_circuit."
)
ONLY_THESE = "A set is made of the faults that were asked for with --only, and of no others."
LISTED = (
    "This goes by the parts that the file declares. The vehicle has more parts, and more can break: that a requirement "
    "needs many faults to fail here is no proof about the vehicle."
)
NOT_LIKELY = "How likely a fault is, or several at once, is not said here."


@frozen
class Counted:
    """How many requirements were asked; `none`: fail with no fault at all; `one`: with one fault; `more`: only with
    several; `open`: of how many not everything was decided; `untried`: switches and numbers of the world in coils,
    which are no parts."""

    asked: int
    none: int
    one: int
    more: int
    open: int
    order: int
    interrupted: bool
    untried: int = 0


def opening(vehicle: str, counted: Counted) -> str:
    """The first line: how many requirements fail with how many faults."""
    told = [f"{vehicle}: Requirements asked what makes them fail: {counted.asked}."]
    if counted.none:
        told.append(f"Fail with nothing broken: {counted.none}.")
    told.append(f"Fail with one fault: {counted.one}.")
    if counted.order > 1:
        told.append(f"Fail only with several, at most {counted.order}: {counted.more}.")
    if counted.open:
        told.append(f"Not all decided: {counted.open}.")
    if counted.untried:
        told.append(untried(counted.untried))
    if counted.interrupted:
        told.append("This run was interrupted.")
    return " ".join(told)


def untried(count: int) -> str:
    """In the first line: what is not known for want of trying."""
    return f"Not tried, for they stand in coils of relays: {count}."


def closing(counted: Counted) -> str:
    """The last line."""
    parts = [f"asked {counted.asked}", f"no fault {counted.none}", f"one fault {counted.one}"]
    parts += [f"several {counted.more}", f"not all decided {counted.open}"]
    return f"{', '.join(parts)}: {_comes_to(counted)}"


def _comes_to(counted: Counted) -> str:
    if not counted.asked:
        return "nothing was asked"
    if counted.none:
        return "what fails with nothing broken is to be mended first"
    if counted.one:
        return "one fault is enough"
    if counted.interrupted:
        return "interrupted"
    if counted.open:
        return "not all decided"
    return "not all tried" if counted.untried else "no single fault of these is enough"


def nothing_asked(file: str) -> str:
    """There is no requirement to ask."""
    none = "No requirement guards against danger to people, so there is nothing to ask."
    return f"{none} Others: logiccheck faults {typed(file)} --sets 2 --requirement NAME"


def fails_whole() -> str:
    """The empty set is the only one."""
    return "It fails with nothing broken, so no fault is needed."


def found(
    counts: Sequence[int], order: int, complete: int | None, why: Undecided | Obstacle | None, aside: bool = False
) -> str:
    """How many sets there are, by how many faults they have, and whether these are all; `aside`: some were left out."""
    told = [f"Sets of {_faults(number)}: {count}." for number, count in enumerate(counts) if number and count]
    but = ", aside from what was not asked (below)" if aside else ""
    if complete == order:
        told.append(f"There are no others of at most {_faults(order)}{but}." if told else f"{_none(order)}{but}.")
        return " ".join([*told, "Proved for all situations, orders and timings."])
    if told:
        told = ["At least these.", *told, _known(complete, but)]
    elif complete:
        told = [f"{_none(complete)}{but}: proved. Whether a larger one does was not decided."]
    elif complete == 0:
        told = ["It does not fail with nothing broken: proved. Whether any set lets it fail was not decided."]
    else:
        told = [_known(None, but)]
    return " ".join([*told, reason(why)] if why is not None else told)


def _known(complete: int | None, but: str) -> str:
    """What is known beside the sets that are told; `but`: of what it is not known."""
    if complete is None:
        return "Whether it fails with nothing broken was not decided."
    if complete == 0:
        return "It does not fail with nothing broken: proved. Whether there are more sets was not decided."
    return f"Those of at most {_faults(complete)} are all{but}: proved. Whether there are more was not decided."


def _none(order: int) -> str:
    return f"No set of at most {_faults(order)} lets it fail"


def _faults(number: int) -> str:
    return "1 fault" if number == 1 else f"{number} faults"


def reason(why: Undecided | Obstacle) -> str:
    """Why the search ended."""
    return _REASONS.get(why, f"The reason: {why.value}.")


_REASONS: dict[Undecided | Obstacle, str] = {
    Undecided.BUDGET: "The time ran out; more: --budget SECONDS.",
    Undecided.MEMORY: "The memory ran out; more: --memory MB.",
    Undecided.INTERRUPTED: "The run was interrupted.",
    Undecided.TIMER_ARITHMETIC: "The answer hangs on how long several timers take together.",
    Undecided.OUR_BUG: "Here logiccheck itself broke off: this is our bug, not a mistake in your file.",
    Obstacle.CONTRADICTION: "What is given contradicts itself.",
    Obstacle.TIME_STOPS: "What is given brings time to a stop.",
    Obstacle.UNSETTLED: "The rules or relays can chase each other for ever.",
    Obstacle.UNSETTLED_UNKNOWN: "Whether the rules and relays always come to rest was not decided.",
}


def left_out(faults: Sequence[str], by: Obstacle) -> str:
    """Faults that stand in the way of answers."""
    return f"Not asked: sets that hold {together(faults)}. {_WITH[by]}"


_WITH = {
    Obstacle.CONTRADICTION: "With this, what is given contradicts itself.",
    Obstacle.TIME_STOPS: "With this, what is given brings time to a stop.",
    Obstacle.UNSETTLED: "With this, the rules or relays can chase each other for ever.",
    Obstacle.UNSETTLED_UNKNOWN: "Whether with this the rules and relays always come to rest was not decided.",
}


def possible(names: Sequence[str]) -> str:
    """Requirements that no story breaks."""
    why = "Not asked, as it says what must be possible, and a fault that may also stay away never ends that"
    return f"{why}: {', '.join(names)}."


def together(faults: Sequence[str]) -> str:
    """Several faults in a row."""
    return faults[0] if len(faults) == 1 else f"{', '.join(faults[:-1])} and {faults[-1]}"
