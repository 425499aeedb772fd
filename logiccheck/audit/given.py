"""What is given: for each line, what every moment of a story that meets it fulfils.

A line is named by its kind and which it is: ("at first", its number), ("given", its number), or ("steps", the name of
a switch that is passed one by one or of a number without jumps).
"""

from __future__ import annotations

from typing import TypeAlias, assert_never

from logiccheck.audit.gates import Lit
from logiccheck.audit.moment import Moment
from logiccheck.audit.observe import Observer
from logiccheck.lang.program import (
    AfterLasting,
    ChangesOnlyWhile,
    Excluded,
    Expr,
    Given,
    LastsAtLeast,
    LastsAtMost,
)

LineName: TypeAlias = tuple[str, int | str]


def lines(moment: Moment) -> dict[LineName, Lit]:
    """All that is given, each line fulfilled at this moment."""
    program = moment.program
    found: dict[LineName, Lit] = {}
    for i, fact in enumerate(program.at_first):
        found["at first", i] = _at_first(Observer(moment, f"at first {i}"), fact)
    stepping = [switch.name for switch in program.switches if switch.one_by_one]
    stepping += [number.name for number in program.numbers if not number.jumps]
    for name in stepping:
        found["steps", name] = _in_steps(Observer(moment, f"steps {name}"), name)
    for i, given in enumerate(program.givens):
        found["given", i] = _fulfilled(Observer(moment, f"given {i}"), given)
    return found


def _at_first(o: Observer, fact: Expr) -> Lit:
    return o.gates.implies(o.first, o.see(fact).at)


def _in_steps(o: Observer, name: str) -> Lit:
    """It stays, or moves to a place beside the one it had."""
    variable = o.moment.world.variables[name]
    had = {place: o.kept(f"was {place}", variable.at(place)) for place in range(variable.count)}
    beside = [o.gates.any(had[p] for p in (place - 1, place, place + 1) if p in had) for place in variable.places]
    steps = [o.gates.implies(variable.at(place), near) for place, near in zip(variable.places, beside, strict=True)]
    return o.gates.either(o.first, o.gates.all(steps))


def _fulfilled(o: Observer, given: Given) -> Lit:
    match given:
        case Excluded():
            return -o.ever(o.see(given.p))
        case LastsAtLeast():
            return _lasts_at_least(o, given)
        case LastsAtMost():
            return _lasts_at_most(o, given)
        case ChangesOnlyWhile():
            return _changes_only_while(o, given)
        case AfterLasting():
            return _after_lasting(o, given)
        case _:
            assert_never(given)


def _lasts_at_least(o: Observer, given: LastsAtLeast) -> Lit:
    """A run that began after time 0 ends not before t have passed; one still going on is not too short."""
    gates, p = o.gates, o.see(given.p)
    run = o.since("run", given.time)
    begins = gates.both(-o.kept("was", p.after), -o.first)
    o.follow(run, gates.both(p.after, gates.either(run.goes, begins)), anew=begins)
    return gates.any([-run.goes, p.at, run.reached])


def _lasts_at_most(o: Observer, given: LastsAtMost) -> Lit:
    """Over at its beginning + t."""
    gates, p = o.gates, o.see(given.p)
    run = o.since("run", given.time)
    o.follow(run, p.after, anew=-run.goes)
    return -gates.both(p.at, run.reached)


def _changes_only_while(o: Observer, given: ChangesOnlyWhile) -> Lit:
    """It has the value it had, or y held just before."""
    variable = o.moment.world.variables[given.name]
    allowed = o.kept("allowed", o.see(given.y).after)
    digits = {k: variable.digit(k) for k in variable.digits}
    moved = [o.gates.differ(now, o.kept(f"{given.name} was {k}", now)) for k, now in digits.items()]
    return o.gates.any([o.first, allowed, -o.gates.any(moved)])


def _after_lasting(o: Observer, given: AfterLasting) -> Lit:
    """As long as p has lasted t, c is so."""
    gates, p, c = o.gates, o.see(given.p), o.see(given.c)
    run = o.since("run", given.time)
    o.follow(run, p.after, anew=-gates.both(run.goes, p.at))
    o.keep("lacking", -c.after)
    return -gates.all([p.at, run.reached, -c.at])
