"""Can a moment come from which there is no lawful way on: what is given demands something, and forbids it.

The claim is that this never happens: whatever falls due, what is given is met by the world from before, or by one of
the *plans* that the claim names. A plan says what hands move in each of its moments. The last one is the moment at
hand; the others come just before it (time is dense: there is room for them, and nothing falls due in them). One lawful
plan is enough, whichever it is: nothing is believed of plans.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TypeAlias, assert_never

from logiccheck.audit.gates import NO, YES, Gate, Lit
from logiccheck.audit.given import LineName
from logiccheck.audit.moment import Moment
from logiccheck.audit.together import digits
from logiccheck.lang.program import (
    AfterLasting,
    ChangesOnlyWhile,
    Excluded,
    Given,
    LastsAtLeast,
    LastsAtMost,
    Program,
)
from logiccheck.lang.walk import memory

Plan: TypeAlias = tuple[tuple[tuple[str, int], ...], ...]  # by moment: what is moved, and the place it is moved to
Places: TypeAlias = dict[int, Lit]  # a variable: at each of its places or not

STAY: Plan = ((),)


def stuck(moment: Moment, lines: Mapping[LineName, Lit], plans: Iterable[Plan], wanted: frozenset[LineName]) -> Lit:
    """After time 0, with all `wanted` lines met at every moment before, neither staying nor any of the plans is
    lawful."""
    gates, past = moment.gates, moment.past
    meets = gates.all(lines[line] for line in sorted(wanted, key=str))
    ways = _Ways(moment, meets, frozenset(name for name in moment.world.variables if ("steps", name) in wanted))
    lawful = gates.any([ways.lawful(plan) for plan in (STAY, *plans)])
    name = broken(moment.program, wanted)
    unmet = past.bit(name)
    if name not in past.after:
        past.keep(name, gates.either(unmet, -meets))
    somewhere = [gates.any(at.values()) for at in ways.before.values()]  # what is stored after time 0 was a world
    return gates.all([-moment.first, -unmet, -lawful, *somewhere])


def broken(program: Program, lines: Iterable[LineName]) -> str:
    """What is stored of these lines: whether one of them was not met so far."""
    demanding_lines = [which for kind, which in lines if kind == "given" and (kind, which) in demanding(program)]
    return f"given broken {min(demanding_lines, default=None)}"


def possible(moment: Moment, plan: Plan) -> bool:
    """Whether it is a plan at all: of at least one moment, of variables that there are, to places that they have."""
    variables = moment.world.variables
    moves = [move for moves in plan for move in moves]
    return bool(plan) and all(name in variables and place in variables[name].places for name, place in moves)


class _Ways:
    """Whether plans are lawful, as conditions of the moment at hand; `stepping` variables move one place at a time."""

    def __init__(self, moment: Moment, meets: Lit, stepping: frozenset[str]) -> None:
        self.moment, self.meets, self.stepping = moment, meets, stepping
        self.gates, self.past = moment.gates, moment.past
        self.before = {name: self._as_before(name) for name in moment.world.variables}
        self.bits, self.timers = _reach(moment, [meets])

    def lawful(self, plan: Plan) -> Lit:
        """Whether every moment of the plan meets what is given."""
        gates, past = self.gates, self.past
        world, state = dict(self.before), dict[Gate, Lit]()
        # the run of before, if there was one, has neither ended nor restarted
        lasting = dict.fromkeys(self.timers, YES)
        lawful = [YES]
        for moves in plan[:-1]:
            world |= self._moved(moves, world)
            quiet = {past.dues[key]: NO for key in self.timers}
            wanted = [self.meets, *(past.after[bit] for bit in self.bits)]
            wanted += [past.clocks[key].goes_on for key in self.timers]
            met, *left = gates.replaced(wanted, {**self._inputs(world), **state, **quiet})
            lawful.append(met)
            state = {past.before[bit]: lit for bit, lit in zip(self.bits, left, strict=False)}
            on = zip(self.timers, left[len(self.bits) :], strict=True)
            lasting = {key: gates.both(lasting[key], goes_on) for key, goes_on in on}
        world |= self._moved(plan[-1], world)
        due = {past.dues[key]: gates.both(past.dues[key], lasts) for key, lasts in lasting.items()}
        return gates.all([*lawful, *gates.replaced([self.meets], {**self._inputs(world), **state, **due})])

    def _moved(self, moves: Iterable[tuple[str, int]], world: Mapping[str, Places]) -> dict[str, Places]:
        """What is moved, after it."""
        return {
            name: self._towards(world[name], target)
            if name in self.stepping
            else {place: YES if place == target else NO for place in world[name]}
            for name, target in moves
        }

    def _as_before(self, name: str) -> Places:
        """A variable as it was at the moment before, stored as the digits of its place."""
        was = digits(self.moment, name)
        return {place: self.gates.all(_written(place, was)) for place in self.moment.world.variables[name].places}

    def _towards(self, at: Places, target: int) -> Places:
        """One place nearer to the target, or there."""
        moved: dict[int, list[Lit]] = {place: [] for place in at}
        for place, lit in at.items():
            moved[place + (target > place) - (target < place)].append(lit)
        return {place: self.gates.any(lits) for place, lits in moved.items()}

    def _inputs(self, world: Mapping[str, Places]) -> dict[Gate, Lit]:
        variables = self.moment.world.variables
        return {
            gate: self.gates.any(lit for place, lit in at.items() if place >= least)
            for name, at in world.items()
            for least, gate in variables[name].reaches.items()
        }


def _written(place: int, digits: list[Lit]) -> Iterator[Lit]:
    for k, digit in enumerate(digits):
        yield digit if place >> k & 1 else -digit


def _reach(moment: Moment, lits: Iterable[Lit]) -> tuple[list[str], list[str]]:
    """The stored bits and the timers that these depend on through any number of moments."""
    past = moment.past
    bit_of = {gate: name for name, gate in past.before.items()}
    timer_of = {gate: key for key, gate in past.dues.items()}
    bits: dict[str, None] = {}
    timers: dict[str, None] = {}
    new = list(lits)
    while new:
        cone = moment.gates.cone(new)
        more = [bit_of[gate] for gate in cone if gate in bit_of and bit_of[gate] not in bits]
        runs = [timer_of[gate] for gate in cone if gate in timer_of and timer_of[gate] not in timers]
        bits.update(dict.fromkeys(more))
        timers.update(dict.fromkeys(runs))
        new = [past.after[bit] for bit in more] + [past.clocks[key].goes_on for key in runs]
    return list(bits), list(timers)


def demanding(program: Program) -> frozenset[LineName]:
    """The lines that can demand something by some time."""
    return frozenset(("given", i) for i, given in enumerate(program.givens) if _demands(given))


def apart(moment: Moment, lines: Mapping[LineName, Lit], some: frozenset[LineName]) -> bool:
    """Whether no other line shares a variable of the world with these, through any number of moments: what the others
    want can neither help nor hinder."""
    owner = {g: name for name, variable in moment.world.variables.items() for g in variable.reaches.values()}
    speaks = {line: _variables(moment, lit, owner) for line, lit in lines.items()}
    about = frozenset[str]().union(*(speaks[line] for line in some))
    return not any(speaks[line] & about for line in lines.keys() - some)


def _demands(given: Given) -> bool:
    """Whether it can want something to be so by some time (what remembers nothing and only excludes cannot)."""
    match given:
        case AfterLasting() | LastsAtMost():
            return True
        case Excluded(p=p):
            return any(True for _ in memory(p))
        case LastsAtLeast() | ChangesOnlyWhile():
            return False
        case _:
            assert_never(given)


def _variables(moment: Moment, lit: Lit, owner: Mapping[Gate, str]) -> frozenset[str]:
    """Everything of the world that can matter to a line."""
    bits, timers = _reach(moment, [lit])
    clocks = [moment.past.clocks[key] for key in timers]
    lits = [lit, *(moment.past.after[bit] for bit in bits), *(clock.goes_on for clock in clocks)]
    return frozenset(owner[gate] for gate in moment.gates.cone(lits) if gate in owner)
