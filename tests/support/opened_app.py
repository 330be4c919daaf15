"""The app opened on a bundled scenario and driven to a screen, for tests of single screens."""

from __future__ import annotations

import re
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from textual.content import Content
from textual.pilot import Pilot
from textual.widgets import Static, Tree

from engine.scenario.changes import Changes
from support import SCENARIOS
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.render.styles import BEST, PLACEHOLDER
from tui.render.why import line
from tui.widgets.comparison import ComparisonPane
from tui.widgets.comparison_area import ComparisonArea
from tui.widgets.notes import NotesPane
from tui.widgets.text_lines import TextLines

SIZES = [(80, 24), (140, 45)]


async def settled(pilot: Pilot[None]) -> None:
    """What was pressed or typed has been taken up, nothing is being worked out, and everything is painted."""
    await pilot.pause()
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()


@asynccontextmanager
async def opened(
    scenario: str, size: tuple[int, int], *keys: str, changes: Changes | None = None
) -> AsyncIterator[tuple[LoadpathApp, Pilot[None]]]:
    """The app on a scenario, changed or as it is, once these keys were pressed."""
    path = SCENARIOS / f"{scenario}.toml"
    app = LoadpathApp(Inputs(path, path.read_text(encoding="utf-8"), changes or {}))
    async with app.run_test(size=size) as pilot:
        await settled(pilot)
        for key in keys:
            await pilot.press(key)
        await settled(pilot)
        yield app, pilot


def figures(app: LoadpathApp) -> str:
    """The figures of the comparison, without the bars and marks beside them."""
    text = str(app.main.query_one(ComparisonPane).query_one(Static).render())
    return re.sub(f"[█▏▎▍▌▋▊▉│┃▶{BEST}{PLACEHOLDER}]", " ", text)


def comparison(app: LoadpathApp) -> str:
    """Everything that the comparison shows: titles, answer, tiles, figures and notes."""
    parts = [app.main.query_one(ComparisonArea), app.main.query_one(NotesPane)]
    panes = [*parts[0].query(".pane"), parts[1]]
    titles = [Content.from_markup(pane.border_title or "").plain for pane in panes]
    texts = [text for part in parts for text in part.query(TextLines) if text.id != "heads"]
    return "\n".join([*titles, *(str(text.render()) for text in texts)])


def seen(app: LoadpathApp, selector: str = "Picture") -> str:
    """What a widget of the topmost screen shows, as plain text."""
    return str(app.screen.query_one(selector, Static).render())


def painted(app: LoadpathApp) -> str:
    """Everything that the topmost screen paints, row by row."""
    return "\n".join(strip.text for strip in app.screen._compositor.render_strips())


def why_seen(app: LoadpathApp) -> str:
    """The sentence of "Why?", and every line of its tree with its source, folded or not."""
    tree = app.screen.query_one(Tree)
    lines, nodes = [seen(app, "#text")], [tree.root]
    while nodes:
        node = nodes.pop(0)
        lines += [f"{line(node.data.step, app.state.system)} {node.data.step.reference}"] if node.data else []
        nodes = [*node.children, *nodes]
    return "\n".join(lines)
