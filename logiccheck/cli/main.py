"""The way in: one call of `logiccheck` from its arguments to its exit status, and never a traceback."""

from __future__ import annotations

import errno
import gc
import sys
from importlib import import_module

from logiccheck.base.budget import OutOfMemory
from logiccheck.cli.parsing import parsed, parser
from logiccheck.cli.status import GOOD, INTERRUPTED, MISTAKE
from logiccheck.cli.streams import prepare, tell

DEEP = 10_000  # calls within calls: a chain of some thousand rules or wires is followed to its end
FULL = {errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EFBIG}  # writing came to an end that is no fault of ours
COLLECT_AFTER = 400_000  # new objects; what a check builds stays in use, and looking through it finds little


def main(argv: list[str] | None = None) -> int:
    """Run one command; returns the exit status that `commands.EXIT` lists."""
    if argv is None:
        argv = sys.argv[1:]
    try:
        prepare()
        sys.setrecursionlimit(max(DEEP, sys.getrecursionlimit()))
        gc.set_threshold(COLLECT_AFTER)
        status = _run(argv)
        sys.stdout.flush()
    except KeyboardInterrupt:
        tell("\nInterrupted; nothing is reported.")
        return INTERRUPTED
    except RecursionError:
        tell("\nToo many things in the file lead into each other, one after the other; nothing is reported.")
        return INTERRUPTED
    except OutOfMemory:
        tell("\nThis needs more memory than it may hold, so nothing is reported; more: --memory MB")
        return INTERRUPTED
    except MemoryError:
        tell("\nThere is no memory left on this machine; nothing is reported.")
        return INTERRUPTED
    except BrokenPipeError:
        return _unread()
    except Exception as error:
        if isinstance(error, OSError) and error.errno in FULL:
            tell(f"Cannot write the report: {error.strerror}.")
            return _unread()
        from logiccheck.cli.ourbug import report

        return report(error, argv)
    return status


def _run(argv: list[str]) -> int:
    if not argv:
        parser().print_help()
        return MISTAKE
    try:
        arguments = parsed(argv)
    except SystemExit as end:  # help is printed, or what is wrong with the call
        return int(end.code or GOOD)
    command = import_module(f"logiccheck.cli.{arguments.module}")
    status: int = command.run(arguments)
    return status


def _unread() -> int:
    """Nobody takes our output any more; what was decided did not reach anybody, so this is no success."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return INTERRUPTED
