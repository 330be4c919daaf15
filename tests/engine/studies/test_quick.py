"""The question on the phone: its loads by hand, and those of a whole scenario made from it."""

from __future__ import annotations

import math

import pytest

from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_scenario
from engine.studies.quick import question_scenario, roof_loads, tables_of
from engine.units import POUND_FORCE
from support import laid_over

ASKED = {
    "modules": "24",
    "seams": "24 in",
    "purlins": "5 ft",
    "slope": "1:12",
    "height": "24 ft",
    "wind": "105 mph",
    "exposure": "B",
    "snow": "25 psf",
}


def test_a_corner_clip_without_the_array_by_hand() -> None:
    """ASCE 7-16: Kz 0.657 (Table 26.10-1), zone 3 GCp -3.2 to 10 ft² (Fig. 30.3-2B), inside 0.18, 0.6W on 2 x 5 ft."""
    velocity_pressure = 0.00256 * 0.657 * 0.85 * 105**2
    expected = 0.6 * velocity_pressure * (3.2 + 0.18) * 10
    found = roof_loads(compare(question_scenario(ASKED, METHODS, STANDARDS)))
    assert len(found) >= 2
    assert [each.without / POUND_FORCE for each in found] == pytest.approx([expected] * len(found), rel=2e-3)


def test_it_agrees_with_a_whole_scenario_of_known_strength() -> None:
    """Where each clip has the allowable that the question names, the clip is at 1.00 at the worst of the same places."""
    (asked,) = roof_loads(compare(question_scenario(ASKED, METHODS, STANDARDS), ("direct",)))
    needed = f"{max(asked.with_array, asked.without) / POUND_FORCE} lb"
    tables = laid_over(tables_of(ASKED, STANDARDS), roof__fastening={"uplift": {"allowable": needed}})
    (column,) = compare(read_scenario(tables, METHODS, STANDARDS), ("direct",)).columns
    assert value_of(column, "fastening_utilisation") == pytest.approx(1.0, abs=1e-6)
    assert value_of(column, "attachments") == len(asked.column.design.layout.attachments)  # type: ignore[union-attr]


def test_the_roof_test_to_ask_for_by_hand() -> None:
    """Twice the allowable on the 10 ft² of one clip."""
    for each in roof_loads(compare(question_scenario(ASKED, METHODS, STANDARDS))):
        needed = max(each.with_array, each.without) / POUND_FORCE
        assert each.test_pressure / 47.88026 == pytest.approx(2 * needed / 10, rel=1e-6)


@pytest.mark.parametrize("modules", ["1", "7", "144", "1000"])
def test_no_module_is_lost_and_all_methods_fit(modules: str) -> None:
    scenario = question_scenario(ASKED | {"modules": modules}, METHODS, STANDARDS)
    (array,) = scenario.job.arrays
    assert 0 <= array.rows * array.columns - int(modules) < array.rows
    assert {"refused"}.isdisjoint(column.status for column in compare(scenario).columns)


IN_EUROPE = {
    "standard": "EN 1991",
    "national": "recommended",
    "consequence_class": "CC2",
    "modules": "24",
    "seams": "500 mm",
    "purlins": "1.25 m",
    "slope": "6 deg",
    "height": "7.5 m",
    "wind": "25 m/s",
    "terrain": "III",
    "snow": "0.9 kPa",
    "snow_exposure": "normal",
    "cp_net": "cautious fallback",
}


def test_a_corner_clip_by_en_1991_by_hand() -> None:
    """Zone F, duopitch 6 deg, cpe,1 -2.45 between 5 deg (-2.5) and 15 deg (-2.0), cpi +0.2, qp at 8 m or so, 1.5 W.

    qp at the top of the building; the array's roof is about 21 m wide, so the ridge is near 8 m: terrain III, 25 m/s.
    """
    scenario = question_scenario(IN_EUROPE, METHODS, STANDARDS)
    building = scenario.job.building
    z = building.mean_roof_height + building.width / 4 * math.tan(math.radians(6))
    roughness = 0.19 * (0.3 / 0.05) ** 0.07 * math.log(z / 0.3)
    qp = 0.5 * 1.25 * 25**2 * roughness**2 * (1 + 7 / math.log(z / 0.3))
    expected = 1.5 * qp * (2.45 + 0.2) * 0.5 * 1.25
    comparison = compare(scenario)
    found = roof_loads(comparison)
    assert found
    assert [each.without for each in found] == pytest.approx([expected] * len(found), rel=1e-6)
    assert comparison.cautions[0] == "Wind on modules: net coefficients from no standard."


@pytest.mark.parametrize("name", sorted(IN_EUROPE.keys() - {"standard"}))
def test_what_en_1991_has_no_default_for_is_asked(name: str) -> None:
    with pytest.raises(InputError) as refused:
        question_scenario({key: value for key, value in IN_EUROPE.items() if key != name}, METHODS, STANDARDS)
    assert [problem.path for problem in refused.value.problems] == [name]


def test_the_words_of_one_standard_are_unknown_to_the_other() -> None:
    with pytest.raises(InputError, match="exposure: unknown"):
        question_scenario(IN_EUROPE | {"exposure": "B"}, METHODS, STANDARDS)
    with pytest.raises(InputError, match="terrain: unknown"):
        question_scenario(ASKED | {"terrain": "III"}, METHODS, STANDARDS)
