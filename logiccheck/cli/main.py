"""The way in: one call of `logiccheck` from its arguments to its exit status, and never a traceback."""

from __future__ import annotations

import errno
import sys
from importlib import import_module

from logiccheck.cli.commands import parsed, parser
from logiccheck.cli.status import INTERRUPTED, MISTAKE
from logiccheck.cli.streams import prepare

FULL = {errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EFBIG}  # writing came to an end that is no fault of ours


def main(argv: list[str] | None = None) -> int:
    """Run one command; returns the exit status that `commands.EXIT` lists."""
    prepare()
    if argv is None:
        argv = sys.argv[1:]
    try:
        status = _run(argv)
        sys.stdout.flush()
    except KeyboardInterrupt:
        sys.stderr.write("\nInterrupted; nothing is reported.\n")
        return INTERRUPTED
    except MemoryError:
        sys.stderr.write("\nThere is no memory left on this machine; nothing is reported.\n")
        return INTERRUPTED
    except BrokenPipeError:
        return _unread()
    except Exception as error:
        if isinstance(error, OSError) and error.errno in FULL:
            sys.stderr.write(f"Cannot write the report: {error.strerror}.\n")
            return _unread()
        from logiccheck.cli.ourbug import report

        return report(error, argv)
    return status


def _run(argv: list[str]) -> int:
    if not argv:
        parser().print_help()
        return MISTAKE
    arguments = parsed(argv)
    command = import_module(f"logiccheck.cli.{arguments.module}")
    status: int = command.run(arguments)
    return status


def _unread() -> int:
    """Nobody takes our output any more; what was decided did not reach anybody, so this is no success."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return INTERRUPTED
