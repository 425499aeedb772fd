"""Guards against silence: where nothing is told, every line of every file has its part in the program."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from logiccheck.lang import program as p
from logiccheck.lang import written as w


def check_complete(files: Sequence[w.File], program: p.Program) -> None:
    """Raises AssertionError if a program without mistakes lacks something that was written: a fault of ours.

    A requirement left out in silence would look as if it held, an assumption as if it were made.
    """
    written = _written(files)
    resolved = _resolved(program)
    if written != resolved:
        raise AssertionError((written, resolved))


def _written(files: Sequence[w.File]) -> Counter[str]:
    """How many of each kind of thing stand in the files."""
    count: Counter[str] = Counter()
    for block in (block for file in files for block in file.blocks):
        count["scenario"] += isinstance(block.header, w.ScenarioHead)
        count["controller"] += isinstance(block.header, w.Controller)
        for item in block.items:
            match item:
                case w.First(facts):
                    count["fact"] += len(facts)
                case w.Wire(connections=connections):
                    count["wire"] += 1
                    count["contact"] += len(connections)
                case w.Join():
                    count["contact"] += 1
                case w.Scene(facts=facts, expected=expected):
                    count["step"] += len(facts) + len(expected)
                case w.BoxDraws(parts):
                    count["draw"] += len(parts)
                case w.GivenNoJumps() | w.Constant() | w.Until() | w.Role():
                    pass
                case _:
                    count[_KINDS[type(item)]] += 1
    return +count


_KINDS: dict[type, str] = {
    w.Switch: "switch",
    w.Number: "number",
    w.Source: "source",
    w.Ground: "ground",
    w.Diode: "diode",
    w.Relay: "relay",
    w.Load: "load",
    w.Sense: "sense",
    w.Rule: "rule",
    w.Output: "rule",
    w.GivenNever: "given",
    w.GivenLasts: "given",
    w.GivenAfter: "given",
    w.GivenChanges: "given",
    w.Requirement: "requirement",
    w.Accepted: "accepted",
    w.Setting: "electrics",
    w.Parked: "electrics",
    w.Battery: "electrics",
    w.Dip: "electrics",
    w.TellTale: "electrics",
}


def _resolved(program: p.Program) -> Counter[str]:
    """How many of each kind of thing the program has."""
    box, around = program.box, program.electrics
    settings = (around.nominal, around.ambient, around.engine_space, around.apart, around.parked)
    lines = (*around.batteries, *around.dips, *around.tell_tales)
    count = Counter(
        {
            "switch": len(program.switches),
            "number": len(program.numbers),
            "fact": len(program.at_first),
            "source": len(program.sources),
            "ground": len(program.grounds) - 1,  # one is always there
            "wire": len(program.wires),
            "contact": len(program.contacts),
            "diode": len(program.diodes),
            "relay": len(program.relays),
            "load": len(program.loads),
            "controller": int(box is not None),
            "sense": len(box.senses) if box else 0,
            "rule": len(box.rules) if box else 0,
            "draw": sum(each is not None for each in (box.awake, box.asleep)) if box else 0,
            "electrics": sum(each is not None for each in settings) + len(lines),
            "given": len(program.givens),
            "requirement": len(program.requirements),
            "scenario": len(program.scenarios),
            "accepted": len(program.accepted),
            "step": sum(len(s.sets) + len(s.timers) + len(s.expectations) for s in program.scenarios),
        }
    )
    return +count
