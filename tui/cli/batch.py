"""Many scenarios at once: on every core, written in the order given, resumed where an earlier run stopped.

A file that is wrong is reported and does not affect the others.
"""

from __future__ import annotations

import hashlib
import json
import multiprocessing
import signal
from collections import deque
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.comparison.compare import Comparison, compare
from engine.export.json import to_json
from tui.cli.formats import Request, all_hold, in_format
from tui.cli.output import internal_error
from tui.cli.read_options import scenario_at, scenario_path
from tui.model.exit_codes import Exit
from tui.storage import paths

MAX_PENDING = 64
"""Number of files in work or waiting to be written: it bounds the memory."""

MIN_FILES_FOR_PROCESSES = 4
"""Fewer files are done before further processes have started."""

LINE_START = b'{"file": '
"""The start of every line of JSON."""


@dataclass(frozen=True)
class Outcome:
    """The comparison of a file as written, or the problems found, a sentence each.

    `code` is DONE, WRONG_INPUT or INTERNAL_ERROR.
    """

    name: str
    content: bytes = b""
    holds: bool = True
    problems: tuple[str, ...] = ()
    code: Exit = Exit.DONE


def outcomes(names: Sequence[str], request: Request) -> Iterator[Outcome]:
    """The outcome of every file, in the order given, each as soon as it and those before it are done."""
    if len(names) < MIN_FILES_FOR_PROCESSES:
        yield from (outcome(name, request) for name in names)
        return
    left, waiting, workers = iter(names), deque[tuple[str, "Future[Outcome]"]](), _Workers(request)
    try:
        while True:
            waiting.extend((name, workers.submit(name)) for name in islice(left, MAX_PENDING - len(waiting)))
            if not waiting:
                return
            name, pending = waiting.popleft()
            try:
                yield pending.result()
            except BrokenProcessPool:
                yield _alone(name, request)
    finally:
        workers.close()


def outcome(name: str, request: Request) -> Outcome:
    """The outcome of one file; none of its errors reaches the others."""
    try:
        comparison = compare(scenario_at(name, request.changes), request.methods)
        return Outcome(name, _written(name, comparison, request), all_hold(comparison))
    except InputError as wrong:
        problems = tuple(f"{name}: {each}" if each.path != name else str(each) for each in wrong.problems)
        return Outcome(name, problems=problems, code=Exit.WRONG_INPUT)
    except Exception as failure:  # as in `main`: named so that it can be reported
        return _failed(name, internal_error(failure))


def not_done(names: Sequence[str], request: Request, log: Path) -> tuple[list[str], bool]:
    """The files without a comparison in the log, and whether every method holds in the comparisons it has.

    A file that has changed since, or is compared with other options, counts as not done.

    Raises:
        InputError: the log is another kind of file.
    """
    done, wanted = dict(_done(log)), [(name, _fingerprint(name, request)) for name in names]
    return [each[0] for each in wanted if each not in done], all(done.get(each, True) for each in wanted)


def _done(log: Path) -> Iterator[tuple[tuple[str, str], bool]]:
    """Every file in the log with the fingerprint of its inputs, and whether every method holds."""
    for number, line in enumerate(paths.lines(log), 1):
        if not line.endswith(b"\n") and line[: len(LINE_START)] == LINE_START[: len(line)]:
            return  # half a line of a run that was killed: `atomic_write.growing` cuts it off
        try:
            record = json.loads(line)
            holds = all(method["status"] == "holds" for method in record["methods"])
            yield (str(record["file"]), str(record["inputs"])), holds
        except (ValueError, TypeError, KeyError, RecursionError):
            sentence = f"line {number} is no comparison of several files; nothing was added to it, give another path"
            raise InputError([Problem(str(log), sentence)]) from None


def _fingerprint(name: str, request: Request) -> str:
    """A hash of everything that decides the figures: the file's text, the changes, the methods, the version."""
    try:
        text = paths.read_text(scenario_path(name))
    except InputError:
        return ""
    decisive = repr((text, request.changes, request.methods, request.stamp.version))
    return hashlib.sha256(decisive.encode(errors="replace")).hexdigest()[:16]


def _written(name: str, comparison: Comparison, request: Request) -> bytes:
    if request.format == "json":
        source = {"file": name, "inputs": _fingerprint(name, request)}
        return (to_json(comparison, request.stamp, source, indent=None) + "\n").encode(errors="replace")
    content = in_format(comparison, request)
    return content if isinstance(content, bytes) else content.encode(errors="replace")


class _Workers:
    """A process on every core, replaced if one of them is ended from outside."""

    def __init__(self, request: Request, count: int | None = None) -> None:
        self._request, self._count = request, count
        self._pool = self._started()

    def _started(self) -> ProcessPoolExecutor:
        return ProcessPoolExecutor(
            self._count, multiprocessing.get_context("spawn"), signal.signal, (signal.SIGINT, signal.SIG_IGN)
        )

    def submit(self, name: str) -> Future[Outcome]:
        try:
            return self._pool.submit(outcome, name, self._request)
        except BrokenProcessPool:
            self._pool = self._started()
            return self._pool.submit(outcome, name, self._request)

    def close(self) -> None:
        self._pool.shutdown(cancel_futures=True)


def _alone(name: str, request: Request) -> Outcome:
    """A second try of a file in a process of its own, after a process died that worked on it or on another."""
    worker = _Workers(request, count=1)
    try:
        return worker.submit(name).result()
    except BrokenProcessPool:
        return _failed(name, "the process that worked on it was ended from outside, or ran out of memory")
    finally:
        worker.close()


def _failed(name: str, sentence: str) -> Outcome:
    return Outcome(name, problems=(f"{name}: {sentence}",), code=Exit.INTERNAL_ERROR)
