"""Mutation testing, from a seed: `.venv/bin/python tests/mutants.py [--sample 1000] [--seed 1] [--only engine/strength] [--seconds 20]`.

One small fault at a time is put into the engine, and some test that runs its line must fail. What survives is printed: a test is
missing, or code that nothing needs. Which faults count stands in `tests/faults.py`. A fork of this process, with everything imported, holds each.
"""

from __future__ import annotations

import argparse
import cProfile
import gc
import os
import pickle
import random
import signal
import sys
import tempfile
import time
import warnings
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from importlib.machinery import SourceFileLoader
from itertools import accumulate
from pathlib import Path
from types import CodeType, FunctionType

import pytest
from hypothesis import settings

from faults import ROOT, Mutant, mutants_of

TESTS = [f"tests/{room}" for room in ("engine", "validation", "invariants", "export", "scenarios")]
"""The tests of screens take too long to be tried on every fault."""
ENGINE = str(ROOT / "engine")
TRACE = ROOT / ".pytest_cache" / "mutants.pickle"
OPTIONS = [
    "-q",
    "-s",
    "-p",
    "no:cacheprovider",
    "-p",
    "no:xdist",
    "-p",
    "no:textual-snapshot",
    "-W",
    "ignore::pytest.PytestAssertRewriteWarning",
]


def drawn(mutants: list[list[Mutant]], sample: int, seed: int) -> list[Mutant]:
    """A sample in which each file has its share."""
    chance = random.Random(seed)
    shuffled = [mutant for file in mutants for mutant in chance.sample(file, len(file))]
    step = max(1.0, len(shuffled) / sample)
    start = chance.uniform(0, step)
    return [shuffled[int(start + number * step)] for number in range(min(sample, len(shuffled)))] if step > 1 else shuffled


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
        self.kills: Counter[str | tuple[Path, str]] = Counter()  # by test, and by file and test
        self.costs: dict[str, float] = {}
        self.tests: defaultdict[str, defaultdict[str, set[str]]] = defaultdict(lambda: defaultdict(set))  # by file and function
        self.functions: defaultdict[tuple[str, str], list[FunctionType]] = defaultdict(list)  # by file and name

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of running the tests once."""
        self.items = {item.nodeid: item for item in session.items}
        for found in gc.get_objects():
            if isinstance(found, FunctionType):
                self.functions[found.__code__.co_filename, found.__code__.co_qualname].append(found)
        gc.freeze()  # collecting garbage in a fork then copies no memory
        for test, (seconds, functions) in self.traced().items():
            self.costs[test] = seconds
            for file, function in functions:
                self.tests[file][function].add(test)
        for number, mutant in enumerate(self.mutants, 1):
            if killer := self.killer(mutant):
                self.kills[killer] += 1
                self.kills[mutant.path, killer] += 1
            else:
                self.survivors.append(mutant)
                print(mutant, flush=True)
            if number % 50 == 0:
                print(f"{number} of {len(self.mutants)} tried, {len(self.survivors)} survived", flush=True)
        return True

    def traced(self) -> dict[str, tuple[float, set[tuple[str, str]]]]:
        """For each test its seconds and the functions it runs; what is known of tests whose file is unchanged is kept."""
        taken = TRACE.stat().st_mtime if TRACE.exists() else 0.0
        known = pickle.loads(TRACE.read_bytes()) if taken else {}
        for test, item in self.items.items():
            if test not in known or item.path.stat().st_mtime > taken:
                known[test] = pickle.loads(forked(lambda item=item: self.trace(item), limit=600))
                if known[test] is None:
                    sys.exit(f"{test} fails without any fault")
        TRACE.parent.mkdir(exist_ok=True)
        TRACE.write_bytes(pickle.dumps(known))
        return {test: known[test] for test in self.items}

    def trace(self, item: pytest.Item) -> bytes:
        """One test's seconds, and the functions it runs."""
        start, profile = time.process_time(), cProfile.Profile(builtins=False)
        profile.runcall(self.run, [item])
        codes = [entry.code for entry in profile.getstats() if isinstance(entry.code, CodeType)]
        functions = {(code.co_filename, code.co_qualname.split(".<locals>")[0]) for code in codes if code.co_filename.startswith(ENGINE)}
        return pickle.dumps(None if self.failure.test else (time.process_time() - start, functions))

    def run(self, items: list[pytest.Item]) -> None:
        """Run tests until one fails."""
        for item, following in zip(items, [*items[1:], None], strict=True):
            if not self.failure.test:
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)

    def killer(self, mutant: Mutant) -> str:
        """The test that fails with a fault, trying first those that did before, then a few of each file; nothing if the fault survives."""
        known = self.tests[str(mutant.path)]
        tests = known[mutant.function] or set().union(*known.values()) or set(self.costs)  # a table alone may serve anything
        rank, seen = {}, Counter[str]()
        for test in sorted(tests, key=lambda test: (self.costs[test], test)):
            file = test.split("::")[0]
            rank[test] = (-self.kills[mutant.path, test], -self.kills[test], seen[file], self.costs[test], test)
            seen[file] += 1
        order = sorted(tests, key=rank.__getitem__)
        spent = accumulate(self.costs[test] for test in order)
        order = [test for test, seconds in zip(order, spent, strict=True) if seconds < self.seconds]
        for batch in filter(None, (order[:6], order[6:])):
            limit = 20 + 3 * sum(self.costs[test] for test in batch)
            if killer := forked(lambda batch=batch: self.trial(mutant, batch), limit).decode():
                return killer
        return ""

    def trial(self, mutant: Mutant, tests: list[str]) -> bytes:
        """The test that fails with a fault in place."""
        if functions := self.functions[str(mutant.path), mutant.function]:
            made = {code.co_qualname: code for code in codes(compile(mutant.source, mutant.path, "exec"))}
            for function in functions:
                function.__code__ = made[mutant.function]
            self.run([self.items[test] for test in tests])
            return self.failure.test.encode()
        import_anew(mutant)
        status = pytest.main([*OPTIONS, "-x", *tests], plugins=[self.failure])
        broken = status not in (pytest.ExitCode.OK, pytest.ExitCode.INTERNAL_ERROR)
        return (self.failure.test or ("the import" if broken else "")).encode()


def codes(code: CodeType) -> Iterator[CodeType]:
    """A code and those inside it."""
    yield code
    for part in code.co_consts:
        if isinstance(part, CodeType):
            yield from codes(part)


def import_anew(mutant: Mutant) -> None:
    """Forget what was imported of ours; who imports it again gets the fault."""
    warnings.simplefilter("ignore")  # the pytest to come sets its own
    for name, module in list(sys.modules.items()):
        file = Path(getattr(module, "__file__", None) or "/")
        if name != "__main__" and file.is_relative_to(ROOT) and not file.is_relative_to(sys.prefix):
            del sys.modules[name]
    as_written = SourceFileLoader.get_code

    def get_code(loader: SourceFileLoader, name: str) -> CodeType | None:
        return compile(mutant.source, loader.path, "exec") if loader.path == str(mutant.path) else as_written(loader, name)

    SourceFileLoader.get_code = get_code  # type: ignore[method-assign]


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
    parser.add_argument("--seconds", type=float, default=20, help="of tests that a fault may be tried with")
    given = parser.parse_args()
    only = ROOT / given.only
    every = [list(mutants_of(path)) for path in ([only] if only.is_file() else sorted(only.rglob("*.py")))]
    mutants = drawn(every, given.sample, given.seed)
    settings.register_profile("mutants", database=None, derandomize=True, deadline=None)
    settings.load_profile("mutants")
    failure = Failure()
    trials = Trials(mutants, given.seconds, failure)
    pytest.main([*OPTIONS, *TESTS], plugins=[trials, failure])
    for room in sorted({mutant.room for mutant in mutants}):
        score(room, *[[mutant for mutant in some if mutant.room == room] for some in (mutants, trials.survivors)])
    print(f"{sum(map(len, every)):,} faults in all")
    score("tried", mutants, trials.survivors)
    score("of these other than a value dropped", *[[mutant for mutant in some if not mutant.drops] for some in (mutants, trials.survivors)])


if __name__ == "__main__":
    main()
