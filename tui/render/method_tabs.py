"""The methods by name, with the one that a screen shows."""

from __future__ import annotations

from textual.content import Content

from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import verdict_word
from engine.design.status import Status
from engine.units import System
from tui.render.styles import MUTED, STATUS_STYLE, flags, wrapped


def tabs(comparison: Comparison, selected: Column | None, width: int) -> Content:
    """Every method with its verdict, in little room only the selected one's; that method stands between arrows."""
    long, short = (_tabs(comparison, selected, with_all=with_all) for with_all in (True, False))
    return long if len(long) <= width else short


def _tabs(comparison: Comparison, selected: Column | None, *, with_all: bool) -> Content:
    parts = []
    for column in comparison.columns:
        name = f"◂ {column.title} ▸" if column is selected else column.title
        verdict = f" {column.status.word}" if with_all or column is selected else ""
        status = Content.styled(verdict, STATUS_STYLE[column.status])
        parts.append(Content.styled(name, "bold reverse" if column is selected else "") + status)
    return Content("   ").join(parts)


def names(comparison: Comparison, selected: Column | None) -> Content:
    """Every method by name, for screens that use the arrows for something else."""
    parts = [
        Content.styled(f" {column.title} ", "bold reverse" if column is selected else "")
        for column in comparison.columns
    ]
    return Content(" ").join(parts) + Content.styled("  m: next method", MUTED)


def verdict(column: Column | None) -> Content:
    """The verdict of a method, to stand behind its name."""
    if column is None:
        return Content("")
    return Content(" · ") + Content.styled(verdict_word(column), f"{STATUS_STYLE[column.status]} bold")


def nothing_to_show(column: Column, width: int, system: System) -> Content:
    """Why a method has no picture: the reason of its refusal, or the limit of the standard."""
    outside = "The load standard does not cover this method here: nothing is checked."
    words = outside if column.status == Status.OUTSIDE_SCOPE else "This method cannot be used here."
    return Content("\n").join([*wrapped(words, width - 1, "bold"), Content(""), *flags(column.flags, width, system)])
