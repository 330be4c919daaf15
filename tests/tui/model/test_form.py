"""The form: groups, needed inputs first, strengths with their values, and what is typed, in full."""

from __future__ import annotations

import pytest

from engine.scenario.changes import REMOVED
from support import SCENARIOS
from tui.model.form import FOLDED_AT_FIRST, GROUPS, Line, Shown, lines
from tui.model.input_field import InputField, WayField
from tui.model.inputs import Inputs
from tui.model.new_job import TEXT, new_job


def inputs_of(name: str = "kestrel_yard") -> Inputs:
    path = SCENARIOS / f"{name}.toml"
    return Inputs(path, path.read_text(encoding="utf-8"))


def field_of(path: str, inputs: Inputs | None = None) -> InputField:
    return next(each for each in (inputs or inputs_of()).fields() if ".".join(each.path) == path)


def shown(name: str = "kestrel_yard", **changes: object) -> tuple[Line, ...]:
    return lines(Shown(fields=inputs_of(name).fields(), **changes))  # type: ignore[arg-type]


def test_every_input_has_its_place_in_one_group() -> None:
    for name in ("kestrel_yard", "heron_depot"):
        every = shown(name, folded=frozenset(), in_full=frozenset(GROUPS))
        paths = [line.field.path for line in every if line.field and not line.depth]
        assert sorted(paths) == sorted(field.path for field in inputs_of(name).fields())
        labels = [f"{line.group}: {line.label}" for line in every if line.field and not line.depth]
        assert len(labels) == len(set(labels)), "two inputs of a group have one name"


def test_needed_inputs_come_first_and_what_is_as_usual_is_counted() -> None:
    site = [line for line in shown() if line.group == "Site"]
    assert [line.label for line in site[1:5]] == [
        "load standard and edition",
        "basic wind speed",
        "exposure category",
        "ground snow load",
    ]
    assert site[-1].label == "8 more, not set or as usual"
    whole = [line for line in shown(in_full=frozenset({"Site"})) if line.group == "Site"]
    assert len(whole) - len(site) == 8


def test_a_folded_group_is_its_heading() -> None:
    for group in FOLDED_AT_FIRST:
        assert [line.key for line in shown() if line.group == group] == [(group,)]


def test_a_search_finds_names_whatever_is_folded() -> None:
    found = [line.field.path for line in shown(search="labour rate") if line.field]
    assert found == [("hardware", "labour_rate")]


@pytest.mark.parametrize(
    ("path", "typed", "full"),
    [
        ("site.wind_speed", "115", "115 mph"),
        ("site.wind_speed", "51 m/s", "51 m/s"),
        ("site.wind_speed", "fast", "fast"),
        ("site.exposure", "c", "C"),
        ("site.risk_category", "II", "II"),
        ("roof.kind", "exp", "exposed fastener"),
        ("roof.kind", "tiles", "tiles"),
        ("building.slope", "5:12", "5:12"),
        ("array.origin", "6 4.5", "6 ft, 4.5 ft"),
        ("array.origin", "6, 4 in", "6 ft, 4 in"),
        ("array.rows", "3", "3"),
        ("module.length", "1800", "1800 mm"),
        ("module.power", "420", "420 W"),
        ("roof.rib_spacing", "16", "16 in"),
        ("title", "House, north", "House, north"),
    ],
)
def test_what_is_typed_is_completed(path: str, typed: str, full: str) -> None:
    assert field_of(path).completed(typed, "us") == full


def test_a_number_takes_a_unit_of_a_size_that_fits_where_nothing_is_given() -> None:
    """As the trade states them: seams in inches, purlins and buildings in feet, clips in pounds."""
    new = new_job(SCENARIOS)
    for path, unit in (
        ("roof.rib_spacing", "in"),
        ("roof.support_spacing", "ft"),
        ("building.length", "ft"),
        ("module.thickness", "in"),
        ("site.ground_snow", "psf"),
        ("roof.panel.moment_rib_compressed", "lb ft"),
    ):
        assert field_of(path, new).unit("us") == unit


def test_a_strength_is_a_way_and_its_values() -> None:
    uplift = field_of("roof.fastening.uplift")
    assert isinstance(uplift, WayField)
    assert uplift.editable == "uplift test"
    assert len(uplift.options) == 7, "six ways of an allowable, and none"
    assert [part.path[-1] for part in uplift.parts][:3] == [
        "tested_pressure",
        "tested_rib_spacing",
        "tested_fastening_spacing",
    ]


def test_the_allowable_follows_from_the_test() -> None:
    """80 psf on 2 ft x 5 ft is 800 lb at failure; over 2.0 that is 400 lb."""
    uplift = field_of("roof.fastening.uplift")
    assert isinstance(uplift, WayField)
    assert uplift.result("us") == "405 lb allowable"
    changed = inputs_of().with_value((*uplift.path, "tested_pressure"), "70 psf")
    again = field_of("roof.fastening.uplift", changed)
    assert isinstance(again, WayField)
    assert again.result("us") == "350 lb allowable"
    assert changed.scenario().job.roof.fastening.uplift is not None


def test_another_way_starts_without_values_and_is_refused_until_they_are_given() -> None:
    inputs = inputs_of()
    uplift = field_of("roof.fastening.uplift")
    changed = inputs.edited(uplift, "stated allowable")
    assert not changed.readable
    allowable = (*uplift.path, "allowable")
    assert changed.with_value(allowable, "350 lb").readable
    assert inputs.edited(uplift, "uplift test") == inputs
    assert inputs.edited(uplift, "not set").changes == {uplift.path: REMOVED}


def test_a_value_of_a_table_that_was_changed_stays_one_change() -> None:
    inputs = inputs_of().edited(field_of("roof.fastening.uplift"), "load test")
    inputs = inputs.with_value(("roof", "fastening", "uplift", "tested"), "800 lb")
    assert inputs.changes == {("roof", "fastening", "uplift"): {"tested": "800 lb"}}
    assert 'tested = "800 lb"' in inputs.as_text(inputs.path)


def test_a_new_job_has_no_invented_figure() -> None:
    """Every number in its file is the format's."""
    assert [word for word in TEXT.split() if word.strip('"').isdigit()] == ["1"]
    new = new_job(SCENARIOS)
    needed = [field for field in new.fields() if field.required and field.path[0] in ("building", "roof", "module")]
    assert {field.editable for field in needed} == {"", "not set"}
