"""Ctrl-C: the first one ends the search and lets what was decided be reported, the second one quits at once."""

from __future__ import annotations

import _thread
import os
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType

from logiccheck.cli.status import INTERRUPTED

AGAIN_SECONDS = 0.02  # between two tries to end what cannot be ended just now
REPORTING = b"\nStopping; if anything is decided, it is reported. Ctrl-C again quits at once.\n"


class Interrupts:
    """The first Ctrl-C raises KeyboardInterrupt, but not while a module is being imported (it would stay half of one),
    and not after `hold`; the second ends the process. `word` is what the first one is answered with.
    """

    def __init__(self, word: bytes) -> None:
        self.seen = False
        self._word = word
        self._held = False
        self._waiting = False  # for the moment at which the first one can be raised

    def hold(self) -> None:
        """From now on the first Ctrl-C is only noted: what remains to be done, such as the report, is finished."""
        self._held = True

    def handle(self, number: int, frame: FrameType | None) -> None:
        if self.seen and not self._waiting:
            _end_helpers()
            os._exit(INTERRUPTED)
        if not self.seen:
            self.seen = True
            _say(self._word)
        self._waiting = False
        if self._held:
            return
        if _importing(frame):
            self._later()
            return
        raise KeyboardInterrupt

    def lost(self, unraisable: sys.UnraisableHookArgs) -> None:
        """It was raised in a destructor, and there it ends: it is raised again. What else destructors say is of no use
        once we are stopping."""
        if not self.seen:
            sys.__unraisablehook__(unraisable)
        elif issubclass(unraisable.exc_type, KeyboardInterrupt) and not self._held:
            self._later()

    def _later(self) -> None:
        def again() -> None:
            time.sleep(AGAIN_SECONDS)
            self._waiting = True
            _thread.interrupt_main()

        _thread.start_new_thread(again, ())


def _end_helpers() -> None:
    """The processes that share the work, if there are any."""
    shared = sys.modules.get("multiprocessing")
    for process in shared.active_children() if shared is not None else ():
        process.kill()


def _importing(frame: FrameType | None) -> bool:
    while frame is not None:
        if frame.f_code.co_filename.startswith("<frozen importlib"):
            return True
        frame = frame.f_back
    return False


def _say(word: bytes) -> None:
    """Past Python's stream, which may be in the middle of a line that it must not be asked to interrupt."""
    if sys.__stderr__ is not None:
        with suppress(OSError):
            os.write(2, word)


def ignore_interrupts() -> None:
    """All is said, the rest is Python's own end."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def first_interrupt_reports(word: bytes = REPORTING) -> Iterator[Interrupts]:
    """Inside, Ctrl-C does what `Interrupts` says."""
    interrupts = Interrupts(word)
    before = signal.signal(signal.SIGINT, interrupts.handle)
    hook, sys.unraisablehook = sys.unraisablehook, interrupts.lost
    try:
        yield interrupts
    finally:
        sys.unraisablehook = hook
        signal.signal(signal.SIGINT, before)
