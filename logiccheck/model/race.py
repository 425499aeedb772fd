"""Relays that chase each other: the settled ends when they follow one at a time, and what goes on changing."""

from __future__ import annotations

from dataclasses import replace

from logiccheck.lang.program import SignalKind
from logiccheck.model.interpreter import Machine, Moment
from logiccheck.model.memory import Memory
from logiccheck.model.reaction import Reaction


def outcomes(machine: Machine, moment: Moment) -> frozenset[frozenset[str]]:
    """The closed relays of each settled end of a moment that does not settle while all relays move together.

    From each reaction of the loop on, only one of the coils that disagree with their contacts is followed at a time, in
    every order; all else reacts as ever. Empty when that settles nowhere, as with rules that chase each other.
    """
    ends: set[frozenset[str]] = set()
    waiting = [memory for reaction in moment.loop for memory in _one_at_a_time(reaction)]
    seen: set[Memory] = set()
    while waiting:
        memory = waiting.pop()
        if memory in seen:
            continue
        seen.add(memory)
        reaction = machine.repeat(memory, moment.loop[0].values.world)
        if reaction.memory == memory:
            ends.add(memory.coils)
        else:
            waiting.extend(_one_at_a_time(reaction))
    return frozenset(ends)


def _one_at_a_time(reaction: Reaction) -> list[Memory]:
    """What the next reaction may find: one contact has moved to where its coil is, or none had to."""
    contacts = reaction.contacts
    late = contacts ^ reaction.memory.coils
    return [replace(reaction.memory, coils=contacts ^ {relay}) for relay in sorted(late)] or [reaction.memory]


def chasing(moment: Moment) -> frozenset[str]:
    """The relays, rules and outputs that go on changing in a moment that does not settle."""
    kinds = (SignalKind.RELAY, SignalKind.RULE, SignalKind.COMMAND, SignalKind.OUTPUT)
    true = [{each for each in reaction.values.true if each[0] in kinds} for reaction in moment.loop]
    return frozenset(name for _, name in set().union(*true) - true[0].intersection(*true[1:]))
