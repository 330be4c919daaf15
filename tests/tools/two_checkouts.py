"""Time and memory of a comparison in two checkouts, in turn, so that a slow minute of the machine meets both.

    .venv/bin/python tests/tools/two_checkouts.py BEFORE AFTER [MODULES …]

Bundled scenarios, then arrays of these sizes. Nothing passes or fails.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator

SCENARIOS = ("kestrel_yard", "heron_depot", "swallow_cottage", "magpie_annex")
SIZES = {150: (6, 25), 1_000: (20, 50), 10_000: (100, 100)}
"""Modules → rows and columns."""
TURNS = 4
"""Turns of each checkout; the fastest of its runs counts, for the machine can only slow a run down."""

PROGRAM = """
import resource, sys, time
checkout, name, rows, columns = sys.argv[1:]
sys.path[:0] = [checkout + "/tests", checkout]
from engine.comparison.compare import compare
from support import scenario_of
size = {"array__rows": int(rows), "array__columns": int(columns)}
roof = {"building__length": f"{int(columns) * 7 + 90} ft", "building__width": f"{int(rows) * 18 + 90} ft"}
changes = size | roof if int(rows) else {}
if int(rows) * int(columns) < 1000:
    compare(scenario_of(name, **changes))
taken = []
for _ in range(5 if int(rows) * int(columns) < 1000 else 1):
    scenario = scenario_of(name, **changes)
    start = time.process_time()
    compare(scenario)
    taken.append(time.process_time() - start)
print(min(taken), resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def measured(checkout: str, name: str, rows: int, columns: int) -> tuple[float, float]:
    """Processor time [s] and peak memory [MB] of one comparison, in a process of its own."""
    command = [sys.executable, "-c", PROGRAM, checkout, name, str(rows), str(columns)]
    seconds, memory = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
    return float(seconds), float(memory)


def in_turn(checkouts: tuple[str, str], name: str, rows: int, columns: int) -> Iterator[tuple[float, float]]:
    """The least time and memory of each checkout."""
    turns = TURNS if rows * columns < 1_000 else 1
    found = [[measured(checkout, name, rows, columns) for checkout in checkouts] for _ in range(turns)]
    for of_checkout in zip(*found, strict=True):
        yield min(seconds for seconds, _ in of_checkout), min(memory for _, memory in of_checkout)


def main() -> None:
    """A row of a table for every scenario and size."""
    before, after, *sizes = sys.argv[1:]
    jobs = [(name, name, 0, 0) for name in SCENARIOS]
    jobs += [(f"{int(size):,} modules", "kestrel_yard", *SIZES[int(size)]) for size in sizes]
    print("| comparison | before | after | times as fast |", "|---|---:|---:|---:|", sep="\n")
    for title, name, rows, columns in jobs:
        (old, old_memory), (new, new_memory) = in_turn((before, after), name, rows, columns)
        cells = (
            f"{seconds * 1e3:,.0f} ms, {memory:,.0f} MB" for seconds, memory in ((old, old_memory), (new, new_memory))
        )
        print(f"| {title} | {' | '.join(cells)} | {old / new:.1f} |", flush=True)


if __name__ == "__main__":
    main()
