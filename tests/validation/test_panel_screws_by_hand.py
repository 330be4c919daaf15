"""By hand: Panel screws and brackets in uplift and along-slope shear at once, from the scenario to the utilisation shown.

A rib on two screws, so that equilibrium alone gives their loads, under one tilted row and a made-up standard whose
pressure stands in the scenario. In N and m.
"""

from __future__ import annotations

from math import atan, cos, radians, sin

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.links.attachment import ALONG_SLOPE, NORMAL_PART, attachment_ratios
from engine.links.unchecked import UP
from support import scenario_of
from support.published import verified

LONG, SHORT, GAP, AREA = 1.722, 1.134, 0.0127, 1.722 * 1.134
FOOT, POUND, GRAVITY = 0.3048, 0.45359237, 9.80665
INCH, POUND_FORCE = FOOT / 12, POUND * GRAVITY
THETA, TILT = atan(2 / 12), radians(10)
GUST = 1.5 * 1500
"""A gust of 1.5 kPa, half as much again near the eave [Pa]."""

SLOPE_LENGTH = 12 * FOOT / cos(THETA)
SCREWS = 0.5 * FOOT, SLOPE_LENGTH - 0.5 * FOOT
"""Both screws of each rib, 6 in from eave and high edge [m]."""

CHANGES = {
    "site": {"standard": "Made-up 1", "gust": "1.5 kPa"},
    "building__roof_shape": "monoslope",
    "building__width": "12 ft",
    "roof__support_spacing": "12 ft",
    "roof__fastening": {"uplift": {"allowable": "500 lb"}, "in_plane": {"allowable": "260 lb"}},
    "roof__panel__weight": "3 psf",
    "array__rows": 1,
    "array__columns": 2,
    "methods__tilted_rack": {"spacing": "11 ribs"},
}


def weight_of_a_module() -> float:
    """Half the weight of two modules on two frames: beams, clamps, legs, braces, and four brackets with 4 screws each."""
    beams = 2 * 1.1 * (2 * LONG + GAP) / FOOT
    pieces = 2 * 0.15 + 4 * 0.18 + 4 * 1.1 + 2 * 1.6 + 4 * 0.45 + 16 * 0.02 + 4 * 0.05
    return (2 * 21 + (beams + pieces) * POUND) / 2 * GRAVITY


def on_frames() -> tuple[float, float]:
    """Modules that the frames at 16 and 27 ft carry: the middle of both modules is LONG and half a gap from 16 ft."""
    second = 2 * (LONG + GAP / 2) / (11 * FOOT)
    return 2 - second, second


def screws_of_a_rib(modules: float, covered_width: float, leans: int) -> tuple[tuple[float, float], float]:
    """Uplift of the lower and the upper screw of a rib, and the shear of each, in 1.0D + 1.5W up.

    Wind that lifts modules pulls them to their low side: toward the eave (`leans` 1), as the weights do, or toward the
    ridge (-1), against them. Both act at the height of the modules' middle, and what pulls toward the eave lifts the
    upper screw. Wind on the bare sheet goes to screws by area; below modules only the inside pressure acts, a tenth of
    the gust.
    """
    lifted = modules * (1.5 * GUST * AREA * cos(TILT) - weight_of_a_module() * cos(THETA))
    slides = modules * (leans * 1.5 * GUST * AREA * sin(TILT) + weight_of_a_module() * sin(THETA))
    middle, height = 4 * FOOT + SHORT * cos(TILT) / 2, 6 * INCH + SHORT * sin(TILT) / 2
    upper = (lifted * (middle - SCREWS[0]) + slides * height) / (SCREWS[1] - SCREWS[0])
    top = 4 * FOOT + SHORT * cos(TILT)
    covered = [covered_width * length for length in (SLOPE_LENGTH / 2 - 4 * FOOT, top - SLOPE_LENGTH / 2)]
    on_sheet = [1.5 * (GUST * (FOOT * SLOPE_LENGTH / 2 - under) + 150 * under) for under in covered]
    sheet = 3 * POUND_FORCE / FOOT**2 * FOOT * SLOPE_LENGTH * sin(THETA)
    return (lifted - upper + on_sheet[0], upper + on_sheet[1]), abs(slides + sheet) / 2


@pytest.mark.parametrize(("low_side", "leans"), [("eave", 1), ("ridge", -1)])
def test_uplift_and_shear_of_a_screw_add_up(low_side: str, leans: int) -> None:
    """Ribs 17 and 28, at 16 and 27 ft: modules cover half a foot of the first's strip, 0.84 ft of the second's."""
    end = 2 * LONG + GAP - 10.5 * FOOT
    ribs = [screws_of_a_rib(*rib, leans) for rib in zip(on_frames(), (FOOT / 2, end), strict=True)]
    used, uplift, shear = max(
        (uplift / (500 / 1.25) + shear / (260 / 1.25), uplift, shear) for screws, shear in ribs for uplift in screws
    )
    scenario = scenario_of("wren_workshop", **CHANGES, methods__tilted_rack__low_side=low_side)
    (column,) = compare(scenario, ("tilted_rack",)).columns
    check = column.checks["roof_fastening"]
    assert check.combination == "1.0D + 1.5W up"
    up, along = check.parts
    assert verified("a panel screw's uplift", uplift, up.demand, "N") == pytest.approx(uplift, rel=1e-6)
    assert verified("its along-slope shear", shear, along.demand, "N") == pytest.approx(shear, rel=1e-6)
    used /= POUND_FORCE
    assert verified("its utilisation", used, check.utilisation) == pytest.approx(used, rel=1e-6)


@pytest.mark.parametrize(("low_side", "leans"), [("eave", 1), ("ridge", -1)])
def test_brackets_carry_what_pulls_toward_the_ridge_as_what_pulls_toward_the_eave(low_side: str, leans: int) -> None:
    """In 1.0D + 1.5W up all brackets together carry both modules' along-slope load, each a part of it, over its strength.

    Toward the ridge it is negative by its sign; a bracket's utilisation is then no smaller than its uplift alone gives.
    """
    along = 2 * (leans * 1.5 * GUST * AREA * sin(TILT) + weight_of_a_module() * sin(THETA))
    assert along * leans > 0
    scenario = scenario_of("wren_workshop", **CHANGES, methods__tilted_rack__low_side=low_side)
    (column,) = compare(scenario, ("tilted_rack",)).columns
    assert column.candidate
    ratios = attachment_ratios(column.candidate.demands, UP)
    part, last = ratios.parts[ALONG_SLOPE], -1
    carried = float(part.demand[:, last].sum())
    assert verified("along-slope load of all brackets", abs(along), carried, "N") == pytest.approx(abs(along), rel=1e-6)
    alone = ratios.parts[NORMAL_PART[UP]].utilisation[:, last]
    np.testing.assert_allclose(ratios.utilisation[:, last] - alone, part.demand[:, last] / part.resistance[last])
    assert (ratios.utilisation[:, last] > alone).all()
