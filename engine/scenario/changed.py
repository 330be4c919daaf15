"""A scenario read again with changes laid over what its file says."""

from __future__ import annotations

from dataclasses import replace

from engine.scenario.changes import Changes, laid_over
from engine.scenario.read import Scenario, read_scenario


def changed(scenario: Scenario, changes: Changes) -> Scenario:
    """The scenario, without its alternatives, with changes, each a path and a value as a file has it.

    Raises:
        InputError: a changed value is not allowed.
    """
    methods = {method.id: type(method) for method in scenario.methods}
    standards = {scenario.standard.title: type(scenario.standard)}
    found = read_scenario(laid_over(scenario.written, changes), methods, standards)
    return replace(found, slope=scenario.slope, slopes=scenario.slopes, origins=scenario.origins.without(changes))
