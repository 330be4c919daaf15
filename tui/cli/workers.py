"""Processes that work side by side, a task each at a time. They end when this process ends, however it ends."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from typing import Any, Generic, TypeVar

from tui.model.ending_signals import held_back

Task = TypeVar("Task")
Answer = TypeVar("Answer")

MAX_PROCESSES = 60
"""Windows waits for no more than 63 connections at once."""


@contextmanager
def workers(work: Callable[[Task], Answer], count: int) -> Iterator[Workers[Task, Answer]]:
    """Processes that do `work`, no more than `count` and than there are cores; at the end none is left."""
    started = Workers(work)
    try:
        started.start(min(count, _cores(), MAX_PROCESSES))
        yield started
    finally:
        started.kill()


class Workers(Generic[Task, Answer]):
    """Processes that are given tasks and give answers; one that dies is replaced."""

    def __init__(self, work: Callable[[Task], Answer]) -> None:
        self._work = work
        self._idle: list[_Worker] = []
        self._busy: dict[Any, tuple[_Worker, Task]] = {}  # by connection

    def start(self, count: int) -> None:
        """Start further processes; they import what the work needs while this one goes on."""
        for _ in range(count):
            if os.name == "posix":  # there `multiprocessing` needs it, and lets signals through as it starts it
                resource_tracker.ensure_running()
            with held_back():
                self._idle.append(_Worker.started(self._work))

    def kill(self) -> None:
        """End every process, whatever it is doing."""
        with held_back():
            everyone = [*self._idle, *(worker for worker, _ in self._busy.values())]
            for worker in everyone:
                worker.process.kill()
            for worker in everyone:
                worker.process.join()

    @property
    def are_idle(self) -> bool:
        """True if a process waits for a task."""
        return bool(self._idle)

    @property
    def are_busy(self) -> bool:
        """True if a process has a task."""
        return bool(self._busy)

    def give(self, task: Task) -> None:
        """Give a task to a process that waits for one."""
        worker = self._idle.pop()
        self._busy[worker.connection] = worker, task
        with suppress(OSError):  # it has died: `answers` says so
            worker.connection.send(task)

    def answers(self) -> list[tuple[Task, Answer | None]]:
        """Tasks and their answers, once there is one at least; no answer of a process that died of its task."""
        return [self._answer(connection) for connection in wait(list(self._busy))]

    def _answer(self, connection: Any) -> tuple[Task, Answer | None]:
        worker, task = self._busy.pop(connection)
        try:
            answer: Answer = connection.recv()
        except (EOFError, OSError):
            self.start(1)
            return task, None
        self._idle.append(worker)
        return task, answer


@dataclass(frozen=True, eq=False)
class _Worker:
    """A process, and the connection to it."""

    process: BaseProcess
    connection: Connection

    @classmethod
    def started(cls, work: Callable[[Any], Any]) -> _Worker:
        context = multiprocessing.get_context("spawn")
        connection, its_end = context.Pipe()
        process = context.Process(target=_serve, args=(its_end,), daemon=True)
        process.start()
        its_end.close()
        with suppress(OSError):  # it has died already
            connection.send(work)
        return cls(process, connection)


def _serve(connection: Connection) -> None:
    """Receive the work, then answer task after task, until the process that gives them is gone."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # on Windows, which holds back no signal
    threading.Thread(target=_end_with_parent, daemon=True).start()
    with suppress(EOFError, OSError):
        work = connection.recv()
        while True:
            connection.send(work(connection.recv()))


def _end_with_parent() -> None:
    """End this process in the middle of its work when its parent is gone, even if that was killed."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
    os._exit(1)


def _cores() -> int:
    """The number of cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
