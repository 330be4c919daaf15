"""The promise: a fourth method and a second load standard take one new file and one registry line each.

Both doubles pass through comparison and exports; the standard has factored loads and design
resistances, so nothing on the road may assume allowable-stress design.
"""

from __future__ import annotations

import datetime
import json
import re
from typing import Annotated

import numpy as np
import pytest

from engine import links
from engine.common.errors import InputError
from engine.comparison.compare import Comparison, compare
from engine.comparison.figure import Figure
from engine.comparison.figures import figure_named, money, value_of
from engine.comparison.record import comparison_record
from engine.explain.find import explain_figure
from engine.export.bundle import bundle
from engine.export.stamp import Stamp
from engine.lessons.figures import find_figure
from engine.links import Check, Link, Location
from engine.links.check import governing_check
from engine.links.ratios import DemandOverResistance
from engine.links.trail_terms import value_step
from engine.load_path.demands import Demands
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.project.module import Module
from engine.scenario import read
from engine.scenario.listing import inputs_of
from engine.scenario.read import read_scenario
from engine.scenario.template import template
from engine.schema import Quantity, input_field
from engine.studies.quick import question_scenario, roof_loads
from support import SCENARIOS, laid_over, scenario_of, tables_of
from support.made_up_method import TwinBars
from support.made_up_standard import Factored
from tui.cli.main import main
from tui.cli.print_comparison import comparison_text
from tui.model.input_field import input_fields
from tui.model.inputs import Inputs
from tui.render import comparison as drawing
from tui.render import load_path

METHODS_AND_ONE = {**METHODS, "twin_bars": TwinBars}
STANDARDS_AND_ONE = {**STANDARDS, "Made-up 1": Factored}
SITE = {"standard": "Made-up 1", "gust": "0.5 kPa", "snow": "0.6 kPa"}


def made_up(**changes: object) -> Comparison:
    tables = laid_over(tables_of("kestrel_yard"), **{"site": SITE, **changes})
    return compare(read_scenario(tables, METHODS_AND_ONE, STANDARDS_AND_ONE))


@pytest.fixture(scope="module")
def comparison() -> Comparison:
    return made_up()


def test_four_methods_by_two_strangers(comparison: Comparison) -> None:
    assert [column.id for column in comparison.columns] == ["rail", "tilted_rack", "direct", "twin_bars"]
    twin = comparison.columns[-1]
    assert twin.status == "holds"
    assert value_of(twin, "rail_span_limit_m")
    assert value_of(twin, "attachments_minimum") == 2 * (144 + 24)  # six rows, each in four runs of six


def test_every_export_speaks_of_them(comparison: Comparison) -> None:
    stamp = Stamp(datetime.date(2026, 3, 4), "si")
    assert "twin" in comparison_text(comparison, stamp, 100)
    made = {file.name: file.make() for file in bundle(comparison, stamp)}
    assert {"attachments_twin_bars.csv", "plan_twin_bars.svg", "plan_twin_bars.dxf"} <= set(made)
    for name, written in made.items():
        if isinstance(written, str) and not name.endswith(".schema.json"):
            assert "Made-up 1" in written, name
            assert "twin" in written or not name.startswith("comparison"), name
    assert json.loads(made["comparison.json"])["methods"][-1]["method"] == "twin_bars"


def test_strengths_answer_with_partial_factors(comparison: Comparison) -> None:
    """The clip's test, 860 lb nominal, over 1.25 instead of 2.0: by hand 688 lb = 3060 N."""
    clip = next(check for check in comparison.columns[0].checks.values() if check.link == "roof_fastening")
    assert clip.resistance == pytest.approx(860 * 4.4482216 / 1.25)
    assert clip.demand
    assert clip.utilisation == pytest.approx(clip.demand / clip.resistance)


def test_texts_have_the_words_of_the_standard(comparison: Comparison) -> None:
    """What resistances are called comes from the standard: nothing is an allowable here but what the file calls so."""
    made = {file.name: file.make() for file in bundle(comparison, Stamp(datetime.date(2026, 3, 4)))}
    for name in ("comparison.csv", "comparison.md", "comparison.html", "plan_rail.svg", "attachments_rail.csv"):
        assert "allowable" not in str(made[name]), name
    assert "no component carries more than its design resistance" in str(made["report.html"])
    assert "design resistance in 1.0D + 1.5W up" in str(made["report.html"])


def test_a_method_may_refuse(comparison: Comparison) -> None:
    refused = made_up(roof__support="wood deck").columns[-1]
    assert refused.status == "refused"
    assert refused.flags[0].text == "Twin bars do not suit a wood deck. Use rails"
    assert value_of(refused, "attachments") is None


def test_a_quick_question_asks_what_the_stranger_needs() -> None:
    """Its own `gust`, and its `snow`, which needs no answer; none of the words of another standard."""
    values = {"standard": "Made-up 1", "modules": "12", "seams": "500 mm", "purlins": "1.2 m", "slope": "5 deg"}
    values |= {"height": "6 m", "gust": "0.5 kPa"}
    found = roof_loads(compare(question_scenario(values, METHODS, STANDARDS_AND_ONE)))
    assert found
    # by hand: 1.5 x 0.5 kPa x 1.5 in the strip at the eave, on 0.5 m x 1.2 m
    assert max(each.without for each in found) == pytest.approx(1.5 * 500 * 1.5 * 0.5 * 1.2)
    with pytest.raises(InputError, match="gust: missing: the pressure of a gust"):
        question_scenario({key: value for key, value in values.items() if key != "gust"}, METHODS, STANDARDS_AND_ONE)
    with pytest.raises(InputError, match="exposure: unknown"):
        question_scenario(values | {"exposure": "B"}, METHODS, STANDARDS_AND_ONE)


def test_a_template_and_a_form_of_the_strangers(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No scenario of it is bundled: its keys are named, in its units, and the check says which are still missing."""
    monkeypatch.setattr("engine.loads.STANDARDS", STANDARDS_AND_ONE)
    assert main(["new", "--standard", "Made-up 1"]) == 0
    written = capsys.readouterr().out
    assert 'standard = "Made-up 1"' in written
    assert "# gust is required" in written
    assert not re.search(
        r"\d (?:ft|lb|psf|mph)\b", "\n".join(line for line in written.splitlines() if line.startswith("#"))
    )
    tables = tables_of("kestrel_yard") | {"site": {"standard": "Made-up 1"}}
    monkeypatch.setattr("tui.model.input_field.STANDARDS", STANDARDS_AND_ONE)
    found = {".".join(each.path): each for each in input_fields(tables, {}, read.resolved_tables(tables, ()))}
    assert found["site.gust"].required
    assert found["hardware.attachment_height"].shown == "50.8 mm"


def test_a_standard_may_object() -> None:
    with pytest.raises(InputError, match=r"building.slope: 40.0 deg given; Made-up 1 speaks of slopes to 30 deg"):
        made_up(building__slope="40 deg")


def test_an_unknown_key_of_the_strangers_is_refused_too() -> None:
    with pytest.raises(Exception, match=r"did you mean 'gust'"):
        made_up(site=SITE | {"gusts": "1 kPa"})


# -- a link and a figure, each declared in one place ------------------------------------------


def wind_noise(demands: Demands) -> Check:
    """A made-up component: the largest module pressure against an allowable of its own."""
    ratios = DemandOverResistance(np.abs(demands.module_pressure), np.full(len(demands.combinations), 1e5))
    place = lambda module: Location(f"module {module + 1}")  # noqa: E731
    return governing_check("gasket", "gasket", "pressure", ratios, demands.combinations, place)


GASKET = Link(
    "gasket",
    title=lambda job: "gasket",
    help=lambda job: "a made-up seal under the module",
    check=wind_noise,
    explain=lambda trail, check: [value_step("g", "made-up pressure on the gasket", check.demand or 0.0, "Pa")],
)

WATTS_A_POINT = Figure(
    "power_per_attachment_w",
    "attachments",
    label=lambda job: "power per attachment",
    help=lambda job: "rated power over attachments, made up",
    dimension="power",
    value=lambda column: column.design.bill.power / len(column.design.layout.attachments) if column.design else None,
    explain=lambda context: (value_step("w", "made-up figure", 1.0, "W"),),
)


@pytest.fixture
def extended(monkeypatch: pytest.MonkeyPatch) -> Comparison:
    monkeypatch.setattr(links, "LINKS", (*links.LINKS, GASKET))
    monkeypatch.setattr(money, "FIGURES", (*money.FIGURES, WATTS_A_POINT))
    return compare(scenario_of("kestrel_yard", methods__direct__spacing="2 per edge"), ("direct",))


def test_a_link_declared_once_is_everywhere(extended: Comparison) -> None:
    column = extended.columns[0]
    ratio = column.checks["gasket"].utilisation
    assert ratio
    figure = figure_named("gasket")
    assert figure.cell(column, "us") == f"{ratio:.2f}"
    record = comparison_record(extended)["methods"][0]
    assert record["links"][-1]["link"] == "gasket"
    assert find_figure(comparison_record(extended), "methods.direct.links.gasket.utilisation").value == ratio
    assert "made-up pressure" in explain_figure(extended, column, figure, "us").steps[1].meaning
    made = {file.name: file.make() for file in bundle(extended, Stamp(datetime.date(2026, 3, 4)))}
    assert "gasket" in str(made["comparison.csv"])
    assert "gasket" in str(made["comparison.md"])
    assert "made-up pressure on the gasket" in str(made["report.html"])
    assert "gasket" in comparison_text(extended, Stamp(datetime.date(2026, 3, 4)), 100)
    assert any("gasket" in str(line) for line in load_path.draw(extended, column, 8, "us", 100, 40).plain.splitlines())


def test_a_figure_declared_once_is_everywhere(extended: Comparison) -> None:
    column = extended.columns[0]
    record = comparison_record(extended)
    value = record["methods"][0]["power_per_attachment_w"]
    assert value == pytest.approx(144 * 420 / 336)
    assert find_figure(record, "methods.direct.power_per_attachment_w").text("us") == "0.18 kW"
    assert figure_named("power_per_attachment_w").cell(column, "us") == "0.18 kW"
    assert explain_figure(extended, column, WATTS_A_POINT, "us").steps[0].meaning == "made-up figure"
    made = {file.name: file.make() for file in bundle(extended, Stamp(datetime.date(2026, 3, 4)))}
    for name in ("comparison.csv", "comparison.md", "comparison.html"):
        assert "power per attachment" in str(made[name]), name
    assert "power per attachment" in comparison_text(extended, Stamp(datetime.date(2026, 3, 4)), 100)
    sheet = drawing.draw(extended, None, "us", 100)
    assert any("power per attachment" in line.plain for line in sheet.lines)


# -- an input, declared in one place -----------------------------------------------------------


class LabelledModule(Module):
    """The module with a made-up input."""

    label_length: Annotated[float, Quantity("length", "1 in", "10 in")] = input_field(
        "2 in", description="length of a made-up label"
    )


def test_an_input_declared_once_is_everywhere(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(read.TABLES, "module", LabelledModule)  # type: ignore[misc]
    scenario = scenario_of("kestrel_yard", module__label_length="3 in")
    assert scenario.job.module.label_length == pytest.approx(3 * 0.0254)  # type: ignore[attr-defined]
    with pytest.raises(InputError, match=r"module.label_length: .11 in. given; allowed is 1 in to 10 in"):
        scenario_of("kestrel_yard", module__label_length="11 in")
    with pytest.raises(InputError, match=r"did you mean 'label_length'"):
        scenario_of("kestrel_yard", module__label_lenth="3 in")
    written = template(tables_of("kestrel_yard"), read.fields_of(METHODS, STANDARDS["ASCE 7-16"]))
    assert '# label_length = "2 in"' in written
    assert "length of a made-up label" in written
    (listed,) = (row for row in inputs_of(scenario) if row.path == "module.label_length")
    assert (listed.written, listed.stated) == ("3 in", True)
    path = SCENARIOS / "kestrel_yard.toml"
    form = Inputs(path, path.read_text(encoding="utf-8")).fields()
    (field,) = (field for field in form if field.path == ("module", "label_length"))
    assert "length of a made-up label" in field.help
