"""Whether a method fits, and the smallest change with which it does: tried again step by step, without the search."""

from __future__ import annotations

from dataclasses import replace

import pytest

from engine.mounting.fitting import ArrayChange, refusal, smallest_cure
from engine.mounting.interface import Alternative, Miss, MountingMethod
from engine.project.job import Job
from engine.units import INCH
from support import SCENARIOS, scenario_of

ONE_COLUMN = {"array__columns": 1, "array__rows": 2}
NARROW_ZONE = {"module__clamp_zone": ["250 mm", "500 mm"], "methods__rail__runs": "up the slope"}
"""Ribs every 12 in: not every column of modules has one in each of its zones of 250 mm."""


def job_and_method(name: str, method: str, **changes: object) -> tuple[Job, MountingMethod]:
    scenario = scenario_of(name, **changes)
    return scenario.job, scenario.methods_named((method,))[0]


def with_change(job: Job, change: ArrayChange) -> Job:
    return replace(job, arrays=(change.of(job.arrays[0]), *job.arrays[1:]))


@pytest.mark.parametrize("name", sorted(path.stem for path in SCENARIOS.glob("*.toml")))
def test_a_method_that_is_compared_fits_and_has_no_cure(name: str) -> None:
    scenario = scenario_of(name)
    for method in scenario.methods:
        refused = refusal(scenario.job, method)
        assert refused is None or smallest_cure(scenario.job, method, 0, INCH)


def test_a_miss_is_the_way_to_the_nearest_one() -> None:
    assert Miss(2.0, 3.0, 3.5, up_slope=True).move == pytest.approx(0.5)
    assert Miss(2.0, 3.0, 1.75, up_slope=True).move == pytest.approx(-0.25)


def test_an_array_beyond_the_ridge_moves_toward_the_eave_by_the_whole_inches_it_is_beyond() -> None:
    job, method = job_and_method("sparrow_lane", "rail")
    beyond = ArrayChange(up=job.building.slope_length - float(method.place_modules(job).outlines.high.max()))
    too_high = with_change(job, replace(beyond, up=beyond.up + 2.5 * INCH))
    refused = refusal(too_high, method)
    assert refused is not None
    assert refused.miss is not None
    assert refused.miss.move == pytest.approx(-2.5 * INCH)
    assert smallest_cure(too_high, method, 0, INCH) == ArrayChange(up=pytest.approx(-3 * INCH))


def test_an_array_longer_than_the_roof_loses_columns() -> None:
    job, method = job_and_method("sparrow_lane", "rail")
    wide = with_change(job, ArrayChange(fewer_columns=-20))
    cure = smallest_cure(wide, method, 0, INCH)
    assert cure is not None
    assert cure.fewer_columns > 0
    assert refusal(with_change(wide, cure), method) is None
    assert refusal(with_change(wide, replace(cure, fewer_columns=cure.fewer_columns - 1)), method) is not None


@pytest.mark.parametrize("right", [0, 1, 3, 5, 8])
@pytest.mark.parametrize("size", [{}, ONE_COLUMN])
def test_no_shorter_move_brings_a_rib_into_each_clamp_zone(size: dict[str, object], right: int) -> None:
    """Every whole inch along the eave is tried, so that the search is not trusted. Else the rails are turned."""
    job, method = job_and_method("wren_workshop", "rail", **NARROW_ZONE, **size)
    job = with_change(job, ArrayChange(right=right * INCH))
    if refusal(job, method) is None:
        return
    cure = smallest_cure(job, method, 0, INCH)
    places = range(-12, 13)
    fitting = [at for at in places if refusal(with_change(job, ArrayChange(right=at * INCH)), method) is None]
    if fitting:
        assert isinstance(cure, ArrayChange)
        assert abs(cure.right) == pytest.approx(min(map(abs, fitting)) * INCH)
    else:
        assert isinstance(cure, Alternative)
        assert cure.options == {"runs": "along the eave"}
