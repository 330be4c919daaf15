"""Shelves, sources and alternatives in the app: shown, edited, saved with their references, ranked on a page."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from engine.schema.toml import to_toml
from support import SCENARIOS, tables_of
from support.opened_app import settled
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.widgets.words import Words

pytestmark = pytest.mark.app


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """The smallest bundled job, its module from a shelf beside it, with one alternative."""
    module = tables_of("wren_workshop")["module"]
    entry = "".join(f"{key} = {to_toml(value)}\n" for key, value in module.items())
    heavy = 'from = "M1"\nmass = "30 kg"\n'
    shelf = f'format = 1\n[modules.M1]\nsource = "data sheet"\n{entry}[modules.heavy]\n{heavy}'
    (tmp_path / "parts.toml").write_text(shelf, encoding="utf-8")
    text = (SCENARIOS / "wren_workshop.toml").read_text(encoding="utf-8")
    before, _, rest = text.partition("[module]\n")
    after = rest[rest.index("\n[") :]
    before = before.replace("[site]\n", 'use = ["parts.toml"]\n\n[site]\n', 1)
    alternative = '\n[[alternatives]]\nname = "calm"\nset = { "site.wind_speed" = "95 mph" }\n'
    path = tmp_path / "job.toml"
    path.write_text(f'{before}[module]\nfrom = "M1"\n{after}{alternative}', encoding="utf-8")
    return path


async def edit(pilot: Pilot[None], searched: str, typed: str) -> None:
    """Find a field by its name, and type a value in place of its own."""
    await pilot.press("slash", *searched, "enter", "enter", "ctrl+u", *typed, "enter", "escape")
    await settled(pilot)


def about(app: LoadpathApp) -> str:
    return str(app.screen.query_one("#about", Words).render())


async def test_a_shelf_s_value_is_explained_overridden_and_saved_beside_its_reference(job: Path) -> None:
    app = LoadpathApp(Inputs.of_file(job), ("direct",))
    async with app.run_test(size=(140, 45)) as pilot:
        await settled(pilot)
        await pilot.press("slash", *"module mass", "enter")
        await settled(pilot)
        assert "Now from 'M1' in parts.toml: data sheet." in " ".join(about(app).split())
        await pilot.press("escape")
        await edit(pilot, "module mass", "25 kg")
        await edit(pilot, "module from", "heavy")
        await pilot.press("s")
        await settled(pilot)
    text = job.read_text(encoding="utf-8")
    assert 'from = "heavy"\nmass = "25 kg"\n' in text
    assert 'use = ["parts.toml"]' in text
    assert '[[alternatives]]\nname = "calm"' in text


async def test_a_name_that_no_shelf_has_is_said_and_the_last_figures_stay(job: Path) -> None:
    app = LoadpathApp(Inputs.of_file(job), ("direct",))
    async with app.run_test(size=(140, 45)) as pilot:
        await settled(pilot)
        await edit(pilot, "module from", "haevy")
        said = str(app.screen.query_one("#problems", Static).render())
        assert "did you mean 'heavy'?" in said
        assert app.state.comparison is not None


async def test_an_alternative_is_typed_into_the_form_renamed_and_ranked_beside_the_baseline(job: Path) -> None:
    """A name, the input it changes, and its value, each typed into a line of its own; the baseline is written too."""
    app = LoadpathApp(Inputs.of_file(job), ("direct",))
    async with app.run_test(size=(140, 45)) as pilot:
        await settled(pilot)
        await pilot.press("k")
        await edit(pilot, "another alternative", "heavy one")
        await edit(pilot, "heavy one set +", "module from")
        await edit(pilot, "set module.from", "heavy")
        await edit(pilot, "heavy one name", "heavier")
        await edit(pilot, "site wind speed", "80 mph")
        await pilot.press("A")
        await settled(pilot)
        page = str(app.screen.query_one("#text", Static).render())
        for name in ("as stated", "calm", "heavier", "baseline"):
            assert name in page
        await pilot.press("escape", "K")
        await settled(pilot)
        await pilot.press("s")
        await settled(pilot)
    assert '"module.from" = "heavy"' in job.read_text(encoding="utf-8")
    saved = Inputs.of_file(job).scenario().alternatives
    assert [each.name for each in saved] == ["calm", "heavier", "kept baseline"]
    assert [path for path, _ in saved[-1].changes.items()] == [("site", "wind_speed")]
