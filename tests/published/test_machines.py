"""Published state machines beside those of `tests.engine.test_published_circuits`: how many states are reached."""

from __future__ import annotations

from collections.abc import Mapping

from tests.engine.registers import clocked, state
from tests.published.written import answered


def reached(inputs: str, registers: Mapping[str, str], rules: Mapping[str, str] | None = None) -> set[str]:
    """The settled states of the registers that some story reaches, from all 0, as bits in their order."""
    size = len(registers)
    names = [f"{number:0{size}b}" for number in range(1 << size)]
    asked = [f"function s{each} possible {state(registers, each)}" for each in names]
    found = answered(clocked(inputs, registers, rules or {}, asked))
    assert set(found.values()) <= {"proved", "fails"}
    return {each for each in names if found[f"s{each}"] == "proved"}


# ------------------------------------------------------------------------------------------- 6.04, tables in kiss2

# S. Yang, "Logic Synthesis and Optimization Benchmarks User Guide 3.0", MCNC, 1991: shiftreg, modulo12, lion; counted again
# by image computation. Here what the tables say in equations: `x` is their input.


def test_shiftreg() -> None:
    """Three registers in a row; st0 to st7 are their contents with the newest bit first. All 8 are reached."""
    assert len(reached("x", {"newest": "x", "middle": "newest", "oldest": "middle"})) == 8


def test_modulo12() -> None:
    """A count that goes on with each 1 and stays with each 0, and begins again after 11. 12 states of 16 are reached."""
    last = "n8 and n2 and n1"
    registers = {
        "n8": "n8 and not (x and last) or x and n4 and n2 and n1",
        "n4": "n4 xor x and n2 and n1 and not n8",
        "n2": "n2 xor x and n1",
        "n1": "n1 xor x",
    }
    found = reached("x", registers, {"last": last})
    assert found == {f"{number:04b}" for number in range(12)}


def test_lion() -> None:
    """A beast before and behind two light beams `x` and `y`: a count of 0 to 3 that goes one up or one down. Four states."""
    at = {0: "not high and not low", 1: "not high and low", 2: "high and not low", 3: "high and low"}
    rules = {f"at{k}": text for k, text in at.items()} | {
        "up": "at0 and not x and y or at1 and x and not y or at2 and not x and y",
        "down": "at1 and x and y or at2 and not x and not y or at3 and x and y",
    }
    registers = {
        "high": "at1 and up or at2 and not down or at3",
        "low": "(at0 or at2) and (up or down) or (at1 or at3) and not (up or down)",
    }
    assert len(reached("xy", registers, rules)) == 4


# ------------------------------------------------------------------------------------------------------ 6.07 AIGER

# A. Biere, "The AIGER And-Inverter Graph (AIG) Format Version 20071012"; arminbiere/aiger, examples: toggle-re,
# xorxormiter, and, or, buffer, inverter; the texts of the files are not repeated, what they compute is.


def test_toggle_with_enable_and_reset() -> None:
    """Q turns over when enabled, and is 0 after a reset."""
    requirements = [
        "danger turns never in_clock becomes on and not in_r and in_e and not (previous(q) xor q)",
        "danger stays never in_clock becomes on and not in_r and not in_e and (previous(q) xor q)",
        "danger clears never in_clock becomes on and in_r and q",
        "function comes possible q",
    ]
    found = answered(clocked("er", {"q": "not r and (e and not q or not e and q)"}, {}, requirements))
    assert set(found.values()) == {"proved"}


def test_two_forms_of_exclusive_or() -> None:
    """The miter of two forms, in and-gates and inverters only, is constant 0; of a wrong form it is not."""
    rules = {
        "one_form": "not (not (x and not y) and not (not x and y))",
        "other_form": "not (x and y) and not (not x and not y)",
        "wrong": "not (x and y)",
        "miter": "not (not (one_form and not other_form) and not (not one_form and other_form))",
    }
    requirements = [
        "danger same never miter",
        "danger other never one_form xor wrong",
        "danger both never x and y",
    ]
    assert answered(clocked("xy", {}, rules, requirements)) == {"same": "proved", "other": "fails", "both": "fails"}


def test_one_gate_each() -> None:
    """and, or, buffer, inverter: by their tables."""
    rules = {"both": "x and y", "either": "not (not x and not y)", "same": "x", "other": "not x"}
    requirements = [
        "danger g_and never both xor not (not x or not y)",
        "danger g_or never either xor (x or y)",
        "danger g_buffer never same xor x",
        "danger g_inverter never other xor not x",
        "function all_on possible both and either and same and not other",
    ]
    assert set(answered(clocked("xy", {}, rules, requirements)).values()) == {"proved"}
