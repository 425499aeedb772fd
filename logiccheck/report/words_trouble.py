"""Sentences about what stands in the way of every verdict: assumptions that contradict, rules that never settle."""

from __future__ import annotations

from typing import assert_never

from logiccheck.engine.verdict import Obstacle, Trouble

TITLES = {
    Obstacle.CONTRADICTION: "WHAT IS GIVEN CONTRADICTS ITSELF",
    Obstacle.TIME_STOPS: "WHAT IS GIVEN BRINGS TIME TO A STOP",
    Obstacle.UNSETTLED: "RULES OR RELAYS CHASE EACH OTHER FOR EVER",
    Obstacle.UNSETTLED_UNKNOWN: "NOT DECIDED: DO THE RULES AND RELAYS ALWAYS COME TO REST?",
}


def sentences(trouble: Trouble) -> tuple[str, ...]:
    """What was found, and what it means for the verdicts."""
    match trouble.obstacle:
        case Obstacle.CONTRADICTION:
            return ("No vehicle can begin like this, so any requirement would hold. These do not go together:",)
        case Obstacle.TIME_STOPS:
            return ("After this story there is no lawful way for time to go on. These meet in it:",)
        case Obstacle.UNSETTLED:
            return _unsettled(trouble)
        case Obstacle.UNSETTLED_UNKNOWN:
            return ("While that is open, no requirement counts as proved. More time: --budget SECONDS.",)
        case _:
            assert_never(trouble.obstacle)


def _unsettled(trouble: Trouble) -> tuple[str, ...]:
    found = [f"At the end of this story these change for ever without any time passing: {', '.join(trouble.chasing)}."]
    if trouble.outcomes:
        ends = " or ".join(f"closed: {', '.join(relays) if relays else 'none'}" for relays in trouble.outcomes)
        found.append(f"Which relay is faster decides how it ends ({ends}).")
    return tuple(found)
