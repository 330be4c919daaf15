"""From a scenario's file to its comparison in the form asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engine.common.errors import InputError, Problem
from engine.comparison.compare import Comparison
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.export.text import to_text
from engine.lessons.file import is_lesson
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import Scenario, read_scenario
from tui.storage import paths
from tui.storage.overrides import changes_of, laid_over


@dataclass(frozen=True)
class Asked:
    """What is laid over every file (PATH=VALUE), which methods are compared (none named: all), and how it is written."""

    changes: tuple[str, ...]
    methods: tuple[str, ...]
    form: str
    stamp: Stamp


def scenario_path(name: str | None) -> Path:
    """A file, or a bundled scenario by its name; the default one where none is named.

    Raises:
        InputError: the name is empty.
    """
    if name is None:
        return paths.bundled()[0]
    if not name.strip():
        raise InputError([Problem("FILE", "an empty name given; give a scenario file, or the name of a bundled one")])
    return paths.named(name)


def scenario_tables(path: Path) -> dict[str, Any]:
    """The tables of a scenario's file.

    Raises:
        InputError: it cannot be read, or is a lesson.
    """
    tables = paths.parse(paths.read_text(path), path.name)
    if is_lesson(tables):
        raise InputError([Problem(path.name, "a lesson and no scenario; `loadpath lesson` walks through it")])
    return tables


def scenario_at(name: str | None, changes: Sequence[str]) -> Scenario:
    """The scenario of a file with changes laid over it.

    Raises:
        InputError: everything that is wrong with it.
    """
    return read_scenario(laid_over(scenario_tables(scenario_path(name)), changes_of(changes)), METHODS, STANDARDS)


def all_hold(comparison: Comparison) -> bool:
    """Whether every method shown holds."""
    return all(column.status == "holds" for column in comparison.columns)


def in_form(comparison: Comparison, asked: Asked) -> str | bytes:
    """The comparison in the form asked for."""
    if asked.form == "json":
        return to_json(comparison, asked.stamp) + "\n"
    if asked.form == "text":
        return to_text(comparison, asked.stamp)
    from engine.export import csv, html_page, xlsx  # heavy libraries: only where a table leaves

    forms: Mapping[str, Callable[[Comparison, Stamp], str | bytes]] = {
        "csv": csv.to_csv,
        "md": csv.to_markdown,
        "html": html_page.comparison_page,
        "xlsx": xlsx.comparison_workbook,
    }
    return forms[asked.form](comparison, asked.stamp)
