"""ASCE 7 loads on a field: signs, floor, roof cladding, inside pressure, monotony, and steps that can be evaluated again."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from standards_fields import FLUSH, building, field, job, loads, site, strip

from engine.common.calculation import CalculationStep
from engine.loads import STANDARDS
from engine.loads.asce7.field_loads import Asce7Loads
from engine.loads.asce7.net_pressure import MIN_PRESSURE
from engine.loads.asce7.standard import Asce7
from engine.loads.en1991.standard import En1991
from engine.mounting.layout import Attitude, Rectangles
from engine.units import FOOT, PSF
from support import assert_told

ROW = Attitude(10.0, 0.5 * FOOT, 1.0 * FOOT, 3.0 * FOOT, 6.0 * FOOT)
EDITIONS = ("ASCE 7-16", "ASCE 7-22")


def psf(of: Asce7Loads, case: str, module: int, area: float) -> float:
    return float(of.wind(case, np.array([module]), np.array([area * FOOT**2]))[0] / PSF)


def inner(of: Asce7Loads) -> int:
    return int(np.flatnonzero(~of.exposed)[0])


LARGE = {"rows": 11, "columns": 9, "at": (70.0, 14.0)}


@pytest.mark.parametrize("edition", EDITIONS)
def test_flush_pressure_is_qh_gcp_gamma_e_gamma_a(edition: str) -> None:
    """Written out: Kz by formula, 115 mph, zone 1' and 1 at 30 ft²; Kd once, wherever the edition has it."""
    found = loads(site(edition), modules=field(**LARGE))
    factor, gradient, alpha = (2.01, 900, 9.5) if edition == "ASCE 7-16" else (2.41, 2460, 9.8)
    q = 0.00256 * factor * (20 / gradient) ** (2 / alpha) * 0.85 * 115**2
    part = (math.log10(30) - 1) / (math.log10(500) - 1)
    gcp = {"1'": -0.9, "1": -1.7 + 0.7 * part, "2": -2.3 + 0.9 * part}
    gamma_a = 1.2 - 0.4 * math.log10(30)
    for module in (0, inner(found)):
        zone = found.zone_names[found.zone[module]]
        expected = q * gcp[zone] * (1.5 if found.exposed[module] else 1.0) * gamma_a
        assert psf(found, "W up", module, 30) == pytest.approx(min(expected, -16.0))
    assert psf(found, "W up", 0, 30) < -16.0


def test_both_zones_of_modules_and_exposure_change_the_load() -> None:
    found = loads(modules=field(**LARGE))
    assert {found.zone_names[index] for index in np.unique(found.zone)} >= {"1'", "1"}
    assert psf(found, "W up", 0, 20) < psf(found, "W up", inner(found), 20) < 0


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("attitude", [FLUSH, ROW], ids=["flush", "tilted"])
def test_nothing_is_below_the_floor(edition: str, attitude: Attitude) -> None:
    """16 psf either way, at 60 mph in exposure B; a remark says where it governs."""
    found = loads(site(edition, wind_speed="60 mph", exposure="B"), modules=field(attitude=attitude))
    for module in (0, 9):
        assert psf(found, "W up", module, 400) == pytest.approx(-MIN_PRESSURE)
        assert psf(found, "W down", module, 400) == pytest.approx(MIN_PRESSURE)
    texts = {remark.code: remark.text for remark in found.remarks}
    assert texts["floor_w_down"] == "the 16.0 psf (0.766 kPa) minimum wind governs down load on all 24 modules"


def test_floor_is_not_mentioned_where_it_does_not_govern() -> None:
    found = loads(site(wind_speed="250 mph"), modules=field(attitude=ROW))
    assert not [remark for remark in found.remarks if remark.code.startswith("floor")]


def test_tilted_pressure_is_alike_both_ways_but_for_exposed_edges() -> None:
    found = loads(site(wind_speed="200 mph"), modules=field(**LARGE, attitude=ROW))
    module = inner(found)
    assert psf(found, "W up", module, 20) == pytest.approx(-psf(found, "W down", module, 20))
    assert psf(found, "W up", 0, 20) == pytest.approx(-1.5 * psf(found, "W down", 0, 20))


def rectangle(x: float, y: float, dx: float, dy: float) -> Rectangles:
    return Rectangles(*(np.array([value * FOOT]) for value in (x, y, x + dx, y + dy)))


@pytest.mark.parametrize(("enclosure", "inside"), [("enclosed", 0.18), ("partially enclosed", 0.55)])
@pytest.mark.parametrize("edition", EDITIONS)
def test_bare_roof(edition: str, enclosure: str, inside: float) -> None:
    """10 ft² in the corner: -(3.2 + GCpi) q and, at any place, +(0.3 + GCpi) q; inside alone adds to each case."""
    found = loads(site(edition), building(enclosure=enclosure))
    q = found.net_pressure.reference_pressure * PSF
    corner = rectangle(0, 0, 2, 5)
    assert found.cladding_pressure("W up", corner)[0] == pytest.approx(-(3.2 + inside) * q)
    assert found.cladding_pressure("W down", corner)[0] == pytest.approx(max((0.3 + inside) * q, MIN_PRESSURE * PSF))
    assert found.internal_pressure("W up") == pytest.approx(-inside * q)
    assert found.internal_pressure("W down") == pytest.approx(inside * q)


def test_bare_roof_takes_the_worst_zone_touched() -> None:
    """0.6h = 12 ft from the eave (12.04 ft up the slope) zone 2 ends: one that reaches over the border counts as 2."""
    found = loads()
    across, beyond = rectangle(100, 11, 1, 5), rectangle(100, 12.1, 1, 5)
    assert found.cladding_pressure("W up", across)[0] < found.cladding_pressure("W up", beyond)[0] < 0


@given(st.floats(0, 198), st.floats(0, 55), st.floats(0.5, 10))
@settings(max_examples=60, deadline=None)
def test_mirrored_place_same_pressure(x: float, y: float, size: float) -> None:
    """About the middle of the eave."""
    found = loads()
    x = min(x, 200 - size)
    here, mirrored = rectangle(x, y, size, 2), rectangle(200 - x - size, y, size, 2)
    assert found.cladding_pressure("W up", here)[0] == pytest.approx(found.cladding_pressure("W up", mirrored)[0])


@given(st.floats(90, 200), st.floats(1.0, 1.4), st.floats(10, 50), st.floats(0, 10), st.sampled_from(EDITIONS))
@settings(max_examples=40, deadline=None)
def test_more_wind_or_height_never_less_qh(
    speed: float, times: float, height: float, more: float, edition: str
) -> None:
    def qh(v: float, h: float) -> float:
        found = loads(site(edition, wind_speed=f"{v} mph"), building(mean_roof_height=f"{h} ft"))
        return found.net_pressure.qh

    assert qh(speed * times, height) == pytest.approx(qh(speed, height) * times**2)
    assert qh(speed, height + more) >= qh(speed, height)


@given(
    st.floats(1, 900),
    st.floats(1, 5),
    st.sampled_from([FLUSH, ROW]),
    st.sampled_from(["W up", "W down"]),
    st.integers(0, 23),
)
@settings(max_examples=60, deadline=None)
def test_larger_area_never_more_pressure(area: float, times: float, attitude: Attitude, case: str, module: int) -> None:
    found = loads(site(wind_speed="200 mph"), modules=field(attitude=attitude))
    assert abs(psf(found, case, module, area * times)) <= abs(psf(found, case, module, area)) + 1e-9


@pytest.mark.parametrize(("shape", "slope", "end"), [("monoslope", "31 deg", 30), ("flat", "8 deg", 7)])
def test_a_roof_without_figure_is_objected_to(shape: str, slope: str, end: int) -> None:
    (problem,) = Asce7(site()).unsupported(job(building(roof_shape=shape, slope=slope)))
    assert problem.path == "building.slope"
    assert (
        problem.message == f"{slope.removesuffix(' deg')}.0 deg given; allowed is at most {end} deg: "
        f"ASCE 7-16 has no wind figure for a steeper {shape} roof"
    )


@pytest.mark.parametrize("edition", EDITIONS)
def test_hips_are_objected_to_in_the_older_edition_alone(edition: str) -> None:
    found = [
        problem.path for problem in Asce7(site(edition)).unsupported(job(building(roof_shape="hip", slope="20 deg")))
    ]
    assert found == (["building.roof_shape"] if edition == "ASCE 7-16" else [])


@pytest.mark.parametrize(("shape", "slope"), [("gable", "45 deg"), ("monoslope", "30 deg"), ("flat", "7 deg")])
def test_a_slope_at_which_the_last_figure_ends_is_covered(shape: str, slope: str) -> None:
    steep = building(roof_shape=shape, slope=slope)
    assert list(Asce7(site()).unsupported(job(steep))) == []
    assert loads(of=steep).cladding_pressure("W up", rectangle(100, 11, 1, 5))[0] < 0


def test_exposed_everywhere_is_said() -> None:
    assert "all_exposed" in {remark.code for remark in loads().remarks}
    assert "all_exposed" not in {remark.code for remark in loads(modules=field(**LARGE)).remarks}


def test_registry() -> None:
    assert dict(STANDARDS) == {"ASCE 7-16": Asce7, "ASCE 7-22": Asce7, "EN 1991": En1991}
    for edition in EDITIONS:
        assert Asce7(site(edition)).title == edition
        assert Asce7(site(edition)).basis == "allowable-stress design (ASD)"
    with pytest.raises(TypeError):
        STANDARDS["made up"] = Asce7  # type: ignore[index]


def test_summary_shows_qh_as_the_edition_defines_it() -> None:
    """Kd is in qh in 7-16 only; what a coefficient multiplies has it in both."""
    for edition, kd in (("ASCE 7-16", 0.85), ("ASCE 7-22", 1.0)):
        rows = {name: value for name, value, _ in Asce7(site(edition)).summary(job())}
        found = loads(site(edition))
        assert rows["velocity pressure qh"] == pytest.approx(found.net_pressure.qh * PSF)
        assert found.net_pressure.reference_pressure / found.net_pressure.qh == pytest.approx(0.85 / kd)
        assert rows["ground snow"] == pytest.approx(25 * PSF)
        assert rows["flat-roof snow on modules"] == pytest.approx(0.7 * 1.2 * 25 * PSF)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("case", ["W up", "W down"])
@pytest.mark.parametrize("area", [0.5, 20.0, 300.0, 5000.0])
@pytest.mark.parametrize("attitude", [FLUSH, ROW, replace(ROW, net_coefficient=1.4)], ids=["flush", "tilted", "stated"])
def test_wind_steps_can_be_evaluated_again(edition: str, case: str, area: float, attitude: Attitude) -> None:
    """Every equation gives its result from its terms; the last is the pressure; terms come from earlier steps."""
    found, steps = loads(site(edition), modules=field(attitude=attitude)), list[CalculationStep]()
    value = found.wind(case, np.array([0]), np.array([area * FOOT**2]), steps.append)[0]
    assert_told(steps)
    assert steps[-1].symbol == "p"
    assert steps[-1].result.value * PSF == pytest.approx(value, rel=1e-12)
    results = {step.symbol: step.result.value for step in steps}
    assert {"Kz", "Ke", "V", "qh", "C", "p"} <= set(results)
    for step in steps:
        for name, term in step.terms.items():
            if name in results:
                assert term.value == pytest.approx(results[name], rel=1e-12), (step.symbol, name)


@pytest.mark.parametrize("case", ["W up", "W down"])
def test_bare_roof_steps_can_be_evaluated_again(case: str) -> None:
    steps: list[CalculationStep] = []
    value = loads(site("ASCE 7-22")).cladding_pressure(case, rectangle(30, 20, 2, 5), steps.append)[0]
    assert_told(steps)
    assert steps[-1].result.value * PSF == pytest.approx(value, rel=1e-12)
    assert {"GCp", "GCpi", "C", "qh", "p"} <= {step.symbol for step in steps}


@pytest.mark.parametrize(
    ("slope", "cases"), [("0.25:12", ("S", "S min", "S rain")), ("1:12", ("S", "S min", "S unbalanced"))]
)
@pytest.mark.parametrize("edition", EDITIONS)
def test_snow_steps_can_be_evaluated_again(edition: str, slope: str, cases: tuple[str, ...]) -> None:
    roof = building(slope=slope, width="200 ft")
    found = loads(site(edition, ground_snow="20 psf"), roof)
    assert found.snow_cases == cases
    for case in found.snow_cases:
        for load, where in ((found.snow, np.array([0])), (found.snow_on_roof, strip(1, 2))):
            steps: list[CalculationStep] = []
            value = load(case, where, steps.append)  # type: ignore[operator]
            assert_told(steps)
            assert steps[-1].result.value * PSF == pytest.approx(value, rel=1e-12)


def test_many_at_once_and_one_by_one_agree() -> None:
    for attitude in (FLUSH, ROW):
        found = loads(modules=field(attitude=attitude))
        modules, areas = np.arange(24), np.linspace(0.1, 60, 24)
        together = found.wind("W up", modules, areas)
        alone = [found.wind("W up", modules[i : i + 1], areas[i : i + 1])[0] for i in range(24)]
        assert together.tolist() == alone
