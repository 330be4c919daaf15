"""What people come to do, from start to end, by keyboard alone, in the smallest terminal."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from engine.comparison.compare import compare
from engine.comparison.figures.verdict import verdict_word
from engine.comparison.record import comparison_record
from engine.studies.record import ways_by_method
from engine.studies.ways_out import ways_out
from engine.units import text
from support import SCENARIOS, scenario_of
from support.opened_app import comparison, figures, opened, seen, settled, why_seen
from tui.screens.load_path import LoadPath
from tui.screens.main import Main
from tui.screens.roof_plan import RoofPlan
from tui.screens.spacing_study import SpacingStudyScreen
from tui.screens.why import WhyScreen
from tui.storage.paths import bundled

pytestmark = pytest.mark.app


SMALL = (80, 24)


async def press(pilot: Pilot[None], *keys: str) -> None:
    await pilot.press(*keys)
    await settled(pilot)


async def test_choose_a_method() -> None:
    """Open a scenario, compare, look at the controlling component, change an input, see the verdict change and by how much."""
    steps_down = bundled().index(SCENARIOS / "sparrow_lane.toml")
    async with opened("kestrel_yard", SMALL) as (app, pilot):
        await press(pilot, "ctrl+o", "home", *["down"] * steps_down, "enter")
        assert "Sparrow Lane house" in comparison(app)
        assert "HOLDS" in comparison(app)
        assert "OVER" not in comparison(app)
        await press(pilot, "l")
        assert isinstance(app.screen, LoadPath)
        assert "Every component checked holds" in seen(app)
        await press(pilot, "escape", "k", "/", *"wind sp", "enter", "enter", *"170 mph", "enter")
        assert "OVER" in str(app.main.query_one("#verdicts", Static).render())
        await press(pilot, "escape", "escape")
        await press(pilot, "x")
        verdict = next(line for line in figures(app).splitlines() if line.startswith("verdict"))
        columns = compare(scenario_of("sparrow_lane", site__wind_speed="170 mph")).columns
        assert verdict.split()[1:] == " ".join(map(verdict_word, columns)).split()
        assert "over" in [column.status for column in columns]
        assert "was HOLDS" in comparison(app)
        await press(pilot, "z")
        assert "was HOLDS" not in comparison(app)


async def test_find_why() -> None:
    """From the utilisation of a link, and of one attachment, back to the wind speed; escape leads out level by level."""
    async with opened("finch_shed", SMALL) as (app, pilot):
        await press(pilot, "x", "home", "down", "enter")
        assert isinstance(app.screen, WhyScreen)
        said = why_seen(app)
        weakest = comparison_record(compare(scenario_of("finch_shed")))["methods"][0]
        used = text(weakest["weakest_utilisation"], "ratio", "us")
        assert f"controlling component {weakest['weakest_title']} {used}" in " ".join(said.split())
        assert "95 mph" in said
        assert "ASCE 7" in said
        await press(pilot, "escape", "p", "right", "w")
        assert "95 mph" in why_seen(app)
        await press(pilot, "escape")
        assert isinstance(app.screen, RoofPlan)
        await press(pilot, "escape")
        assert isinstance(app.screen, Main)


async def test_show_the_class() -> None:
    """Attachments apart until the roof gives out: fewer of them, larger loads, and one sentence that says so."""
    async with opened("heron_depot", SMALL, "n", *["left"] * 8) as (app, pilot):
        assert isinstance(app.screen, SpacingStudyScreen)
        close = seen(app)
        assert "Every component checked holds" in close
        await press(pilot, *["right"] * 8)
        apart = seen(app)
        assert "OVER" in apart
        assert "Every component checked holds" not in apart
        assert _count(apart) < _count(close)
        await press(pilot, "down")
        assert "largest down load" in seen(app)
        await press(pilot, "m", "u")
        assert " kN" in seen(app)
        await press(pilot, "escape")
        assert app.screen is app.main
        assert app.state.method == "tilted_rack"


def _count(shown: str) -> int:
    words = shown.splitlines()[0].split()
    return int(words[words.index("attachments") - 1].replace(",", ""))


async def test_export(tmp_path: Path) -> None:
    """Everything into a folder whose name is typed; what stands there is the comparison on the screen."""
    async with opened("sparrow_lane", SMALL) as (app, pilot):
        out = tmp_path / "for_the_engineer"
        await press(pilot, "e", "home", *["delete"] * 40, *str(out), "enter")
        assert app.screen is app.main
        found = compare(scenario_of("sparrow_lane"))
        shown = comparison_record(found, ways_by_method(ways_out(found)), with_attachments=True)
        written = json.loads((out / "comparison.json").read_text(encoding="utf-8"))
        assert {key: written[key] for key in shown} == json.loads(json.dumps(shown))
