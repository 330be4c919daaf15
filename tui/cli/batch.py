"""Many scenarios at once: on every core, written in the order given, a bad one by itself, and on from where it was left."""

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
from tui.cli.formats import Asked, all_hold, in_form, scenario_at, scenario_path
from tui.storage import paths

AHEAD = 64
"""So many files are worked on, or wait to be written, at a time: what bounds the memory."""

WORTH_THE_CORES = 4
"""Fewer files are done before further processes have started."""

BEGINNING = b'{"file": '
"""How every line of JSON begins."""


@dataclass(frozen=True)
class Outcome:
    """What became of a file: its comparison as written, or what is wrong, a sentence each."""

    name: str
    content: bytes = b""
    holds: bool = True
    problems: tuple[str, ...] = ()


def outcomes(names: Sequence[str], asked: Asked) -> Iterator[Outcome]:
    """What became of every file, in the order given, each as soon as it and those before it are done."""
    if len(names) < WORTH_THE_CORES:
        yield from (outcome(name, asked) for name in names)
        return
    left, waiting, cores = iter(names), deque[tuple[str, "Future[Outcome]"]](), _Cores(asked)
    try:
        while True:
            waiting.extend((name, cores.submit(name)) for name in islice(left, AHEAD - len(waiting)))
            if not waiting:
                return
            name, coming = waiting.popleft()
            try:
                yield coming.result()
            except BrokenProcessPool:
                yield _by_itself(name, asked)
    finally:
        cores.close()


def outcome(name: str, asked: Asked) -> Outcome:
    """What became of one file; nothing that is wrong with it reaches the others."""
    try:
        comparison = compare(scenario_at(name, asked.changes), asked.methods)
        return Outcome(name, _written(name, comparison, asked), all_hold(comparison))
    except InputError as wrong:
        return Outcome(
            name, problems=tuple(f"{name}: {each}" if each.path != name else str(each) for each in wrong.problems)
        )
    except Exception as failure:  # as in the command line: named so that it can be reported
        return _failed(name, f"loadpath failed on something nobody foresaw ({type(failure).__name__}: {failure})")


def not_done(names: Sequence[str], asked: Asked, log: Path) -> tuple[list[str], bool]:
    """The files of which the log has no comparison yet, and whether every method holds in those of which it has one.

    One that was changed since, or is asked otherwise, has none.

    Raises:
        InputError: something else stands in the log.
    """
    done, wanted = dict(_done(log)), [(name, _inputs(name, asked)) for name in names]
    return [each[0] for each in wanted if each not in done], all(done.get(each, True) for each in wanted)


def _done(log: Path) -> Iterator[tuple[tuple[str, str], bool]]:
    """Every file in the log with the fingerprint of its inputs, and whether every method holds."""
    for number, line in enumerate(paths.lines(log), 1):
        if not line.endswith(b"\n") and line[: len(BEGINNING)] == BEGINNING[: len(line)]:
            return  # half a line of a run that was killed: `writing.growing` cuts it off
        try:
            said = json.loads(line)
            holds = all(method["status"] == "holds" for method in said["methods"])
            yield (str(said["file"]), str(said["inputs"])), holds
        except (ValueError, TypeError, KeyError, RecursionError):
            sentence = f"line {number} is no comparison of several files; nothing was added to it, give another path"
            raise InputError([Problem(str(log), sentence)]) from None


def _inputs(name: str, asked: Asked) -> str:
    """A fingerprint of what decides the figures: the file's text, what is laid over it, the methods, the version."""
    try:
        text = paths.read_text(scenario_path(name))
    except InputError:
        return ""
    return hashlib.sha256(repr((text, asked.changes, asked.methods, asked.stamp.version)).encode()).hexdigest()[:16]


def _written(name: str, comparison: Comparison, asked: Asked) -> bytes:
    if asked.form == "json":
        line = to_json(comparison, asked.stamp, {"file": name, "inputs": _inputs(name, asked)}, indent=None) + "\n"
        return line.encode(errors="replace")
    made = in_form(comparison, asked)
    return made if isinstance(made, bytes) else made.encode(errors="replace")


class _Cores:
    """A process on every core, and new ones where one of them was ended from outside."""

    def __init__(self, asked: Asked, workers: int | None = None) -> None:
        self._asked, self._workers = asked, workers
        self._pool = self._started()

    def _started(self) -> ProcessPoolExecutor:
        return ProcessPoolExecutor(
            self._workers, multiprocessing.get_context("spawn"), signal.signal, (signal.SIGINT, signal.SIG_IGN)
        )

    def submit(self, name: str) -> Future[Outcome]:
        try:
            return self._pool.submit(outcome, name, self._asked)
        except BrokenProcessPool:
            self._pool = self._started()
            return self._pool.submit(outcome, name, self._asked)

    def close(self) -> None:
        self._pool.shutdown(cancel_futures=True)


def _by_itself(name: str, asked: Asked) -> Outcome:
    """A file once more, when a process died that worked on it or on another."""
    alone = _Cores(asked, workers=1)
    try:
        return alone.submit(name).result()
    except BrokenProcessPool:
        return _failed(name, "the process that worked on it was ended from outside, or ran out of memory")
    finally:
        alone.close()


def _failed(name: str, sentence: str) -> Outcome:
    return Outcome(name, problems=(f"{name}: {sentence}",))
