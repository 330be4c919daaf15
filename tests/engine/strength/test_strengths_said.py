"""Every strength is told by how it is known; none is used in silence, and one outside its equation's range says so where it is shown."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from support import scenario_of

THIN = {
    "screws": 2,
    "size": "#12",
    "into": "29 ga",
    "tensile_strength": "82 ksi",
    "sheet": "29 ga",
    "sheet_tensile_strength": "82 ksi",
    "washer": "0.5 in",
}


def told(name: str, **changes: object) -> dict[str, str]:
    return {known.name: known.sentence for known in scenario_of(name, **changes).job.strengths}


def test_what_the_scenario_gives_and_what_it_does_not() -> None:
    said = told("wren_workshop")
    assert said["attachment, uplift"] == "allowable stated by the maker"
    assert "a placeholder is used" in said["module clamp, uplift"]
    assert said["attachment, across the rib"] == "not set: a load that needs it is not checked"
    assert (
        "a placeholder"
        not in told("wren_workshop", hardware__clamp_uplift={"allowable": "300 lb"})["module clamp, uplift"]
    )


@pytest.mark.parametrize(
    ("name", "word"), [("wren_workshop", "panel screws, along the slope"), ("kestrel_yard", "panel fixed point")]
)
def test_what_slides_is_held_by_what_the_roof_has(name: str, word: str) -> None:
    said = told(name)
    assert word in said
    assert len({"panel screws, along the slope", "panel fixed point"} & set(said)) == 1


def test_the_comparison_says_which_are_invented() -> None:
    direct, rack = (compare(scenario_of("wren_workshop"), (method,)).columns[0] for method in ("direct", "tilted_rack"))
    words = {
        column.id: next(flag.text for flag in column.flags if flag.code == "invented_strengths")
        for column in (direct, rack)
    }
    assert "module clamp, uplift" in words["direct"]
    assert "attachment, uplift" not in words["direct"]
    assert "rack leg" in words["tilted_rack"]
    assert "rack leg" not in words["direct"]
    assert "rack, bending" in words["tilted_rack"]
    assert "bending" not in words["direct"]


def test_a_rail_whose_price_alone_is_stated_bends_as_the_invented_one() -> None:
    def invented(**rail: object) -> bool:
        flags = compare(scenario_of(hardware__rail=rail, methods__rail__spacing="2 ribs"), ("rail",)).columns[0].flags
        return any("rail, bending" in flag.text for flag in flags if flag.code == "invented_strengths")

    assert invented(price=60)
    assert not invented(moment_strong="900 lb ft")


def test_a_strength_outside_its_range_says_so_where_it_is_shown() -> None:
    column = compare(scenario_of("wren_workshop", hardware__attachment_uplift=THIN), ("direct",)).columns[0]
    texts = [flag.text for flag in column.flags if flag.code == "strength"]
    assert any(text.startswith("attachment: pull-out: sheet of 0.0128 in, 82 ksi") for text in texts)
