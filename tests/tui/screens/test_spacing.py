"""The span study on screen: every figure is the study's, arrows and curves stand where they should."""

from __future__ import annotations

import asyncio
import threading
import time

import pytest
from textual.widgets import Digits, Static

from engine.common.progress import ProgressListener, SearchStopped
from engine.comparison.compare import compare
from engine.scenario.read import Scenario
from engine.studies.moved_array import moved_study
from engine.studies.record import spacing_record
from engine.studies.spacing import SpacingStudy, study
from engine.units import text
from support import WEAKER_ROOF, Tables, scenario_of
from support.opened_app import SIZES, opened, seen, settled, why_seen
from tui.model.messages import InputEdited
from tui.render import chart, elevation
from tui.screens import spacing_study as screen

pytestmark = pytest.mark.app


@pytest.fixture(scope="module")
def rails() -> SpacingStudy:
    (found,) = study(scenario_of(), ("rail",))
    return found


@pytest.mark.parametrize("size", SIZES)
async def test_every_figure_is_the_studys_at_every_spacing(rails: SpacingStudy, size: tuple[int, int]) -> None:
    (plain,) = spacing_record([rails])
    async with opened("kestrel_yard", size, "n", *["left"] * len(plain["spacings"])) as (app, pilot):
        for spacing in plain["spacings"]:
            shown = seen(app)
            said = (
                shown
                + " ".join(str(each.value) for each in app.screen.query(Digits))
                + " ".join(str(each.render()) for each in app.screen.query("LargeFigures Static").results(Static))
            )
            assert spacing["spacing"] in said
            assert spacing["sentence"] in shown
            for figure, dimension in ((spacing["attachments"], "count"), (spacing["point_load_up_n"], "force")):
                assert text(figure, dimension, "us", with_unit=False) in said
            assert text(spacing["point_load_up_n"], "force", "us") in shown
            constant = ("module", "structure")
            for used in (used for link, used in spacing["links"].items() if link not in constant and used is not None):
                assert f"{text(used, 'ratio', 'us')}{' OVER' if used > 1 else ''}" in shown
            assert all(len(line) <= size[0] - 2 for line in shown.splitlines())
            await pilot.press("right")
        await pilot.press("right", "down")
        last = plain["spacings"][-1]
        assert last["sentence"] in seen(app)
        assert text(last["point_load_down_n"], "force", "us") in seen(app)
        await pilot.press("left", "u")
        assert text(plain["spacings"][-2]["point_load_down_n"], "force", "si") in seen(app)


async def test_the_study_begins_at_the_comparisons_spacing_and_follows_the_method() -> None:
    async with opened("kestrel_yard", (80, 24), "n", "m") as (app, pilot):
        assert "◂ every 3rd seam ▸   336 attachments" in seen(app)
        await pilot.press("left")
        assert "◂ every 2nd seam ▸   444 attachments" in seen(app)
        assert "Every component checked holds: clip at 0.82 of allowable." in seen(app)
        await pilot.press("m")
        await settled(pilot)
        assert "◂ 2 per edge ▸   336 attachments" in seen(app)


@pytest.mark.parametrize(
    ("scenario", "words"), [("plover_terrace", "cannot be used here"), ("finch_shed", "does not cover this method")]
)
async def test_a_method_without_a_study_says_why(scenario: str, words: str) -> None:
    async with opened(scenario, (140, 45), "n", "m") as (app, pilot):
        assert words in seen(app)
        await pilot.press("left", "right", "up", "down")
        assert words in seen(app)


def test_arrows_are_as_long_as_their_loads_to_one_scale(rails: SpacingStudy) -> None:
    """Dots above the modules in each attachment's column, against its load."""
    height, job = 40, scenario_of().job
    most = max(row.attachment_up for row in rails.rows)
    for row in rails.rows:
        shown = elevation.draw(job, rails, row, "us", uplift=True, width=140, height=height).plain.splitlines()
        modules = height - elevation.LAYERS
        held = [column for column, letter in enumerate(shown[modules + 2]) if letter == "█"]
        lengths = [sum(_dots(shown[line][column]) for line in range(modules)) / 2 for column in held]
        forces = sorted(row.at_largest_uplift.force.tolist(), reverse=True)
        assert max(lengths) == pytest.approx(forces[0] / most * (modules - 1) * 4, abs=1.0)
        assert len(held) <= len(forces)


def _dots(letter: str) -> int:
    return (ord(letter) - 0x2800).bit_count() if "\u2800" <= letter <= "\u28ff" else 0


@pytest.mark.parametrize(
    ("height", "changes", "roof_limit"),
    [
        *((height, WEAKER_ROOF, "● roof limit: none") for height in (8, 16, 30)),
        *((height, {}, "● roof limit ") for height in (16, 30)),
    ],
)
def test_no_mark_stands_on_the_wrong_side_of_the_limit(height: int, changes: Tables, roof_limit: str) -> None:
    """A mark that rounds to the top row stands in it. In eight lines the default's marks at 2.02 and 1.76 share a cell."""
    (rails,) = study(scenario_of(**changes), ("rail",))
    top = chart.FULL * (1 + 0.5 / (4 * height - 5))
    shown = chart.draw(rails, 0, "us", 60, height).plain.splitlines()
    limit = next(number for number, line in enumerate(shown) if line.startswith("1.00"))
    links = [{check.link: check.utilisation or 0.0 for check in row.checks.values()} for row in rails.rows]
    above, below = "".join(shown[:limit]), "".join(shown[limit + 1 :])
    roof = [max(link["rib"], link["roof_fastening"]) for link in links]
    rail = [link["rail"] for link in links]
    legend = 1
    assert above.count(chart.ROOF) == sum(1 < used <= top for used in roof)
    assert above.count(chart.MEMBER) == sum(1 < used <= top for used in rail)
    assert below.count(chart.MEMBER) == sum(used <= 1 for used in rail) + legend
    assert below.count(chart.ROOF) == sum(used <= 1 for used in roof) + legend
    assert "○ rail limit" in below
    assert roof_limit in below


@pytest.mark.parametrize("size", SIZES)
async def test_why_explains_the_spacing_shown(rails: SpacingStudy, size: tuple[int, int]) -> None:
    async with opened("kestrel_yard", size, "n", *["left"] * len(rails.rows), "right", "w") as (app, pilot):
        row = rails.rows[1]
        most = max(row.checks.values(), key=lambda check: check.utilisation or 0.0)
        said = " ".join(why_seen(app).split())
        assert said.startswith(
            f"rails, {row.label}: controlling component {most.title} {text(most.utilisation, 'ratio', 'us')}."
        )
        assert "wind speed" in said
        await pilot.press("escape", "right", "w")
        await settled(pilot)
        assert f"rails, {rails.rows[2].label}: controlling component" in seen(app, "#text")


async def test_a_study_nobody_waits_for_ends_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first method's study would never end; once another method is looked at it does, and the other's is shown."""
    begun, ended = threading.Event(), threading.Event()

    def endless(scenario: Scenario, only: tuple[str, ...], tell: ProgressListener) -> tuple[SpacingStudy, ...]:
        if only != ("rail",):
            return study(scenario, only, tell)
        try:
            while True:
                begun.set()
                tell("another spacing")
                time.sleep(0.01)
        except SearchStopped:
            ended.set()
            raise

    monkeypatch.setattr(screen, "study", endless)
    async with opened("sparrow_lane", (80, 24)) as (app, pilot):
        await pilot.press("n")
        assert await asyncio.to_thread(begun.wait, 10)
        await pilot.press("m")
        assert await asyncio.to_thread(ended.wait, 10)
        await pilot.press("m")
        await settled(pilot)
        assert "2 per edge" in seen(app)


async def test_a_method_is_studied_once_for_a_comparison(monkeypatch: pytest.MonkeyPatch) -> None:
    """Again where the screen is opened anew: not. Again once an input was changed: yes."""
    studied: list[str] = []

    def counted(scenario: Scenario, only: tuple[str, ...], tell: ProgressListener) -> tuple[SpacingStudy, ...]:
        studied.extend(only)
        return study(scenario, only, tell)

    monkeypatch.setattr(screen, "study", counted)
    async with opened("sparrow_lane", (80, 24), "n") as (app, pilot):
        await settled(pilot)
        calm = seen(app)
        await pilot.press("escape", "n")
        await settled(pilot)
        assert seen(app) == calm
        assert studied == ["rail"]
        before = app.state.inputs
        wind = next(field for field in before.fields() if field.path == ("site", "wind_speed"))
        app.post_message(InputEdited(before.edited(wind, "170 mph"), before))
        await settled(pilot)
        await settled(pilot)
        assert seen(app) != calm
        assert studied == ["rail", "rail"]


async def test_a_study_that_breaks_says_so_and_the_app_stays_open(monkeypatch: pytest.MonkeyPatch) -> None:
    def breaks(*_: object) -> None:
        raise RuntimeError

    monkeypatch.setattr(screen, "study", breaks)
    async with opened("sparrow_lane", (80, 24), "n") as (app, pilot):
        assert seen(app).startswith("Internal error: please report it")
        await pilot.press("escape")
        assert app.screen is app.main


async def test_space_plays_the_widening_and_limits_appear_once_they_are_passed(
    rails: SpacingStudy, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The roof allows 4 ft and the rail spans 8 ft here: the third spacing passes the one, the fifth the other."""
    monkeypatch.setattr(screen, "PLAY_PACE", 3600.0)
    async with opened("kestrel_yard", (140, 45), "n", "right", "space") as (app, pilot):
        assert isinstance(app.screen, screen.SpacingStudyScreen)
        for number, row in enumerate(rails.rows):
            shown = seen(app)
            assert app.screen.selected == number
            assert row.sentence in shown
            assert ("roof limit" in shown) == (row.span > 1.22)
            assert ("rail limit" in shown) == (row.span > 2.44)
            app.screen._play_on()
            await settled(pilot)
        assert app.screen.playing is None
        await pilot.press("space")
        assert app.screen.playing
        await pilot.press("space")
        assert app.screen.playing is None
        assert "roof limit" in seen(app)
        assert "rail limit" in seen(app)


async def test_leaving_the_study_stops_what_plays() -> None:
    async with opened("kestrel_yard", (80, 24), "n", "space") as (app, pilot):
        study_screen = app.screen
        assert isinstance(study_screen, screen.SpacingStudyScreen)
        assert study_screen.playing
        await pilot.press("question_mark")
        await settled(pilot)
        assert study_screen.playing is None


async def test_x_moves_the_array_across_the_seams_and_space_plays_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """The rack at every place: its sentence and its largest uplift; 18 in from the stated place a clip is over, in red."""
    monkeypatch.setattr(screen, "PLAY_PACE", 3600.0)
    weaker = {"allowable": "405 lb"}
    comparison = compare(scenario_of(roof__fastening__uplift=weaker), ("tilted_rack",))
    rows = moved_study(comparison, comparison.columns[0]).rows
    changes = {("roof", "fastening", "uplift"): weaker}
    async with opened("kestrel_yard", (140, 45), "n", "m", changes=changes) as (app, pilot):
        await pilot.press("x")
        await settled(pilot)
        assert isinstance(app.screen, screen.SpacingStudyScreen)
        assert "the array moves" in seen(app, "#methods")
        await pilot.press("space")
        for number, row in enumerate(rows):
            assert app.screen.selected == number
            assert row.moved is not None
            assert row.sentence in seen(app)
            assert text(row.attachment_up, "force", "us") in seen(app)
            assert str(app.screen.query(Digits).first().value) == text(row.moved, "small length", "us", with_unit=False)
            assert (" OVER" in seen(app)) == any(not check.holds for check in row.checks.values())
            app.screen._play_on()
            await settled(pilot)
        assert app.screen.playing is None
        assert sum(not check.holds for row in rows for check in row.checks.values()) == 1
        await pilot.press("left", "left", "w")
        await settled(pilot)
        assert "clip" in seen(app, "#text").splitlines()[0]
        await pilot.press("escape", "x")
        await settled(pilot)
        assert "◂ every 3rd seam ▸" in str(app.screen.query("LargeFigures Static").first(Static).render())


@pytest.mark.parametrize(("scenario", "method_keys", "words"), [("finch_shed", ("m",), "does not cover this method")])
async def test_what_cannot_be_moved_says_why(scenario: str, method_keys: tuple[str, ...], words: str) -> None:
    async with opened(scenario, (80, 24), "n", *method_keys, "x") as (app, pilot):
        await settled(pilot)
        assert words in seen(app)
        await pilot.press("right", "space", "x")
        await settled(pilot)
        assert words in seen(app)
