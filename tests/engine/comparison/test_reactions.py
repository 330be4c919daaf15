"""Reactions for the building's engineer: equilibrium case by case, line loads by hand, levels by edition."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.reactions import ACROSS, ALONG, NORMAL, Reactions, reactions
from engine.load_path.demands import Demands
from engine.units import FOOT, GRAVITY, PSF
from support import scenario_of

SLOPE = math.atan(1 / 12)
SHAKEN = {"site__seismic_sds": 0.4}


def found(method: str = "rail", name: str = "kestrel_yard", **changes: Any) -> tuple[Reactions, Demands]:
    (column,) = compare(scenario_of(name, **changes), (method,)).columns
    assert column.candidate
    return reactions(column.candidate.demands), column.candidate.demands


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_attachments_carry_the_weight_and_the_snow_of_the_modules(method: str) -> None:
    """Weight of the bill; 0.7 x 25 psf x 1.2 = 21 psf of snow on the horizontal area of flush modules."""
    told, used = found(method)
    weight = used.bill.mass * GRAVITY
    assert told.attachments["D", NORMAL].sum() == pytest.approx(weight * math.cos(SLOPE))
    assert told.attachments["D", ALONG].sum() == pytest.approx(weight * math.sin(SLOPE))
    if method != "tilted_rack":
        snow = 21 * PSF * used.field.covered * math.cos(SLOPE)
        assert told.attachments["S", NORMAL].sum() == pytest.approx(snow * math.cos(SLOPE))
        assert told.attachments["S", ALONG].sum() == pytest.approx(snow * math.sin(SLOPE))


def test_cases_are_unfactored_and_add_up_to_the_combinations() -> None:
    told, used = found()
    for number, combination in enumerate(used.combinations):
        total = sum(factor * told.attachments[case, NORMAL] for case, factor in combination.factors.items())
        np.testing.assert_allclose(total, used.on_attachments.normal_by_beams[:, number], atol=1e-6)


@pytest.mark.parametrize(
    ("method", "name"), [("rail", "kestrel_yard"), ("direct", "finch_shed"), ("direct", "heron_depot")]
)
def test_purlins_carry_what_the_attachments_carry(method: str, name: str) -> None:
    """In every load case the line loads times the extent are the reactions of all attachments."""
    told, used = found(method, name, **SHAKEN)
    here = told.purlins
    assert here
    for case, line_load in here.from_attachments.items():
        total = line_load.sum() * (here.end - here.start)
        assert total == pytest.approx(told.attachments[case, NORMAL].sum(), rel=1e-9, abs=1e-6)
    assert set(here.from_surface) == {*used.loads.snow_cases, *used.loads.wind_cases}


def test_the_roofs_own_snow_lies_beside_the_modules_by_hand() -> None:
    """17.5 psf on the extent of the array over the whole slope, less what modules cover; a purlin far below them 5 ft of it."""
    told, used = found("rail")
    here, at = told.purlins, used.layout.attachments
    assert here
    assert here.start / FOOT == pytest.approx(at.x.min() / FOOT - 1)
    assert here.end / FOOT == pytest.approx(at.x.max() / FOOT + 1)
    snow = 17.5 * PSF * math.cos(SLOPE) ** 2
    assert here.from_surface["S"][1] == pytest.approx(snow * 5 * FOOT)
    within = (used.roof.ribs > here.start) & (used.roof.ribs < here.end)
    free = (used.roof.area * (1 - used.roof.covered_fraction))[within].sum()
    assert here.from_surface["S"].sum() * (here.end - here.start) == pytest.approx(snow * free)


def test_an_earthquake_pulls_along_the_slope_and_across() -> None:
    """7-16 at the roof, ap 1, Rp 1.5: Fp = 0.4 x 3 SDS Wp / 1.5 = 0.8 SDS Wp each way; Ev = 0.2 SDS Wp (§13.3.1)."""
    told, used = found("direct", **SHAKEN)
    weight = used.bill.mass * GRAVITY
    assert told.attachments["E across", ACROSS].sum() == pytest.approx(0.8 * 0.4 * weight)
    assert told.attachments["E to eave", ALONG].sum() == pytest.approx(0.8 * 0.4 * weight * math.cos(SLOPE))
    assert told.attachments["Ev", NORMAL].sum() == pytest.approx(0.2 * 0.4 * weight * math.cos(SLOPE))
    assert ("D", ACROSS) not in told.attachments
    assert ("W up", ALONG) not in told.attachments


def test_on_a_deck_there_are_no_purlins() -> None:
    told, _ = found("rail", "sparrow_lane")
    assert (told.purlin, told.purlins) == (None, None)


def test_the_nearest_purlin_of_each_attachment() -> None:
    """Purlins at 1 ft, 6 ft, 11 ft ...: the nearest is at most half a bay away."""
    told, used = found("direct")
    assert told.purlin is not None
    y = used.layout.attachments.y / FOOT
    assert (np.abs(1 + 5 * (told.purlin - 1) - y) <= 2.5 + 1e-9).all()


@pytest.mark.parametrize(("edition", "snow"), [("ASCE 7-16", "service"), ("ASCE 7-22", "strength")])
def test_levels_by_edition(edition: str, snow: str) -> None:
    """7-16: ground snow at service level, wind at strength level; 7-22: both at strength level."""
    standard = scenario_of(site__standard=edition).standard
    assert [standard.level(case) for case in ("D", "S", "S unbalanced", "W up", "W down", "Ev", "E across")] == [
        "service", snow, snow, "strength", "strength", "strength", "strength",
    ]  # fmt: skip
