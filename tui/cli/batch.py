"""Many scenarios at once: on every core, the largest first, resumed where an earlier run stopped.

A file that is wrong is reported and does not affect the others.
"""

from __future__ import annotations

import hashlib
import json
import math
import re
from collections.abc import Generator, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from heapq import heappop, heappush
from pathlib import Path

from engine.common.errors import InputError, Problem
from engine.comparison.building_comparison import Compared
from engine.scenario.shelf import Shelf
from tui.cli.formats import Request, all_hold, as_json, compared, in_format
from tui.cli.read_options import scenario_path, scenarios_of, shelves_in
from tui.cli.workers import Workers, workers
from tui.model.exit_codes import Exit
from tui.model.internal_error import internal_error
from tui.storage import paths

MAX_AHEAD = 1000
"""Number of files in work or waiting to be written: it bounds the memory."""

MIN_FILES_FOR_PROCESSES = 4
"""Fewer files are done before further processes have started, unless one is large."""

LARGE = 1000
"""Number of modules that takes seconds."""

ROWS_AND_COLUMNS = re.compile(r"\b(?:rows|columns)\s*=\s*(\d{1,4})\b")
"""The size of an array, as nearly every file writes it."""

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


def outcomes(names: Sequence[str], request: Request, *, in_order: bool = True) -> Generator[Outcome, None, None]:
    """The outcome of every file: in the order given, or else as soon as it is done. No name is given twice."""
    if len(names) < MIN_FILES_FOR_PROCESSES and all(_size(name) < LARGE for name in names):
        yield from (outcome(name, request) for name in names)
        return
    with workers(partial(outcome, request=request), len(names)) as processes:
        queue = _LargestFirst(names)
        done = _as_done(queue, processes)
        for each in _in_order(names, done) if in_order else done:
            queue.unwritten -= 1
            yield each


def outcome(name: str, request: Request) -> Outcome:
    """The outcome of one file; none of its errors reaches the others."""
    try:
        path = scenario_path(name)
        text = paths.read_text(path)
        comparison = compared(scenarios_of(text, path, request.changes, request.slope), request)
        return Outcome(name, _written(name, text, comparison, request), all_hold(comparison))
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
    done, wanted = dict(_done(log)), [(name, _file_fingerprint(name, request)) for name in names]
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


def _file_fingerprint(name: str, request: Request) -> str:
    """The fingerprint of a file; empty, as no line of a log has it, where the file cannot be read."""
    try:
        path = scenario_path(name)
        text = paths.read_text(path)
        return _fingerprint(text, request, shelves_in(text, path, request.changes))
    except InputError:
        return ""


def _fingerprint(text: str, request: Request, shelves: tuple[Shelf, ...]) -> str:
    """A hash of all that decides the figures: the file's text and shelves, the changes, the methods, the version."""
    asked = request.changes, request.slope, request.methods, request.ways, request.stamp.version
    decisive = repr((text, *shelves, *asked))
    return hashlib.sha256(decisive.encode(errors="replace")).hexdigest()[:16]


def _written(name: str, text: str, comparison: Compared, request: Request) -> bytes:
    if request.format == "json":
        shelves = shelves_in(text, scenario_path(name), request.changes)
        source = {"file": name, "inputs": _fingerprint(text, request, shelves)}
        return as_json(comparison, request, source, indent=None).encode(errors="replace")
    content = in_format(comparison, request)
    return content if isinstance(content, bytes) else content.encode(errors="replace")


class _LargestFirst:
    """Files in the order in which they are worked on: of the next `MAX_AHEAD` to be written, the largest first.

    A large one that is started last keeps one core busy while the others have nothing left to do.
    """

    def __init__(self, names: Sequence[str]) -> None:
        self._left = enumerate(names)
        self._next: list[tuple[int, int, str]] = []
        self.unwritten = 0

    def take(self) -> str | None:
        """The next file; None if there is none, or none before others are written."""
        while self.unwritten < MAX_AHEAD and (each := next(self._left, None)):
            self.unwritten += 1
            heappush(self._next, (-_size(each[1]), *each))
        return heappop(self._next)[-1] if self._next else None


def _size(name: str) -> int:
    """About how much work a file is: its modules; where none are found its bytes, so that it is not left to last."""
    try:
        path = scenario_path(name)
        text = paths.read_text(path) if path.is_file() else ""  # a pipe can be read only once
    except InputError:
        return 0
    found = ROWS_AND_COLUMNS.findall(text)
    return math.prod(map(int, found)) if len(found) == 2 else len(text)


def _as_done(queue: _LargestFirst, processes: Workers[str, Outcome]) -> Iterator[Outcome]:
    """Every outcome as soon as it is there.

    A file whose process died, perhaps of too little memory for all, is tried again with no other beside it.
    """
    died: list[str] = []
    while _hand_out(queue, processes) or died:
        if not processes.are_busy:
            yield _alone(died.pop(), processes)
            continue
        answers = processes.answers()
        _hand_out(queue, processes)  # nobody waits while outcomes are written
        for name, found in answers:
            if found is None:
                died.append(name)
            else:
                yield found


def _hand_out(queue: _LargestFirst, processes: Workers[str, Outcome]) -> bool:
    """Give a file to every process that waits for one; whether any is at work."""
    while processes.are_idle and (name := queue.take()) is not None:
        processes.give(name)
    return processes.are_busy


def _alone(name: str, processes: Workers[str, Outcome]) -> Outcome:
    processes.give(name)
    [(_, found)] = processes.answers()
    return found or _failed(name, "the process that worked on it was ended from outside, or ran out of memory")


def _in_order(names: Sequence[str], done: Iterator[Outcome]) -> Iterator[Outcome]:
    """Outcomes in the order of the names, each as soon as those before it are there."""
    early: dict[str, Outcome] = {}
    for name in names:
        while name not in early:
            each = next(done)
            early[each.name] = each
        yield early.pop(name)


def _failed(name: str, sentence: str) -> Outcome:
    return Outcome(name, problems=(f"{name}: {sentence}",), code=Exit.INTERNAL_ERROR)
