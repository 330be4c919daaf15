"""Shelves: an entry's values, what overrides what, where each comes from, and every wrong reference in one sentence."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from engine.common.errors import InputError
from engine.mounting import METHODS
from engine.scenario.changed import changed
from engine.scenario.listing import inputs_of, origins_listed
from engine.scenario.read import Scenario, read_scenario, read_slopes
from engine.scenario.shelf import MAX_CHAIN, Shelf
from engine.scenario.shelf_check import entries_of
from support import ALL_STANDARDS, SCENARIOS, laid_over, tables_of

BUNDLED = Shelf(
    "invented_parts.toml", tomllib.loads((SCENARIOS / "parts" / "invented_parts.toml").read_text(encoding="utf-8"))
)
M420 = {"from": "M420"}
OF_THE_JOB = {"first_rib": "0 in", "first_support": "1 ft", "collateral_allowance": "8 psf"}


def shelf(text: str, name: str = "parts.toml") -> Shelf:
    return Shelf(name, tomllib.loads("format = 1\n" + text))


def scenario_with(*shelves: Shelf, **changes: object) -> Scenario:
    return read_scenario(laid_over(tables_of("kestrel_yard"), **changes), METHODS, ALL_STANDARDS, shelves=shelves)


def problems(*shelves: Shelf, **changes: object) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        scenario_with(*shelves, **changes)
    assert len({str(each) for each in refused.value.problems}) == len(refused.value.problems)
    return {problem.path: problem.message for problem in refused.value.problems}


def test_a_job_of_references_is_the_job_of_the_values_they_stand_for() -> None:
    """The bundled shelf holds the module and the roof of the default job under their names."""
    roof = {"from": "24 in seam on purlins", **OF_THE_JOB}
    written, referred = scenario_with(), scenario_with(BUNDLED, module=M420, roof=roof)
    for table in ("module", "roof", "hardware"):
        one, other = (getattr(each.job, table).model_dump(exclude={"from"}) for each in (written, referred))
        assert one == other, table


def test_two_jobs_may_share_a_module_and_a_roof() -> None:
    one = scenario_with(BUNDLED, module=M420)
    other = scenario_with(BUNDLED, module=M420, array__rows=2)
    assert one.job.module == other.job.module
    heavier = shelf('modules.M420 = { mass = "30 kg" }')
    own = dict(tables_of("kestrel_yard")["module"])
    own.pop("mass")
    assert scenario_with(heavier, module=own | M420).job.module.mass == 30.0


def test_the_scenario_s_own_keys_override_the_entry_also_in_the_tables_within() -> None:
    """A strength is one value: it is replaced as a whole, and the rest of its table stays."""
    roof = {
        "from": "24 in seam on purlins",
        "rib_spacing": "18 in",
        "panel": {"moment_pan_compressed": "300 lb ft"},
        "fastening": {"uplift": {"allowable": "350 lb"}, "travel": "2 in"},
        **OF_THE_JOB,
    }
    job = scenario_with(BUNDLED, roof=roof).job
    assert job.roof.rib_spacing == pytest.approx(18 * 0.0254)
    assert job.roof.panel.moment_pan_compressed == pytest.approx(300 * 4.4482216152605 * 0.3048)
    assert job.roof.panel.moment_rib_compressed == scenario_with().job.roof.panel.moment_rib_compressed
    assert [basis.description() for basis in job.roof.fastening.stated_uplift] == ["allowable stated by the maker"]


def test_an_entry_may_be_taken_from_others_the_later_and_the_nearer_override() -> None:
    parts = shelf(
        """
        hardware.first = { labour_rate = "10 / h", attachment_height = "1 in" }
        hardware.second = { labour_rate = "20 / h", attachment_height = "2 in" }
        [hardware.third]
        from = ["first", "second"]
        attachment_height = "3 in"
        [rails.stiff]
        inertia = "1.25 in4"
        """
    )
    hardware = {"from": "third", "rail": {"from": "stiff"}}
    job = scenario_with(parts, hardware=hardware).job
    assert job.hardware.labour_rate == 20.0
    assert job.hardware.attachment_height == pytest.approx(3 * 0.0254)
    assert job.hardware.rail.inertia == pytest.approx(1.25 * 0.0254**4)
    assert job.hardware.rail.mass == scenario_with().job.hardware.rail.mass  # the other keys keep their defaults


def test_a_table_within_taken_from_an_entry_overrides_the_one_of_the_entry_above() -> None:
    parts = shelf('panels.thin = { moment_rib_compressed = "200 lb ft", moment_pan_compressed = "100 lb ft" }')
    roof = {"from": "24 in seam on purlins", "panel": {"from": "thin"}, **OF_THE_JOB}
    panel = scenario_with(BUNDLED, parts, roof=roof).job.roof.panel
    assert panel.moment_pan_compressed == pytest.approx(100 * 4.4482216152605 * 0.3048)
    assert panel.at_clamp_uplift is not None  # not in the thin panel: it stays the roof's


def test_every_value_says_where_it_comes_from() -> None:
    module = {"from": "M420", "mass": "22 kg", "power": {"value": "430 W", "source": "flash test"}}
    scenario = scenario_with(BUNDLED, module=module)
    rows = {row.path: row for row in inputs_of(scenario)}
    invented = "in invented_parts.toml: invented for loadpath, no product"
    assert rows["module.length"].origin == f"'M420 without ratings' {invented}"
    assert rows["module.rating_up"].origin == f"'M420' {invented}"
    assert (rows["module.mass"].origin, rows["module.mass"].written) == ("file", "22 kg")
    assert (rows["module.power"].origin, rows["module.power"].written) == ("file: flash test", "430 W")
    assert rows["roof.panel.weight"].origin == "default"
    listed = dict(origins_listed(scenario))
    assert listed[f"'M420' {invented}"] == "module.rating_up, module.rating_down"
    counted = sum(int(listed[each].split()[0]) for each in ("file, no source stated", "default"))
    assert counted + sum(len(paths.split(", ")) for paths in listed.values() if "." in paths) == len(rows)


def test_a_value_of_an_entry_may_have_a_source_of_its_own() -> None:
    parts = shelf('[modules.X]\nsource = "data sheet"\nmass = { value = "23 kg", source = "weighed" }\npower = "400 W"')
    own = {key: value for key, value in tables_of("kestrel_yard")["module"].items() if key not in ("mass", "power")}
    scenario = scenario_with(parts, module={"from": "X", **own})
    assert scenario.job.module.mass == 23.0
    assert scenario.origins.origin_of("module.mass").words == "'X' in parts.toml: weighed"
    assert scenario.origins.origin_of("module.power").words == "'X' in parts.toml: data sheet"


def test_a_change_laid_over_a_reference_overrides_the_shelf() -> None:
    """As the ways out do: one value changes, the rest stays the shelf's and says so."""
    scenario = scenario_with(BUNDLED, module=M420)
    after = changed(scenario, {("module", "mass"): "25 kg"})
    assert (after.job.module.mass, after.job.module.power) == (25.0, 420.0)
    assert after.origins.origin_of("module.mass").words == "file"
    assert after.origins.origin_of("module.power") == scenario.origins.origin_of("module.power")


def test_an_alternative_may_take_another_entry() -> None:
    other = {"name": "listed", "set": {"module.from": "M420 listed by points"}}
    (found,) = scenario_with(BUNDLED, module=M420, alternatives=[other]).alternatives
    assert [row.points for row in found.scenario.job.module.ratings] == [4, 6]


def test_a_slope_may_have_a_roof_of_its_own_from_the_shelf() -> None:
    """The slope's roof overrides the file's, whole entries too; its sources and problems have its paths."""
    stiffer = shelf("""
        [roofs.stiffer]
        source = "survey"
        support_spacing = "4 ft"
        panel = { moment_pan_compressed = "999 lb ft" }
        """)
    tables = tables_of("kestrel_yard")
    array = tables.pop("array")
    tables |= {
        "roof": {"from": "24 in seam on purlins", **OF_THE_JOB},
        "slopes": [{"name": "south"}, {"name": "north", "roof": {"from": "stiffer", "first_support": "2 ft"}}],
        "arrays": [{"name": name, "slope": name, **array} for name in ("south", "north")],
    }
    south, north = read_slopes(tables, METHODS, ALL_STANDARDS, (BUNDLED, stiffer))
    assert south.job.roof == scenario_with(BUNDLED, roof=tables["roof"]).job.roof
    assert north.job.roof.support_spacing == pytest.approx(4 * 0.3048)
    assert north.job.roof.panel.moment_rib_compressed == south.job.roof.panel.moment_rib_compressed
    assert north.origins.origin_of("roof.support_spacing").words == "'stiffer' in parts.toml: survey"
    assert north.origins.origin_of("roof.first_support").words == "file"
    assert north.origins.origin_of("roof.rib_spacing").shelf == "invented_parts.toml"
    tables["slopes"][1]["roof"]["from"] = "stifer"
    with pytest.raises(InputError) as refused:
        read_slopes(tables, METHODS, ALL_STANDARDS, (BUNDLED, stiffer))
    (problem,) = refused.value.problems
    assert problem.path == "slopes.north.roof.from"
    assert problem.message.endswith("did you mean 'stiffer'?")


@pytest.mark.parametrize(
    ("text", "changes", "path", "sentence"),
    [
        ("", {"module": {"from": "M42"}}, "module.from", "'M42' given; [modules] of parts.toml has no such entry"),
        (
            "modules.M420 = {}",
            {"module": {"from": "M42"}},
            "module.from",
            "'M42' given; [modules] of parts.toml has no such entry; did you mean 'M420'?",
        ),
        (
            '[modules.A]\nfrom = "B"\n[modules.B]\nfrom = "A"',
            {"module": {"from": "A"}},
            "parts.toml: modules.B.from",
            "'A' given, which leads back to itself: modules.A from modules.B from modules.A",
        ),
        (
            '[modules.A]\nfrom = "A"',
            {"module": {"from": "A"}},
            "parts.toml: modules.A.from",
            "'A' given, which leads back to itself: modules.A from modules.A",
        ),
        ("modules.A = 3", {"module": {"from": "A"}}, "module.from", "'A' is 3 in parts.toml; write a table"),
        ("", {"module": {"from": 3}}, "module.from", '3 given; write a word in quotes, or a list such as ["M420", "price list"]'),
        (
            "[modules.A]\nsource = 3",
            {"module": {"from": "A"}},
            "module.from",
            "3 given; write a line of text in quotes",
        ),
        ("moduls.A = {}", {}, "parts.toml: moduls", "unknown; did you mean 'modules'?"),
        ("modules = 3", {}, "parts.toml: modules", "3 given; write tables such as [modules.NAME]"),
    ],
)  # fmt: skip
def test_a_wrong_reference_is_one_sentence(text: str, changes: dict[str, Any], path: str, sentence: str) -> None:
    """And nothing else: what the entry would have held is not missing on top."""
    assert problems(shelf(text), **changes) == {path: sentence}


def test_a_reference_without_a_shelf_says_how_to_name_one() -> None:
    sentence = "'M420' given without a shelf; name its file above the tables: use = [\"parts.toml\"]"
    assert problems(module=M420) == {"module.from": sentence}


def test_a_name_in_two_shelves_is_refused() -> None:
    sentence = "'M420' given, which is in invented_parts.toml and more.toml; rename one of them"
    assert problems(BUNDLED, shelf("modules.M420 = {}", "more.toml"), module=M420) == {"module.from": sentence}


def test_a_wrong_value_names_the_entry_that_has_it() -> None:
    given = problems(shelf('modules.A = { from = "M420", mass = "3 stone", masss = 1 }'), BUNDLED, module={"from": "A"})
    assert given["module.mass"].endswith("the unit 'stone' is not one of lb, kg, g (from 'A' in parts.toml)")
    assert given["module.masss"] == "unknown; did you mean 'mass'? (from 'A' in parts.toml)"


def test_a_shelf_of_another_version_is_refused() -> None:
    old = Shelf("old.toml", {"format": 2, "modules": {}})
    assert problems(old) == {"old.toml: format": "2 given; this version reads format = 1"}


def test_chains_and_nesting_of_others_end_in_a_sentence() -> None:
    """A chain of entries that branches twice at every step would be read 2^n times, and a deep table overflow."""
    text = (
        "\n".join(f'modules.M{n} = {{ from = ["M{n + 1}", "M{n + 1}"] }}' for n in range(500)) + "\nmodules.M500 = {}"
    )
    found = problems(shelf(text), module={"from": "M0"})
    assert found[f"parts.toml: modules.M{MAX_CHAIN - 1}.from"].endswith("allowed are 20 entries taken from one another")
    deep: Any = "1 kg"
    for _ in range(200):
        deep = {"value": deep, "source": "s"}
    assert problems(module__mass=deep)["module"] == "tables within tables given; allowed are 30 levels"


def test_the_bundled_shelf_says_that_it_is_invented_and_every_entry_is_right() -> None:
    entries = entries_of(BUNDLED, (BUNDLED,))
    assert {entry.path.partition(".")[0] for entry in entries} >= {"modules", "roofs", "panels", "fastenings", "rails"}
    for entry in entries:
        assert entry.values, entry.path
        assert all("invented" in source for source in entry.sources), entry.path


def test_a_shelf_by_itself_lists_all_that_is_wrong() -> None:
    """Entries that hold only some keys of their table are right."""
    (entry,) = entries_of(shelf('modules.A = { mass = "3 kg" }'), (shelf('modules.A = { mass = "3 kg" }'),))
    assert (entry.path, entry.sentence) == ("modules.A", "1 value; no source stated")
    wrong = shelf('modules.A = { mass = 3 }\nrails.B = { inertia = "4 ft" }\nroofs.C = { from = "D" }')
    with pytest.raises(InputError) as refused:
        entries_of(wrong, (wrong,))
    assert [each.path for each in refused.value.problems] == ["roofs.C.from", "modules.A.mass", "rails.B.inertia"]
