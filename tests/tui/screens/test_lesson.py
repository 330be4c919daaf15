"""Lessons walked in the app, from start to end, by the keys a trainer has."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from textual.content import Content
from textual.pilot import Pilot
from textual.widgets import Digits, Input, OptionList, Static

from engine.comparison.figures import value_of
from engine.lessons.answers import AnsweredStep
from engine.lessons.file import SCREENS
from engine.lessons.guess import points, reply
from engine.units import System
from support.opened_app import SIZES, settled
from tui.app.app import LoadpathApp
from tui.model.commands import COMMANDS, command_of_screen
from tui.model.inputs import Inputs
from tui.model.lesson_run import LessonProgress, open_lesson, path_of
from tui.model.messages import InputEdited
from tui.model.state import COVERED
from tui.render.lesson import ruler
from tui.screens.ask import Ask
from tui.screens.export import Export
from tui.screens.help import Help
from tui.screens.lesson import LessonScreen
from tui.screens.main import Main
from tui.storage import user_state
from tui.storage.paths import bundled_lessons
from tui.widgets.key_footer import KeyFooter
from tui.widgets.large_figures import LargeFigures

pytestmark = pytest.mark.app


@asynccontextmanager
async def lesson(path: Path, size: tuple[int, int] = (80, 24)) -> AsyncIterator[tuple[LoadpathApp, Pilot[None]]]:
    progress = LessonProgress(open_lesson(path))
    app = LoadpathApp(progress.inputs, lesson=progress)
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        yield app, pilot


def shown(app: LoadpathApp, part: str) -> str:
    return str(app.screen.query_one(part, Static).render())


def stop(app: LoadpathApp) -> AnsweredStep:
    assert app.state.lesson
    return app.state.lesson.current


async def press(pilot: Pilot[None], *keys: str) -> None:
    await pilot.press(*keys)
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
async def test_a_lesson_from_start_to_end(path: Path, size: tuple[int, int]) -> None:
    async with lesson(path, size) as (app, pilot):
        steps = len(open_lesson(path).answered_lesson.stops)
        for number in range(steps):
            here = stop(app)
            assert isinstance(app.screen, LessonScreen)
            assert f"step {number + 1} of {steps}" in shown(app, "#step")
            assert here.words("us").replace("\n", "\n\n") in shown(app, "#step")
            if here.answer:
                await guess_and_read(app, pilot, size)
            covered = app.state.is_covered
            await press(pilot, "enter")
            assert isinstance(app.screen, LessonScreen) == covered
            if not covered:
                assert {"lesson_next", "lesson_back"} <= {
                    key.binding.action for key in app.screen.active_bindings.values() if key.binding.show
                }
                assert app.state.inputs.changes == here.changes
                assert app.state.comparison
                assert app.state.comparison.scenario.job == app.state.inputs.scenario().job
                assert here.step.method in (None, app.state.method)
                await press(pilot, "full_stop")
        assert isinstance(app.screen, LessonScreen)
        assert not app.document.is_unsaved
        await see_the_end(app, pilot)


async def guess_and_read(app: LoadpathApp, pilot: Pilot[None], size: tuple[int, int]) -> None:
    """The question and the field are there and no answer; then the guess, its reply and points, the answer, the words."""
    here = stop(app)
    assert here.answer
    assert here.step.question
    assert here.step.question.asks in shown(app, "#step")
    assert large(app) == []
    field = app.screen.query_one(Input)
    assert field.display
    assert field.region.bottom <= size[1] - 1, "the field stands on the screen"
    assert not shown(app, "#answered")
    await press(pilot, "2", "enter")
    guess, answered = here.guessed("2", "us"), shown(app, "#answered")
    assert f"guess {guess.text('us')}  {points(guess, here.answer)} of 10 points" in answered
    assert f"  {reply(here, guess, 'us')}\nanswer {here.answer.text('us')}" in answered
    assert here.reveal("us").replace("\n", "\n\n") in answered
    figures = here.answer.compared or ({} if here.answer.option else {"answer": here.answer.figure})
    expected = [figure.text("us").split()[0] for figure in figures.values()]
    assert large(app)[: len(expected)] == expected * (size[1] >= 40)
    assert len(large(app)) == (len(expected) + (not here.answer.option)) * (size[1] >= 40)


def large(app: LoadpathApp) -> list[str]:
    """The large figures that are seen."""
    row = app.screen.query_one(LargeFigures)
    return [each.value for each in row.query(Digits) if each.parent.display] if row.display else []


async def see_the_end(app: LoadpathApp, pilot: Pilot[None]) -> None:
    """Figures on one scale, three things to remember, every question with its guess, the points; and the way back."""
    assert app.state.lesson
    end, answered = shown(app, "#step"), app.state.lesson.computed.answered_lesson
    assert "the end" in end
    if app.size.height >= 40:
        assert large(app) == [figure.text("us").split()[0] for figure in answered.ruler().values()]
    assert len(answered.ruler()) >= 2
    for words, figure in answered.ruler().items():
        assert f"{words} " in end
        assert f"┤ {figure.text('us')}" in end
    assert len(answered.remember("us")) == 3
    for number, words in enumerate(answered.remember("us"), 1):
        assert f"{number}. {words}" in end
    for each in answered.stops:
        if each.answer:
            guess = each.guessed("2", "us").text("us")
            assert f"{each.step.title}: {each.answer.text('us')}  guessed {guess}" in end
    asked = sum(each.answer is not None for each in answered.stops)
    assert f"Points: {app.state.lesson.points(0)} of {10 * asked}" in end
    await press(pilot, "comma")
    assert f"step {len(answered.stops)} of" in shown(app, "#step")


VIEW_KEYS = ("c", "i", "p", "l", "b", "n", "w", "question_mark")
"""Compare, inputs, plan, load path, bill, study, why? of its figure, and help."""

LARGE = (140, 45)


@dataclass(frozen=True)
class Sighting:
    """An answer to come that stands on a screen: of which inputs and method, and how often."""

    inputs: Inputs
    method: str
    key: str
    secret: str
    times: int


@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
async def test_no_screen_shows_a_figure_before_it_is_asked_for(path: Path) -> None:
    """At every question, and where an answer uncovers them, all text on all screens is searched for answers to come.

    Another figure may be the same number by chance: it then stands there as often without a lesson, which cannot know.
    """
    async with lesson(path, LARGE) as (app, pilot):
        by_chance: list[Sighting] = []
        shows_figures = []
        while app.state.lesson and not app.state.lesson.is_end:
            if stop(app).answer:
                assert app.state.is_covered
                assert await search_all_screens(app, pilot) == (False, [])
                await press(pilot, "enter")
            if not app.state.is_covered:
                shows, seen = await search_all_screens(app, pilot)
                shows_figures.append(shows)
                by_chance += seen
                await press(pilot, "enter", "full_stop")
            else:
                await press(pilot, "enter")
        assert shows_figures, "once all is answered figures are shown"
        assert all(shows_figures)
    for seen in by_chance:
        assert seen.times <= await times_without_a_lesson(seen), seen


async def search_all_screens(app: LoadpathApp, pilot: Pilot[None]) -> tuple[bool, list[Sighting]]:
    """True if every screen shows figures, and where numbers stand that are still to be asked for."""
    progress, texts, sightings = app.state.lesson, [], list[Sighting]()
    assert progress
    for key in VIEW_KEYS:
        await press(pilot, *(["tab", "escape"] if isinstance(app.screen, LessonScreen) else ["escape"]), key)
        texts.append(text_on(app))
        for secret in secrets(progress):
            if times := occurrences(secret, texts[-1]):
                sightings.append(Sighting(app.state.inputs, app.state.method, key, secret, times))
    await press(pilot, "escape", "comma")
    assert app.state.lesson is progress
    return not any(COVERED in text for text in texts), sightings


async def times_without_a_lesson(seen: Sighting) -> int:
    """Occurrences of a number on the same screen, of the same inputs, in an app without a lesson."""
    app = LoadpathApp(seen.inputs)
    async with app.run_test(size=LARGE) as pilot:
        await settled(pilot)
        app.update(method=seen.method)
        await press(pilot, seen.key)
        return occurrences(seen.secret, text_on(app))


def occurrences(secret: str, text: str) -> int:
    """How often a number stands in a text, alone and without another unit."""
    return len(re.findall(rf"(?<![\d.,]){re.escape(secret)}(?![.,]?\d| (lb|ft|in|psf)\b)", text))


def secrets(progress: LessonProgress) -> set[str]:
    """Answers still to come, and what they are picked from, as the screens would show them; not what was said before.

    A whole number below 100, or the word of a status, stands on screens for other things as well.
    """
    seen = {answer for each in progress.stops[: progress.seen] for answer in answers_of(each)}
    said = "\n".join(each.words("us") + each.reveal("us") for each in progress.stops[: progress.seen])
    said += progress.current.words("us")
    coming = {answer for each in progress.stops[progress.seen :] for answer in answers_of(each)}
    return {answer for answer in coming - seen if len(answer) > 2 and answer not in said}


def answers_of(each: AnsweredStep) -> set[str]:
    if each.answer is None:
        return set()
    figures = list(each.answer.compared.values()) or ([] if each.answer.option else [each.answer.figure])
    return {figure.text("us") for figure in figures}


def text_on(app: LoadpathApp) -> str:
    """All text of the topmost screen, whether it is scrolled into view or not."""
    parts = [str(each.render()) for each in app.screen.query(Static)]
    parts += [each.value for each in app.screen.query(Digits)]
    parts += [
        str(each.get_option_at_index(number).prompt)
        for each in app.screen.query(OptionList)
        for number in range(each.option_count)
    ]
    return "\n".join(parts)


async def test_other_inputs_show_no_figures_either_until_all_is_answered() -> None:
    """Headroom tries other winds, and a lesson may still ask for one of them."""
    async with lesson(path_of("how_often")) as (app, pilot):
        await press(pilot, "4", "enter", "enter")
        assert not app.state.is_covered
        assert not app.check_action("headroom", ())
        assert not app.check_action("ways_out", ())
        assert app.check_action("bill", ())


async def test_the_array_is_not_moved_while_the_lesson_asks_about_other_places_of_it() -> None:
    async with lesson(path_of("edges")) as (app, pilot):
        await press(pilot, "1", "enter", "enter")
        assert not app.state.is_covered
        await press(pilot, "n", "x")
        assert [str(note.message) for note in app._notifications] == [
            "The array cannot be moved yet: the lesson still asks about other places of it."
        ]


async def test_nothing_is_exported_and_no_baseline_kept_while_figures_are_covered() -> None:
    async with lesson(path_of("rail_span")) as (app, pilot):
        await press(pilot, "escape", "e")
        assert not isinstance(app.screen, Export)
        await press(pilot, "k")
        assert app.state.baseline is None
        assert [str(note.message) for note in app._notifications] == [
            "Nothing was exported: the class has not guessed yet.",
            "No baseline was set: the class has not guessed yet.",
        ]


async def test_teams_guess_one_after_the_other_and_each_has_its_points() -> None:
    """12.00 ft: 12 ft is right, 10 points; 6 ft is half of it, 5 points by the logarithm of the distance."""
    async with lesson(path_of("rail_span")) as (app, pilot):
        await press(pilot, *"12", "down")
        assert app.screen.query_one(Input).border_title == "guess of team 2, in ft"
        assert app.screen.query_one(Input).value == ""
        await press(pilot, *"6", "up")
        assert app.screen.query_one(Input).value == "12.00"
        await press(pilot, "enter")
        assert "guess of team 1 12.00 ft  10 of 10 points\n  Right.\n" in shown(app, "#answered")
        assert "guess of team 2 6.00 ft  5 of 10 points\n  2.0 times too low." in shown(app, "#answered")
        assert app.state.lesson
        assert [app.state.lesson.points(team) for team in range(2)] == [10, 5]


async def test_the_figures_in_the_app_are_the_answers() -> None:
    async with lesson(path_of("how_often")) as (app, pilot):
        await press(pilot, "enter", "enter", "full_stop", "enter", "enter")
        assert app.state.comparison
        assert [
            value_of(column, "attachments") for column in app.state.comparison.columns if column.id == "direct"
        ] == [8]


async def test_a_trainer_may_leave_the_path_try_something_and_return() -> None:
    async with lesson(path_of("weakest_link")) as (app, pilot):
        await press(pilot, "5", "enter", "escape", "i")
        assert isinstance(app.screen, Main)
        (title,) = (field for field in app.state.inputs.fields() if field.path == ("array", "rows"))
        app.post_message(
            InputEdited(app.state.inputs.edited(title, "2"), app.state.inputs)
        )  # as the inputs do with every keystroke
        await settled(pilot)
        assert app.document.is_unsaved
        await press(pilot, "c", "comma")
        assert isinstance(app.screen, LessonScreen)
        assert app.state.inputs.changes == stop(app).changes
        assert "guess the clip  10 of 10 points" in shown(app, "#answered")
        assert not app.document.is_unsaved


async def test_back_and_on_again_keeps_what_was_guessed() -> None:
    async with lesson(path_of("how_often")) as (app, pilot):
        await press(pilot, "4", "enter", "enter", "full_stop", "9", "tab", "comma")
        assert "guess 4 " in shown(app, "#answered")
        await press(pilot, "comma")
        assert "step 1 of 6" in shown(app, "#step")
        await press(pilot, "enter", "full_stop")
        assert "step 2 of 6" in shown(app, "#step")
        assert app.screen.query_one(Input).value == ""
        await press(pilot, "escape", "full_stop")
        assert isinstance(app.screen, LessonScreen)
        assert "step 2 of 6" in shown(app, "#step")


async def test_a_guess_may_be_left_out_and_nonsense_is_refused() -> None:
    async with lesson(path_of("rail_span")) as (app, pilot):
        await press(pilot, *"far", "enter")
        assert "'far' given; write a length" in subtitle(app)
        app.screen.query_one(Input).value = ""
        await press(pilot, "enter")
        assert "guess none\nanswer 12.00 ft" in shown(app, "#answered")
        await press(pilot, "u")
        assert "answer 3.658 m" in shown(app, "#answered")


async def test_a_comma_in_a_guess_is_a_part_of_it() -> None:
    async with lesson(path_of("rail_span")) as (app, pilot):
        await press(pilot, "enter", "enter", *"3", "comma", *"5 m")
        assert "step 2 of" in shown(app, "#step")
        assert app.screen.query_one(Input).value == "3,5 m"
        await press(pilot, "tab", "comma")
        assert "step 1 of" in shown(app, "#step")


@pytest.mark.parametrize("odd", ["[/x] lb", "[red]5", "[@click=app.quit]5[/]"])
async def test_a_guess_that_looks_like_markup_is_quoted_as_it_was_typed(odd: str) -> None:
    async with lesson(path_of("rail_span"), (140, 45)) as (app, pilot):
        app.screen.query_one(Input).value = odd
        await press(pilot, "enter")
        assert f"'{odd}' given" in subtitle(app)


def subtitle(app: LoadpathApp) -> str:
    """What the field says on its lower border."""
    return Content.from_markup(app.screen.query_one(Input).border_subtitle or "").plain


async def test_lesson_keys_are_there_with_a_lesson_only() -> None:
    plain = LoadpathApp(LessonProgress(open_lesson(path_of("how_often"))).computed.inputs)
    async with plain.run_test(size=(140, 45)) as pilot:
        await press(pilot, "full_stop", "comma", "question_mark")
        assert isinstance(plain.screen, Help)
        assert "lesson's" not in shown(plain, "Static").replace(str(user_state.keys_file()), "")
    async with lesson(path_of("how_often"), (140, 45)) as (app, pilot):
        await press(pilot, "escape", "question_mark")
        assert "Go to the lesson's next step" in shown(app, "Static")
        await press(pilot, "escape", "comma", "enter", "question_mark")
        assert "A lesson. Type the class's guess" in shown(app, "Static")


async def test_leaving_in_the_middle_asks_only_about_what_was_tried() -> None:
    async with lesson(path_of("weakest_link")) as (app, pilot):
        await press(pilot, "escape")
        (rows,) = (field for field in app.state.inputs.fields() if field.path == ("array", "rows"))
        app.post_message(InputEdited(app.state.inputs.edited(rows, "2"), app.state.inputs))
        await press(pilot, "q")
        assert isinstance(app.screen, Ask)
        await press(pilot, "escape", "comma", "enter", "q")
    assert app.return_code == 0


@pytest.mark.parametrize("size", [(1, 1), (20, 5), (40, 10), (300, 90)])
async def test_any_terminal_will_do(size: tuple[int, int]) -> None:
    """Guess, answer, its screen, the next step's answer, back a step, and out: two steps seen, one of them guessed."""
    async with lesson(path_of("weakest_link"), size) as (app, pilot):
        await press(pilot, "1", "enter", "enter", "enter", "comma", "comma", "escape")
        assert isinstance(app.screen, Main)
        progress = app.state.lesson
        assert progress
        assert (progress.number, progress.seen, list(progress.guesses)) == (0, 2, [(0, 0)])


async def test_a_lesson_of_words_only_and_of_hostile_words(tmp_path: Path) -> None:
    odd = "[red]=1+1[/] [@click=app.quit]x[/]"
    path = tmp_path / "odd.toml"
    path.write_text(
        f'format = 1\ntitle = "{odd}"\nabout = "-"\nscenario = "sparrow_lane"\n[[steps]]\ntitle = "{odd}"\nwords = "{odd}"\n'
        f'question = {{ asks = "{odd}", answer = "methods.rail.status", options = {{ "{odd}" = "holds", "no" = "over" }} }}\n'
        f'[[steps]]\ntitle = "Two"\nwords = "Only words."\nscreen = "compare"\n',
        encoding="utf-8",
    )
    async with lesson(path) as (app, pilot):
        assert shown(app, "#step").count(odd) == 5
        await press(pilot, "1", "enter")
        assert f"answer {odd}" in shown(app, "#answered")
        await press(pilot, "enter", "full_stop")
        assert "Only words." in shown(app, "#step")
        assert not app.screen.query_one(Input).display
        await press(pilot, "enter")
        assert isinstance(app.screen, Main)


def test_every_screen_a_lesson_may_name_is_opened_by_a_command() -> None:
    actions = {command_of_screen(screen) for screen in SCREENS}
    assert len(actions) == len(SCREENS)
    assert actions <= {command.id for command in COMMANDS}
    assert all(hasattr(LoadpathApp, f"action_{action}") for action in actions)


async def test_the_spacing_study_opens_at_the_spacing_the_lesson_speaks_of() -> None:
    """Every 5th and every 6th seam need as many points here; the rail's own span is every 6th."""
    async with lesson(path_of("rail_span")) as (app, pilot):
        await press(pilot, *["enter"] * 10)
        pictures = [str(picture.render()) for picture in app.screen.query(Static)]
        assert any("every 6th seam" in picture for picture in pictures)


async def test_the_footer_fits_into_80_columns_while_a_lesson_is_open() -> None:
    async with lesson(bundled_lessons()[0]) as (app, pilot):
        for key in ("tab", "c", "i", "p", "l", "b", "n", "w"):
            await press(pilot, *(["escape"] if key == "c" else []), key)
            keys = app.screen.query_one(KeyFooter).keys
            assert key == "tab" or "Help" in [each.word for each in keys]
            assert max(each.columns.stop for each in keys) <= 80


@pytest.mark.parametrize("path", bundled_lessons(), ids=lambda path: path.stem)
@pytest.mark.parametrize("system", ["us", "si"])
def test_every_line_of_the_ruler_fits_into_80_columns(path: Path, system: System) -> None:
    """A bar whose figure stands on the next line is no longer beside the others."""
    lines = [line.plain for line in ruler(open_lesson(path).answered_lesson.ruler(), system)]
    assert max(map(len, lines)) <= 74
    assert len({line.index("├") for line in lines if line}) == 1
