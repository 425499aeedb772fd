"""Published sequential circuits, written in the language whole, with their facts as requirements.

Not stated: larger netlists of the same collections (s208 and on, the tables in kiss2), whose files are not part of this
repository.
"""

from __future__ import annotations

from itertools import product

from logiccheck.engine.check import check_program
from logiccheck.engine.verdict import Kind
from logiccheck.lang.program import Program
from tests.engine.registers import clocked, moments, state

Answer = tuple[Kind, int | None]


def answers(program: Program) -> dict[str, Answer]:
    """The verdicts by name, with the moments of their stories."""
    return {
        verdict.requirement.name: (verdict.kind, verdict.story.moments if verdict.story else None)
        for verdict in check_program(program).verdicts
    }


# --------------------------------------------------------------------------------------------------------- 6.01 s27

# The netlist: F. Brglez, D. Bryan, K. Kozminski, "Combinational profiles of sequential benchmark circuits", ISCAS 1989
# (as in ispras/hdl-benchmarks, iscas89/bench/s27.bench). Six reachable states: S. Yang, "Logic Synthesis and
# Optimization Benchmarks User Guide 3.0", MCNC 1991. Which, and their successors: counted by image computation.
S27_RULES = {
    "g14": "not g0",
    "g17": "not g11",
    "g8": "g14 and g6",
    "g15": "g12 or g8",
    "g16": "g3 or g8",
    "g9": "not (g16 and g15)",
    "g10": "not (g14 or g11)",
    "g11": "not (g5 or g9)",
    "g12": "not (g1 or g7)",
    "g13": "not (g2 or g12)",
}
S27_REGISTERS = {"g5": "g10", "g6": "g11", "g7": "g13"}
S27_DEPTH = {"000": 0, "001": 1, "010": 1, "100": 1, "101": 1, "011": 2}
S27_AFTER = {
    "000": {"000", "001", "010", "100", "101"},
    "001": {"000", "001", "100", "101"},
    "100": {"000", "001", "100", "101"},
    "101": {"000", "001", "100", "101"},
    "010": {"010", "011", "100", "101"},
    "011": {"010", "011", "100", "101"},
}
STATES = ["".join(bits) for bits in product("01", repeat=3)]


def s27(*requirements: str) -> dict[str, Answer]:
    return answers(clocked(["g0", "g1", "g2", "g3"], S27_REGISTERS, S27_RULES, requirements))


def test_s27_reachable_states() -> None:
    """Six of eight; a witness of each has as many ticks as breadth-first search, and the last comes at depth 2."""
    found = s27(*(f"function s{each} possible {state(S27_REGISTERS, each)}" for each in STATES))
    assert found == {
        f"s{each}": (Kind.PROVED, moments(S27_DEPTH[each])) if each in S27_DEPTH else (Kind.FAILS, None)
        for each in STATES
    }


def test_s27_unreachable_pair() -> None:
    """Never G5 and G6; G6 and G7 together at depth 2."""
    found = s27("danger pair never g5 and g6", "danger other never g6 and g7", "danger none never g5 and g6 and g7")
    assert found == {
        "pair": (Kind.PROVED, None),
        "other": (Kind.FAILS, moments(2)),
        "none": (Kind.PROVED, None),
    }


def test_s27_successors() -> None:
    """From each reachable state just these in one tick."""
    found = s27(
        *(
            f"function s{a}_{b} possible in_clock becomes on and previous({state(S27_REGISTERS, a)})"
            f" and {state(S27_REGISTERS, b)}"
            for a in S27_AFTER
            for b in STATES
        )
    )
    assert {name: kind for name, (kind, _) in found.items()} == {
        f"s{a}_{b}": Kind.PROVED if b in after else Kind.FAILS for a, after in S27_AFTER.items() for b in STATES
    }


def test_s27_output() -> None:
    """G17 is 1 in three of the states whatever the inputs, and can be 0 in the others."""
    found = s27(*(f"danger s{each} never not g17 while {state(S27_REGISTERS, each)}" for each in S27_DEPTH))
    constant = {"001", "100", "101"}
    assert {name: kind for name, (kind, _) in found.items()} == {
        f"s{each}": Kind.PROVED if each in constant else Kind.FAILS for each in S27_DEPTH
    }


# ------------------------------------------------------------------------------------------------------ 6.06 train4

# The table: S. Yang, as above, LGSynth91 kiss2/train4; inputs, state, next state. What no row says is left open there;
# here the state stays.
TRAIN4 = [
    "00 0 0",
    "10 0 1",
    "01 0 1",
    "10 1 1",
    "01 1 1",
    "00 1 2",
    "11 1 2",
    "00 2 2",
    "11 2 2",
    "01 2 3",
    "10 2 3",
    "10 3 3",
    "01 3 3",
    "00 3 0",
]


def test_train4() -> None:
    """All four states, st3 after three ticks; no two rows at once; just two situations without a row."""
    bits = ("high", "low")
    at = {str(k): state(bits, f"{k:02b}") for k in range(4)}
    rows = [(f"{state(('x', 'y'), inputs)} and {at[now]}", int(after)) for inputs, now, after in map(str.split, TRAIN4)]
    rules = {f"row{i}": text for i, (text, _) in enumerate(rows)} | {
        "some_row": " or ".join(f"row{i}" for i in range(len(rows)))
    }
    registers = {
        bit: " or ".join([f"row{i}" for i, (_, after) in enumerate(rows) if after & mask] + [f"{bit} and not some_row"])
        for bit, mask in zip(bits, (2, 1), strict=True)
    }
    open_ = " or ".join(f"({at[each]} and x and y)" for each in "03")
    one = ", ".join(rules[f"row{i}"] for i in range(len(rows)))
    requirements = [f"function st{k} possible {at[k]}" for k in at]
    requirements += [
        "danger complete always some_row",
        f"danger nearly_complete always some_row while not ({open_})",
        f"danger open never some_row while {open_}",
        f"danger unambiguous always at most one of ({one})",
    ]
    assert answers(clocked("xy", registers, rules, requirements)) == {
        **{f"st{k}": (Kind.PROVED, moments(k)) for k in range(4)},
        "complete": (Kind.FAILS, 1),
        "nearly_complete": (Kind.PROVED, None),
        "open": (Kind.PROVED, None),
        "unambiguous": (Kind.PROVED, None),
    }


# ------------------------------------------------------------------------------------------------------ 6.07 AIGER

# A. Biere, "The AIGER And-Inverter Graph (AIG) Format Version 20071012"; arminbiere/aiger, examples: toggle, cnt1,
# notcnt1, halfadder. A literal 2 i is variable i, 2 i + 1 its negation.


def literal(number: int) -> str:
    return f"v{number // 2}" if number % 2 == 0 else f"not v{number // 2}"


def test_aiger_latches() -> None:
    """`2 3`: a latch that takes its own opposite. toggle: its two outputs are always unlike. cnt1: the bad literal 2 is
    reached at depth 1; notcnt1: 3 at depth 0."""
    requirements = [
        f"danger toggle never {literal(2)} xor not ({literal(3)})",
        f"danger cnt1 never {literal(2)}",
        f"danger notcnt1 never {literal(3)}",
        f"danger alternates never in_clock becomes on and (previous({literal(2)}) xor {literal(3)})",
    ]
    assert answers(clocked([], {"v1": literal(3)}, {}, requirements)) == {
        "toggle": (Kind.PROVED, None),
        "cnt1": (Kind.FAILS, moments(1)),
        "notcnt1": (Kind.FAILS, moments(0)),
        "alternates": (Kind.PROVED, None),
    }


def test_aiger_half_adder() -> None:
    """Three gates: s = x xor y, c = x and y; with an inverted output it is wrong in all rows."""
    rules = {"v3": "v1 and v2", "v4": "not v1 and not v2", "v5": "not v3 and not v4"}
    requirements = ["danger s never v5 xor v1 xor v2", "danger c never v3 xor v1 and v2", "danger wrong never v5 or v3"]
    found = answers(clocked(["v1", "v2"], {}, rules, requirements))
    assert found == {"s": (Kind.PROVED, None), "c": (Kind.PROVED, None), "wrong": (Kind.FAILS, 1)}
