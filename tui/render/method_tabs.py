"""Which method a screen shows, among the others."""

from __future__ import annotations

from textual.content import Content

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import STATUS_WORDS
from tui.render.styles import MUTED, STATUS_STYLE, flags, wrapped


def tabs(comparison: Comparison, chosen: Column | None) -> Content:
    """Every method with its verdict; the chosen one between the arrows that turn to another."""
    parts = []
    for column in comparison.columns:
        name = f"◂ {column.title} ▸" if column is chosen else column.title
        verdict = Content.styled(f" {STATUS_WORDS[column.status]}", STATUS_STYLE[column.status])
        parts.append(Content.styled(name, "bold reverse" if column is chosen else "") + verdict)
    return Content("   ").join(parts)


def names(comparison: Comparison, chosen: Column | None) -> Content:
    """Every method by name, for screens where the arrows do something else."""
    parts = [
        Content.styled(f" {column.title} ", "bold reverse" if column is chosen else "") for column in comparison.columns
    ]
    return Content(" ").join(parts) + Content.styled("  m: next method", MUTED)


def nothing_to_show(column: Column, width: int) -> Content:
    """Why a method has no picture: what it is refused for, or which limit it is beyond."""
    outside = "The load standard does not cover this method here, so nothing is checked."
    words = outside if column.status == "outside scope" else "This method cannot be used here."
    return Content("\n").join([*wrapped(words, width - 1, "bold"), Content(""), *flags(column, width)])
