"""What is given, as constraints on every moment of a story: a story that breaks one is no story.

A constraint that is *forcing* can demand that something happens by some time; only such constraints, or what is given
of things that remember, can bring time to a stop.
"""

from __future__ import annotations

from typing import assert_never

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
from logiccheck.model.circuit.aig import Lit
from logiccheck.model.circuit.moment import Moment
from logiccheck.model.circuit.system import Line
from logiccheck.require.observe import Observer


def assume(moment: Moment) -> None:
    """Adds everything that is given in the program to the system of the moment."""
    program = moment.program
    for i, fact in enumerate(program.at_first):
        o = Observer(moment, f"at first {i}")
        o.system.constrain(o.aig.implies(o.first, o.see(fact).at), Line("at first", i, "at first", fact.span))
    _in_steps(moment, program)
    for i, given in enumerate(program.givens):
        _constrain(Observer(moment, f"given {i}"), given, Line("given", i, given.text, given.span))


def _in_steps(moment: Moment, program: Program) -> None:
    """`one by one` and `without jumps`: from one moment to the next the index moves by one at most."""
    stepping = [(s.name, "one by one", s.span) for s in program.switches if s.one_by_one]
    stepping += [(n.name, "without jumps", n.span) for n in program.numbers if not n.jumps]
    for name, manner, span in stepping:
        o = Observer(moment, f"steps {name}")
        codes = o.system.world.coded[name].codes
        before = [o.remember(f"was {i}", code) for i, code in enumerate(codes)]
        for i, code in enumerate(codes):
            near = o.aig.any_of(before[max(0, i - 1) : i + 2])
            o.system.constrain(o.aig.any_of([o.first, code ^ 1, near]), Line("steps", name, f"{name} {manner}", span))


def changed(o: Observer, name: str) -> Lit:
    """The variable of the world has another value (a number: another interval) than before this moment."""
    bits = o.system.world.coded[name].bits
    return o.aig.any_of(o.aig.differ(bit, o.remember(f"{name} was {i}", bit)) for i, bit in enumerate(bits))


def _constrain(o: Observer, given: Given, line: Line) -> None:
    aig, system = o.aig, o.system
    match given:
        case Excluded():
            remembers = any(True for _ in memory(given.p))
            system.constrain(o.sometime(o.see(given.p)) ^ 1, line, forcing=remembers)
        case LastsAtLeast():
            p = o.see(given.p)
            watch = o.watch("run", given.time)
            ends = aig.both(watch.run, p.at ^ 1)
            begins = aig.both(o.remember("was", p.after) ^ 1, o.first ^ 1)
            system.run_watch(watch, start=begins, run_next=aig.both(p.after, aig.either(watch.run, begins)))
            system.constrain(aig.implies(ends, watch.ge), line)
        case LastsAtMost():
            p = o.see(given.p)
            watch = o.watch("run", given.time)
            system.run_watch(watch, start=watch.run ^ 1, run_next=p.after, must=watch.run)
            system.constrain(aig.all_of([watch.run, p.at, watch.ge]) ^ 1, line, forcing=True)
        case ChangesOnlyWhile():
            allowed = o.remember("allowed", o.see(given.y).after)
            system.constrain(aig.any_of([o.first, changed(o, given.name) ^ 1, allowed]), line)
        case AfterLasting():
            p, c = o.see(given.p), o.see(given.c)
            watch = o.watch("run", given.time)
            lacking = o.remember("lacking", c.after ^ 1)
            start = aig.both(watch.run, p.at) ^ 1
            system.run_watch(watch, start=start, run_next=p.after, must=aig.both(watch.run, lacking))
            system.constrain(aig.all_of([p.at, watch.run, watch.ge, c.at ^ 1]) ^ 1, line, forcing=True)
        case _:
            assert_never(given)
