"""Loads on the roof itself, fastening by fastening: tributary areas, cover by modules, wind and snow; by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.design.design import Design
from engine.load_path.bare_roof import factors
from engine.load_path.roof_loads import RoofLoads
from support import scenario_of

FOOT, PSF = 0.3048, 47.880259
SIMPLE = {
    "array__rows": 2,
    "array__columns": 3,
    "array__origin": ["20 ft", "12 ft"],
    "methods__direct__spacing": "2 per edge",
    "site__ground_snow": "40 psf",
}


def state(**changes: object) -> tuple[Design, RoofLoads]:
    design = compare(scenario_of(**SIMPLE | changes), ("direct",)).columns[0].design
    assert design
    assert design.candidate
    return design, design.candidate.demands.roof


def test_tributary_areas_reach_half_way_to_the_neighbours() -> None:
    """Seams 2 ft apart from the rake, clips 5 ft apart from 1 ft on.

    Tributary areas are 10 ft² inside, half a strip at the rake, 3.5 ft at the eave.
    """
    _, roof = state()
    area = roof.area / FOOT**2
    assert area[5, 4] == pytest.approx(10.0)
    assert area[0, 4] == pytest.approx(5.0)
    assert area[5, 0] == pytest.approx(2 * 3.5)
    assert area[0, 0] == pytest.approx(3.5)
    slope = 55 / math.cos(math.atan(1 / 12))
    assert area.sum() == pytest.approx(220 * slope)


def test_covered_area_equals_the_area_of_the_modules() -> None:
    design, roof = state()
    assert (roof.covered_fraction * roof.area).sum() == pytest.approx(design.field.covered)
    assert roof.covered_fraction.min() == 0.0
    assert roof.covered_fraction.max() <= 1.0 + 1e-12
    assert roof.covered_fraction[0].max() == 0.0
    seam = round(25 / 2)  # 24 ft from the rake, under the first column
    at = design.field.outlines
    within = np.clip(at.high[0] / FOOT, 8.5, 13.5) - 12.0  # the clip at 11 ft holds the panel from 8.5 to 13.5 ft
    assert roof.covered_fraction[seam, 2] == pytest.approx(within / 5.0)


def test_snow_beside_modules_loads_clips_and_anchorage() -> None:
    """In D + S a clip beside modules carries 10 ft² x ps x cos² down.

    Each panel's anchorage carries ps x sin cos of that area.
    """
    design, roof = state()
    combination = next(
        number for number, each in enumerate(design.loads.combinations) if each.factors == {"D": 1.0, "S": 1.0}
    )
    slope = math.atan(1 / 12)
    ps = 0.7 * 40 * PSF
    bare = roof.area[5, 4] * ps * math.cos(slope) ** 2
    assert roof.without_array[5, 4, combination] == pytest.approx(bare)
    assert roof.surface_force[5, 4, combination] == pytest.approx(bare)
    seam = round(25 / 2)
    open_part = 1 - roof.covered_fraction[seam]
    np.testing.assert_allclose(
        roof.surface_force[seam, :, combination], roof.area[seam] * open_part * ps * math.cos(slope) ** 2
    )
    np.testing.assert_allclose(roof.without_array[seam, :, combination], roof.area[seam] * ps * math.cos(slope) ** 2)
    slides = (roof.area[seam] * open_part).sum() * ps * math.cos(slope) * math.sin(slope)
    own = 1.5 * PSF * roof.area[seam].sum() * math.sin(slope)
    assert roof.sheet_and_snow_sliding[seam, combination] == pytest.approx(slides + own)
    assert roof.in_plane_without_array[seam, combination] == pytest.approx(
        roof.area[seam].sum() * ps * math.cos(slope) * math.sin(slope) + own
    )


def test_seismic_force_includes_the_sheet() -> None:
    """SDS 1.0, 1:12: the sheet's 1.5 psf acts along the slope by sin, its part of Fp by cos, down or up the slope."""
    design, roof = state(site__seismic_sds=1.0, site__ground_snow="0 psf")
    slope, sheet = math.atan(1 / 12), 1.5 * PSF * roof.area[7].sum()
    cases = design.loads.weight_cases
    for number, each in enumerate(design.loads.combinations):
        down = sum(factor * cases[case].downward for case, factor in each.factors.items() if case in cases)
        toward = sum(factor * cases[case].toward_eave for case, factor in each.factors.items() if case in cases)
        assert roof.sheet_and_snow_sliding[7, number] == pytest.approx(
            sheet * (down * math.sin(slope) + toward * math.cos(slope))
        )
    assert (roof.sheet_and_snow_sliding[7] < 0).any()


def test_wind_beside_modules_is_unchanged_and_under_them_internal_only() -> None:
    """0.6D + 0.6W: 0.6 of the cladding's pressure beside modules; under modules GCpi alone, 0.18 of qh."""
    design, roof = state(site__ground_snow="0 psf")
    loads = design.loads
    combination = next(n for n, each in enumerate(loads.combinations) if each.factors == {"D": 0.6, "W up": 0.6})
    seam = round(25 / 2)
    under, area = roof.covered_fraction[seam], roof.area[seam]
    inside = loads.internal_pressure("W up")
    expected = roof.without_array[seam, :, combination] * (1 - under) + 0.6 * inside * under * area
    np.testing.assert_allclose(roof.surface_force[seam, :, combination], expected)
    np.testing.assert_allclose(roof.surface_force[5, :, combination], roof.without_array[5, :, combination])
    assert roof.without_array[5, 4, combination] < 0


def test_factors_of_a_case_in_every_combination() -> None:
    design, _ = state()
    factor_of = dict(
        zip((each.name for each in design.loads.combinations), factors(design.loads.combinations, "S"), strict=True)
    )
    assert factor_of["D + S"] == 1.0
    assert factor_of["0.6D + 0.6W up"] == 0.0


def test_drifts_of_the_array_load_the_roof_beside_it_and_not_the_roof_alone() -> None:
    """5 psf of snow, top 10 in: 8.7 psf at the array's edges (7-16 §7.8). A fastening partly under modules takes its
    free part at the largest pressure; the roof without the array has balanced snow."""
    thin = {"site__ground_snow": "5 psf", "array__height_above_roof": "10 in", "array__columns": 6, "array__rows": 5}
    design, roof = state(**thin)
    assert "S drift array" in design.loads.snow_cases
    numbers = {combination.name: n for n, combination in enumerate(design.loads.combinations)}
    drift, plain = numbers["D + S drift array"], numbers["D + S"]
    np.testing.assert_allclose(roof.without_array[..., drift], roof.without_array[..., plain])
    added = roof.surface_force[..., drift] - roof.surface_force[..., plain]
    free = roof.area * (1 - roof.covered_fraction) * math.cos(math.atan(1 / 12)) ** 2
    largest = 8.7 * PSF * free
    partly = (roof.covered_fraction > 1e-9) & (roof.covered_fraction < 0.9)  # not those under gaps between modules
    assert (added <= largest * 1.001 + 1e-9).all()
    assert (added > 0).any()
    np.testing.assert_allclose(added[partly], largest[partly], rtol=2e-3)
