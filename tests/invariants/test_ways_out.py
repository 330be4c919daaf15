"""Every way out helps when it is applied, all over its tolerance; `tests/tools/ways_out.py` tries hundreds of jobs."""

from __future__ import annotations

import pytest
from hypothesis import assume, given

from engine.comparison.compare import compare
from engine.studies.ways_out import needs_way_out, ways_out
from support import SCENARIOS, scenario_of
from support.generated import JOBS, Changes, cases, comparison_of
from support.way_out_laws import complaints


@pytest.mark.parametrize("name", sorted(path.stem for path in SCENARIOS.glob("*.toml")))
def test_every_way_out_of_a_bundled_scenario_helps(name: str) -> None:
    comparison = compare(scenario_of(name))
    assert not list(complaints(comparison, ways_out(comparison)))


@cases(4)
@given(JOBS)
def test_every_way_out_of_a_generated_job_helps(job: tuple[str, Changes]) -> None:
    name, changes = job
    comparison = comparison_of(name, changes)
    assume(any(map(needs_way_out, comparison.columns)))
    assert not list(complaints(comparison, ways_out(comparison)))
