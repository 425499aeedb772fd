"""What decides whether a wire is live or grounded: only what lies on a way that comes to it without passing it before.

By names alone a wire seems to hang on all that is joined to it, also on a contact behind which nothing but the wire
itself can supply anything.
"""

from __future__ import annotations

from collections.abc import Iterator

from logiccheck.base.frozen import frozen
from logiccheck.base.spread import spread
from logiccheck.lang.matters import Item, named
from logiccheck.lang.program import Expr, Program, SignalKind


@frozen
class _Step:
    """What is live (or grounded) at `begin` is so at `end`, while the condition is met; None: always."""

    begin: str
    end: str
    condition: Expr | None


def arriving(program: Program, wire: str, live: bool) -> frozenset[Item]:
    """The items on which it hangs at first hand whether the wire is live, or else grounded."""
    kind = SignalKind.SOURCE if live else SignalKind.GROUND
    origins = {each.name for each in (program.sources if live else program.grounds)}
    feeding = _feeding(program) if live else {}
    steps = list(_steps(program, live))
    before = spread(
        origins | feeding.keys() - {wire}, [(s.begin, s.end) for s in steps if wire not in (s.begin, s.end)]
    )
    before |= origins
    behind = spread({wire}, [(step.end, step.begin) for step in steps])
    found = {(kind.value, name) for name in origins & behind}
    found |= {(SignalKind.OUTPUT.value, each) for end in (before | {wire}) & behind for each in feeding.get(end, ())}
    for step in steps:
        if step.begin in before and step.end in behind and step.condition is not None:
            found |= named([step.condition])
    return frozenset(found)


def _feeding(program: Program) -> dict[str, list[str]]:
    """The outputs that feed a wire, by wire."""
    found: dict[str, list[str]] = {}
    for output in program.box.outputs if program.box is not None else ():
        if output.feeds is not None:
            found.setdefault(output.feeds, []).append(output.name)
    return found


def _steps(program: Program, live: bool) -> Iterator[_Step]:
    """Nothing passes through a source or a ground."""
    ends = {each.name for some in (program.sources, program.grounds) for each in some}
    for contact in program.contacts:
        for begin, end in ((contact.left, contact.right), (contact.right, contact.left)):
            if end not in ends:
                yield _Step(begin, end, contact.condition)
    for diode in program.diodes:
        begin, end = (diode.anode, diode.cathode) if live else (diode.cathode, diode.anode)
        if end not in ends:
            yield _Step(begin, end, None)
