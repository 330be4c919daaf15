"""Attachments and the overhangs of the roof: none stands beyond a wall, unless the scenario allows it."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.units import FOOT
from support import scenario_of

OVERHANG = {"eave": "5 ft", "rake": "4 ft"}


def column(method: str, **changes: object) -> Column:
    return compare(scenario_of("magpie_annex", **changes), (method,)).columns[0]


def attachments(of: Column) -> tuple[np.ndarray, np.ndarray]:
    """Distances x and y of the attachments [ft]."""
    assert of.design
    at = of.design.layout.attachments
    return at.x / FOOT, at.y / FOOT


def test_rails_move_up_from_the_overhang_within_their_clamp_zone() -> None:
    """The wall stands 5 ft from the eave, 5.07 ft along the roof; the lowest clamp zone reaches from 4.32 to 5.14 ft."""
    changes = {"array__origin": ["12 ft", "3.5 ft"], "building__overhang__eave": "5 ft"}
    allowed = column("rail", **changes, building__overhang__attachments=True)
    assert attachments(allowed)[1].min() == pytest.approx(4.73, abs=0.01)
    assert attachments(column("rail", **changes))[1].min() == pytest.approx(5.069, abs=0.001)


def test_a_rail_that_begins_on_the_overhang_stands_on_the_first_seam_within_the_walls() -> None:
    rail = column("rail", array__origin=["1 ft", "6 ft"], building__overhang__rake="3.1 ft", roof__member=None)
    assert attachments(rail)[0].min() == pytest.approx(4.5)


@pytest.mark.parametrize("method", ["direct", "tilted_rack"])
def test_a_line_that_cannot_move_is_refused_with_its_distance_from_the_wall(method: str) -> None:
    """The lowest edge lies 3.5 ft from the eave, the wall 4.06 ft along the roof; modules on seams stand there too."""
    changes = {"building__overhang__eave": "4 ft", "array__origin": ["12 ft", "3.5 ft"]}
    refused = column(method, **changes)
    assert refused.status == "refused"
    text = refused.flags[0].text
    assert "lies on the roof's overhang, 6.66 in (169 mm) beyond the wall" in text
    assert "Move the array 6.66 in (169 mm) up the slope" in text
    assert column(method, **changes, building__overhang__attachments=True).status != "refused"


def test_rails_up_the_slope_begin_at_the_wall() -> None:
    changes = {
        "methods__rail__runs": "up the slope",
        "building__overhang__eave": "5 ft",
        "module__clamp_zone": ["100 mm", "800 mm"],
    }
    assert attachments(column("rail", **changes))[1].min() >= 5.06
    assert attachments(column("rail", **changes, building__overhang__attachments=True))[1].min() < 5
