"""Several slopes in one file: each reads as a file of its own, and problems name their place in the file."""

from __future__ import annotations

from typing import Any

import pytest

from engine.common.errors import InputError
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.changes import laid_over, value_at
from engine.scenario.read import Scenario, read_scenario, read_slopes
from engine.scenario.slopes import path_in_file, tables_of_slope
from engine.units import FOOT
from support import tables_of

HALL = tables_of("lapwing_hall")


def slopes(**changes: object) -> tuple[Scenario, ...]:
    """The slopes of Lapwing Hall; "__" in a name leads into a table, or to an entry of a list by its name."""
    steps = {tuple(path.split("__")): value for path, value in changes.items()}
    return read_slopes(laid_over(HALL, steps), METHODS, STANDARDS)


def problems(tables: dict[str, Any]) -> dict[str, str]:
    """Path and message of each problem of a file."""
    with pytest.raises(InputError) as refused:
        read_slopes(tables, METHODS, STANDARDS)
    return {problem.path: problem.message for problem in refused.value.problems}


def test_each_slope_has_its_own_roof_and_arrays() -> None:
    south, north = slopes()
    assert (south.slope, north.slope) == ("south", "north")
    assert (south.title, north.title) == (
        "Lapwing Hall (invented), slope south",
        "Lapwing Hall (invented), slope north",
    )
    assert south.job.roof.support_spacing == pytest.approx(5 * FOOT)
    assert north.job.roof.support_spacing == pytest.approx(4 * FOOT)
    assert south.job.roof.fastening == north.job.roof.fastening
    assert [array.title for array in south.job.arrays] == ["array A", "array B"]
    assert [array.title for array in north.job.arrays] == ["array C"]


def test_a_slope_reads_as_a_file_of_its_own() -> None:
    alone = {key: value for key, value in HALL.items() if key != "slopes"}
    arrays = [{key: value for key, value in each.items() if key != "slope"} for each in HALL["arrays"]]
    alone["roof"] = {**HALL["roof"], "support_spacing": "4 ft"}
    assert read_scenario({**alone, "arrays": arrays[2:]}, METHODS, STANDARDS).job == slopes()[1].job


def test_a_stated_strength_of_a_slope_replaces_the_whole_strength() -> None:
    """A test of the file's clips and an allowable of the slope's own are two ways to know one strength, not one."""
    south, north = slopes(slopes__north__roof__fastening={"uplift": {"allowable": "500 lb"}})
    assert str(south.job.roof.fastening.uplift) != str(north.job.roof.fastening.uplift)
    tables = tables_of_slope(
        laid_over(HALL, {("slopes", "north", "roof", "fastening"): {"uplift": {"allowable": "500 lb"}}}), "north"
    )
    assert tables["roof"]["fastening"] == {"uplift": {"allowable": "500 lb"}}
    assert tables["roof"]["panel"] == HALL["roof"]["panel"]


def test_a_problem_names_its_place_in_the_file_once() -> None:
    """A wrong key of the slope's own table, and one above both slopes."""
    own = laid_over(HALL, {("slopes", "north", "roof", "support_spacing"): "4 miles"})
    assert list(problems(own)) == ["slopes.north.roof.support_spacing"]
    assert list(problems(laid_over(HALL, {("roof", "rib_spacing"): "wide"}))) == ["roof.rib_spacing"]


def without(key: str, place: int) -> dict[str, Any]:
    """The hall without one entry of a list."""
    return {**HALL, key: [each for number, each in enumerate(HALL[key]) if number != place]}


PROBLEMS: dict[str, tuple[dict[str, Any], str, str]] = {
    "an unknown slope": (laid_over(HALL, {("arrays", "C", "slope"): "west"}), "arrays.C.slope", "'south' or 'north'"),
    "a slope without an array": (without("arrays", 2), "slopes.north", "no array lies on it"),
    "no slope of that name": (without("slopes", 1), "arrays.C.slope", "allowed is 'south'"),
    "no slopes": ({**HALL, "slopes": []}, "slopes", "0 slopes given"),
    "slopes as a number": ({**HALL, "slopes": 2}, "slopes", "2 given; write 1 to 20 tables"),
    "an unknown key": (laid_over(HALL, {("slopes", "north", "site"): {}}), "slopes.north.site", "unknown"),
    "one array beside slopes": ({**HALL, "array": {}}, "array", "given beside [[slopes]]"),
    "a roof that is no table": (laid_over(HALL, {("slopes", "north", "roof"): 3}), "slopes.north.roof", "3 given"),
}


@pytest.mark.parametrize(("tables", "path", "words"), PROBLEMS.values(), ids=PROBLEMS)
def test_refusals_of_slopes(tables: dict[str, Any], path: str, words: str) -> None:
    assert words in problems(tables)[path]


def test_an_array_names_a_slope_only_where_there_are_slopes() -> None:
    plain = {key: value for key, value in HALL.items() if key != "slopes"}
    assert set(problems(plain)) == {"arrays.A.slope", "arrays.B.slope", "arrays.C.slope"}


def test_a_change_goes_where_the_slope_states_the_value() -> None:
    assert path_in_file(HALL, "north", ("roof", "support_spacing")) == ("slopes", "north", "roof", "support_spacing")
    assert path_in_file(HALL, "south", ("roof", "support_spacing")) == ("roof", "support_spacing")
    assert path_in_file(HALL, "", ("roof", "support_spacing")) == ("roof", "support_spacing")


def test_values_are_found_and_changed_by_the_name_of_an_entry() -> None:
    assert value_at(HALL, ("arrays", "C", "columns")) == 26
    assert value_at(laid_over(HALL, {("arrays", "C", "columns"): 7}), ("arrays", "C", "columns")) == 7
    with pytest.raises(InputError, match="arrays: no entry 'D'; allowed is 'A' or 'B' or 'C'"):
        laid_over(HALL, {("arrays", "D", "columns"): 7})
    with pytest.raises(InputError, match=r"arrays\.A: a whole entry of a list; write one of its keys"):
        laid_over(HALL, {("arrays", "A"): 7})
