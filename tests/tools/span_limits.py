"""Laws of the span limits on thousands of generated jobs, from a seed.

    .venv/bin/python tests/tools/span_limits.py [CASES] [SEED]

A job that breaks one is printed with its changes.
"""

from __future__ import annotations

import sys
from pathlib import Path

from hypothesis import HealthCheck, given, seed, settings

sys.path.append(str(Path(__file__).parents[1]))

from support.generated import JOBS, Changes
from support.span_limit_laws import STRONGER, broken_laws


def check(cases: int, number: int) -> int:
    """Try the laws on generated jobs; the number of laws broken."""
    broken = 0

    @seed(number)
    @settings(max_examples=cases, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(JOBS, STRONGER)
    def each(job: tuple[str, Changes], change: tuple[str, object, object]) -> None:
        nonlocal broken
        for complaint in broken_laws(*job, change):
            broken += 1
            print(complaint, f"  {job} {change}", sep="\n", flush=True)

    each()
    print(f"{cases:,} jobs, {broken} laws broken")
    return broken


if __name__ == "__main__":
    given_arguments = [int(argument) for argument in sys.argv[1:]] + [5_000, 1][len(sys.argv) - 1 :]
    sys.exit(1 if check(*given_arguments) else 0)
