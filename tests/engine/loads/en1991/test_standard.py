"""What EN 1991 refuses, each in one sentence with the field and what is allowed."""

from __future__ import annotations

import re

import pytest

from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.loads import STANDARDS, system_of
from engine.loads.en1991.standard import En1991
from engine.studies.spacing import study
from support import scenario_of, tables_of
from support.european import SITE, site


def refusals(**changes: object) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        scenario_of("dunlin_hall", **changes)
    return {problem.path: problem.message for problem in refused.value.problems}


@pytest.mark.parametrize(
    "key",
    [
        *("national", "consequence_class", "wind_speed", "terrain", "ground_snow", "snow_exposure"),
    ],
)
def test_what_must_be_stated_has_no_default(key: str) -> None:
    assert refusals(**{f"site__{key}": None}) == {f"site.{key}": "missing; it has no default"}


def test_net_coefficients_must_be_stated() -> None:
    said = refusals(site__cp_net=None)["site.cp_net"]
    assert said.startswith("missing; EN 1991-1-4 has no clause for modules above a roof: state coefficients by zone")
    assert '"cautious fallback"' in said


STATED = tables_of("dunlin_hall")["site"]["cp_net"]


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("fallback", "'fallback' given; state coefficients by zone"),
        ({"up": {"F": -1.0}}, "a table given; state coefficients by zone"),
        (STATED | {"source": " "}, "'' given as source; name the report"),
        (STATED | {"edge_modules": "no"}, "'no' given for edge_modules; every array has modules at its edges"),
        (STATED | {"up": {"F": 1.2}}, "1.2 given for up in zone F; allowed is -10 to 0"),
        (STATED | {"down": {"F": -0.2}}, "-0.2 given for down in zone F; allowed is 0 to 10"),
        (STATED | {"up": {"K": -1.2}}, "'K' given as a zone of up; allowed are F, G, H, I, J"),
        (STATED | {"up": -1.2}, "-1.2 given for up; write one number for each zone"),
        (
            STATED | {"up": {"F": -1.7}},
            "up and down are needed for the zones F, G, H, I, J of this roof; missing: G, H",
        ),
    ],
)
def test_net_coefficients_that_are_no_such_table(written: object, words: str) -> None:
    assert words in refusals(site__cp_net=written)["site.cp_net"]


@pytest.mark.parametrize(
    ("changes", "path", "words"),
    [
        ({"building__roof_shape": "hip"}, "building.roof_shape", "'hip' given; EN 1991 is supported for gable"),
        ({"building__overhang": {"eave": "0.5 m"}}, "building.overhang", "overhangs are not supported with EN 1991"),
        (
            {"building__enclosure": "partially enclosed"},
            "building.enclosure",
            "a dominant opening (7.2.9) is not supported",
        ),
        (
            {"building__higher_roofs": [{"side": "ridge", "height": "2 m", "upwind_length": "20 m"}]},
            "building.higher_roofs",
            "drifts from higher roofs (5.3.6) are not supported",
        ),
        ({"site__gamma_variable": 1.6}, "site.national_source", "document that states gamma_variable"),
        (
            {"roof__member": {"spans": ["6 m"], "section_modulus": "29 cm3", "yield_strength": "350 MPa"}},
            "roof.member.section_modulus",
            "EN 1991 needs characteristic moments",
        ),
    ],
)
def test_what_is_not_covered(changes: dict[str, object], path: str, words: str) -> None:
    assert words in refusals(**changes)[path]


def test_a_gust_is_no_mean_velocity() -> None:
    """A 3 s gust is 1.53 times the 10 min mean: 50 m/s of ASCE 7 is a mean of about 33 m/s."""
    said = refusals(site__wind_speed="50 m/s")["site.wind_speed"]
    assert "a 3 s gust of this speed is a mean of about 33 m/s" in said
    stated = scenario_of("dunlin_hall", site__wind_speed="50 m/s", site__wind_speed_source="map of an island")
    assert stated.standard.title == "EN 1991"


@pytest.mark.parametrize(
    "written",
    [
        {"allowable": "3 kN"},
        {"tested": "6 kN", "safety_factor": 2.0},
        {"pull_tests": ["3 kN", "3.1 kN", "3.2 kN"], "connection": "other"},
        {"tested_pressure": "3 kPa", "tested_rib_spacing": "500 mm", "tested_fastening_spacing": "1.25 m"},
    ],
)
def test_an_allowable_is_no_design_resistance(written: dict[str, object]) -> None:
    said = refusals(roof__fastening__uplift=written)["roof.fastening.uplift"]
    assert said.startswith(f"'{next(iter(written))}' given, which is no design resistance; EN 1991 needs ")


def test_an_allowable_with_its_factor_is_one() -> None:
    stated = scenario_of("dunlin_hall", roof__fastening__uplift={"allowable": "1.3 kN", "as_design_factor": 1.5})
    assert stated.job.words.resistance == "design resistance"


@pytest.mark.parametrize("written", [{"design": "2 kN"}, {"characteristic": "2 kN"}])
def test_a_design_value_is_no_allowable(written: dict[str, object]) -> None:
    with pytest.raises(InputError, match="ASCE 7-16 is used with allowables here: give an allowable"):
        scenario_of("kestrel_yard", roof__fastening__uplift=written)


def test_units_of_the_standard() -> None:
    assert system_of(SITE) == "si"
    assert system_of({"standard": "ASCE 7-22"}) == system_of({"standard": ["?"]}) == system_of(None) == "us"


def test_combinations_and_vocabulary_agree() -> None:
    """Every combination of a standard has the words of the standard."""
    for name, standard in (("kestrel_yard", "ASCE 7-16"), ("dunlin_hall", "EN 1991")):
        scenario = scenario_of(name)
        field = scenario.methods[0].place_modules(scenario.job)
        loads = STANDARDS[standard](scenario.standard.site).loads(scenario.job, field)  # type: ignore[arg-type]
        assert {each.words for each in loads.combinations} == {scenario.job.words}


def test_what_is_not_covered_is_listed() -> None:
    assert any("national annexes" in subject for subject in En1991.not_covered)
    assert any("no clause" in subject for subject in En1991.not_covered)
    assert all(source.document.startswith("EN 199") for source in En1991(site()).unverified)


def test_notes_on_a_european_job_have_metres_first() -> None:
    columns = compare(scenario_of("dunlin_hall"), ("rail",)).columns
    said = " ".join(flag.text for column in columns for flag in column.flags)
    assert "The rail spans 2.500 m (8.20 ft); the roof allows 1.500 m (4.92 ft)" in said
    assert not re.search(r"\d (ft|in|lb|psf) \(", said)
    (studied,) = study(scenario_of("dunlin_hall"), ("rail",))
    assert studied.sentence.startswith("The rail spans 2.500 m (8.20 ft); the roof allows 1.500 m (4.92 ft)")
