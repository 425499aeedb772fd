"""Where a signal is written: its own line."""

from __future__ import annotations

from logiccheck.base.span import Span
from logiccheck.explain.inside import POWERED
from logiccheck.lang.program import Program


def own_line(program: Program, name: str) -> Span:
    """Of a source, ground, wire, relay, load, sense, rule or output; of the power of the box that of the box."""
    box = program.box
    spans = {source.name: source.span for source in program.sources}
    spans |= {ground.name: ground.span for ground in program.grounds}
    spans |= {wire.name: wire.span for wire in program.wires}
    spans |= {relay.name: relay.span for relay in program.relays}
    spans |= {load.name: load.span for load in program.loads}
    if box is not None:
        spans |= {sense.name: sense.span for sense in box.senses} | {rule.name: rule.span for rule in box.rules}
        spans[POWERED.name] = box.span
    return spans[name]
