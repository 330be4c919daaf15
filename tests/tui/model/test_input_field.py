"""The inputs one by one: what each is where the file says nothing."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from engine.loads import STANDARDS
from engine.scenario.listing import NOT_SET, inputs_of
from engine.scenario.read import resolved_tables
from support import scenario_of, tables_of
from tui.model.input_field import InputField, WayField, input_fields
from tui.model.new_job import new_job


def entries(name: str = "kestrel_yard") -> dict[str, InputField]:
    return {
        ".".join(entry.path): entry for entry in input_fields(tables_of(name), {}, resolved_tables(tables_of(name), ()))
    }


def test_a_default_of_the_table_above_is_shown() -> None:
    """The invented rail and the small pieces have theirs there: none of it is left out."""
    found = entries()
    assert found["hardware.rail.moment_strong"].shown == "850 lb ft"
    assert found["hardware.parts.attachment.price"].shown == "8.5"
    assert not found["hardware.rail.moment_strong"].required
    assert found["site.wind_speed"].required


def test_the_list_shows_what_the_report_lists() -> None:
    """Of every bundled job, every input alike."""
    for name in ("kestrel_yard", "sparrow_lane", "heron_depot", "dunlin_hall"):
        found = entries(name)
        for said in inputs_of(scenario_of(name)):
            if said.path in found:
                assert found[said.path].shown.replace("[]", "") == said.written.replace(NOT_SET, "")


def test_an_input_of_a_job_in_si_speaks_no_us_units() -> None:
    """Its default, its help and the unit of a bare number; a job in US units keeps them."""
    found = entries("dunlin_hall")
    us = re.compile(r"\d (?:ft|in|lb|kip|psf|psi|ksi|mph|in3|in4)\b")
    assert [path for path, each in found.items() if us.search(f"{each.shown} {each.help}")] == []
    assert found["hardware.attachment_height"].shown == "50.8 mm"
    assert found["hardware.leg_capacity"].editable == "characteristic value"
    assert found["building.parapet_height"].completed("0.4", "si") == "0.4 m"
    assert "Units: m, cm, mm, ft, in." in found["building.length"].help
    assert entries()["hardware.attachment_height"].shown == "2 in"


def test_net_coefficients_are_asked_for() -> None:
    """EN 1991 has none: the form marks the input until it is stated."""
    assert entries("dunlin_hall")["site.cp_net"].required


def test_a_strength_says_what_follows_from_it_under_its_standard() -> None:
    """2.6 kN over its own gammaM of 1.33; 4 kN, of which the standard has the divisor."""
    found = entries("dunlin_hall")
    clip, attachment = found["roof.fastening.uplift"], found["hardware.attachment_uplift"]
    assert isinstance(clip, WayField)
    assert isinstance(attachment, WayField)
    assert clip.result("si") == "1.95 kN design resistance"
    assert attachment.result("si") == "4.00 kN characteristic"


@pytest.mark.parametrize("name", ["kestrel_yard", "dunlin_hall"])
def test_every_load_standard_can_be_chosen(name: str) -> None:
    assert entries(name)["site.standard"].options == tuple(STANDARDS)


def test_a_new_job_asks_what_the_chosen_standard_needs(tmp_path: Path) -> None:
    """Chosen in the form, EN 1991 asks for its own site, and a strength as it takes one."""
    inputs = new_job(tmp_path).with_value(("site", "standard"), "EN 1991")
    asked = {".".join(each.path): each for each in inputs.fields() if each.path[0] == "site" and each.required}
    names = (
        "standard",
        "national",
        "consequence_class",
        "wind_speed",
        "terrain",
        "ground_snow",
        "snow_exposure",
        "cp_net",
    )
    assert tuple(asked) == tuple(f"site.{name}" for name in names)
    assert asked["site.wind_speed"].completed("25", "si") == "25 m/s"
