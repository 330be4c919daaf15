"""Wrong scenarios: one clear sentence a problem, all at once, each with its path."""

from __future__ import annotations

from typing import Any

import pytest

from engine.common.errors import InputError
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_scenario
from engine.strength.capacity import BASES
from support import laid_over, tables_of


def problems(name: str = "kestrel_yard", **changes: Any) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        read_scenario(laid_over(tables_of(name), **changes), METHODS, STANDARDS)
    return {problem.path: problem.message for problem in refused.value.problems}


WRONG: dict[str, tuple[dict[str, Any], str, str]] = {
    "missing table": ({"module": None}, "module", "missing"),
    "missing key": ({"module__mass": None}, "module.mass", "missing"),
    "missing title": ({"title": None}, "title", "missing"),
    "missing format": ({"format": None}, "format", "missing"),
    "newer format": ({"format": 2}, "format", "reads format = 1"),
    "format true": ({"format": True}, "format", "reads format = 1"),
    "missing site": ({"site": None}, "site", "missing"),
    "missing wind": ({"site__wind_speed": None}, "site.wind_speed", "missing"),
    "unknown standard": ({"site__standard": "ASCE 7-98"}, "site.standard", "'ASCE 7-16'"),
    "standard a number": ({"site__standard": 7}, "site.standard", "allowed"),
    "misspelled key": ({"site__wind_sped": "105 mph"}, "site.wind_sped", "did you mean 'wind_speed'"),
    "misspelled table": ({"modul": {}}, "modul", "did you mean 'module'"),
    "misspelled method": ({"methods__rial": {}}, "methods.rial", "did you mean 'rail'"),
    "misspelled deep key": (
        {"roof__panel__moment_rib_compresed": "1 lb ft"},
        "roof.panel.moment_rib_compresed",
        "did you mean",
    ),
    "wrong unit": ({"roof__rib_spacing": "24 psf"}, "roof.rib_spacing", "write a length with its unit"),
    "no unit": ({"site__wind_speed": "105"}, "site.wind_speed", "write a speed with its unit"),
    "bare number": ({"site__wind_speed": 105}, "site.wind_speed", "105 given"),
    "negative": ({"building__length": "-220 ft"}, "building.length", "allowed is"),
    "zero": ({"roof__support_spacing": "0 ft"}, "roof.support_spacing", "allowed is"),
    "absurd": ({"building__length": "1e9 ft"}, "building.length", "allowed is"),
    "overflow": ({"building__length": "1e999 ft"}, "building.length", "finite"),
    "not a number": ({"building__length": "nan ft"}, "building.length", "write a length"),
    "a float nan": ({"hardware__module_minutes": float("nan")}, "hardware.module_minutes", "allowed is"),
    "a float infinity": ({"hardware__module_minutes": float("inf")}, "hardware.module_minutes", "allowed is"),
    "empty text": ({"module__power": ""}, "module.power", "write a power"),
    "a list for a quantity": ({"module__power": ["420 W"]}, "module.power", "write a power"),
    "a table for a quantity": ({"module__power": {}}, "module.power", "a table given"),
    "a table that is text": ({"roof__panel": "strong"}, "roof.panel", "table"),
    "a table that is a number": ({"module": 5}, "module", "write a table"),
    "rows as text": ({"array__rows": "6"}, "array.rows", "whole number"),
    "rows as a fraction": ({"array__rows": 6.5}, "array.rows", "whole number"),
    "no rows": ({"array__rows": 0}, "array.rows", "1 to 1000"),
    "rows true": ({"array__rows": True}, "array.rows", "true given"),
    "a million modules": (
        {"array__rows": 1000, "array__columns": 1000},
        "array",
        "1,000,000 modules given; allowed are 10,000",
    ),
    "an endless roof": (
        {"building__length": "3000 ft", "building__width": "3000 ft"},
        "roof",
        "453,302 fastenings on 1,501 seams given; allowed are 120,000",
    ),
    "an endless hip roof": (
        {
            "building__length": "1000 ft",
            "building__width": "900 ft",
            "building__roof_shape": "hip",
            "site__standard": "ASCE 7-22",
        },
        "roof",
        "296,592 fastenings on 501 seams given; allowed are 120,000",
    ),
    "clips every 3 in": (
        {
            "building__width": "1000 ft",
            "roof__support_spacing": "3 in",
            "roof__first_support": "1 in",
            "roof__last_support": "1 in",
        },
        "roof.support_spacing",
        "fastenings along each seam given; allowed are 500",
    ),
    "seams every 3 in under a field": (
        {"roof__rib_spacing": "3 in", "array__rows": 40, "array__columns": 100},
        "array",
        "90,393 crossings of modules and seams given; allowed are 40,000",
    ),
    "as many hatches as modules": (
        {"array__keep_clear": [{"at": ["1 ft", "1 ft"], "size": ["1 ft", "1 ft"]}] * 201},
        "array.keep_clear",
        "201 areas given; allowed are 200",
    ),
    "unknown exposure": ({"site__exposure": "E"}, "site.exposure", "'E' given"),
    "unknown shape": ({"building__roof_shape": "dome"}, "building.roof_shape", "'gable' or"),
    "a pair of three": ({"module__clamp_zone": ["1 mm", "2 mm", "3 mm"]}, "module.clamp_zone", "two lengths"),
    "a pair backwards": ({"module__clamp_zone": ["500 mm", "250 mm"]}, "module.clamp_zone", "second length"),
    "a zone past the middle": ({"module__clamp_zone": ["250 mm", "1500 mm"]}, "module.clamp_zone", "middle"),
    "both ratings": (
        {"module__rating_up": {"test": "2400 Pa", "design": "1600 Pa"}},
        "module.rating_up",
        "exactly one",
    ),
    "no rating": ({"module__rating_up": {}}, "module.rating_up", "exactly one"),
    "no way to a strength": ({"roof__fastening__uplift": {}}, "roof.fastening.uplift", "allowable"),
    "an unknown way": ({"roof__fastening__uplift": {"guess": "300 lb"}}, "roof.fastening.uplift", "allowable"),
    "two ways in one": (
        {"roof__fastening__uplift": {"allowable": "300 lb", "tested": "600 lb"}},
        "roof.fastening.uplift",
        "one",
    ),
    "wider than tested": ({"roof__support_spacing": "6 ft"}, "roof.fastening.uplift", "tested"),
    "seam clamp on ribs": ({"roof__kind": "exposed fastener"}, "hardware.bracket", "'sheet' or 'structure'"),
    "no such spacing": ({"methods__rail__spacing": "as few as possible"}, "methods.rail.spacing", "'fewest'"),
    "spacing none": ({"methods__rail__spacing": "0 ribs"}, "methods.rail.spacing", "'fewest'"),
    "one per edge": ({"methods__direct__spacing": "1 per edge"}, "methods.direct.spacing", "'2 per edge'"),
    "width over length": ({"module__width": "1800 mm"}, "module.width", "shorter side"),
    "an end beyond the last clip": (
        {"roof__last_support": "5.2 ft"},
        "roof.last_support",
        "allowed is at most roof.support_spacing, 5.00 ft",
    ),
    "an end before the first clip": (
        {"roof__first_support": "5.2 ft"},
        "roof.first_support",
        "allowed is at most roof.support_spacing, 5.00 ft",
    ),
    "an edge strip alone": ({"roof__edge_strip": "10 ft"}, "roof.edge_strip", "give both"),
    "an edge strip held more loosely": (
        {"roof__edge_strip": "10 ft", "roof__edge_support_spacing": "5.1 ft"},
        "roof.edge_support_spacing",
        "allowed is at most roof.support_spacing, 5.00 ft",
    ),
    "clips every 3 in at the rakes": (
        {"building__width": "300 ft", "roof__edge_strip": "150 ft", "roof__edge_support_spacing": "3 in"},
        "roof.support_spacing",
        "fastenings along each seam given; allowed are 500",
    ),
    "halves of a spacing that is no span": (
        {"methods__direct__spacing": "2.5 per edge"},
        "methods.direct.spacing",
        "'2 per edge'",
    ),
    "halves of a span in other words": (
        {"methods__rail__spacing": "1.4 ribs"},
        "methods.rail.spacing",
        "'1.5 ribs' (two of every three)",
    ),
    "supports past the ridge": ({"roof__first_support": "12 ft", "building__width": "20 ft"}, "roof", "fasten"),
    "keep clear nonsense": (
        {"array__keep_clear": [{"at": ["1 ft"], "size": ["4 ft", "8 ft"]}]},
        "array.keep_clear",
        "two lengths",
    ),
    "hips in 7-16": ({"building__roof_shape": "hip"}, "building.roof_shape", "ASCE 7-22 covers it"),
    "steeper than the last figure": (
        {"building__roof_shape": "monoslope", "building__slope": "35 deg"},
        "building.slope",
        "allowed is at most 30 deg",
    ),
    "methods no table": ({"methods": 3}, "methods", "write tables"),
    "title a number": ({"title": 3}, "title", "text"),
}


@pytest.mark.parametrize("case", WRONG)
def test_one_clear_sentence(case: str, kestrel: dict[str, Any]) -> None:
    changes, path, words = WRONG[case]
    with pytest.raises(InputError) as refused:
        read_scenario(laid_over(kestrel, **changes), METHODS, STANDARDS)
    found = [problem for problem in refused.value.problems if problem.path.startswith(path)]
    assert found, refused.value.problems
    assert any(words in problem.message for problem in found), found
    for problem in refused.value.problems:
        assert "\n" not in problem.message
        assert len(problem.message) <= 400
        assert not any(noise in problem.message for noise in ("Traceback", "pydantic", "Input should", "<class"))


NEEDED = {
    "site": ("standard", "wind_speed", "exposure", "ground_snow"),
    "building": ("length", "width", "mean_roof_height", "slope"),
    "roof": (
        "kind",
        "rib_spacing",
        "support",
        "support_spacing",
        "last_support",
        "panel",
    ),
    "roof.panel": ("moment_rib_compressed", "moment_pan_compressed"),
    "roof.fixed_point": ("in_plane",),
    "module": (
        *("length", "width", "thickness", "mass", "power"),
        *("rating_up", "rating_down", "clamp_zone", "edge_support"),
    ),
    "array": ("rows", "columns", "origin", "gap", "height_above_roof"),
}


@pytest.mark.parametrize("path", [f"{table}.{key}" for table, keys in NEEDED.items() for key in keys])
def test_what_nobody_can_guess_must_be_given(kestrel: dict[str, Any], path: str) -> None:
    """Where the roof is, what it can take, and what is to lie on it has no default."""
    with pytest.raises(InputError) as refused:
        read_scenario(laid_over(kestrel, **{path.replace(".", "__"): None}), METHODS, STANDARDS)
    (problem,) = refused.value.problems
    assert problem.path == path
    assert problem.message.startswith("missing")


def test_every_problem_at_once(kestrel: dict[str, Any]) -> None:
    wrong = laid_over(
        kestrel, site__wind_speed="fast", module__mass="21 ft", roof__kind="thatch", array__rows=0, currency=5
    )
    with pytest.raises(InputError) as refused:
        read_scenario(wrong, METHODS, STANDARDS)
    assert {problem.path for problem in refused.value.problems} == {
        "site.wind_speed",
        "module.mass",
        "roof.kind",
        "array.rows",
        "currency",
    }


def test_what_does_not_go_together_and_what_the_standard_does_not_cover_come_at_once(kestrel: dict[str, Any]) -> None:
    with pytest.raises(InputError) as refused:
        read_scenario(laid_over(kestrel, building__roof_shape="hip", hardware__bracket="sheet"), METHODS, STANDARDS)
    assert {problem.path for problem in refused.value.problems} == {"building.roof_shape", "hardware.bracket"}


@pytest.mark.parametrize("key", sorted(basis.title for basis in BASES))
@pytest.mark.parametrize("table", ["building", "roof", "roof.panel"])
def test_an_unknown_key_may_be_named_like_a_basis(table: str, key: str) -> None:
    """`tested = 1` in [building] is an unknown key like any other."""
    found = problems(**{f"{table.replace('.', '__')}__{key}": 1})
    assert found[f"{table}.{key}"].startswith("unknown; ")


SCREWS = {"screws": 2, "size": "#12", "into": "16 ga", "tensile_strength": "65 ksi"}


@pytest.mark.parametrize(
    ("written", "path", "words"),
    [
        ({"tested": "16 ga", "safety_factor": 2}, ".tested", "'16 ga' given; write a force"),
        (SCREWS | {"wahser": "1 in"}, ".wahser", "unknown; did you mean 'washer'?"),
        (SCREWS | {"q": 1}, ".q", "unknown; allowed are screws, size, into,"),
        ({"allowable": "300 lb", "stated": 1}, ".stated", "unknown; "),
        ([{"allowable": "300 lb"}, {"tested": "600 lb"}], ".2.safety_factor", "missing"),
        ([{"tested": "600 lb"}], ".1.safety_factor", "missing"),
        ({"allowable": "300 lb", "tested": "600 lb"}, "", "exactly one"),
    ],
)
def test_a_problem_of_a_strength_has_its_own_path(written: object, path: str, words: str) -> None:
    found = problems(roof__fastening__uplift=written)
    assert words in found[f"roof.fastening.uplift{path}"]


def test_the_first_entry_of_a_list_has_its_number() -> None:
    assert list(problems(array__keep_clear=[{"at": ["1 ft"], "size": ["4 ft", "8 ft"]}])) == ["array.keep_clear.1.at"]


HUGE = int("f" * 5000, 16)


@pytest.mark.parametrize(
    "changes",
    [
        {"array__rows": HUGE},
        {"array__rows": [HUGE]},
        {"format": HUGE},
        {"hardware__labour_rate": HUGE},
        {"roof__fastening__uplift": HUGE},
        {"module__clamp_zone": [HUGE, HUGE]},
        {"methods": HUGE},
        {"building": HUGE},
        {"site__standard": HUGE},
        {"building__" + "a" * 100_000: 1},
        {"a" * 100_000: 1},
        {"methods__" + "a" * 100_000: {}},
        {"roof__fastening__uplift": {"a" * 100_000: 1}},
    ],
    ids=lambda changes: next(iter(changes))[:40],
)
def test_a_refusal_is_short_whatever_the_file_holds(changes: dict[str, Any]) -> None:
    """Numbers and keys of thousands of characters get a sentence like any other."""
    (problem,) = problems(**changes).items()
    assert len(": ".join(problem)) < 400
    assert "int_max_str_digits" not in problem[1]
