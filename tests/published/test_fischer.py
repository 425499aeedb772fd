"""Fischer's protocol: for which bounds it keeps its processes apart, as published."""

from __future__ import annotations

import pytest

from tests.published.fischer import Fischer
from tests.published.written import answered


def apart(case: Fischer, requirement: str = "exclusion") -> bool:
    """Whether it is proved. The last process can get in, so it is never empty; the others can do the same."""
    gets_in = f"gets_in{case.processes}"
    found = answered(case.program(), only=(requirement, gets_in))
    assert found[gets_in] == "proved"
    assert found[requirement] in {"proved", "fails"}
    return found[requirement] == "proved"


@pytest.mark.parametrize("a", [1, 2, 3])
@pytest.mark.parametrize("b", [1, 2, 3, 4])
def test_two_processes(a: int, b: int) -> None:
    """M. Fischer, 1985; L. Lamport, "A fast mutual exclusion algorithm", ACM TOCS 5(1), 1987; with parameters in imitator,
    tests/testcases/fischer_2.imi and its regression data: set within x <= a, enter at x >= b. Apart iff b > a; both ends
    are closed, and so they are here, so that a = b is not enough."""
    assert apart(Fischer(2, a, b)) is (b > a)


@pytest.mark.parametrize(("a", "b"), [(1, 1), (1, 2), (2, 2), (2, 3), (3, 3), (3, 4)])
def test_three_processes(a: int, b: int) -> None:
    """The same for three."""
    assert apart(Fischer(3, a, b)) is (b > a)


@pytest.mark.parametrize("processes", [2, 3, pytest.param(4, marks=pytest.mark.slow)])
@pytest.mark.parametrize("strict", [True, False])
def test_set_within_10_and_enter_after_10(processes: int, strict: bool) -> None:
    """tchecker, examples/fischer.sh, K = 10: set within x <= K, enter when x > K and k is one's own, start again when k
    is 0: at most one in its critical section; published for x > K, counted again for x >= K, which breaks it."""
    assert apart(Fischer(processes, 10, 10, strict, again=True, counted=processes > 3)) is strict


@pytest.mark.parametrize(("delta", "delay"), [(1, 1), (1, 2), (2, 1), (2, 2), (2, 3), (3, 1)])
def test_not_all_three(delta: int, delay: int) -> None:
    """imitator, regression data of the model F3: not all three are in their critical sections at once iff delay >= Delta.

    There x < Delta is open; here the bound is closed. With delay = Delta that is more than the published system may do,
    and still proved; with delay < Delta there is room between the two, so an open bound would let it happen as well.
    """
    assert apart(Fischer(3, delta, delay, strict=True), "not_all") is (delay >= delta)
