"""Warnings, cautions and notes of a comparison; what is the same for all methods is said once."""

from __future__ import annotations

from textual.content import Content

from engine.comparison.compare import Comparison
from engine.comparison.figure import change_text
from engine.units import System, text
from tui.render.styles import cautions, flags


def notes(answer: Comparison, width: int, system: System) -> list[Content]:
    """The flags of each method, then those of all methods, then the cautions."""
    common = _common(answer)
    lines: list[Content] = []
    for column in answer.columns:
        own = [flag for flag in column.flags if flag.text not in common]
        lines += [Content.styled(column.title, "bold"), *flags(own, width, system), Content("")]
    if common:
        shared = [flag for flag in answer.columns[0].flags if flag.text in common]
        lines += [Content.styled("all methods", "bold"), *flags(shared, width, system), Content("")]
    return [*lines, *cautions(answer, width)]


def _common(answer: Comparison) -> frozenset[str]:
    """Texts of the flags that every one of several methods has."""
    if len(answer.columns) < 2:
        return frozenset()
    return frozenset.intersection(*(frozenset(flag.text for flag in column.flags) for column in answer.columns))


def warnings(answer: Comparison) -> str:
    """Number of warnings in words; empty if there is none."""
    count = sum(flag.severity == "warning" for column in answer.columns for flag in column.flags)
    return f"{count} warning{'s' if count > 1 else ''}" if count else ""


def loads(answer: Comparison, baseline: Comparison | None, system: System) -> str:
    """The loads in one line, each with its change from the baseline."""
    before = {name: value for name, value, _ in baseline.site} if baseline else {}
    figures = []
    for name, value, dimension in answer.site:
        changed = (
            f" ({change_text(value, before[name], dimension, system)})"
            if name in before and before[name] != value
            else ""
        )
        figures.append(f"{name} {text(value, dimension, system)}{changed}")
    return f"{answer.scenario.standard.title}: {', '.join(figures)}"
