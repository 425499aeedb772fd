"""Fischer's protocol of mutual exclusion as a vehicle: processes are contacts in the world, the shared number is kept in
the box.

How it was brought into the language. Each process i goes round in a ring of four situations, told by two contacts of
which only one can change at a time:

    idle     not asks, not has     waits until the shared k is 0
    start    asks, not has         for at most a; then it writes k := i, which is `has` coming on
    check    asks, has             for at least b; then it leaves, into its critical section if it reads k = i
    out      not asks, has         critical, if it was so; leaving a critical section writes k := 0

The guards are what is given: a contact changes only while, just before, its guard held, so a process reads what stood
there before all that is written at the same instant; of two that write at one instant the one with the higher number
is the last. An invariant `x <= a` is `lasts at most a`: the run may last just a. A guard `x >= b` is `lasts at least b`:
a run of just b is long enough. A guard `x > b` is `changes only while on_delay(..., b)`: the timer has to have come
*before* the change. Time is dense, and starting again takes some time, however little.
"""

from __future__ import annotations

from dataclasses import dataclass

from logiccheck.lang.program import Program
from tests.published.written import read


@dataclass(frozen=True)
class Fischer:
    """So many processes; `a` and `b` in seconds.

    `strict`: the check needs more than b, not at least b. `again`: who reads k = 0 in its check starts anew at once, and
    only who reads its own number leaves. `counted`: the bound a is no assumption, but the requirement counts only as
    long as nobody was slower.
    """

    processes: int
    a: int
    b: int
    strict: bool = False
    again: bool = False
    counted: bool = False

    def program(self) -> Program:
        each = range(1, self.processes + 1)
        critical = [f"critical{i}" for i in each]
        slow = " or ".join(f"on_delay(asks{i} and not has{i}, {self.a} s)" for i in each)
        counts = f" while not bistable(set {slow})" if self.counted else ""
        first = ", ".join(f"asks{i} is off, has{i} is off" for i in each)
        lines = ['vehicle "Fischer"', "world"]
        lines += [f"    asks{i} contact\n    has{i} contact" for i in each]
        lines += [f"    at first {first}", "harness", "    source plus"]
        lines += [f"    wire {word}{i}_wire from plus when {word}{i}" for i in each for word in ("asks", "has")]
        lines += ['controller "Shared" powered by plus']
        lines += [line for i in each for line in self.process(i)]
        lines += [f"    rule free = {' and '.join(f'not k{i}' for i in each)}", "given"]
        lines += [line for i in each for line in self.bounds(i)]
        lines += [
            "requirements",
            f"    danger exclusion always at most one of ({', '.join(critical)}){counts}",
            f"    danger not_all never {' and '.join(critical)}{counts}",
        ]
        lines += [
            f"    function gets_in{i} possible {name}{counts.replace('while', 'and')}"
            for i, name in enumerate(critical, start=1)
        ]
        return read("\n".join(lines) + "\n")

    def process(self, i: int) -> list[str]:
        """What the box knows of process i, and its share of k: k is i while k`i` is true, and 0 while none is."""
        others = [j for j in range(1, self.processes + 1) if j != i]
        written = [f"rises(having{j})" + (f" and not rises(having{i})" if j < i else "") for j in others]
        freed = [f"freed{j}" for j in range(1, self.processes + 1)]
        return [
            f"    sense asking{i} from asks{i}_wire live",
            f"    sense having{i} from has{i}_wire live",
            f"    rule critical{i} = bistable(set falls(asking{i}) and previous(k{i}), reset falls(having{i}))",
            f"    rule freed{i} = falls(having{i}) and previous(critical{i})",
            f"    rule k{i} = bistable(set rises(having{i}), reset {' or '.join(freed + written)})",
        ]

    def bounds(self, i: int) -> list[str]:
        """When each contact of process i may change, and how long it stays."""
        check = f"asks{i} and has{i}"
        leaves = f"on_delay({check}, {self.b} s)" if self.strict else check
        own = f"k{i} and {leaves}" if self.again else leaves
        back = f" or {check} and free" if self.again else ""
        lines = [
            f"    asks{i} changes only while not asks{i} and not has{i} and free or {own}",
            f"    has{i} changes only while asks{i} xor has{i}{back}",
        ]
        if not self.strict:
            lines.append(f"    {check} lasts at least {self.b} s")
        if not self.counted:
            lines.append(f"    asks{i} and not has{i} lasts at most {self.a} s")
        return lines
