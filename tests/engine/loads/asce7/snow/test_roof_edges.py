"""Drifts at parapets and beside higher roofs, and snow that slides off these: sides, fetches, cases, remarks."""

from __future__ import annotations

import numpy as np
import pytest
from standards_fields import building, field, loads, on_module, on_roof, site

from engine.common.calculation import CalculationStep
from engine.loads.asce7.field_loads import Asce7Loads
from engine.project.building import Building
from engine.units import PSF
from support import assert_told

EDITIONS = ("ASCE 7-16", "ASCE 7-22")
COSINE = np.cos(np.arctan(1 / 12))


def beside(side: str = "ridge", shape: str = "gable", **more: object) -> Building:
    higher = {"side": side, "height": "8 ft", "upwind_length": "60 ft", "slides_here": False, **more}
    return building(roof_shape=shape, higher_roofs=[higher])


def sliding(**more: object) -> Building:
    return beside(**{"slides_here": True, "slope": "4:12", "ridge_distance": "30 ft", **more})


def fetches(found: Asce7Loads, case: str) -> list[float]:
    return [
        step.terms["lu"].value for each in found.surcharges[case] for step in each.profile.steps if step.symbol == "hd"
    ]


def added(found: Asce7Loads, case: str, low: float, high: float) -> float:
    """Surcharge on bare roof 10 to 12 ft from the left rake [psf]."""
    return (on_roof(found, case, low, high) - on_roof(found, "S", low, high)) / PSF


def codes(found: Asce7Loads) -> dict[str, str]:
    return {remark.code: remark.text for remark in found.remarks}


def test_parapets_drift_on_all_sides_but_the_ridge() -> None:
    for shape, sides in (("gable", 3), ("monoslope", 4)):
        found = loads(of=building(parapet_height="3 ft", roof_shape=shape))
        assert len(found.surcharges["S drift parapet"]) == sides
        assert fetches(found, "S drift parapet")[0] == pytest.approx(120.0)
        assert "snow_drift_parapet" in codes(found)


def test_a_parapet_below_the_snow_is_silent() -> None:
    found = loads(of=building(parapet_height="1 ft"))
    assert "S drift parapet" not in found.snow_cases
    assert "snow_drift_parapet" not in codes(found)


def test_the_drift_at_the_eaves_parapet() -> None:
    """7-16, pg 25, lu 120: hd .43 x 120^(1/3) x 35^(1/4) - 1.5 = 3.659, h 2.744; hc 5 - 1.014: 47.3 psf over 10.98 ft.

    A strip from 0 to 1 ft of the eave, 0.9966 ft on plan, has 47.34 (1 - .4983/10.976). It is 10 ft from the left
    parapet, fetch 200 ft: hd 4.615, h 3.462, w 13.85 ft, 59.7 psf, mean at 11 ft 12.3. Together no more than the
    largest pressure at a point, 47.34.
    """
    found = loads(of=building(parapet_height="5 ft"))
    at_eave = 17.25 * 2.7442
    left = 17.25 * 3.4615 * (1 - 11 / 13.846)
    assert left == pytest.approx(12.27, abs=0.02)
    assert added(found, "S drift parapet", 0, 1) == pytest.approx(at_eave, abs=0.02)
    assert added(found, "S drift parapet", 20, 21) == pytest.approx(left, abs=0.02)


@pytest.mark.parametrize(
    ("side", "shape", "own"),
    [("eave", "gable", 120.0), ("ridge", "gable", 60.0), ("ridge", "monoslope", 120.0), ("left rake", "gable", 200.0)],
)
def test_fetches_of_leeward_and_windward_drifts(side: str, shape: str, own: float) -> None:
    """lu of the upper roof, and of our own; at the ridge's wall only our slope."""
    found = loads(site("ASCE 7-22"), beside(side, shape))
    assert fetches(found, "S drift lee") == pytest.approx([60.0])
    assert set(np.round(fetches(found, "S drift wind"), 6)) == {own}


def test_7_16_takes_the_larger_as_one_case_and_7_22_has_two() -> None:
    """7-16, pg 25: lee hd(60) 2.594 ft; wind .75 hd(200) = 3.462 ft at the rake, .75 hd(60) 1.946 at the ridge."""
    old, new = (loads(site(edition), beside()) for edition in EDITIONS)
    assert [case for case in old.snow_cases if "drift" in case] == ["S drift step"]
    assert [case for case in new.snow_cases if "drift" in case] == ["S drift lee", "S drift wind"]
    assert {"snow_drift_step"} <= set(codes(old))
    assert {"snow_drift_lee", "snow_drift_wind"} <= set(codes(new))
    from_wall = 60 - 59.9 * COSINE
    lee = 17.25 * 2.5944 * (1 - from_wall / (4 * 2.5944))
    assert added(old, "S drift step", 59.8, 60.0) == pytest.approx(lee, rel=1e-3)
    rake = loads(of=beside("left rake"))
    assert added(rake, "S drift step", 20, 21) == pytest.approx(17.25 * 3.4615 * (1 - 11 / 13.846), abs=0.02)


@pytest.mark.parametrize("edition", EDITIONS)
def test_each_side_drifts_from_its_own_edge(edition: str) -> None:
    places = {"eave": (0.5, 1.5), "ridge": (58.5, 59.5)}
    for side, other in (("eave", "ridge"), ("ridge", "eave")):
        found = loads(site(edition), beside(side))
        case = next(case for case in found.snow_cases if "drift" in case)
        assert added(found, case, *places[side]) > 20
        assert added(found, case, *places[other]) == 0


def test_only_what_reaches_this_roof_counts_over_a_gap() -> None:
    """Windward 7-22, 8 ft step, lu 60: the triangle less the 10 ft beside the roof."""
    near, far = (loads(site("ASCE 7-22"), beside(distance=distance)) for distance in ("0 ft", "10 ft"))
    (whole,), (cut,) = (found.surcharges["S drift wind"] for found in (near, far))
    assert (cut.profile.start, cut.gap) == pytest.approx((whole.profile.start, 10.0))
    assert 0 < added(far, "S drift wind", 59, 60) < added(near, "S drift wind", 59, 60)


@pytest.mark.parametrize("edition", EDITIONS)
def test_sliding_snow_lies_evenly_on_15_ft_below_the_higher_eave(edition: str) -> None:
    """pg 30, Ct 1.2: pf 25.2, W 30: 20.16 psf; to 15 ft on plan from the ridge's wall."""
    found = loads(site(edition, ground_snow="30 psf"), sliding())
    top = 60 / COSINE
    assert added(found, "S sliding", top - 14 / COSINE, top - 1) == pytest.approx(20.16, abs=0.001)
    assert added(found, "S sliding", top - 16 / COSINE, top - 14 / COSINE) == pytest.approx(10.08, abs=0.001)
    assert added(found, "S sliding", 1, 2) == 0
    assert codes(found)["snow_sliding"].startswith("snow sliding off the higher roof (§7.9) adds up to 20.2 psf")


@pytest.mark.parametrize(
    ("slope", "slippery", "expected"),
    [("0.25:12", True, False), ("0.26:12", True, True), ("2:12", False, False), ("2.1:12", False, True)],
)
def test_snow_slides_from_steeper_roofs_only(slope: str, slippery: bool, expected: bool) -> None:
    """§7.9: more than 1/4 on 12 if slippery, else more than 2 on 12."""
    assert ("S sliding" in loads(of=sliding(slope=slope, slippery=slippery)).snow_cases) == expected


def test_snow_that_slides_elsewhere_is_not_counted() -> None:
    assert "S sliding" not in loads(of=sliding(slides_here=False)).snow_cases


def test_sliding_snow_over_a_gap() -> None:
    """10 ft away: 5 of its 15 ft reach this roof, at the same pressure."""
    found = loads(site(ground_snow="30 psf"), sliding(distance="10 ft"))
    top = 60 / COSINE
    assert added(found, "S sliding", top - 4 / COSINE, top - 1) == pytest.approx(20.16, abs=0.001)
    assert added(found, "S sliding", top - 12, top - 6) == 0


def test_a_freezer_is_colder_than_the_least_of_the_higher_roof() -> None:
    """Ct 1.3 of our own roof is taken for the higher one too; else 1.2."""
    plain, cold = sliding(), sliding().model_copy(update={"thermal": "freezer"})
    one, other = (loads(of=roof).surcharges["S sliding"][0].profile.start for roof in (plain, cold))
    assert other / one == pytest.approx(1.3 / 1.2)


@pytest.mark.parametrize("edition", EDITIONS)
def test_modules_take_it_combinations_name_it_and_steps_can_be_evaluated_again(edition: str) -> None:
    found = loads(site(edition), sliding(), field(rows=2, at=(60.0, 52.0)))
    names = [combination.name for combination in found.combinations]
    for case in found.surcharges:
        assert on_module(found, case, 6) > on_module(found, "S", 6)
        assert (f"D + {case}" if edition == "ASCE 7-16" else f"D + 0.7{case}") in names
        steps = list[CalculationStep]()
        total = found.snow(case, np.array([6]), steps.append)[0]
        assert_told(steps)
        assert steps[-1].result.value * PSF == pytest.approx(total)


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_larger_higher_roof_never_brings_less(edition: str) -> None:
    modules, every = field(rows=2, at=(60.0, 52.0)), np.arange(12)

    def most(of: Building) -> np.ndarray:
        found = loads(site(edition), of, modules)
        return np.max([found.snow(case, every) for case in found.snow_cases], axis=0)

    plain = most(building())
    assert (most(beside()) >= plain).all()
    longer = [most(beside(upwind_length=f"{length} ft")) for length in (20, 60, 200)]
    wider = [most(sliding(ridge_distance=f"{run} ft")) for run in (10, 30, 60)]
    for few, many in (*zip(longer, longer[1:], strict=False), *zip(wider, wider[1:], strict=False)):
        assert (many >= few).all()
