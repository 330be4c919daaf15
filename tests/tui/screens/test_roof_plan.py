"""The roof plan on screen: marks where attachments stand, figures that are the schedule's, and a way to walk."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.comparison.roof_plan import Plan, plan
from engine.units import text
from support import scenario_of
from support.opened_app import SIZES, opened, seen, settled
from tui.app.app import LoadpathApp
from tui.model.messages import InputEdited
from tui.render import roof_plan

pytestmark = pytest.mark.app


def plans(scenario: str = "kestrel_yard", **changes: object) -> dict[str, Plan]:
    answer = compare(scenario_of(scenario, **changes))
    return {column.id: plan(column.design) for column in answer.columns if column.design}


@pytest.fixture(scope="module")
def yard() -> dict[str, Plan]:
    return plans()


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_apart_every_attachment_in_view_has_a_mark_of_its_own(yard: dict[str, Plan], method: str) -> None:
    drawn, size = yard[method], (400, 60)
    chosen = roof_plan.controlling_attachment(drawn)
    view = roof_plan.window(drawn, roof_plan.ATTACHMENTS, chosen, *size)
    columns, rows = view.cells(drawn.attachments.x, drawn.attachments.y)
    assert len(set(zip(columns.tolist(), rows.tolist(), strict=True))) == len(drawn.attachments)
    shown = roof_plan.draw(drawn, roof_plan.ATTACHMENTS, chosen, *size).plain.splitlines()
    used = drawn.attachments.utilisation
    assert used is not None
    for attachment, (column, row) in enumerate(zip(columns.astype(int), rows.astype(int), strict=True)):
        if abs(column - int(columns[chosen])) != 1 or row != int(rows[chosen]):  # brackets stand beside the chosen one
            assert shown[row][column] == roof_plan.sign(float(used[attachment]))[0]


def test_marks_keep_the_roofs_proportions(yard: dict[str, Plan]) -> None:
    view = roof_plan.window(yard["direct"], roof_plan.ROOF, 0, 90, 40)
    (left, right), (bottom, top) = view.dots(np.array([0.0, 10.0]), np.array([0.0, 10.0]))
    assert right - left == pytest.approx(bottom - top)
    assert 0 <= left < 4
    assert float(view.dots(yard["direct"].length, 0.0)[0]) < 180


def test_where_marks_share_a_cell_the_worst_shows() -> None:
    drawn = plans(methods__rail__spacing="rail span")["rail"]
    shown = roof_plan.draw(drawn, roof_plan.ROOF, 0, 60, 12).plain
    assert "✖" in shown


@pytest.mark.parametrize("size", SIZES)
async def test_the_chosen_attachment_is_the_schedules_and_one_can_walk(
    yard: dict[str, Plan], size: tuple[int, int]
) -> None:
    attachments = yard["rail"].attachments
    assert attachments.up is not None
    worst = int(np.argmax(attachments.utilisation))
    async with opened("kestrel_yard", size, "p") as (app, pilot):
        _is_shown(app, yard["rail"], worst)
        await pilot.press("right")
        _is_shown(app, yard["rail"], worst + 1)
        await pilot.press("left", "left", "up")
        above = np.flatnonzero(attachments.row == attachments.row[worst] + 1)
        nearest = int(above[np.argmin(np.abs(attachments.x[above] - attachments.x[worst - 1]))])
        _is_shown(app, yard["rail"], nearest)
        assert app.screen.question().attachment == nearest
        await pilot.press("down", "x")
        _is_shown(app, yard["rail"], worst)
        for _ in range(3):
            await pilot.press("v")
            assert "[" in seen(app, "#plan")
        await pilot.press("m")
        await settled(pilot)
        _is_shown(app, yard["tilted_rack"], int(np.argmax(yard["tilted_rack"].attachments.utilisation)))
        assert all(len(line) <= size[0] - 2 for line in seen(app, "#plan").splitlines())


def _is_shown(app: LoadpathApp, drawn: Plan, attachment: int) -> None:
    said, attachments = seen(app, "#attachment"), drawn.attachments
    assert f"attachment {attachment + 1} of {len(attachments)}" in said
    assert attachments.up is not None
    assert attachments.down is not None
    assert (
        f"uplift {text(float(attachments.up[attachment]), 'force', 'us')}, down load {text(float(attachments.down[attachment]), 'force', 'us')}"
        in said
    )
    for used in attachments.ratios.values():
        assert text(float(used[attachment]), "ratio", "us") in said


async def test_a_terminal_of_ten_lines_will_do_for_every_view() -> None:
    async with opened("sparrow_lane", (80, 10), "p", "v", "v", "v") as (app, _):
        assert "[" in seen(app, "#plan")


@pytest.mark.parametrize("near", [roof_plan.ARRAY, roof_plan.ATTACHMENTS, roof_plan.ROOF])
@pytest.mark.parametrize("size", [(1, 1), (2, 2), (80, 2)])
def test_the_smallest_rooms_are_drawn_in(yard: dict[str, Plan], near: str, size: tuple[int, int]) -> None:
    drawn = roof_plan.draw(yard["rail"], near, 0, *size).plain.splitlines()
    assert [len(line) for line in drawn] == [size[0]] * size[1]


async def test_why_of_an_attachment_that_an_undo_took_away_says_so() -> None:
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        before = app.state.inputs
        columns = next(field for field in before.fields() if field.path == ("array", "columns"))
        app.post_message(InputEdited(before.edited(columns, "6"), before))
        await settled(pilot)
        await pilot.press("p")
        assert app.state.column
        attachments = value_of(app.state.column, "attachments")
        assert isinstance(attachments, int)
        app.screen.selected = attachments - 1
        await pilot.press("w")
        await settled(pilot)
        assert f"attachment {attachments}" in seen(app, "#text")
        await pilot.press("z")
        await settled(pilot)
        assert seen(app, "#text") == "This attachment no longer exists."


async def test_outside_the_standard_the_plan_says_why_nothing_is_marked() -> None:
    async with opened("finch_shed", (140, 45), "p", "m") as (app, _):
        said = " ".join(seen(app, "#attachment").split())
        assert "Not checked. Outside ASCE 7 §29.4.3: the roof's slope is 14.04 deg" in said
        assert roof_plan.UNCHECKED in seen(app, "#plan")


async def test_a_refused_method_says_why() -> None:
    async with opened("plover_terrace", (80, 24), "p", "m") as (app, pilot):
        assert "This method cannot be used here." in seen(app, "#plan")
        await pilot.press("left", "right", "up", "down", "x", "v")
        assert "This method cannot be used here." in seen(app, "#plan")


async def test_what_must_stay_clear_is_crossed_out_and_named() -> None:
    async with opened("heron_depot", (80, 24), "p") as (app, _):
        assert "╳ roof hatch" in seen(app, "#legend")
        assert "╳" in seen(app, "#plan")


async def test_the_plan_says_the_whole_verdict_beside_the_method() -> None:
    """An attachment may hold although the method is over, or not checked throughout."""
    by_span = {("methods", "rail", "spacing"): "rail span"}
    async with opened("kestrel_yard", (80, 24), "p", changes=by_span) as (app, pilot):
        assert "OVER 1.48" in seen(app, "#methods")
        await pilot.press("m")
        await settled(pilot)
        assert "HOLDS 0.92" in seen(app, "#methods")
    async with opened("kestrel_yard", (80, 24), "p") as (app, _):
        assert "HOLDS 0.94" in seen(app, "#methods")
