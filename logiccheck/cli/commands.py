"""The commands and their options as one table."""

from __future__ import annotations

from logiccheck.cli.commands_faults import FAULTS
from logiccheck.cli.options import BUDGET_SECONDS, FILE, MEMORY, Argument, Command, written
from logiccheck.engine.engines import Engine

RECHECK_SECONDS = 60.0
EDIT_SECONDS = 10.0
LINT_SECONDS = 10.0  # in a check
LINT_ALONE_SECONDS = 60.0
TOUR_SECONDS = 30.0
PATHS_SECONDS = 60.0
PARKED_SECONDS = 60.0
CURRENTS_SECONDS = 60.0

EXIT = """\
exit status, the first that applies:
  2  a mistake in the files or in the call
  1  a requirement fails, is blocked, has no case or is not in the certificate, an expectation is not met, or
     nothing was asked; something was found from which danger to people may come, by `lint` anything at all, by
     `paths` something wrong, by `currents` what does not fit or comes on too close together, by `faults` that one
     fault is enough for danger (that a wire which is shorted is a short circuit does not count); `tidy --check` finds
     a file that would change; somebody accepts what is not so
  3  something is not decided, or the run was interrupted
  0  everything asked is proved, or somebody accepts that it is not (never where danger to people may come)
  4  a bug in logiccheck itself; the message says what to send
"""

COMMANDS = (
    Command(
        "check",
        "check",
        "prove every requirement, or show the shortest story in which it fails",
        (
            FILE,
            Argument(
                ("--budget",),
                f"seconds to spend on one requirement at most (default {BUDGET_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", BUDGET_SECONDS)),
            ),
            MEMORY,
            Argument(
                ("--only",),
                "check this requirement only; may be given several times",
                (("metavar", "NAME"), ("action", "append"), ("default", [])),
            ),
            Argument(
                ("--engine",),
                "search for proofs with this engine only: refinement or zones (default: both, in turn)",
                (("metavar", "NAME"), ("choices", tuple(engine.value for engine in Engine)), ("default", None)),
            ),
            Argument(
                ("--jobs",),
                "share the work among so many processes (default 1); --memory then holds for each of them",
                (("metavar", "N"), ("type", "jobs"), ("default", 1)),
            ),
            Argument(
                ("--edits",),
                f"seconds to look for edits that would mend what fails (default {EDIT_SECONDS:g}); 0 for none",
                (("metavar", "SECONDS"), ("type", "allowance"), ("default", EDIT_SECONDS)),
            ),
            Argument(
                ("--lint",),
                f"seconds to look for findings that rest on what can happen (default {LINT_SECONDS:g}); 0 for none; "
                "with --only there are none",
                (("metavar", "SECONDS"), ("type", "allowance"), ("default", LINT_SECONDS)),
            ),
            Argument(
                ("--cases",),
                "show for each proved requirement a situation in which it decides something",
                (("action", "store_true"),),
            ),
            Argument(
                ("--times",),
                "say which engine decided each requirement, and in how many seconds",
                (("action", "store_true"),),
            ),
            Argument(
                ("--save",),
                "write each story as a scenario file into this folder, for `play`; nothing is overwritten",
                (("metavar", "FOLDER"), ("default", None)),
            ),
            Argument(
                ("--certify",),
                "write the proofs behind the verdicts into this new file, for `recheck`",
                (("metavar", "OUT"), ("default", None)),
            ),
            written("sarif", "mistakes, warnings and what is not proved as SARIF 2.1.0"),
            written("junit", "requirements and expectations as JUnit XML"),
        ),
    ),
    Command(
        "lint",
        "lint",
        "find what is no mistake and hardly meant, such as outputs that can never be on",
        (
            FILE,
            Argument(
                ("--only",),
                "look for this finding only, by name or code; may be given several times",
                (("metavar", "FINDING"), ("action", "append"), ("default", [])),
            ),
            Argument(
                ("--budget",),
                f"seconds to look at most (default {LINT_ALONE_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", LINT_ALONE_SECONDS)),
            ),
            Argument(
                ("--fix",),
                "first put right the layout of the files, and misspelled words of which it is clear what is meant",
                (("action", "store_true"),),
            ),
            MEMORY,
            written("sarif", "mistakes and findings as SARIF 2.1.0"),
            written("junit", "findings as JUnit XML"),
        ),
    ),
    Command(
        "unguarded",
        "unguarded",
        "find small edits of the rules that no requirement would notice",
        (
            FILE,
            Argument(
                ("name",),
                "only edits on which this output, relay or load hangs (default: all); may be several",
                (("metavar", "NAME"), ("nargs", "*"), ("default", [])),
            ),
            Argument(
                ("--stories",),
                "show for each a story in which the vehicle does something else",
                (("action", "store_true"),),
            ),
            Argument(
                ("--budget",),
                f"seconds to spend on one question at most (default {BUDGET_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", BUDGET_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    *FAULTS,
    Command(
        "recheck",
        "recheck",
        "prove a certificate of `check --certify` again, from the rules alone, with another solver (z3)",
        (
            Argument(("certificate",), "the certificate", (("metavar", "CERTIFICATE"),)),
            Argument(
                ("file",),
                "the vehicle it is about (default: where it lay, as seen from the certificate)",
                (("metavar", "FILE"), ("nargs", "?"), ("default", None)),
            ),
            Argument(
                ("--budget",),
                f"seconds to spend on one proof at most (default {RECHECK_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", RECHECK_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    Command(
        "play",
        "play",
        "play a scenario of the file, compare it with what it expects, and say which requirements it breaks",
        (
            FILE,
            Argument(
                ("scenario",),
                "the scenario to play (default: all of the file)",
                (("metavar", "SCENARIO"), ("nargs", "?"), ("default", None)),
            ),
            Argument(
                ("--scenario-file",),
                "play the scenarios of this file instead, such as a saved story",
                (("metavar", "STORY"), ("default", None)),
            ),
            Argument(
                ("--table",),
                "show the values moment by moment, instead of bars",
                (("action", "store_true"),),
            ),
            Argument(
                ("--save",),
                "write each scenario into this folder, to expect from now on what was seen; nothing is overwritten",
                (("metavar", "FOLDER"), ("default", None)),
            ),
            Argument(("--all",), "show every signal, also what never changes", (("action", "store_true"),)),
            written("vcd", "all signals of the one scenario that is played as waveforms (VCD)"),
        ),
    ),
    Command(
        "show",
        "show",
        "print rules and outputs as they are understood: as written, unfolded, simplified",
        (
            FILE,
            Argument(
                ("name",),
                "the rule or output to show (default: all)",
                (("metavar", "NAME"), ("nargs", "?"), ("default", None)),
            ),
        ),
    ),
    Command(
        "why",
        "why",
        "say why an output, rule, sense, relay, wire or load is on or off at a moment of a scenario or a story",
        (
            FILE,
            Argument(("name",), "the signal to explain", (("metavar", "NAME"),)),
            Argument(
                ("--scenario",),
                "a scenario of the file (default: the only one)",
                (("metavar", "NAME"), ("default", None)),
            ),
            Argument(
                ("--story",),
                "the story in which this requirement fails, or which shows what it calls possible",
                (("metavar", "REQUIREMENT"), ("default", None)),
            ),
            Argument(
                ("--at",),
                "the instant, for example 12.5s or '4 min' (default: the end)",
                (("metavar", "TIME"), ("type", "instant"), ("default", None)),
            ),
            Argument(
                ("--when",),
                "no moment, but all situations that meet these conditions, for example 'key is run, door is open': "
                "is it always so there?",
                (("metavar", "CONDITIONS"), ("default", None)),
            ),
            Argument(
                ("--all-ways",),
                "no moment, but all the ways in which it can ever be on",
                (("action", "store_true"),),
            ),
            Argument(
                ("--deep",),
                "go on from each fact to what is behind it; with --all-ways the whole story of each way",
                (("action", "store_true"),),
            ),
            Argument(
                ("--budget",),
                f"seconds to look at most, with --story, --when or --all-ways (default {BUDGET_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", BUDGET_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    Command(
        "tour",
        "tour",
        "show the vehicle at work: a start-up, a shut-down, and how each thing comes on and goes off again",
        (
            FILE,
            Argument(("--deep",), "show the whole story of each, moment by moment", (("action", "store_true"),)),
            Argument(
                ("--save",),
                "write each story as a scenario file into this folder, for `play`; nothing is overwritten",
                (("metavar", "FOLDER"), ("default", None)),
            ),
            Argument(
                ("--budget",),
                f"seconds to look at most (default {TOUR_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", TOUR_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    Command(
        "paths",
        "paths",
        "show every way by which something reaches a wire; without a wire, what in the harness reaches what unmeant",
        (
            FILE,
            Argument(
                ("wire",),
                "the wire, or a load that hangs on it (default: look for what is wrong with the harness as a whole)",
                (("metavar", "WIRE"), ("nargs", "?"), ("default", None)),
            ),
            written("svg", "the harness as a picture (SVG)"),
            Argument(
                ("--budget",),
                f"seconds to look at most (default {PATHS_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", PATHS_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    Command(
        "parked",
        "parked",
        "say what the parked vehicle draws for ever at worst, how it comes to that, and how long its battery lasts",
        (
            FILE,
            Argument(
                ("--stories",), "show the whole story of the worst, moment by moment", (("action", "store_true"),)
            ),
            Argument(
                ("--save",),
                "write each story as a scenario file into this folder, for `play`; nothing is overwritten",
                (("metavar", "FOLDER"), ("default", None)),
            ),
            Argument(
                ("--budget",),
                f"seconds to look at most (default {PARKED_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", PARKED_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    Command(
        "currents",
        "currents",
        "say the most that each source, fused wire and the box ever gives at once, and what fuses and wires make of it",
        (
            FILE,
            Argument(("--stories",), "show each story moment by moment", (("action", "store_true"),)),
            Argument(
                ("--budget",),
                f"seconds to look at most (default {CURRENTS_SECONDS:g})",
                (("metavar", "SECONDS"), ("type", "seconds"), ("default", CURRENTS_SECONDS)),
            ),
            MEMORY,
        ),
    ),
    Command(
        "tidy",
        "tidy",
        "write files anew in the one layout that all files have, where theirs is another; what they say stays the same",
        (
            Argument(
                ("files",),
                "a .circuit file, or a folder for all those in it",
                (("metavar", "FILE"), ("nargs", "+")),
            ),
            Argument(
                ("--check",),
                "write nothing; name the files that would change, and exit with 1 if there is one",
                (("action", "store_true"),),
            ),
            Argument(
                ("--diff",),
                "write nothing; print how the files would change, as a unified diff",
                (("action", "store_true"),),
            ),
        ),
    ),
    Command(
        "about",
        "about",
        "explain a message at length: what it means, why it matters, what to do",
        (
            Argument(
                ("name",),
                "the name or code of the message (default: list all names)",
                (("metavar", "NAME"), ("nargs", "?"), ("default", None)),
            ),
            Argument(
                ("--schema",),
                "print the JSON Schema of the reports that --json prints",
                (("action", "store_true"),),
            ),
        ),
    ),
    Command(
        "begin",
        "begin",
        "write a small working example to start from; nothing is ever overwritten",
        (
            Argument(
                ("folder",),
                "where to write it (default: here)",
                (("metavar", "FOLDER"), ("nargs", "?"), ("default", ".")),
            ),
        ),
    ),
)
