"""The process: `python -m logiccheck`, and the command `logiccheck`."""

from __future__ import annotations

import gc


def start() -> int:
    """Run the command line; from here on no Ctrl-C ends in a traceback. Returns the exit status."""
    try:
        from logiccheck.cli.interrupt import first_interrupt_reports, ignore_interrupts

        with first_interrupt_reports(b""):
            from logiccheck.cli.main import main

            status = main()
            ignore_interrupts()
        ignore_interrupts()
    except KeyboardInterrupt:
        return 3
    gc.freeze()  # else Python looks through all that was ever made, to free what ends with the process anyway
    return status


if __name__ == "__main__":
    raise SystemExit(start())
