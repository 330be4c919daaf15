"""The form: groups, needed inputs first, strengths with their values, and what is typed, in full."""

from __future__ import annotations

import pytest

from engine.common.errors import InputError
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
    assert uplift.result("us") == "430 lb allowable"
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


# -- lists of named entries ------------------------------------------------------------------


def edited(inputs: Inputs, *typed: tuple[str, str]) -> Inputs:
    for path, text in typed:
        inputs = inputs.edited(field_of(path, inputs), text)
    return inputs


PORTRAIT = (
    ("alternatives.+", "portrait"),
    ("alternatives.portrait.set.+", "array orientation"),
    ("alternatives.portrait.set.array.orientation", "portrait"),
)


def test_an_alternative_is_a_name_and_lines_with_the_inputs_that_it_changes() -> None:
    """Each change has the name, the options and the unit of the input that it changes."""
    inputs = edited(inputs_of(), *PORTRAIT, ("alternatives.portrait.set.+", "site.wind_speed"))
    found = [line for line in lines(Shown(fields=inputs.fields(), folded=frozenset())) if line.group == "Alternatives"]
    assert [(line.depth, line.label, line.field.editable) for line in found if line.field] == [
        (0, "portrait: name of the alternative", "portrait"),
        (1, "how rows and columns are counted", "portrait"),
        (1, "basic wind speed", "105 mph"),
        (1, "change another input", ""),
        (0, "another alternative", ""),
    ]
    wind = field_of("alternatives.portrait.set.site.wind_speed", inputs)
    assert wind.completed("95", "us") == "95 mph"
    assert field_of("alternatives.portrait.set.array.orientation", inputs).options == ("landscape", "portrait")


def test_alternatives_are_read_renamed_and_taken_out_again() -> None:
    inputs = edited(inputs_of(), *PORTRAIT, ("alternatives.portrait.name", "upright"))
    (read,) = inputs.scenario().alternatives
    assert (read.name, read.changes) == ("upright", {("array", "orientation"): "portrait"})
    assert edited(inputs, ("alternatives.upright.name", "")).changes == {}
    emptied = edited(inputs, ("alternatives.upright.set.array.orientation", ""))
    assert emptied.tables()["alternatives"] == [{"name": "upright", "set": {}}]


def test_an_entry_that_was_searched_for_stays_in_sight_while_it_is_renamed() -> None:
    inputs = edited(inputs_of(), *PORTRAIT, ("alternatives.portrait.name", "upright"))
    renamed = Shown(fields=inputs.fields(), search="portrait name", open_path=("alternatives", "upright", "name"))
    assert [line.field.path for line in lines(renamed) if line.field] == [("alternatives", "upright", "name")]


def test_alternatives_are_written_as_tables_behind_all_others() -> None:
    inputs = edited(inputs_of(), *PORTRAIT)
    text = inputs.as_text(inputs.path)
    assert text.endswith(
        '\n[[alternatives]]\nname = "portrait"\n\n[alternatives.set]\n"array.orientation" = "portrait"\n'
    )
    assert text.startswith(inputs.text.rstrip())
    assert Inputs(inputs.path, text).scenario().alternatives[0].name == "portrait"


def test_a_wrong_change_is_marked_in_its_own_line() -> None:
    inputs = edited(inputs_of(), ("alternatives.+", "x"), ("alternatives.x.set.+", "array rows"))
    inputs = edited(inputs, ("alternatives.x.set.array.rows", "0"))
    with pytest.raises(InputError) as refused:
        inputs.scenario()
    wrong = frozenset(tuple(problem.path.split(".")) for problem in refused.value.problems)
    form = Shown(fields=inputs.fields(), folded=frozenset(), wrong=wrong)
    marked = [line.key for line in lines(form) if line.field and not line.is_result and form.is_wrong(line.field)]
    assert marked == [("alternatives", "x", "set", "array.rows")]


def test_an_array_is_added_beside_a_single_one_and_both_are_written_as_a_list() -> None:
    inputs = edited(inputs_of(), ("array.rows", "3"), ("arrays.+", "B"), ("arrays.B.origin", "40 ft, 40 ft"))
    arrays = inputs.scenario().job.arrays
    assert [(each.name, each.rows) for each in arrays] == [("A", 3), ("B", 3)]
    again = Inputs(inputs.path, inputs.as_text(inputs.path))
    assert "array" not in again.tables()
    assert [each.origin for each in again.scenario().job.arrays] == [each.origin for each in arrays]
    assert [each["name"] for each in edited(inputs, ("arrays.A.name", "")).tables()["arrays"]] == ["B"]


def test_slopes_are_added_and_arrays_are_moved_to_them() -> None:
    first = (("slopes.+", "south"), ("slopes.+", "north"))
    inputs = edited(inputs_of(), *first, ("arrays.+", "B"), ("arrays.B.slope", "north"))
    assert field_of("arrays.B.slope", inputs).options == ("south", "north")
    assert [(each.slope, [array.name for array in each.job.arrays]) for each in inputs.slopes()] == [
        ("south", ["A"]),
        ("north", ["B"]),
    ]


def test_other_inputs_are_kept_as_an_alternative_that_leads_back_to_them() -> None:
    before = inputs_of()
    now = edited(before, ("site.wind_speed", "120 mph"), ("array.rows", "4"))
    kept = now.with_alternative("kept", before)
    assert kept
    (alternative,) = kept.scenario().alternatives
    assert alternative.changes == {("site", "wind_speed"): "105 mph", ("array", "rows"): 6}
    assert alternative.scenario.job == before.scenario().job
    assert now.with_alternative("kept", now) is None
    again = edited(kept, ("site.wind_speed", "130 mph")).with_alternative("kept", before)
    assert again
    assert [each.name for each in again.scenario().alternatives] == ["kept", "kept 2"]
