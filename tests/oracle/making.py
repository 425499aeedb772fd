"""How slices and kernels of a vehicle are made; who explores vehicles of another kind makes others."""

from __future__ import annotations

from collections.abc import Iterable

from logiccheck.lang.program import Form, Program, Requirement
from tests.oracle.kernel import Kernel
from tests.oracle.slices import Node, Slicer


class Making:
    """Of vehicles in which nothing is broken. Whoever asks much of one vehicle keeps one of these for it."""

    def __init__(self) -> None:
        self.restless: dict[tuple[Program, int], bool] = {}  # by limit: whether it can fail to settle

    def slicer(self, program: Program) -> Slicer:
        return Slicer(program)

    def slice(self, program: Program, nodes: Iterable[Node], requirements: tuple[Requirement, ...] = ()) -> Program:
        return self.slicer(program).slice(nodes, requirements)

    def kernel(self, part: Program, form: Form | None) -> Kernel:
        """Of a slice that was made here."""
        return Kernel(part, form)
