"""Mutation testing, from a seed: one small fault at a time in the engine, and some test that runs its line must fail.

    .venv/bin/python tests/tools/mutants.py [--sample 1000] [--seed 1] [--only engine/strength] [--logic] [--seconds 20]

Survivors are printed: a test is missing, or code that nothing needs. `faults.py` says which faults count. A fork of
this process, with everything imported, holds each.
"""

from __future__ import annotations

import argparse
import gc
import os
import pickle
import random
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from collections.abc import Callable
from itertools import accumulate
from pathlib import Path
from types import FunctionType

import coverage
import pytest
from hypothesis import settings

from faults import ROOT, Mutant, codes, import_anew, mutants_of, put_in

TESTS = [f"tests/{room}" for room in ("engine", "validation", "invariants", "scenarios")]
"""The tests of screens take too long to be tried on every fault."""
ENGINE = str(ROOT / "engine")
TRACE = ROOT / ".pytest_cache" / "mutants.pickle"
OPTIONS = [
    "-q",
    "-s",
    "-pno:cacheprovider",
    "-pno:xdist",
    "-pno:textual-snapshot",
    "-Wignore::pytest.PytestAssertRewriteWarning",
]


def drawn(mutants: list[list[Mutant]], sample: int, seed: int) -> list[Mutant]:
    """A sample in which each file has its share."""
    chance = random.Random(seed)
    shuffled = [mutant for file in mutants for mutant in chance.sample(file, len(file))]
    count, start = min(sample, len(shuffled)), chance.random()
    return [shuffled[int((number + start) * len(shuffled) / count)] for number in range(count)]


class Failure:
    """A pytest plugin that keeps which test failed first."""

    test = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A part of a test is over."""
        if report.failed:
            self.test = self.test or report.nodeid


class Trials:
    """A pytest plugin: once everything is collected, forks run tests, each with a fault."""

    def __init__(self, mutants: list[Mutant], seconds: float, failure: Failure) -> None:
        self.mutants, self.seconds, self.failure = mutants, seconds, failure
        self.survivors: list[Mutant] = []
        self.kills: Counter[tuple[Path | str, str]] = Counter()  # by file and test, and by their folder and file
        self.traces: dict[
            str, tuple[float, set[tuple[str, str, int]]]
        ] = {}  # each test's seconds, and the lines it runs
        self.shares: dict[str, defaultdict[str, float]] = {}  # of the lines that each test runs, the part in each file
        self.tests: defaultdict[tuple[str, ...], set[str]] = defaultdict(
            set
        )  # by file, function and line in it, and by less
        self.functions: defaultdict[tuple[str, str], list[FunctionType]] = defaultdict(list)  # by file and name
        self.places: dict[tuple[str, int], tuple[str, str, int]] = {}  # a file's line as a function's line

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of running the tests once."""
        self.items = {item.nodeid: item for item in session.items}
        for found in gc.get_objects():
            if isinstance(found, FunctionType) and found.__code__.co_filename.startswith(ENGINE):
                file, name, first = (
                    found.__code__.co_filename,
                    found.__code__.co_qualname,
                    found.__code__.co_firstlineno,
                )
                self.functions[file, name].append(found)
                lines = [
                    line for code in codes(found.__code__) for *_, line in code.co_lines() if line and "<" not in name
                ]
                self.places |= {(file, line): (file, name, line - first) for line in lines}
        gc.freeze()  # collecting garbage in a fork then copies no memory
        self.take_traces()
        for test, (_, places) in self.traces.items():
            files = Counter(file for file, *_ in places)
            self.shares[test] = defaultdict(float, {file: lines / files.total() for file, lines in files.items()})
            for place in places:
                for known in (place, place[:2], place[:1]):
                    self.tests[known].add(test)
        for number, mutant in enumerate(self.mutants, 1):
            if killer := self.killer(mutant):
                self.kills[mutant.path, killer] += 1
                self.kills[mutant.room, killer.partition("::")[0]] += 1
            else:
                self.survivors.append(mutant)
                print(mutant, flush=True)
            if number % 50 == 0:
                print(f"{number} of {len(self.mutants)} tried, {len(self.survivors)} survived", flush=True)
        self.keep()
        return True

    def take_traces(self) -> None:
        """Run each test by itself; what is known of tests whose file is unchanged is kept."""
        taken = TRACE.stat().st_mtime if TRACE.exists() else 0.0
        if taken:
            known, self.kills = pickle.loads(TRACE.read_bytes())
            self.traces = {
                test: known[test]
                for test, item in self.items.items()
                if test in known and item.path.stat().st_mtime < taken
            }
        for test in self.items.keys() - self.traces.keys():
            self.traces[test] = pickle.loads(forked(lambda test=test: self.trace(self.items[test]), limit=600))
            if self.traces[test] is None:
                sys.exit(f"{test} fails without any fault")
        self.keep()

    def keep(self) -> None:
        """For the next time: which lines tests run, and which tests found faults."""
        TRACE.parent.mkdir(exist_ok=True)
        TRACE.write_bytes(pickle.dumps((self.traces, self.kills)))

    def trace(self, item: pytest.Item) -> bytes:
        """One test's seconds, and the lines it runs."""
        watch = coverage.Coverage(data_file=None, source=[ENGINE])
        watch.set_option("run:disable_warnings", ["no-data-collected"])
        start = time.process_time()
        with watch.collect():
            self.run([item])
        data = watch.get_data()
        lines = {(file, line) for file in data.measured_files() for line in data.lines(file) or ()}
        places = {self.places[line] for line in lines & self.places.keys()}
        return pickle.dumps(None if self.failure.test else (time.process_time() - start, places))

    def run(self, items: list[pytest.Item]) -> None:
        """Run tests until one fails."""
        for item, following in zip(items, [*items[1:], None], strict=True):
            if not self.failure.test:
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)

    def killer(self, mutant: Mutant) -> str:
        """The test that fails with a fault; nothing if the fault survives.

        First come tests that found faults in its file before, run little else or are named after it, and take
        little time.
        """
        file = str(mutant.path)
        tried = (self.places.get((file, mutant.line), ()), (file, mutant.function), (file,))
        tests = next(
            (self.tests[place] for place in tried if self.tests.get(place)), set(self.traces)
        )  # a table alone may serve any
        costs = {test: self.traces[test][0] for test in tests}
        words = mutant.path.relative_to(ROOT / "engine").with_suffix("").parts

        def worth(test: str) -> float:
            room, _, _ = test.partition("::")
            found = self.kills[mutant.path, test] + self.kills[mutant.room, room] / 10
            return (found + self.shares[test][file] + any(word in Path(room).stem for word in words)) / (
                costs[test] + 0.01
            )

        order = sorted(tests, key=lambda test: (-worth(test), test))
        spent = accumulate(costs[test] for test in order)
        order = [test for test, seconds in zip(order, spent, strict=True) if seconds < self.seconds]
        for batch in filter(None, (order[:6], order[6:])):
            limit = 20 + 3 * sum(costs[test] for test in batch)
            if killer := forked(lambda batch=batch: self.trial(mutant, batch), limit).decode():
                return killer
        return ""

    def trial(self, mutant: Mutant, tests: list[str]) -> bytes:
        """The test that fails with a fault in place."""
        place = str(mutant.path), mutant.function
        if place in self.tests and (
            functions := self.functions[place]
        ):  # what no test runs may have run as it was imported
            put_in(mutant, functions)
            self.run([self.items[test] for test in tests])
            return self.failure.test.encode()
        import_anew(mutant)
        status = pytest.main([*OPTIONS, "-x", *tests], plugins=[self.failure])
        broken = status not in (pytest.ExitCode.OK, pytest.ExitCode.INTERNAL_ERROR)
        return (self.failure.test or ("the import" if broken else "")).encode()


def forked(work: Callable[[], bytes], limit: float) -> bytes:
    """What a fork of this process answers within so many seconds of computing."""
    with tempfile.TemporaryFile() as answer:
        child = os.fork()
        if not child:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, 1)
            os.dup2(nowhere, 2)
            signal.setitimer(signal.ITIMER_PROF, limit)
            try:
                answer.write(work())
                answer.flush()
                os._exit(0)
            finally:
                os._exit(1)
        _, status = os.waitpid(child, 0)
        answer.seek(0)
        return b"an early end" if status else answer.read()


def score(name: str, tried: list[Mutant], survivors: list[Mutant]) -> None:
    """Say the share killed, and Wilson's interval, which holds the true share in 95 of 100 samples."""
    number, z = len(tried), 1.96
    share = 1 - len(survivors) / number
    middle, spread = share + z**2 / (2 * number), z * (share * (1 - share) / number + z**2 / (4 * number**2)) ** 0.5
    low, high = ((middle + sign * spread) / (1 + z**2 / number) for sign in (-1, 1))
    print(f"{name}: {number - len(survivors):,} of {number:,} killed, {share:.1%} ({low:.1%} to {high:.1%})")


def main() -> None:
    """Draw, try, and say the score."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--sample", type=int, default=1000, help="faults to try")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="engine", help="a folder or a file")
    parser.add_argument("--logic", action="store_true", help="only faults in figures, signs and conditions")
    parser.add_argument("--seconds", type=float, default=20, help="of tests that a fault may be tried with")
    parser.add_argument("--tests", nargs="+", default=TESTS, help="folders of the tests to try")
    given = parser.parse_args()
    only = ROOT / given.only
    every = [
        [mutant for mutant in mutants_of(path) if not (given.logic and mutant.drops)]
        for path in ([only] if only.is_file() else sorted(only.rglob("*.py")))
    ]
    mutants = drawn(every, given.sample, given.seed)
    settings.register_profile("mutants", database=None, derandomize=True, deadline=None)
    settings.load_profile("mutants")
    failure = Failure()
    trials = Trials(mutants, given.seconds, failure)
    pytest.main([*OPTIONS, *given.tests], plugins=[trials, failure])
    for room in sorted({mutant.room for mutant in mutants}):
        score(room, *[[mutant for mutant in some if mutant.room == room] for some in (mutants, trials.survivors)])
    print(f"{sum(map(len, every)):,} faults in all")
    score("tried", mutants, trials.survivors)
    score(
        "of these other than a value dropped",
        *[[mutant for mutant in some if not mutant.drops] for some in (mutants, trials.survivors)],
    )


if __name__ == "__main__":
    main()
