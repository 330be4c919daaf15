"""Load path and bill: every figure is the comparison's own, and what cannot be shown says why."""

from __future__ import annotations

import pytest

from engine.comparison.bill_figures import bill_rows, price_source
from engine.comparison.compare import compare
from engine.comparison.figures import table_figures
from engine.comparison.record import comparison_record
from engine.design.status import Status
from engine.links import LINKS
from engine.units import text
from support import SCENARIOS, scenario_of
from support.opened_app import SIZES, opened, seen, settled
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs

pytestmark = pytest.mark.app


PART = {"N": "force", "Pa": "pressure", "N m": "moment", "m": "small length"}


@pytest.mark.parametrize("size", SIZES)
async def test_the_chain_is_the_comparisons(size: tuple[int, int]) -> None:
    methods = comparison_record(compare(scenario_of()))["methods"]
    async with opened("kestrel_yard", size, "l") as (app, pilot):
        for method in methods:
            shown = seen(app).splitlines()
            for link, check in zip(method["links"], app.state.column.checks.values(), strict=True):
                line = next(line for line in shown[3:] if line[2:].startswith(check.title))
                if link["utilisation"] is None:
                    assert "shown by others" in line or "only reported" in line
                    continue
                if link["parts"]:
                    assert f"{len(link['parts'])} loads together" in line
                    continue
                asked = text(link["demand"], PART[link["unit"]], "us", with_unit=False)
                assert f"{asked} of {text(link['resistance'], PART[link['unit']], 'us')}" in line
                over = " OVER" if link["utilisation"] > 1 else ""
                assert line.rstrip().endswith(f"{text(link['utilisation'], 'ratio', 'us')}{over}")
            assert all(len(line) <= size[0] - 2 for line in shown)
            await pilot.press("right")
            await settled(pilot)


async def test_the_weakest_link_is_named_until_another_is_chosen() -> None:
    """Modules on seams at two points an edge, as in the hand calculation: 0.79 of an attachment."""
    async with opened("kestrel_yard", (80, 24), "l", "left") as (app, pilot):
        shown = seen(app)
        assert "Every component checked holds: attachment at 0.79 of allowable." in shown
        assert "▸ attachment" in shown
        assert "seam 62, 122.00 ft from the rake" in " ".join(shown.split())
        assert "D + S unbalanced   (D weight, S snow)" in shown
        await pilot.press("down")
        assert "▸ seam bending" in seen(app)
        await pilot.press("u")
        assert "kN" in seen(app)


@pytest.mark.parametrize("key", ["w", "enter"])
async def test_every_link_tells_its_own_story(key: str) -> None:
    async with opened("kestrel_yard", (80, 24), "l", *["up"] * 6) as (app, pilot):
        assert app.state.column
        for link in LINKS:
            name, check = link.key, app.state.column.checks[link.key]
            assert app.screen.question().row == name
            assert f"▸ {check.title}" in seen(app)
            await pilot.press(key)
            await settled(pilot)
            label = next(row.label(app.state.comparison.scenario.job) for row in table_figures() if row.key == name)
            assert seen(app, "#text").startswith(f"{app.state.column.title}: {label} ")
            await pilot.press("escape", "down")


@pytest.mark.parametrize("size", SIZES)
async def test_a_method_without_a_chain_says_why(size: tuple[int, int]) -> None:
    async with opened("plover_terrace", size, "l", "right") as (app, _):
        assert "This method cannot be used here." in seen(app)
        assert "the roof ends at 48.75 ft" in " ".join(seen(app).split())
    async with opened("finch_shed", size, "l", "m") as (app, _):
        assert "The load standard does not cover this method here" in seen(app)
        assert "the roof's slope is 14.04 deg" in seen(app)


@pytest.mark.parametrize("size", SIZES)
async def test_the_bill_is_the_comparisons_with_differences(size: tuple[int, int]) -> None:
    answer = compare(scenario_of())
    methods = {method["method"]: method for method in comparison_record(answer)["methods"]}
    async with opened("kestrel_yard", size, "b") as (app, pilot):
        shown = seen(app).splitlines()
        for row in bill_rows(answer, "us"):
            label = row.label(answer.scenario.job).ljust(22)
            cells = [row.cell(column, "us") for column in answer.columns]
            assert any(line.startswith(label) and _in_order(cells, line[22:]) for line in shown), row.label
        assert all(len(line) <= size[0] - 3 for line in shown)
        total = next(line for line in shown if line.startswith("total, USD"))
        cheapest_total = methods["direct"]["total_cost"]
        assert total.split()[3] == f"+{text(methods['rail']['total_cost'] - cheapest_total, 'money', 'us')}"
        assert "modules on seams ▸, the cheapest that holds" in seen(app, "#against")
        assert "invented" in seen(app, "#against")
        await pilot.press("right", "left")
        assert "Differences from ◂ rails ▸" in seen(app, "#against")


@pytest.mark.parametrize("size", SIZES)
async def test_the_bill_says_what_holds_and_measures_against_it(size: tuple[int, int]) -> None:
    """Rails by their own span are over, and cost less than the rack, which holds."""
    path, by_span = SCENARIOS / "kestrel_yard.toml", {("methods", "rail", "spacing"): "rail span"}
    for only, words in {
        ("rail", "tilted_rack"): "Differences from ◂ tilted rack ▸, the cheapest that holds",
        ("rail",): "Differences from ◂ rails ▸, the cheapest; no method holds",
    }.items():
        app = LoadpathApp(Inputs(path, path.read_text(encoding="utf-8"), by_span), only)
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            await pilot.press("b")
            await settled(pilot)
            assert seen(app, "#against").startswith(words)
            assert app.state.comparison
            heads, verdicts, *_ = seen(app).splitlines()
            assert verdicts.split()[1:] == [Status(column.status).word for column in app.state.comparison.columns]
            for column in app.state.comparison.columns:
                ends = heads.index(column.title) + len(column.title)
                assert verdicts[:ends].endswith(f" {Status(column.status).word}")


def _in_order(cells: list[str], line: str) -> bool:
    place = 0
    for cell in cells:
        place = line.find(cell, place)
        if place < 0:
            return False
        place += len(cell)
    return True


async def test_prices_of_ones_own_are_not_called_invented() -> None:
    own = compare(scenario_of(hardware={"labour_rate": "60 / h"}))
    assert price_source(own) == "Prices, minutes and labour rate that the scenario does not state are invented."
