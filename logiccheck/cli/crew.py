"""Processes that decide questions at the same time, each with its own copy of everything."""

from __future__ import annotations

import signal
import sys
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Literal, TypeAlias

from logiccheck.base.budget import memory_bound
from logiccheck.cli.memory import holds_more_than
from logiccheck.engine.decider import Asked, Decided, Decider

Start: TypeAlias = Literal["spawn", "forkserver"]  # the first is the same on every platform
Answer: TypeAlias = Decided | str  # what came of a question, or how the worker broke off


class WorkerBroke(Exception):
    """A mistake in this program, met by another process of ours; the text is its traceback."""


@dataclass(slots=True)
class _Worker:
    """`number`: the question it looks at."""

    process: BaseProcess
    answers: Connection
    number: int | None = None

    def give(self, number: int) -> None:
        """Where the process has ended already, that is found out when its answer does not come."""
        self.number = number
        with suppress(OSError):
            self.answers.send(number)


class Processes:
    """As many processes as `jobs`, each of which may hold so many megabytes; `progress` is called with the name of a
    question when one of them takes it."""

    def __init__(self, jobs: int, megabytes: float, progress: Callable[[str], None], start: Start = "spawn") -> None:
        self.jobs, self.megabytes, self.progress = jobs, megabytes, progress
        self._context = get_context("spawn") if start == "spawn" else get_context("forkserver")

    def begin(self, asked: Asked, names: list[str]) -> Iterator[tuple[int, Decided | None]]:
        """Start the processes; the answers as they come, None for the question of one that was ended from outside.

        Raises `WorkerBroke` where one of them meets a mistake of ours. Ends all of them when nobody asks any more.
        """
        workers = [self._worker(asked) for _ in names[: self.jobs]]
        return self._answers(workers, list(enumerate(names))[::-1])

    def _worker(self, asked: Asked) -> _Worker:
        here, there = self._context.Pipe()
        process = self._context.Process(target=_work, args=(there, asked, self.megabytes), daemon=True)
        with _deaf():
            process.start()
        there.close()
        return _Worker(process, here)

    def _answers(self, workers: list[_Worker], open_: list[tuple[int, str]]) -> Iterator[tuple[int, Decided | None]]:
        try:
            busy = [worker for worker in workers if self._next(worker, open_)]
            while busy:
                ready = wait([worker.answers for worker in busy])
                for worker in [worker for worker in busy if worker.answers in ready]:
                    assert worker.number is not None
                    yield worker.number, _received(worker)
                    if not worker.process.is_alive() or not self._next(worker, open_):
                        busy.remove(worker)
        finally:
            for worker in workers:
                worker.process.terminate()
                worker.process.join()
                worker.answers.close()

    def _next(self, worker: _Worker, open_: list[tuple[int, str]]) -> bool:
        """Give it the next question, if there is one."""
        if open_:
            number, name = open_.pop()
            self.progress(name)
            worker.give(number)
            return True
        return False


@contextmanager
def _deaf() -> Iterator[None]:
    """What is started inside hears nothing of Ctrl-C, from its first moment on; one that comes meanwhile comes here
    afterwards. (On Windows only from the begin of `_work` on.)"""
    if sys.platform == "win32":
        yield
        return
    from multiprocessing.resource_tracker import ensure_running  # its own start would let Ctrl-C through again

    ensure_running()
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _received(worker: _Worker) -> Decided | None:
    try:
        answer: Answer = worker.answers.recv()
    except (EOFError, OSError):
        worker.process.join()
        return None
    if isinstance(answer, str):
        raise WorkerBroke(answer)
    return answer


def _work(answers: Connection, asked: Asked, megabytes: float) -> None:
    """The whole life of a worker. Ctrl-C reaches it too, but only the process that started it has a say in that."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    with memory_bound(holds_more_than(megabytes)):
        try:
            decider = Decider(asked)
            while True:
                answers.send(decider.decide(answers.recv()))
        except (EOFError, MemoryError):  # the end of all questions; or of this process, and its question is lost
            return
        except Exception:
            answers.send(traceback.format_exc())
