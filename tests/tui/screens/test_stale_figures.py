"""No figure is shown beside newer inputs without a mark: a word in the heading, and dimmed figures."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from support import scenario_of
from support.opened_app import opened, seen, settled
from tui.app import compute
from tui.app.app import LoadpathApp
from tui.model.messages import InputEdited
from tui.model.state import COMPUTING, OLDER_INPUTS, SEARCHING, STOPPED
from tui.render import text_pages, why
from tui.screens import headroom, spacing_study
from tui.widgets.picture import Picture

pytestmark = pytest.mark.app

SCREENS = ["c", "i", "p", "l", "b", "n", "w", "h"]


class Gate:
    """Holds a function back while it is closed; no worker waits longer than a test may take."""

    def __init__(self) -> None:
        self._open = threading.Event()

    def before(self, function: Callable[..., Any]) -> Callable[..., Any]:
        def wait(*arguments: Any, **options: Any) -> Any:
            self._open.wait(20)
            return function(*arguments, **options)

        return wait

    def open(self) -> None:
        self._open.set()

    def close(self) -> None:
        self._open.clear()


@pytest.fixture
def gate() -> Gate:
    return Gate()


async def edit(
    app: LoadpathApp, pilot: Pilot[None], typed: str, path: tuple[str, ...] = ("site", "wind_speed")
) -> None:
    before = app.document.inputs
    field = next(field for field in before.fields() if field.path == path)
    app.post_message(InputEdited(before.edited(field, typed), before))
    await pilot.pause()
    await pilot.pause()


def heading(app: LoadpathApp) -> str:
    return str(app.screen.query_one("#place", Static).render())


def figures_are_dimmed(app: LoadpathApp) -> bool:
    panes = (*app.screen.query(Picture), *app.screen.query(".figures"))
    shown = [each for each in panes if each.display and each.id != "roof"]  # the roof follows the inputs at once
    assert shown
    return {each.opacity < 1 for each in shown} == {True}


def is_marked(app: LoadpathApp, word: str) -> bool:
    return word in heading(app) and figures_are_dimmed(app)


def is_unfinished(app: LoadpathApp) -> bool:
    return is_marked(app, COMPUTING) or is_marked(app, SEARCHING)


def is_unmarked(app: LoadpathApp) -> bool:
    return not any(word in heading(app) for word in (COMPUTING, SEARCHING, OLDER_INPUTS)) and not figures_are_dimmed(
        app
    )


@pytest.mark.parametrize("key", SCREENS)
async def test_figures_are_marked_until_the_new_comparison_is_shown(
    key: str, gate: Gate, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with opened("sparrow_lane", (80, 24), key) as (app, pilot):
        assert is_unmarked(app)
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit(app, pilot, "95 mph")
        assert app.state.is_stale
        assert is_unfinished(app)
        gate.open()
        await settled(pilot)
        await settled(pilot)
        assert not app.state.is_stale
        assert is_unmarked(app)


@pytest.mark.parametrize("key", SCREENS)
async def test_figures_are_marked_while_an_input_is_wrong(key: str) -> None:
    async with opened("sparrow_lane", (80, 24), key) as (app, pilot):
        await edit(app, pilot, "fast")
        await settled(pilot)
        assert is_marked(app, OLDER_INPUTS)
        await pilot.press("z")
        await settled(pilot)
        await settled(pilot)
        assert is_unmarked(app)


@pytest.mark.parametrize("key", SCREENS[2:])
async def test_a_screen_opened_meanwhile_is_marked_too(key: str, gate: Gate, monkeypatch: pytest.MonkeyPatch) -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit(app, pilot, "95 mph")
        await pilot.press(key)
        await pilot.pause()
        assert COMPUTING in heading(app) or SEARCHING in heading(app)
        gate.open()


@pytest.mark.parametrize(
    ("key", "module", "name"), [("w", why, "why"), ("h", headroom, "headroom"), ("n", spacing_study, "study")]
)
async def test_what_is_computed_from_the_comparison_is_marked_until_it_is_new_too(
    key: str, module: Any, name: str, gate: Gate, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        gate.open()
        monkeypatch.setattr(module, name, gate.before(getattr(module, name)))
        await pilot.press(key)
        await settled(pilot)
        await settled(pilot)
        assert is_unmarked(app)
        gate.close()
        await edit(app, pilot, "95 mph")
        while app.state.is_stale:
            await pilot.pause(0.02)
        assert is_unfinished(app)
        gate.open()
        await settled(pilot)
        await settled(pilot)
        assert is_unmarked(app)


async def test_saving_while_computing_still_brings_the_new_figures(
    gate: Gate, monkeypatch: pytest.MonkeyPatch, tmp_path: Any
) -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit(app, pilot, "95 mph")
        app.document.save_as(tmp_path / "mine.toml")
        app.files._after_saving(lambda: None)
        assert app.state.is_stale
        gate.open()
        await settled(pilot)
        await settled(pilot)
        assert not app.state.is_stale
        assert app.state.comparison
        assert app.state.comparison.scenario.job == app.document.inputs.scenario().job


async def test_saving_does_not_make_current_figures_old(tmp_path: Any) -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await edit(app, pilot, "95 mph")
        await settled(pilot)
        shown = app.state.comparison
        app.document.save_as(tmp_path / "mine.toml")
        app.files._after_saving(lambda: None)
        assert not app.state.is_stale
        assert app.state.comparison is shown


@pytest.mark.parametrize(("key", "sentence"), [("e", "Nothing was exported"), ("k", "No baseline was set")])
async def test_old_figures_are_neither_exported_nor_made_the_baseline(
    key: str, sentence: str, gate: Gate, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit(app, pilot, "95 mph")
        await pilot.press(key)
        await pilot.pause()
        assert app.screen is app.main
        assert app.state.baseline is None
        assert sentence in " ".join(notice.message for notice in app._notifications)
        gate.open()


async def test_escape_stops_what_is_computed_and_c_computes_it(gate: Gate, monkeypatch: pytest.MonkeyPatch) -> None:
    async with opened("sparrow_lane", (140, 45)) as (app, pilot):
        before = app.state.comparison
        monkeypatch.setattr(compute, "compare_as_before", lambda *_: None)
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit(app, pilot, "95 mph")
        await pilot.press("c", "escape")
        assert is_marked(app, STOPPED)
        gate.open()
        await pilot.pause(0.3)
        assert app.state.comparison is before
        await pilot.press("c")
        await settled(pilot)
        await settled(pilot)
        assert is_unmarked(app)
        assert app.state.comparison is not before


async def test_a_text_is_written_anew_for_another_width_without_computing_it_anew(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    async with opened("finch_shed", (140, 45), "A") as (app, pilot):
        wide = seen(app, "#text")
        monkeypatch.setattr(text_pages, "with_alternatives", None)
        await pilot.resize_terminal(80, 24)
        await settled(pilot)
        assert max(map(len, seen(app, "#text").splitlines())) <= 80 < max(map(len, wide.splitlines()))


async def edit_until_the_former_layout_is_shown(app: LoadpathApp, pilot: Pilot[None], typed: str) -> None:
    """Edit, and wait for the figures of the former layout, which come before those of the search."""
    before = app.state.comparison
    await edit(app, pilot, typed)
    while app.state.comparison is before:
        await pilot.pause(0.02)


async def test_the_former_layout_on_the_new_inputs_is_shown_while_the_search_goes_on(
    gate: Gate, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The figures are those of the new wind on the old spacing: what a stated spacing would give."""
    async with opened("kestrel_yard", (140, 45)) as (app, pilot):
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        before = app.state.comparison
        await edit_until_the_former_layout_is_shown(app, pilot, "112 mph")
        assert is_marked(app, SEARCHING)
        assert app.state.is_stale
        shown = app.state.comparison
        assert shown
        assert before
        stated = compare(scenario_of("kestrel_yard", site__wind_speed="112 mph", methods__direct__spacing="2 per edge"))
        one, other, old = (each.column("direct") for each in (shown, stated, before))
        assert one
        assert other
        assert old
        assert value_of(one, "point_load_up_n") == pytest.approx(value_of(other, "point_load_up_n"))
        assert value_of(one, "point_load_up_n") > value_of(old, "point_load_up_n")  # type: ignore[operator]
        gate.open()
        await settled(pilot)
        await settled(pilot)
        assert is_unmarked(app)
        assert app.state.comparison is not shown


LABOUR_RATE = ("hardware", "labour_rate")


async def test_a_price_changes_costs_and_starts_no_search(gate: Gate, monkeypatch: pytest.MonkeyPatch) -> None:
    """By hand: at 90 instead of 45 an hour the labour costs twice as much."""
    async with opened("sparrow_lane", (140, 45)) as (app, pilot):
        before = app.state.comparison
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit(app, pilot, "90 / h", LABOUR_RATE)
        await settled(pilot)
        assert is_unmarked(app)
        after = app.state.comparison
        assert after
        assert before
        one, other = (each.column("direct") for each in (before, after))
        assert one
        assert other
        hours = value_of(one, "labour_hours")
        assert value_of(other, "total_cost") == pytest.approx(value_of(one, "total_cost") + 45 * hours)
        gate.open()


async def test_a_price_does_not_end_the_search_that_is_on_its_way(gate: Gate, monkeypatch: pytest.MonkeyPatch) -> None:
    """The figures shown meanwhile have the layouts of the inputs before: they must not pass for searched ones."""
    async with opened("sparrow_lane", (140, 45)) as (app, pilot):
        monkeypatch.setattr(compute, "compare", gate.before(compare))
        await edit_until_the_former_layout_is_shown(app, pilot, "95 mph")
        await edit(app, pilot, "90 / h", LABOUR_RATE)
        await pilot.pause(0.3)
        assert app.state.is_stale
        gate.open()
        await settled(pilot)
        await settled(pilot)
        assert is_unmarked(app)
        found = compare(scenario_of("sparrow_lane", site__wind_speed="95 mph", hardware__labour_rate="90 / h"))
        assert app.state.comparison
        for column, expected in zip(app.state.comparison.columns, found.columns, strict=True):
            assert column.status == expected.status
            assert value_of(column, "attachments") == value_of(expected, "attachments")
