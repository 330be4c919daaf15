"""Reading what the options name: a scenario, methods, and the form of the output."""

from __future__ import annotations

import difflib
from argparse import Namespace
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from engine.common.errors import InputError, Problem
from engine.export.stamp import ScenarioFile, Stamp
from engine.lessons.file import is_lesson
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.changes import changes_of, laid_over
from engine.scenario.read import Scenario, read_scenario, read_slopes
from engine.scenario.shelf import USE, Shelf
from engine.units import quoted
from tui.cli.formats import Request
from tui.cli.output import text_width
from tui.storage import paths
from tui.storage.export_folder import date_of
from tui.storage.shelves import shelves_of


def scenario_path(name: str | None) -> Path:
    """The path of a scenario file, or of a bundled scenario by its name; the default one if no name is given.

    Raises:
        InputError: the name is empty, or neither a file's nor a bundled scenario's.
    """
    if name is None:
        return paths.bundled()[0]
    if not name.strip():
        raise InputError([Problem("FILE", "an empty name given; give a scenario file, or the name of a bundled one")])
    path = paths.named(name)
    if not path.suffix and not paths.exists(path):
        raise InputError([Problem(name, "no such file, and no bundled scenario of that name" + _nearest(name))])
    return path


def _nearest(name: str) -> str:
    """The bundled scenario with the most similar name, as a question; else the command that lists them."""
    near = difflib.get_close_matches(name, [path.stem for path in paths.own()], n=1)
    return f"; did you mean {near[0]}?" if near else "; `loadpath scenarios` lists the bundled ones"


def scenario_tables(path: Path) -> dict[str, Any]:
    """The tables of a scenario file.

    Raises:
        InputError: it cannot be read, or is a lesson.
    """
    return _tables(paths.read_text(path), path.name)


def _tables(text: str, name: str) -> dict[str, Any]:
    tables = paths.parse(text, name)
    if is_lesson(tables):
        raise InputError([Problem(name, "a lesson, not a scenario; open it with `loadpath lesson`")])
    return tables


def scenarios_at(name: str | None, changes: Sequence[str], slope: str) -> tuple[Scenario, ...]:
    """The scenario of each slope of a file, or of the one named, with changes (PATH=VALUE) applied.

    Raises:
        InputError: everything that is wrong with it.
    """
    path = scenario_path(name)
    return scenarios_of(paths.read_text(path), path, changes, slope)


def scenarios_of(text: str, path: Path, changes: Sequence[str], slope: str) -> tuple[Scenario, ...]:
    """As `scenarios_at`, of a file's text.

    Raises:
        InputError: everything that is wrong with it.
    """
    tables = laid_over(_tables(text, path.name), changes_of(changes))
    shelves = shelves_of(tables, path)
    if slope:
        return (read_scenario(tables, METHODS, STANDARDS, slope, shelves),)
    return read_slopes(tables, METHODS, STANDARDS, shelves)


def shelves_in(text: str, path: Path, changes: Sequence[str]) -> tuple[Shelf, ...]:
    """The shelves that a file's text with its changes uses; a file without the word is not parsed for them.

    Raises:
        InputError: one cannot be read.
    """
    if USE not in text and not any(USE in change for change in changes):
        return ()
    return shelves_of(laid_over(_tables(text, path.name), changes_of(changes)), path)


def scenarios(options: Namespace) -> tuple[Scenario, ...]:
    """The scenarios that the options name, one a slope; units not chosen become their standard's.

    The options then name their file, for the stamp.

    Raises:
        InputError: everything that is wrong with them.
    """
    path = scenario_path(options.file)
    text = paths.read_text(path)
    found = scenarios_of(text, path, options.changes, options.slope)
    options.source = ScenarioFile.of_text(path.name, text, options.changes)
    choose_units(options, found[0])
    return found


def scenario(options: Namespace) -> Scenario:
    """The one scenario that the options name, with their changes applied; units not chosen become its standard's.

    Raises:
        InputError: everything that is wrong with it, or it is a file of several slopes and none is named.
    """
    first, *others = scenarios(options)
    if others:
        names = " or ".join(quoted(name) for name in first.slopes)
        raise InputError([Problem("--slope", f"missing; the file has several slopes, allowed is {names}")])
    return first


def choose_units(options: Namespace, scenario: Scenario) -> None:
    """Choose the units of the scenario's standard, unless others were chosen."""
    if getattr(options, "units", None) is None:
        options.units = scenario.standard.system


def methods(options: Namespace) -> tuple[str, ...]:
    """The ids of the methods named; empty for all.

    Raises:
        InputError: there is no such method.
    """
    for name in options.methods:
        if name not in METHODS:
            raise InputError([Problem("--method", f"{quoted(name)} given; allowed is {' or '.join(METHODS)}")])
    return tuple(options.methods)


def stamp(options: Namespace) -> Stamp:
    """The date, the units and the file; until a scenario is read there is none, and units not chosen are US.

    Raises:
        InputError: the date is not a date.
    """
    return Stamp(date_of(options.date), options.units or "us", file=getattr(options, "source", None))


def request(options: Namespace) -> Request:
    """The changes, methods and format that apply to every file.

    Raises:
        InputError: a method or the date is wrong.
    """
    return Request(
        tuple(options.changes),
        methods(options),
        options.format,
        stamp(options),
        text_width(options),
        units_of_standard=options.units is None,
        slope=options.slope,
        ways=options.ways,
    )
