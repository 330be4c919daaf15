"""The fewest attachments found, against every pattern there is: exhaustive search on small arrays is the outside check."""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from engine.design.design import Design, design, prepare
from engine.design.search import MOST_ADDED
from engine.design.trial import Stage
from engine.mounting.interface import Refusal
from support import scenario_of

HATCH = [{"at": ["47 ft", "21 ft"], "size": ["3 ft", "3 ft"], "name": "roof hatch"}]
L_SHAPE = [{"at": ["52 ft", "20 ft"], "size": ["12 ft", "12 ft"], "name": "unit"}]
SMALL: dict[str, Any] = {"array__columns": 4, "array__rows": 3, "array__height_above_roof": "5 in"}

ARRAYS: dict[str, dict[str, Any]] = {
    "middle": SMALL,
    "corner": {**SMALL, "array__origin": ["3 ft", "3 ft"]},
    "eave": {**SMALL, "array__rows": 2, "array__columns": 6, "array__origin": ["40 ft", "3 ft"]},
    "two rows across zones": {**SMALL, "array__rows": 2, "array__columns": 7, "array__origin": ["6 ft", "12 ft"]},
    "round a hatch": {**SMALL, "array__keep_clear": HATCH},
    "L-shape": {**SMALL, "array__keep_clear": L_SHAPE},
}
CLIPS = ("380 lb", "450 lb")


def every_pattern(stage: Stage) -> int | None:
    """The fewest points of all patterns that hold, each strip at each spacing; None where none does."""
    spacings = stage.method.sparsest(stage.job, stage.field)[-6:] if stage.method.spans else stage.method.sparsest(stage.job, stage.field)
    layouts = {
        (*combined, len(layout.points)): layout
        for combined in product(spacings, repeat=len(stage.strips.names))
        if not isinstance(layout := stage.lay(replace(stage.strips, spacings=combined), stage.field.minimum_points), Refusal)
        and (layout.pattern.even or layout.added <= MOST_ADDED * len(layout.points))
    }
    for layout in sorted(layouts.values(), key=lambda layout: len(layout.points)):
        if stage.attempt(layout).holds:
            return len(layout.points)
    return None


CASES = [
    (array, clip, method)
    for array in ARRAYS
    for clip in CLIPS
    for method in ("rail", "tilted_rack", "direct")
    if (array, method) not in {("corner", "tilted_rack"), ("eave", "tilted_rack")}
]


@pytest.mark.parametrize(("array", "clip", "method"), CASES)
def test_no_pattern_needs_fewer(array: str, clip: str, method: str) -> None:
    scenario = scenario_of(site__wind_speed="115 mph", roof__fastening__uplift={"allowable": clip}, **ARRAYS[array])
    (chosen,) = scenario.methods_named((method,))
    stage = prepare(scenario.job, chosen, scenario.standard)
    assert isinstance(stage, Stage)
    found = design(scenario.job, chosen, scenario.standard)
    assert isinstance(found, Design)
    fewest = every_pattern(stage)
    if fewest is None:
        assert found.status != "holds" or found.remedied or any(spacing % 1 for spacing in found.layout.pattern.spacings)
    else:
        assert found.status == "holds"
        assert len(found.layout.points) <= fewest  # fewer where two of every three ribs, which are not among these patterns, do
