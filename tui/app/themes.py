"""The app's own colours, dark and light.

Every text has a contrast of at least 4.5 to 1 with what is behind it, also where older figures are dimmed.
"""

from __future__ import annotations

from collections.abc import Mapping

from textual.theme import Theme

from tui.storage.user_state import DARK, LIGHT


def _theme(name: str, colours: Mapping[str, str], *, dark: bool) -> Theme:
    """A theme; texts on a plain ground take their colours as they are, without blending."""
    base = dict(colours)
    muted, frame, cursor = base.pop("muted"), base.pop("frame"), base.pop("cursor")
    texts = {f"text-{key}": base[key] for key in ("primary", "secondary", "success", "warning", "error", "accent")}
    return Theme(
        name=name,
        dark=dark,
        **base,  # type: ignore[arg-type]
        variables={
            **texts,
            "text-muted": muted,
            "text-disabled": muted,
            "border": base["accent"],
            "border-blurred": frame,
            "block-cursor-background": base["primary"],
            "block-cursor-foreground": base["background"],
            "block-cursor-blurred-background": cursor,
            "block-cursor-blurred-foreground": base["foreground"],
            "block-hover-background": cursor,
            "input-selection-background": cursor,
            "input-selection-foreground": base["foreground"],
            "scrollbar": frame,
            "scrollbar-background": base["surface"],
            "scrollbar-corner-color": base["surface"],
            "footer-background": base["panel"],
        },
    )


THEMES = (
    _theme(
        DARK,
        {
            "background": "#10161c",
            "surface": "#19212a",
            "panel": "#222d38",
            "foreground": "#e6ebef",
            "muted": "#aab6c1",
            "frame": "#708394",
            "cursor": "#34465a",
            "primary": "#82c3ea",
            "secondary": "#b9c7d3",
            "accent": "#f4b942",
            "success": "#7bd39b",
            "warning": "#f4b942",
            "error": "#ff9a8f",
        },
        dark=True,
    ),
    _theme(
        LIGHT,
        {
            "background": "#faf8f3",
            "surface": "#f1eee6",
            "panel": "#e4e0d5",
            "foreground": "#1a2129",
            "muted": "#39434c",
            "frame": "#6a645a",
            "cursor": "#c9d9e6",
            "primary": "#154a72",
            "secondary": "#3d4a57",
            "accent": "#663d00",
            "success": "#12532c",
            "warning": "#663d00",
            "error": "#8f1611",
        },
        dark=False,
    ),
)
