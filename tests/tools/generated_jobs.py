"""Compare generated jobs as two checkouts compute them, or as one did before.

    .venv/bin/python tests/tools/generated_jobs.py draw 1000 jobs.json
    .venv/bin/python tests/tools/generated_jobs.py compute jobs.json CHECKOUT answers.jsonl
    .venv/bin/python tests/tools/generated_jobs.py compare before.jsonl after.jsonl

Every bundled scenario is among the jobs. `compute` goes on where it stopped. Numbers must agree to 1e-9 of their size;
words and places must be equal. Jobs that the reader refuses must be refused in both.
"""

from __future__ import annotations

import json
import subprocess
import sys
import warnings
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis.errors import HypothesisWarning

sys.path.append(str(Path(__file__).parents[1]))

from support import SCENARIOS
from support.generated import JOBS

RELATIVE_TOLERANCE = 1e-9

PROGRAM = """
import json, sys
sys.path[:0] = [sys.argv[1] + "/tests", sys.argv[1]]
from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.comparison.record import comparison_record
from support import scenario_of
for line in sys.stdin:
    name, changes = json.loads(line)
    try:
        answer = comparison_record(compare(scenario_of(name, **changes)))
    except InputError as error:
        answer = {"refused": str(error)}
    print(json.dumps(answer), flush=True)
"""


def draw(count: int) -> list[Any]:
    """Every bundled scenario as it stands, and generated jobs, the same ones each time."""
    drawn: list[Any] = [[path.stem, {}] for path in sorted(SCENARIOS.glob("*.toml"))]

    @seed(1)
    @settings(max_examples=count, phases=[Phase.generate], suppress_health_check=list(HealthCheck), deadline=None)
    @given(JOBS)
    def collect(job: Any) -> None:
        drawn.append(job)

    warnings.simplefilter("ignore", HypothesisWarning)
    collect()
    return drawn


def compute(jobs: list[Any], checkout: Path, answers: Path) -> None:
    """Append the answers that are still missing."""
    done = len(answers.read_text(encoding="utf-8").splitlines()) if answers.exists() else 0
    lines = "".join(f"{json.dumps(job)}\n" for job in jobs[done:])
    with answers.open("a", encoding="utf-8") as file:
        command = [sys.executable, "-c", PROGRAM, str(checkout.resolve())]
        subprocess.run(command, input=lines, text=True, stdout=file, check=True)


def differences(old: Any, new: Any, path: str) -> Iterator[str]:
    """Every value that is not the same, and where it is."""
    if isinstance(old, dict) and isinstance(new, dict) and old.keys() == new.keys():
        for key in old:
            yield from differences(old[key], new[key], f"{path}.{key}")
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for number, (one, other) in enumerate(zip(old, new, strict=True)):
            yield from differences(one, other, f"{path}[{number}]")
    elif isinstance(old, float) and isinstance(new, int | float):
        if abs(old - new) > RELATIVE_TOLERANCE * max(1.0, abs(old)):
            yield f"{path}: {old!r} became {new!r}"
    elif old != new:
        yield f"{path}: {old!r} became {new!r}"


def compare(before: Path, after: Path) -> int:
    """Print all differences; the number of jobs that differ."""
    pairs = zip(*(path.read_text(encoding="utf-8").splitlines() for path in (before, after)), strict=False)
    jobs = differing = 0
    for number, (old, new) in enumerate(pairs):
        found = list(differences(json.loads(old), json.loads(new), f"job {number}"))
        jobs, differing = jobs + 1, differing + bool(found)
        if found:
            print(*found[:6], f"  … {len(found)} in all" if len(found) > 6 else "", sep="\n")
    print(f"{jobs} jobs compared, {differing} differ")
    return differing


def main() -> int:
    """One of the three tasks; the exit code."""
    task, *arguments = sys.argv[1:]
    if task == "draw":
        Path(arguments[1]).write_text(json.dumps(draw(int(arguments[0]))), encoding="utf-8")
    elif task == "compute":
        compute(json.loads(Path(arguments[0]).read_text()), Path(arguments[1]), Path(arguments[2]))
    else:
        return 1 if compare(Path(arguments[0]), Path(arguments[1])) else 0
    return 0


if __name__ == "__main__":
    sys.exit(main())
