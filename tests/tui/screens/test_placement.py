"""The placement map: the map of the method shown, the place in focus, and moving the array there."""

from __future__ import annotations

import re

import pytest

from engine.comparison.compare import compare
from engine.studies import placement as placement_module
from engine.studies.placement import Placement, placement
from support import SCENARIOS
from support.opened_app import opened, seen, settled
from tui.model.inputs import Inputs
from tui.render import placement_map
from tui.screens import placement as placement_screen
from tui.screens.main import Main
from tui.screens.placement import PlacementScreen

NAME = "sparrow_lane"
WIDTHS = [80, 140, 200]


def of_file() -> Inputs:
    path = SCENARIOS / f"{NAME}.toml"
    return Inputs(path, path.read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def few_places() -> Placement:
    """Few places, so that the map is soon made."""
    patch = pytest.MonkeyPatch()
    patch.setattr(placement_module, "ALONG", 2)
    patch.setattr(placement_module, "UP", 1)
    found = placement(compare(of_file().scenario()))
    patch.undo()
    return found


@pytest.mark.parametrize("width", WIDTHS)
def test_every_line_has_room_and_the_place_in_focus_is_in_brackets(few_places: Placement, width: int) -> None:
    job = few_places.maps[0].column.design.job  # type: ignore[union-attr]
    for each in few_places.maps:
        for at in range(len(each.places)):
            drawn = placement_map.draw(few_places, each.column.id, at, job, "us", width, 50).plain
            assert max(map(len, drawn.splitlines())) <= width
            assert len(re.findall(r"\[[^a-z\]]+\]", drawn)) == 1
            assert each.column.title in drawn.splitlines()[0]


@pytest.mark.app
@pytest.mark.parametrize("size", [(80, 24), (140, 45), (200, 55)])
async def test_the_arrows_walk_and_enter_moves_the_array_there(
    few_places: Placement, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(placement_screen, "placement", lambda comparison, tell: few_places)
    async with opened(NAME, size, "v") as (app, pilot):
        await settled(pilot)
        assert isinstance(app.screen, PlacementScreen)
        shown = few_places.maps[0]
        stated = next(place for place in shown.places if place.distance == 0)
        before = shown.places.index(stated)
        assert "[" in seen(app)
        await pilot.press("left")
        place = shown.places[before - 1]
        assert place.along < 0
        await pilot.press("enter")
        await settled(pilot)
        assert isinstance(app.screen, Main)
        moved, inputs = app.document.inputs.scenario().job.origin, of_file()
        assert moved[0] - inputs.scenario().job.origin[0] == pytest.approx(place.along, abs=1e-4)
        await pilot.press("z")
        assert app.document.inputs.changes == {}
