"""How long the charge of a battery lasts: what it gives until it no longer cranks, and what it loses by itself."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from logiccheck.base.frozen import frozen
from logiccheck.copper.tables.roots import power
from logiccheck.copper.tables.table import Table, between, table
from logiccheck.lang.program import Battery

MONTH_HOURS = 30 * 24


@frozen
class Charge:
    """`full` and `usable`, until it no longer cranks, in Ah; `kept` percent of the charge with which it still does;
    `lost` by itself, in A, in air of `temperature` (degC), None where nothing is said of it.

    `usual`: `kept` is not said in the file. `limit`: what a service text allows the parked vehicle to draw, in A.
    `volts`: at rest, with `kept` percent left, by the lowest and by the highest of the published tables.
    """

    full: Fraction
    usable: Fraction
    kept: Fraction
    usual: bool
    lost: Fraction | None
    temperature: Fraction
    limit: Fraction | None
    volts: tuple[Fraction, Fraction]
    basis: tuple[Table, ...]

    def days(self, current: Fraction) -> Fraction | None:
        """From full until it no longer cranks, while this current (A) is drawn; None: nothing that is counted
        drains it."""
        drawn = current + (self.lost or 0)
        return self.usable / drawn / 24 if drawn > 0 else None


def charge(battery: Battery, ambient: Fraction | None) -> Charge | None:
    """By its capacity, or else by its reserve minutes; None where neither is said. Loss by itself goes by its full
    charge, and doubles as the air gets warmer, in hundredths of a doubling, rounded up."""
    reserve, loss = table("reserve"), table("self_discharge")
    if battery.capacity is not None:
        full = battery.capacity
    elif battery.reserve is not None:
        full = battery.reserve * reserve.at("charge", "value")
    else:
        return None
    kept = battery.to_crank if battery.to_crank is not None else reserve.at("cranks", "value")
    temperature = ambient if ambient is not None else loss.at("at", "value")
    lost = None
    if battery.loses is not None:
        warmer = (temperature - loss.at("at", "value")) / loss.at("doubles", "value")
        doublings = Fraction(ceil(warmer * 100), 100)  # the root of a finer part would take minutes
        lost = full * battery.loses / 100 / MONTH_HOURS * power(Fraction(2), doublings, up=True)
    by_reserve = battery.reserve is not None or battery.to_crank is None
    used = [(reserve, by_reserve), (loss, lost is not None and temperature != loss.at("at", "value"))]
    return Charge(
        full,
        full * (100 - kept) / 100,
        kept,
        battery.to_crank is None,
        lost,
        temperature,
        None if battery.reserve is None else battery.reserve * reserve.at("limit", "value") / 1000,
        at_rest(kept),
        (*(each for each, needed in used if needed), table("at_rest")),
    )


def at_rest(percent: Fraction) -> tuple[Fraction, Fraction]:
    """The voltage at rest of a battery of 12 V with this much charge, by the lowest and the highest of the tables."""
    found = [between(table("at_rest").column(which), percent) for which in ("first", "second", "third")]
    known = [volts for volts in found if volts is not None]
    return min(known), max(known)
