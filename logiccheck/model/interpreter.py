"""The reference interpreter: moments of a vehicle, one after the other, exactly as the meaning of a program is written.

Slow and literal on purpose: it evaluates the resolved program itself and judges what every engine claims.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from logiccheck.base.frozen import frozen
from logiccheck.lang.program import Program, Window
from logiccheck.model.memory import Memory, Time
from logiccheck.model.reaction import Reaction, Reactor, World


class Impossible(ValueError):
    """What was asked for cannot happen: a timer outside its window, a world outside its ranges, time standing still."""


@frozen
class Moment:
    """All reactions of one instant.

    `loop` is empty when the moment settles; else its reactions follow one another for ever. `wakings` counts how often
    the box lost its power inside this instant, having had it, and woke again with its memory lost.
    """

    reactions: tuple[Reaction, ...]  # no two that follow one another are the same
    loop: tuple[Reaction, ...]
    started: frozenset[str]  # timers whose run began at this moment and goes on after it
    wakings: int

    @property
    def settles(self) -> bool:
        return not self.loop

    @property
    def settled(self) -> Reaction:
        """The last reaction: its values last until the next moment."""
        assert self.settles
        return self.reactions[-1]

    @property
    def memory(self) -> Memory:
        return self.reactions[-1].memory


@lru_cache(maxsize=4)
def _reactor(program: Program) -> Reactor:
    """Its tables are the same for every machine of a program, and each story that is played needs one."""
    return Reactor(program)


class Machine:
    """Takes a program through its moments; it has no state of its own, `Memory` is handed in and out."""

    def __init__(self, program: Program) -> None:
        self.program = program
        self._reactor = _reactor(program)

    @property
    def windows(self) -> Mapping[str, Window]:
        """The duration of every timer of box and relays, by key; a blinker has two, key.on and key.off."""
        return self._reactor.windows

    def initial(self) -> Memory:
        """Before time 0: nothing stored, relays dropped, outputs off."""
        return Memory()

    def running(self, memory: Memory) -> dict[str, tuple[Time, Window]]:
        """Each running timer: how long it has run since the last moment, and its window."""
        return {key: (run, self.windows[key]) for key, run in sorted(memory.clocks)}

    def moment(self, memory: Memory, elapsed: Time, world: World, due: frozenset[str] = frozenset()) -> Moment:
        """The moment that comes `elapsed` microseconds after the one that left `memory` (0 for time 0).

        `world` holds every switch and number of the program, `due` the timers that fall due exactly now. Raises
        `Impossible` if the world leaves its ranges, or a timer its window.
        """
        self._check_world(world)
        self._check_time(memory, elapsed, due)
        reactions = [self._reactor.react(memory.later(elapsed), world, due)]
        seen = {reactions[0].memory: 0}
        while (again := self._reactor.react(reactions[-1].memory, world, frozenset())) != reactions[-1]:
            first = seen.setdefault(again.memory, len(reactions))
            reactions.append(again)
            if first < len(reactions) - 2:
                return self._moment(memory, reactions, reactions[first + 1 :])
            if first == len(reactions) - 2:
                break  # it left the memory that it found, so that one more could only be the same again
        return self._moment(memory, reactions, [])

    def repeat(self, memory: Memory, world: World) -> Reaction:
        """One more reaction in the same instant: the same world, and nothing due."""
        return self._reactor.react(memory, world, frozenset())

    def _moment(self, before: Memory, reactions: list[Reaction], loop: list[Reaction]) -> Moment:
        started = frozenset(key for key, run in reactions[-1].memory.clocks if run == 0)
        powers = [before.powered, *(reaction.memory.powered for reaction in reactions)]
        wakings = sum(powers[i] and not powers[i - 1] and any(powers[:i]) for i in range(1, len(powers)))
        return Moment(tuple(reactions), tuple(loop), started, wakings)

    def _check_world(self, world: World) -> None:
        for switch in self.program.switches:
            if world.get(switch.name) not in range(len(switch.positions)):
                raise Impossible(f"{switch.name} has no position {world.get(switch.name)}")
        for number in self.program.numbers:
            value = world.get(number.name)
            if value is None or not number.low <= value <= number.high:
                raise Impossible(f"{number.name} is {value}, not in {number.low} .. {number.high}")

    def _check_time(self, memory: Memory, elapsed: Time, due: frozenset[str]) -> None:
        if elapsed < 0 or (elapsed == 0 and memory != self.initial()):
            raise Impossible(f"a moment {elapsed} us after the one before")
        if idle := sorted(due - {key for key, _ in memory.clocks}):
            raise Impossible(f"{', '.join(idle)} cannot fall due: not running")
        for key, (run, window) in self.running(memory.later(elapsed)).items():
            if key in due and not window.lo <= run <= window.hi:
                raise Impossible(f"{key} falls due after {run} us, not within {window.lo} .. {window.hi} us")
            if key not in due and run >= window.hi:
                raise Impossible(f"{key} has run for {run} us and must fall due within {window.hi} us")
