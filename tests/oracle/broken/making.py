"""How a vehicle is explored in which some parts may break."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from logiccheck.lang.program import Form, Program, Requirement
from tests.oracle.broken.kernel import BrokenKernel, BrokenSlicer
from tests.oracle.broken.parts import Fault, When
from tests.oracle.making import Making
from tests.oracle.slices import Node


class Breaking(Making):
    """Makes explorers of a vehicle (`limited`) in which these faults may be there; those that cannot matter stay out."""

    def __init__(self, faults: Mapping[Fault, When]) -> None:
        super().__init__()
        self.faults = faults
        self.kept: dict[Program, list[tuple[Fault, When]]] = {}

    def slicer(self, program: Program) -> BrokenSlicer:
        return BrokenSlicer(program, self.faults)

    def slice(self, program: Program, nodes: Iterable[Node], requirements: tuple[Requirement, ...] = ()) -> Program:
        slicer = self.slicer(program)
        part = slicer.slice(nodes, requirements)
        self.kept[part] = [(x, when) for x, when in self.faults.items() if ("world", x.bit) in slicer.kept]
        return part

    def kernel(self, part: Program, form: Form | None) -> BrokenKernel:
        return BrokenKernel(part, form, self.kept[part])
