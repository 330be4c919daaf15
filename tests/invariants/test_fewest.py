"""Fewest attachments found by the search, against all patterns on small arrays, in the zones of ASCE 7.

Laid and checked by the engine; `test_fewest_by_own_layouts` lays and follows them by hand.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from engine.design.design import Design, design, prepare
from engine.design.search import MAX_ADDED_SHARE
from engine.design.trial import DesignContext
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


def every_pattern(context: DesignContext) -> int | None:
    """Fewest attachments of all patterns that hold, each strip at each spacing; None if none holds."""
    spacings = (
        context.method.candidate_spacings(context.job, context.field)[-6:]
        if context.method.spacing_is_span
        else context.method.candidate_spacings(context.job, context.field)
    )
    layouts = {
        (*combined, len(layout.attachments)): layout
        for combined in product(spacings, repeat=len(context.strips.names))
        if not isinstance(
            layout := context.lay_out(replace(context.strips, spacings=combined), context.field.minimum_attachments),
            Refusal,
        )
        and (layout.pattern.is_uniform or layout.added_attachments <= MAX_ADDED_SHARE * len(layout.attachments))
    }
    for layout in sorted(layouts.values(), key=lambda layout: len(layout.attachments)):
        if context.candidate(layout).holds:
            return len(layout.attachments)
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
    context = prepare(scenario.job, chosen, scenario.standard)
    assert isinstance(context, DesignContext)
    found = design(scenario.job, chosen, scenario.standard)
    assert isinstance(found, Design)
    fewest = every_pattern(context)
    if fewest is None:
        assert (
            found.status != "holds" or found.remedied or any(spacing % 1 for spacing in found.layout.pattern.spacings)
        )
    else:
        assert found.status == "holds"
        assert (
            len(found.layout.attachments) <= fewest
        )  # fewer if two of every three ribs suffice: these patterns are not in the exhaustive search
