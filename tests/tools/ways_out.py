"""Apply every way out of hundreds of generated jobs; goes on where it stopped.

    .venv/bin/python tests/tools/ways_out.py 200 ways.jsonl

One line a job: how many ways of each kind, and what is wrong with them. Jobs that the reader refuses count too.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from pathlib import Path
from typing import Any

sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parent)]

from generated_jobs import draw

from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.studies.ways_out import ways_out
from support import scenario_of
from support.way_out_laws import complaints


def answer(name: str, changes: dict[str, Any]) -> dict[str, Any]:
    """The ways out of one job by kind, and the complaints about them."""
    try:
        comparison = compare(scenario_of(name, **changes))
    except InputError as refused:
        return {"refused": str(refused)}
    found = ways_out(comparison)
    kinds = Counter(way.kind for each in found for way in each.ways)
    return {"job": [name, changes], "ways": dict(kinds), "complaints": list(complaints(comparison, found))}


def main() -> int:
    """Try the jobs that are still missing; the exit code is 1 if there is a complaint."""
    count, log = int(sys.argv[1]), Path(sys.argv[2])
    done = log.read_text(encoding="utf-8").splitlines() if log.exists() else []
    with log.open("a", encoding="utf-8") as file:
        for name, changes in draw(count)[len(done) :]:
            file.write(json.dumps(answer(name, changes)) + "\n")
            file.flush()
    answers = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    bad = [each for each in answers if each.get("complaints")]
    print(*(json.dumps(each) for each in bad), sep="\n")
    total = sum((Counter(each.get("ways", {})) for each in answers), Counter[str]())
    print(f"{len(answers)} jobs, {dict(total)} ways out, {len(bad)} jobs with a complaint")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
