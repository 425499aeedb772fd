"""Proofs and shortest traces of tiny systems, against a look at every state."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logiccheck.base.budget import Budget
from logiccheck.engine.pdr import Cube, Pdr, Proof
from logiccheck.engine.shortest import Search
from logiccheck.engine.timing import Trace
from tests.engine.tiny import State, Tiny

systems = st.integers(0, 2**32 - 1).map(Tiny)


def inside(tiny: Tiny, cube: Cube, state: State) -> bool:
    """Whether the state meets all literals of the cube."""
    values = {bit.now >> 1: value for bit, value in zip(tiny.cone.bits, state, strict=True)}
    return all(values[abs(x)] is (x > 0) for x in cube)


def blocked(tiny: Tiny, cubes: Iterable[Cube], state: State) -> bool:
    return any(inside(tiny, cube, state) for cube in cubes)


def follow(tiny: Tiny, trace: Trace) -> list[State]:
    """The worlds of a trace that is lawful throughout, and bad at its last moment."""
    state, worlds = tiny.first, []
    for k, inputs in enumerate(trace):
        world = tuple(inputs[lit >> 1] for lit in tiny.world)
        step = tiny.steps[state, world]
        assert step.lawful
        assert step.bad or k < len(trace) - 1
        worlds.append(world)
        state = step.after
    return worlds


@settings(max_examples=300, deadline=None)
@given(systems)
def test_proof_or_trace(tiny: Tiny) -> None:
    """A proof holds at first, is kept by each moment from any state that it leaves, and leaves none that is bad."""
    pdr = Pdr(tiny.cone, Budget(10))
    result = pdr.run()
    pdr.close()
    if not isinstance(result, Proof):
        assert tiny.depth() is not None
        follow(tiny, result)
        return
    assert tiny.depth() is None
    left = {state for state in tiny.states if not blocked(tiny, result.cubes, state)}
    assert tiny.first in left
    assert tiny.following(left) <= left
    assert not any(map(tiny.bad_at, left))


@settings(max_examples=200, deadline=None)
@given(systems)
def test_frames_block_what_so_many_moments_do_not_reach(tiny: Tiny) -> None:
    """Frame k and those after it leave every state that at most k moments reach; so do the frames of a run that goes
    on with them."""
    pdr = Pdr(tiny.cone, Budget(10))
    first = pdr.run()
    pdr.close()
    again = Pdr(tiny.cone, Budget(10), pdr.frames)
    second = again.run()
    again.close()
    assert isinstance(first, Proof) is isinstance(second, Proof) is (tiny.depth() is None)
    for frames in (pdr.frames, again.frames):
        for k in range(len(frames)):
            cubes = [cube for later in frames[k:] for cube in later]
            assert not any(blocked(tiny, cubes, state) for state in tiny.within(k))


def fewest_changes(tiny: Tiny, moments: int) -> int | None:
    """The fewest changes of the world in a trace of so many moments that is bad at the last one."""
    best: dict[tuple[State, State], int] = {(tiny.first, world): 0 for world in tiny.inputs}
    for _ in range(moments - 1):
        later: dict[tuple[State, State], int] = {}
        for (state, world), changes in best.items():
            step = tiny.steps[state, world]
            if step.lawful:
                for other in tiny.inputs:
                    count = changes + sum(a is not b for a, b in zip(world, other, strict=True))
                    at = (step.after, other)
                    later[at] = min(count, later.get(at, count))
        best = later
    ends = [changes for at, changes in best.items() if tiny.steps[at].lawful and tiny.steps[at].bad]
    return min(ends, default=None)


@settings(max_examples=300, deadline=None)
@given(systems)
def test_the_shortest_trace(tiny: Tiny) -> None:
    """As many moments as breadth-first search needs, and the fewest changes of the world among these."""
    depth, search = tiny.depth(), Search(tiny.cone, Budget(10))
    trace = search.run(17)
    search.close()
    if depth is None:
        assert trace is None
        assert search.covered == 17
        return
    assert trace is not None
    assert len(trace) == depth + 1
    assert search.covered == depth
    worlds = follow(tiny, trace)
    changes = sum(a is not b for before, after in pairwise(worlds) for a, b in zip(before, after, strict=True))
    assert changes == fewest_changes(tiny, depth + 1)


@pytest.mark.parametrize("most", [0, 1, 2])
def test_no_further_than_asked(most: int) -> None:
    """A search that stops early goes on where it was."""
    tiny = next(t for t in map(Tiny, range(1000)) if t.depth() == 2)
    search = Search(tiny.cone, Budget(10))
    assert search.run(most) is None
    assert search.covered == most
    trace = search.run()
    search.close()
    assert trace is not None
    assert len(trace) == 3


def test_they_are_not_dull() -> None:
    """Among the systems are safe ones, and some that are bad only after several moments."""
    depths = [Tiny(seed).depth() for seed in range(200)]
    assert depths.count(None) > 40
    assert sum(1 for depth in depths if depth is not None and depth >= 2) > 10
