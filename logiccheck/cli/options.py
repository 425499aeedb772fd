"""What a command and its options are, and the options that several commands have."""

from __future__ import annotations

from typing import Any

from logiccheck.base.frozen import frozen

BUDGET_SECONDS = 10.0
MEMORY_MEGABYTES = 2000.0


@frozen
class Argument:
    """One argument or option: its names, its help, and what else argparse needs to know."""

    names: tuple[str, ...]
    help: str
    more: tuple[tuple[str, Any], ...] = ()


@frozen
class Command:
    """`module` is the file in `cli/` whose `run(arguments)` does it."""

    name: str
    module: str
    help: str
    arguments: tuple[Argument, ...]


FILE = Argument(("file",), "the vehicle: a .circuit file", (("metavar", "FILE"),))
MEMORY = Argument(
    ("--memory",),
    f"megabytes that this may hold at most (default {MEMORY_MEGABYTES:g}); what needs more is not decided",
    (("metavar", "MB"), ("type", "megabytes"), ("default", MEMORY_MEGABYTES)),
)

JSON = Argument(
    ("--json",),
    "print the whole report as JSON (its schema: `about --schema`)",
    (("action", "store_true"),),
)


def written(option: str, what: str) -> Argument:
    """An option that writes a format into a new file."""
    help = f"write {what} into this new file; - is standard output, in place of the report"
    return Argument((f"--{option}",), help, (("metavar", "OUT"), ("default", None)))
