"""Relays that nothing ever lets go once they are pulled, as long as what has constant power keeps it."""

from __future__ import annotations

from functools import lru_cache

from logiccheck.explain.surveyed.steady import live_at_first, steady
from logiccheck.explain.surveyed.survey import Survey
from logiccheck.lang.program import And, Edge, Relay, Signal, SignalKind


@lru_cache(maxsize=1)
def held_for_ever(survey: Survey) -> tuple[Relay, ...]:
    """Those that can be pulled and, once all has settled, never drop while the sources are live that are live at first.

    None of what never changes at all. May raise KeyboardInterrupt, or BugMet.
    """
    still = {name for each in steady(survey) for name in each.names}
    constant = live_at_first(survey.written)
    found = []
    for relay in survey.written.relays:
        on = Signal(SignalKind.RELAY, relay.name)
        if relay.name in still or not survey.ever(on):
            continue
        drops = And((Edge(False, on, f"{relay.name} drops"), *constant))
        if survey.ever(drops) is False:
            found.append(relay)
    return tuple(found)
