"""Sentences about ways through the harness: what reaches a wire, over which parts, and what reaches it unmeant."""

from __future__ import annotations

from collections.abc import Sequence

from logiccheck.report.lists import joined
from logiccheck.report.plain import typed
from logiccheck.report.words_ways import PROVED

# -------------------------------------------------------------------------------------------------------- one way

DIODE = "diode"
MEANT = (
    "A wire is meant to have what its own line says after `from` or `to`. What else comes through a diode counts as "
    "wrong only where a sense or a coil reads the wire. Two wires that lead into a third, each through a diode of its "
    "own, are meant to be apart."
)
MAY_BE_MEANT = (
    "It comes through a diode, and no sense and no coil reads the wire: that may be meant. It does not count as wrong."
)
MEND = (
    "To keep it out: a diode there, a contact of its own, or another wire. Other ways by which it is reached unmeant "
    "may not be told here: ask again once this is mended."
)


def begin(label: str, condition: str) -> str:
    """Where a way begins."""
    return f"{label} ({condition})" if condition else label


def from_output(name: str, label: str) -> str:
    """A way begins at an output of the box."""
    return f"output {name}" if label in ("", name) else f"output {name} ({label})"


def past_contact(wire: str, condition: str) -> str:
    """The next wire, past a contact; one without a condition is just a wire."""
    return f"{wire} ({condition})" if condition else wire


def way(parts: Sequence[str]) -> str:
    """All of it, in order."""
    return " -> ".join(parts)


# ------------------------------------------------------------------------------------------------------- one wire


def opening(wire: str, live: int, grounded: int, undecided: int, wrong: int) -> str:
    """How many ways lead to the wire, as far as they can ever conduct."""
    parts = [f"ways by which it can be live: {live}", f"ways by which it can be grounded: {grounded}"]
    parts += [f"not decided: {undecided}"] if undecided else []
    ends = [f"FOUND WRONG: {wrong}."] if wrong else []
    return " ".join([f"{wire}: {'; '.join(parts)}.", *ends])


def nothing_leads(wire: str) -> str:
    """There is no way."""
    return f"{wire}: nothing leads there: no source, no output and no ground, whatever is closed."


def title(number: int, kind: str, text: str) -> str:
    """The title of one way."""
    return f"Way {number}, {kind}: {text}"


def needs(conditions: Sequence[str]) -> str:
    """All that has to be so at once."""
    return f"Needs: {joined(conditions)}." if conditions else "Needs nothing: it always conducts."


NEVER = "Ways that can never conduct"
OPEN = "Ways of which it is not decided whether they can conduct"
ALL_WAYS = f"Whenever it is live or grounded, all that one of these ways needs is so. {PROVED}"


def never(text: str, needed: Sequence[str]) -> str:
    """What it needs is never so."""
    return f"{text}. Never so: {joined(needed)}."


def undecided(text: str, why: str) -> str:
    """It is not known whether it can conduct."""
    return f"{text}. {why}"


def left_out(count: int, more: bool) -> str:
    """The way of the drawing that nobody asked about, being the longest."""
    least = "at least " if more else ""
    return f"Ways left out, the longest: {least}{count}. Whether they can conduct was not asked."


# ------------------------------------------------------------------------------------------------------ what is wrong


def whole_opening(vehicle: str, wrong: int, whole: bool) -> str:
    """What the harness comes to."""
    if wrong:
        return f"{vehicle}: FOUND WRONG IN THE HARNESS: {wrong}."
    return f"{vehicle}: NOTHING FOUND." if whole else f"{vehicle}: NOTHING FOUND SO FAR. Not everything was decided."


def looked(wires: int) -> str:
    """Where nothing can be found."""
    return f"Wires looked at: {wires}. Nothing that counts as wrong ever reaches one: {PROVED[0].lower()}{PROVED[1:]}"


def closing(wrong: int, whole: bool) -> str:
    """The last line."""
    if wrong:
        return f"found wrong {wrong}"
    return "nothing found" if whole else "not all decided"


def sneak(wire: str, state: str) -> str:
    """A wire has what its own line does not bring it."""
    return f"{wire} is {state} while nothing feeds it by its own line"


def together(wire: str, other: str, into: str) -> str:
    """Two wires that diodes were to keep apart."""
    return f"{wire} is live from {other}, though each leads into {into} through a diode of its own"


def also_apart(wire: str, other: str, into: str) -> str:
    """As above, beside what is said of the wire already."""
    return f"{wire} and {other} lead into {into}, each through a diode of its own: they are meant to be apart."


def reached(text: str) -> str:
    """The way that conducts."""
    return f"It gets there over: {text}."


def further(wires: Sequence[str]) -> str:
    """What is reached from there."""
    return f"From there it goes on to: {joined(wires)}."


def hangs(things: Sequence[str]) -> str:
    """What takes the wire for what it is meant to be."""
    return f"What hangs on it: {joined(things)}."


def sense(name: str) -> str:
    """A thing that hangs on a wire."""
    return f"sense {name}"


def relay(name: str) -> str:
    """A thing that hangs on a wire."""
    return f"relay {name}"


def load(name: str) -> str:
    """A thing that hangs on a wire."""
    return f"load {name}"


def fed_output(name: str) -> str:
    """A thing that hangs on a wire."""
    return f"what feeds output {name}"


POWER = "the power of the controller"
HERE = "Here it gets in"


def reads_itself(sense: str, wire: str, outputs: Sequence[str]) -> str:
    """A sense reads what the box does itself."""
    return (
        f"The sense {sense} reads {wire}, and there it can see nothing but an output of the same box: {joined(outputs)}"
    )


READS_COPPER = "Copper can make that wire live, too. The sense cannot tell the one from the other."
READS_ONLY = "Nothing but outputs feeds that wire, so the sense may be meant to watch them. It does not count as wrong."


def holds(output: str, sense: str) -> str:
    """An output reads itself."""
    return f"What the output {output} says names the sense {sense}, so it can hold itself on."


def short(wire: str) -> str:
    """Both at once."""
    return f"{wire} is live and grounded at once: a short"


def too_many(wires: Sequence[str]) -> str:
    """More ways than can be looked at."""
    return f"Not looked at, as too many ways lead there: {joined(wires)}."


def not_decided(about: str, why: str) -> str:
    """A question about one wire has no answer."""
    return f"{about}: {why}"


def how_to_see(file: str, wire: str) -> str:
    """The call that lists all ways to a wire."""
    return f"All ways to one wire, also those that a fault opens: logiccheck paths {typed(file)} {wire}"


# ---------------------------------------------------------------------------------------------------- with one fault

WITH_FAULT = "Ways that are there only with one fault"
WITH_FAULT_MEANS = (
    "Each fault is there from the start, and nothing else is broken. Of the ways that it opens the first is told that "
    "conducts at the end of the story, while no way of the whole harness does."
)
BESIDE = "Faults that open a way, and may themselves close one of the whole harness"
BESIDE_MEANS = (
    "Each fault is there from the start, and nothing else is broken. The first way is told that conducts only with it. "
    "One of the whole harness may conduct at the same time, over a relay or an output that the fault can move: it may "
    "do so only because of the fault."
)
NO_WAY = (
    "Faults of which it is proved, if they are there from the start, that the wire is so only while a way of the whole "
    "harness conducts on which they have no hold"
)
NO_NEW_WAY = (
    "Faults that open no new way in copper, if they are there from the start: proved. Whether they close a way of the "
    "whole harness by a relay or an output that they can move is not proved"
)
NOT_KNOWN = "Faults of which it is not decided whether they open a way"
TOO_MANY_TO_ASK = "Not asked, as too many ways lead to the wire."
TO_SUPPLY, TO_GROUND = "shorted to supply", "shorted to ground"
TOUCHES_SUPPLY, TOUCHES_GROUND = "what is live", "ground"
DIODE_SHORTED = "diode, shorted"


def broken(part: str, mode: str) -> str:
    """A part, and how it fails."""
    return f"{part} {mode}"


def proved_of(fault: str, state: str) -> str:
    """For which state of the wire it is proved."""
    return f"{fault}: {state}"


def stuck_output(name: str) -> str:
    """Where a way begins that an output stage opens."""
    return f"output {name}, stuck on"


def opens(fault: str, state: str, way: str) -> str:
    """What a fault opens."""
    return f"{fault}: {state} over {way}" if way else f"{fault}: {state}"


def with_faults(faults: int, opening: int, undecided: int) -> str:
    """How many faults were looked at."""
    parts = [f"Faults by which something more might reach it: {faults}", f"that do open a way: {opening}"]
    parts += [f"not decided: {undecided}"] if undecided else []
    return f"{'; '.join(parts)}."


def faults_left(count: int) -> str:
    """What nobody asked."""
    return f"Faults not looked at: {count}. More time (--budget) may show what they open."
