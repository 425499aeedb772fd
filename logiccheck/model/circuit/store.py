"""What is remembered through the reactions of one moment: each reaction reads what the one before it left.

The first reaction reads the stored bits of the system and sees what falls due; a repeat reads the reaction before and
sees nothing new fall due. After the last one, `close` writes what is stored from this moment to the next.
"""

from __future__ import annotations

from logiccheck.lang.program import Window
from logiccheck.model.circuit.aig import FALSE, Lit
from logiccheck.model.circuit.system import Clock, System


class Store:
    def __init__(self, system: System, before: Store | None = None) -> None:
        self.system = system
        self.before = before
        self.next: dict[str, Lit] = {}
        self.starts: dict[str, Lit] = {}  # by clock: it began anew in this reaction

    def read(self, name: str) -> Lit:
        """The bit as the reaction before left it."""
        if self.before is not None:
            return self.before.next[name]
        known = self.system.bits.get(name)
        return (known or self.system.bit(name)).now

    def write(self, name: str, value: Lit) -> None:
        if name in self.next:
            raise AssertionError(f"{name} is written twice in one reaction")
        self.next[name] = value

    def clock(self, key: str, window: Window) -> tuple[Lit, Lit]:
        """Whether the clock runs, and whether it falls due in this reaction."""
        if self.before is not None:
            return self.before.next[f"{key}.run"], FALSE
        clock = self.system.clocks.get(key) or self.system.clock(key, window)
        return clock.run, self.system.aig.both(clock.run, clock.due)

    def run(self, key: str, run_next: Lit, start: Lit) -> None:
        """States whether the clock runs on, and whether that run began in this reaction."""
        self.write(f"{key}.run", run_next)
        self.starts[key] = start

    def close(self) -> None:
        """Makes this reaction the last one of the moment."""
        system = self.system
        for name, value in self.next.items():
            system.bits[name].next = value
        for key in self.starts:
            clock: Clock = system.clocks[key]
            clock.run_next = self.next[f"{key}.run"]
            clock.start = system.aig.both(self._started(key), clock.run_next)

    def _started(self, key: str) -> Lit:
        earlier = self.before._started(key) if self.before is not None else FALSE
        return self.system.aig.either(self.starts[key], earlier)
