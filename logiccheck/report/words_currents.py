"""Sentences about what a vehicle draws: the most at once, inrush, and what comes on too close together."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from logiccheck.report.lists import joined
from logiccheck.report.plain import typed
from logiccheck.report.words_sizing import amount

FAILS, MEET, APART, OPEN, FITS = "FAILS", "meet", "apart", "not decided", "fits"
FAILING = "What fails"
PAIRS_TITLE = "Inrush apart from each other"
FITS_TITLE = "Held against published tables"
TABLES_TITLE = "The tables"
BOX, BOX_AWAKE, BOX_ASLEEP = "the box", "box awake", "box asleep"
UNSAID = "not known"
STORY, INRUSH, ON, FUSE, MORE_WAYS, GIVES = "story", "with inrush", "on then", "fuse", "other ways", "gives"
CARRIES = "carries"

NOTHING = "Nothing here says what it draws, so there is nothing to add up."
HOW_TO_SAY = (
    "A load and an output say it so: load 8 A, inrush 22 A for 80 ms, fuse 15 A, wire 1.5 mm2 over 4.2 m",
    "A wire says so what protects it: wire box_supply from plus when hold, fuse 60 A, wire 10 mm2 over 1.5 m",
    "The box says it so, under controller: draws 120 mA awake, 1.5 mA asleep; a relay at the end of its line: draws "
    "0.15 A",
)
CAUTIONS = (
    "A current counts as soon as its load is on, and all at once: how it rises and falls in between is not reckoned.",
    "What one thing draws by several ways is counted in full for each of them.",
    "An inrush is held against a fuse by itself, without what else flows through the fuse then.",
    "What is lost on wires that lie one behind the other adds up; each is held by itself against what is allowed.",
)


def amperes(value: Fraction) -> str:
    """A current as people say it: "63.4 A", "1.5 mA"."""
    return amount(value * 1000, "mA") if 0 < value < Fraction(1, 10) else amount(value, "A")


def most(least: Fraction, top: Fraction) -> str:
    """What is known of the greatest current."""
    if least == top:
        return amperes(top)
    return f"at least {amperes(least)}, at most {amperes(top)}"


def opening(feed: str, least: Fraction, top: Fraction, together: Fraction) -> str:
    """The most of the first source, and what merely adding up would say."""
    lead = f"The most that {feed} ever gives at once: {most(least, top)}"
    if least == top == together:
        return f"{lead} (all loads together)."
    if top < together:
        return f"{lead} (not {amperes(together)}, which all loads together would be)."
    return f"{lead} (all loads together would be {amperes(together)})."


def beside(fails: int, counted: bool) -> str:
    """What the first line says beside the most: how many checks fail, and whether all that may draw is counted."""
    told = [f"Checks that fail: {fails}."] if fails else []
    return " ".join(told if counted else [*told, "Not all that may draw is counted: see below."])


def gives(least: Fraction, top: Fraction, together: Fraction) -> str:
    """The same of any feed, after its name."""
    return f"the most at once: {most(least, top)}; if all were on at once: {amperes(together)}"


def nothing_found(top: Fraction) -> str:
    """No situation was found."""
    return f"no situation was found; never more than {amperes(top)}"


def share(fuse: Fraction, least: Fraction, top: Fraction) -> str:
    """What part of a fuse that is."""
    percent = amount(top / fuse * 100, "%", 0)
    return f"{amperes(fuse)}; that is {percent} of it{'' if least == top else ' at most'}"


def drawing(parts: Sequence[tuple[str, Fraction]]) -> str:
    """What is on, each with its current, the largest first."""
    return ", ".join(f"{name} {amperes(current)}" for name, current in parts)


def rush(least: Fraction, top: Fraction, together: Fraction, coming: Sequence[str], been: Sequence[str]) -> str:
    """The most at an instant, with what has just come on counted as its inrush."""
    parts = [f"the most at an instant: {most(least, top)}; if all inrush came at once: {amperes(together)}"]
    parts += [f"just come on: {', '.join(coming)}"] if coming else []
    parts += [f"also on: {', '.join(been)}"] if been else []
    return "; ".join(parts)


def more_ways(names: Sequence[str]) -> str:
    """What may be fed in another way as well."""
    return f"counted in full, though there are other ways to feed it: {', '.join(names)}"


def apart(time: str, pairs: int) -> str:
    """What is asked of each pair."""
    return (
        f"Wanted: at least {time} between the moments in which two come on that share a source, a fused wire or the "
        f"box, while both are on; exactly {time} is far enough. Pairs: {pairs}."
    )


def apart_unsaid() -> str:
    """Nothing is asked of pairs."""
    return "How far apart two inrushes have to begin is not written; it is written so, under electrics: apart 250 ms"


def meets(time: str, steps: Sequence[str]) -> str:
    """Both come on within less than that."""
    return f"both come on within less than {time}: {'; '.join(steps)}"


def proved_apart(time: str) -> str:
    """They never do."""
    return f"never within less than {time} while both are on: proved for all situations, orders and timings"


def silent(names: Sequence[str]) -> str:
    """What says nothing of its current counts as nothing."""
    return f"What these draw is not written, so they count as nothing: {', '.join(names)}."


def unfed(names: Sequence[str]) -> str:
    """What draws from nothing that is written."""
    return f"From where these draw is not written, so they count nowhere: {', '.join(names)}."


def differs(names: Sequence[tuple[str, str]]) -> str:
    """An output and what hangs on its wire say two things."""
    said = "; ".join(f"{output}, which feeds {wire}" for output, wire in names)
    return f"Where loads hang on the wire that an output feeds, they count, and not what its own line says: {said}."


def coil(relay: str) -> str:
    """What a relay draws for itself."""
    return f"coil of {relay}"


NO_NOMINAL = (
    "The voltage is not written, so what is lost on wires is not reckoned; it is written so, under electrics: nominal "
    "12 V"
)


def air_unsaid(usual: Sequence[str]) -> str:
    """What is taken for the air around wires, where the file does not say it."""
    return (
        f"How warm the air around wires gets is not written, so {joined(usual)} is taken; it is written so, under "
        "electrics: ambient 40 degC"
    )


def to_name(names: Sequence[str]) -> str:
    """Names in a sentence."""
    return joined(names)


def how_to_see(file: str) -> str:
    """The call that shows the whole stories."""
    return f"The whole stories: logiccheck currents {typed(file)} --stories"


def closing(fails: int, open_: int, fits: int) -> str:
    """What it came to."""
    return f"Checks that fail: {fails}; not decided: {open_}; that hold: {fits}."
