"""How `faults` is called, and with which options."""

from __future__ import annotations

from logiccheck.cli.options import FILE, MEMORY, Argument, Command, written

FAULTS_SECONDS = 300.0

FAULTS = (
    Command(
        "faults",
        "faults",
        "find what each single thing that breaks can let happen: an open wire, a stuck switch, a welded relay",
        (
            FILE,
            Argument(
                ("--only",),
                "try this fault, or all of this part, only (such as 'key_wire open', or key_wire); may be given again",
                (("metavar", "FAULT"), ("action", "append"), ("default", [])),
            ),
            Argument(
                ("--requirement",),
                "ask this requirement only, and show the story of each fault with which it fails; may be given again",
                (("metavar", "NAME"), ("action", "append"), ("default", [])),
            ),
            Argument(("--stories",), "show each story whole, moment by moment", (("action", "store_true"),)),
            Argument(
                ("--one-by-one",),
                "use nothing for one fault that was proved of others: slow, and the answers are the same",
                (("action", "store_true"),),
            ),
            Argument(
                ("--pairs",),
                "look for pairs of faults, too, with which a requirement fails, though with neither alone; those that "
                "nobody need notice first",
                (("action", "store_true"),),
            ),
            Argument(
                ("--sets",),
                "instead, for each requirement that guards against danger (or those of --requirement): all minimal cut "
                "sets of at most so many faults; there --only may also name a way of failing, such as open",
                (("metavar", "NUMBER"), ("type", "faults at once"), ("default", None)),
            ),
            Argument(
                ("--budget",),
                f"seconds to look at most (default {FAULTS_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", FAULTS_SECONDS)),
            ),
            MEMORY,
            written("csv", "what becomes of each part as CSV, one row a part and failure mode"),
            written("html", "all of it as one page that needs nothing else, for a phone and for paper"),
        ),
    ),
)
