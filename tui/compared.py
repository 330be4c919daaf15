"""From a scenario's file to its comparison in the form asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from engine.comparison import Comparison
from engine.errors import InputError, Problem
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.export.text import to_text
from engine.lesson import is_lesson
from engine.methods import METHODS
from engine.scenario import Scenario, read_scenario
from engine.standards import STANDARDS
from tui import files
from tui.changes import changes_of, laid_over


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
        return files.bundled()[0]
    if not name.strip():
        raise InputError([Problem("FILE", "an empty name given; give a scenario file, or the name of a bundled one")])
    return files.named(name)


def scenario_tables(path: Path) -> dict[str, Any]:
    """The tables of a scenario's file.

    Raises:
        InputError: it cannot be read, or is a lesson.
    """
    tables = files.parse(files.read_text(path), path.name)
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
    from engine.export import page, tables, workbook  # noqa: PLC0415  (heavy libraries: only where a table leaves)

    forms: Mapping[str, Callable[[Comparison, Stamp], str | bytes]] = {
        "csv": tables.to_csv,
        "md": tables.to_markdown,
        "html": page.comparison_page,
        "xlsx": workbook.comparison_workbook,
    }
    return forms[asked.form](comparison, asked.stamp)
