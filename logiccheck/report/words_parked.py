"""Sentences about the battery of a parked vehicle: what is drawn for ever, how that comes, and how long it lasts."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from logiccheck.copper.draws.draws import Draw, What
from logiccheck.report.lists import joined
from logiccheck.report.plain import typed
from logiccheck.report.words_sizing import amount

HOURS = 24
SHORT_DAYS = 2  # less than so many are told in hours
SMALL = Fraction(1, 10)  # A: less is told in mA

NOT_SAID = "The file does not say when the vehicle is parked. It is written so, under electrics: parked when key is off"
NOTHING = (
    "Nothing in the file says what it draws. A load says it so: 8 A; a controller: draws 120 mA awake, 1.5 mA asleep"
)
WHAT = (
    "This is no question of safety. Counted is what goes on for ever while no hand moves, from a full battery down to "
    "the charge with which it still cranks. Each way was found as a story, and played on until nothing moved any more, "
    "or all went round three times."
)
RATHER = (
    "Parked is what the file calls so: what nobody leaves on may be left out there. After its story, timers with a "
    "tolerance last their nominal time. An old or a cold battery holds less than its rating: measure before you trust "
    "a number of days. "
    "This is a check of arithmetic against published tables, not a design approval."
)
SOURCES = "What this is reckoned with"


def current(amperes: Fraction) -> str:
    """The current in a unit in which it is a short number: "9 A", "26.5 mA"."""
    return amount(amperes, "A", places=3) if amperes >= SMALL or not amperes else amount(amperes * 1000, "mA")


def time(days: Fraction) -> str:
    """Days, or where they are few, hours."""
    few = days < SHORT_DAYS
    count = days * HOURS if few else days
    return amount(count, "hours" if few else "days", places=1)


def opening(vehicle: str, told: Sequence[str], counted: bool = True) -> str:
    """The worst of each source; `counted`: all that may be on for ever says what it draws, and from where."""
    more = "" if counted else " Not all that may draw is counted: see below."
    return f"{vehicle}, parked and left alone: {'; '.join(told)}.{more}"


def drained(source: str, amperes: Fraction, most: Fraction, lasts: str, loses: bool = False) -> str:
    """What one source gives, `most` if there is a worse way than those found, and how long that lasts; `loses`: its
    battery loses something by itself."""
    if not most:
        return f"{source} gives nothing{' but what it loses by itself' if loses else ''}; {lasts}"
    exact = amperes == most
    gives = f"gives {current(amperes)}" if exact else f"gives at least {current(amperes)}, at most {current(most)},"
    return f"{source} {gives} at worst; {lasts}"


def lasts(least: Fraction | None, most: Fraction | None) -> str:
    """For how long a full battery is enough, between these days; None: nothing that is counted drains it, which is
    never for ever."""
    if least is None:
        return NOT_KNOWN_HOW_LONG
    if least == most:
        return f"that lasts for {time(least)}"
    longest = "how much longer is not known" if most is None else f"for {time(most)} at most"
    return f"that lasts for {time(least)} at least, {longest}"


NOT_KNOWN_HOW_LONG = "for how long that lasts is not known"


def nothing_found(source: str, most: Fraction) -> str:
    """No way was found, which says nothing but that it never gives more than `most`."""
    return f"what {source} gives is not known, but for this: at most {current(most)}"


def never_parked(vehicle: str) -> str:
    """It never comes to that, so there is nothing to say of a battery."""
    return (
        f"{vehicle}: NO CASE: it is never parked and at rest, proved for all situations, orders and timings. See what "
        "is said after `parked`, and what is given."
    )


def takes(draw: Draw, share: Fraction) -> str:
    """One thing that draws, and for which part of the time."""
    what = {
        What.LOAD: draw.name,
        What.OUTPUT: draw.name,
        What.AWAKE: "the box, awake",
        What.ASLEEP: "the box, asleep",
        What.COIL: f"the coil of {draw.name}",
    }[draw.what]
    part = "" if share == 1 else f", {amount(share * 100, '% of the time', places=1)}"
    return f"{what} {current(draw.amperes)}{part}"


def draws(parts: Sequence[str], amperes: Fraction) -> str:
    """All that draws in the worst way that was found."""
    return f"For ever {current(amperes)}: {'; '.join(parts)}." if parts else "Nothing draws anything for ever."


def story(steps: Sequence[str]) -> str:
    """How it comes to that."""
    return f"How it comes to that: {'; '.join(steps)}; then no hand moves any more."


def stays(begin: str | None, period: str | None) -> str:
    """How it goes on."""
    since = "From there on" if begin is None else f"From {begin} on"
    return f"{since} nothing changes." if period is None else f"{since} all goes round every {period}."


def how_sure(found: int, exact: bool, most: Fraction) -> str:
    """What is known of other ways."""
    ways = f"Ways found: {found}; this is the worst of them."
    if exact:
        return f"{ways} That there is no worse one is proved for all situations, orders and timings."
    return f"{ways} Whether there is a worse one is not known; it never gives more than {current(most)} for ever."


def others(parts: Sequence[str]) -> str:
    """The currents of the other ways."""
    return f"Others found: {'; '.join(parts)}. There may be further ones."


def other(amperes: Fraction, names: Sequence[str]) -> str:
    """One of them."""
    return f"{current(amperes)} ({joined(names)})" if names else f"{current(amperes)}"


def charge(usable: Fraction, full: Fraction, kept: Fraction, usual: bool) -> str:
    """What the battery gives."""
    because = "which is usual" if usual else "as the file says"
    left = amount(kept, "%")
    return f"It gives {amount(usable, 'Ah')} of {amount(full, 'Ah')}: with {left} left it still cranks, {because}."


def loses(amperes: Fraction | None, temperature: Fraction) -> str:
    """What it loses by itself."""
    if amperes is None:
        return "What it loses by itself is not counted; it is written so: loses 4 % a month"
    return f"By itself it loses as much as {current(amperes)} would take, at {amount(temperature, 'degC')}: counted."


def limit(amperes: Fraction, drawn: Fraction) -> str:
    """A published limit."""
    said = "more than" if drawn > amperes else "not more than"
    return f"This is {said} {current(amperes)}, which a service text allows a parked vehicle with this battery."


def volts(kept: Fraction, low: Fraction, high: Fraction) -> str:
    """How to see it with a meter."""
    between = amount(low, "V") if low == high else f"between {amount(low, 'V')} and {amount(high, 'V')}"
    return f"With {amount(kept, '%')} left, a battery of 12 V at rest shows {between}: published tables differ."


def no_battery(source: str) -> str:
    """Nothing is said of the battery behind a source."""
    return f"For how long is not known. It is written so, under electrics: battery {source} 70 Ah, cranks with 60 %"


def silent(names: Sequence[str]) -> str:
    """What says nothing of what it draws."""
    return f"Not counted, for they do not say what they draw, and may be on for ever: {', '.join(names)}."


def long(names: Sequence[str]) -> str:
    """Timers that may run for so long that the battery is empty before they end."""
    return (
        "Not counted is what is drawn until a timer ends, and then no more. With all on that can draw, these last long "
        f"enough to drain the battery before they end: {', '.join(names)}."
    )


def several(names: Sequence[str]) -> str:
    """What more than one source feeds."""
    return f"Counted in full for each source that can feed it: {', '.join(names)}."


def unfed(names: Sequence[str]) -> str:
    """Coils of which nobody knows from where they draw."""
    return f"Not counted, for they do not say what supplies them: {', '.join(names)}."


def restless(count: int) -> str:
    """Stories after which nothing comes to rest."""
    return f"Stories after which it does not come to rest for ever, as far as was seen: {count}; they are not counted."


def kept(source: str, at: int) -> str:
    """What the file with a story is called."""
    return f"parked, {source}, way {at}"


def how_to_see(file: str) -> str:
    """The call that shows the whole stories."""
    return f"The whole stories: logiccheck parked {typed(file)} --stories; to keep and play them: --save FOLDER"
