"""Has anything fallen together so far: a change of the world with another one, or with a timer that falls due.

Asked where it is claimed that something never happens without such a coincidence. The claim names what counts, the
variables of the world and the timers. What hands do at time 0 is no change.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations

from logiccheck.audit.gates import Lit
from logiccheck.audit.moment import Moment


def apart(moment: Moment, bit: str, world: Iterable[str], timers: Iterable[str]) -> Lit:
    """Nothing of these has fallen together, neither at this moment nor before; `bit` is the name under which is stored
    that something has."""
    gates, past = moment.gates, moment.past
    changed = [_changed(moment, name) for name in sorted(world)]
    due = gates.any([gates.both(past.clocks[key].runs, past.clocks[key].due) for key in sorted(timers)])
    pairs = [gates.both(one, other) for one, other in combinations(changed, 2)]
    now = gates.both(-moment.first, gates.any([*pairs, gates.both(due, gates.any(changed))]))
    before = past.bit(bit)
    if bit not in past.after:
        past.keep(bit, gates.either(before, now))
    return gates.both(-before, -now)


def _changed(moment: Moment, name: str) -> Lit:
    """It has another place than at the moment before."""
    gates, variable = moment.gates, moment.world.variables[name]
    return gates.any(
        [gates.differ(variable.digit(k), was) for k, was in zip(variable.digits, digits(moment, name), strict=True)]
    )


def digits(moment: Moment, name: str) -> list[Lit]:
    """The place of a variable at the moment before, as the digits that are stored of it."""
    variable, past = moment.world.variables[name], moment.past
    found = []
    for k in variable.digits:
        bit = f"{name}.{k} was"
        if bit not in past.after:
            past.keep(bit, variable.digit(k))
        found.append(past.bit(bit))
    return found
