"""By hand: Rails and rack beams bent along the slope, from the scenario to the utilisation shown.

Two modules on a 6:12 roof, on members that one span carries, under a made-up standard whose pressures stand in the
scenario. Forces, mass and moments by statics, in N and m.
"""

from __future__ import annotations

from math import atan, cos, radians, sin

import pytest

from engine.comparison.compare import compare
from support import scenario_of
from support.published import verified

LONG, SHORT, GAP, AREA = 1.722, 1.134, 0.0127, 1.722 * 1.134
THETA = atan(6 / 12)
POUND, FOOT, GRAVITY = 0.45359237, 0.3048, 9.80665
POUND_FOOT = POUND * GRAVITY * FOOT
STRONG, WEAK = 850 * POUND_FOOT / 1.25, 380 * POUND_FOOT / 1.25
"""Allowable moments of the placeholder section, over the standard's partial factor."""


def weight_of_a_module(length: float) -> float:
    """Half the weight of two modules of 21 kg on two bars of this length, with two middle and four end clamps."""
    bars = 2 * 1.1 * length / FOOT
    return (2 * 21 + (bars + 2 * 0.15 + 4 * 0.18) * POUND) / 2 * GRAVITY


def largest_moment(side: float, span: float) -> float:
    """Of a bar on two supports with an overhang, under 1 N at both sides of two modules, the first over a support [m]."""
    clamps = [0, side, side + GAP, 2 * side + GAP]
    reaction = sum(span - clamp for clamp in clamps) / span
    return max(abs(reaction * x - sum(max(x - clamp, 0) for clamp in clamps)) for x in [*clamps[:3], span])


def parts_shown(method: str, **changes: object) -> tuple[str, float, list[float]]:
    """Combination, utilisation and both moments of the member, as every screen and file shows them."""
    site = {"standard": "Made-up 1", "gust": "0.1 kPa"} | changes.pop("site")  # type: ignore[operator]
    scenario = scenario_of(site=site, building__slope="6:12", **changes)
    check = compare(scenario, (method,)).columns[0].checks["member"]
    assert [part.name for part in check.parts] == ["bending normal to the roof", "bending along the roof"]
    assert check.utilisation
    return check.combination, check.utilisation, [part.demand for part in check.parts]


def compared(name: str, normal: float, along: float, utilisation: float, moments: list[float]) -> None:
    assert verified(f"{name}, moment normal to the roof", normal, moments[0], "N m") == pytest.approx(normal, rel=1e-6)
    assert verified(f"{name}, moment along the roof", along, moments[1], "N m") == pytest.approx(along, rel=1e-6)
    used = normal / STRONG + along / WEAK
    assert verified(f"{name}, utilisation", used, utilisation) == pytest.approx(used, rel=1e-6)


def test_a_rail_under_snow() -> None:
    """1.35D + 1.5S, snow of 2 kPa. The rail spans 6 ft, 40 to 46 ft from the rake; each rail has half of each module.

    What slides acts 3 in above the attachments: the lower rail is pressed by that couple over the rails' distance.
    """
    wide = 2 * SHORT + GAP
    downward = 1.35 * weight_of_a_module(wide) + 1.5 * 2000 * AREA * cos(THETA)
    slides = downward * sin(THETA)
    on_clamp = (downward * cos(THETA) / 2 + slides * 3 * FOOT / 12 / (LONG - 2 * 0.375)) / 2
    moment = largest_moment(SHORT, 6 * FOOT)
    combination, *shown = parts_shown(
        "rail", site={"snow": "2 kPa"}, array__rows=2, array__columns=1, methods__rail__spacing="3 ribs"
    )
    assert combination == "1.35D + 1.5S"
    compared("rail on a slope", on_clamp * moment, slides / 4 * moment, *shown)


def test_a_rail_that_overhangs() -> None:
    """1.35D + 1.5S on the same rail attached every 2 ft, from 40 to 46 ft: it reaches 1.48 ft beyond the last seam.

    The clamp at its end bends it over that seam, about both axes against the sense of the span: moments count by size.
    """
    wide = 2 * SHORT + GAP
    downward = 1.35 * weight_of_a_module(wide) + 1.5 * 2000 * AREA * cos(THETA)
    slides = downward * sin(THETA)
    on_clamp = (downward * cos(THETA) / 2 + slides * 3 * FOOT / 12 / (LONG - 2 * 0.375)) / 2
    overhang = wide - 6 * FOOT
    _, *shown = parts_shown(
        "rail", site={"snow": "2 kPa"}, array__rows=2, array__columns=1, methods__rail__spacing="1 ribs"
    )
    compared("overhang on a slope", on_clamp * overhang, slides / 4 * overhang, *shown)


def test_a_rack_beam_lifted_by_wind() -> None:
    """1.0D + 1.5W up, a gust of 2 kPa normal to modules tilted by 10 deg; the beams span 10 ft, 40 to 50 ft from the rake.

    Wind from below pushes along the slope toward the eave, as the weight does: the two add up. Two beams share them.
    """
    tilt, weight = radians(10), weight_of_a_module(2 * LONG + GAP)
    lifted = 1.5 * 2000 * AREA * cos(tilt) - weight * cos(THETA)
    slides = 1.5 * 2000 * AREA * sin(tilt) + weight * sin(THETA)
    moment = largest_moment(LONG, 10 * FOOT) / 4
    combination, *shown = parts_shown(
        "tilted_rack", site={"gust": "2 kPa"}, array__rows=1, array__columns=2, methods__tilted_rack__spacing="5 ribs"
    )
    assert combination == "1.0D + 1.5W up"
    compared("rack beam on a slope", lifted * moment, slides * moment, *shown)
