"""How much each output, relay and load matters, by what is required of it."""

from __future__ import annotations

from collections.abc import Mapping

from logiccheck.explain.guarding.unlike import watched
from logiccheck.lang.program import Compare, Guard, Position, Program
from logiccheck.lang.walk import form_expressions, references


def ranks(program: Program) -> Mapping[str, tuple[int, int]]:
    """By name: that of which a requirement against danger speaks is the least, then damage, function, nothing; in the
    order of the program. The power of the box, on which all hangs, comes after the outputs of its kind."""
    guards = list(Guard)
    nothing = len(guards)
    rank: dict[str, int] = {}
    for requirement in program.requirements:
        for leaf in (leaf for expr in form_expressions(requirement.form) for leaf in references(expr)):
            if not isinstance(leaf, Position | Compare):
                rank[leaf.name] = min(rank.get(leaf.name, nothing), guards.index(requirement.guard))
    found: dict[str, tuple[int, int]] = {}
    for at, (name, what) in enumerate(watched(program)):
        mine = rank.get(what.name, nothing)
        found[name] = (mine + 1, 0) if name == "powered" else (mine, at)
    return found
