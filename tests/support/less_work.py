"""The app without work that no test looks at: style sheets read again and again, and pictures painted between steps.

Both lean on inner parts of Textual, whose version is fixed for the tests (`pyproject.toml`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Awaitable, Callable
from functools import wraps
from typing import Any

import pytest
from textual._compositor import Compositor
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.pilot import Pilot


def read_styles_once(patch: pytest.MonkeyPatch) -> None:
    """Let all apps of this process share the rules read from style sheets; themes differ in their variables."""
    read: defaultdict[frozenset[tuple[str, str]], dict[Any, list[RuleSet]]] = defaultdict(dict)

    def then_shared(method: Callable[..., None]) -> Callable[..., None]:
        @wraps(method)
        def shared(sheet: Any, *arguments: Any, **options: Any) -> None:
            sheet._parse_cache = {}  # this one may be cleared
            method(sheet, *arguments, **options)
            sheet._parse_cache = read[frozenset(sheet._variables.items())]

        return shared

    for method in ("__init__", "set_variables"):
        patch.setattr(Stylesheet, method, then_shared(getattr(Stylesheet, method)))


def paint_after_steps(patch: pytest.MonkeyPatch) -> None:
    """Paint once after each step of a test, as a person would look at it, and not up to sixty times a second.

    Layout goes on as ever. Pictures of the whole screen are painted whenever they are asked for.
    """
    paint = Compositor.render_update

    def only_whole(compositor: Compositor, full: bool = False, *arguments: Any, **options: Any) -> object:
        return paint(compositor, full, *arguments, **options) if full else None

    def then_painted(step: Callable[..., Awaitable[None]]) -> Callable[..., Awaitable[None]]:
        @wraps(step)
        async def stepped(pilot: Pilot[Any], *arguments: Any) -> None:
            await step(pilot, *arguments)
            if pilot.app.is_running and pilot.app.screen_stack:
                paint(pilot.app.screen._compositor, screen_stack=pilot.app._background_screens)

        return stepped

    patch.setattr(Compositor, "render_update", only_whole)
    for step in ("press", "pause"):
        patch.setattr(Pilot, step, then_painted(getattr(Pilot, step)))
