"""What was asked for on the command line, read: a scenario, methods, what stands on an output."""

from __future__ import annotations

from argparse import Namespace

from engine.common.errors import InputError, Problem
from engine.export.stamp import Stamp
from engine.mounting import METHODS
from engine.scenario.read import Scenario
from engine.units import quoted
from tui.cli.formats import Asked, scenario_at
from tui.storage.export_folder import date_of


def scenario(options: Namespace) -> Scenario:
    """The one scenario, with the changes laid over it.

    Raises:
        InputError: everything that is wrong with it.
    """
    return scenario_at(options.file, options.changes)


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
    """The day and the units.

    Raises:
        InputError: what was given is no day.
    """
    return Stamp(date_of(options.date), options.units)


def comparison(options: Namespace) -> Asked:
    """What is compared in every file, and how it is written.

    Raises:
        InputError: a method or the day is wrong.
    """
    return Asked(tuple(options.changes), methods(options), options.format, stamp(options))
