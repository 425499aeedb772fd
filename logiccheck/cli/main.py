"""The way in: one call of `logiccheck` from its arguments to its exit status, and never a traceback."""

from __future__ import annotations

import sys
from importlib import import_module

from logiccheck.cli.commands import parser
from logiccheck.cli.status import INTERRUPTED, MISTAKE
from logiccheck.cli.streams import prepare


def main(argv: list[str] | None = None) -> int:
    """Run one command; returns the exit status that `commands.EXIT` lists."""
    prepare()
    if argv is None:
        argv = sys.argv[1:]
    if not argv:
        parser().print_help()
        return MISTAKE
    arguments = parser().parse_args(argv)
    try:
        command = import_module(f"logiccheck.cli.{arguments.module}")
        status: int = command.run(arguments)
        sys.stdout.flush()
    except KeyboardInterrupt:
        sys.stderr.write("\nInterrupted before anything was decided.\n")
        return INTERRUPTED
    except BrokenPipeError:
        return _pipe_closed()
    except Exception as error:
        from logiccheck.cli.ourbug import report

        return report(error, argv)
    return status


def _pipe_closed() -> int:
    """Whoever read our output went away; what was decided did not reach them, so this is no success."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return INTERRUPTED
