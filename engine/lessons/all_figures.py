"""Every figure of a scenario by its name: of the comparison, of the spacing study, and the inputs as written."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from engine.comparison.compare import compare
from engine.comparison.record import comparison_record
from engine.lessons.figures import FigureLookup, FigureValue, find_figure
from engine.scenario.read import Scenario
from engine.studies.record import spacing_record
from engine.studies.spacing import study as study_methods


def all_figures(scenario: Scenario, written: Mapping[str, Any]) -> FigureLookup:
    """A lookup of figures by name; each part is computed at its first use.

    Args:
        scenario: the scenario.
        written: the tables it was read from ("inputs.roof.rib_spacing").
    """
    ids = {method.id for method in scenario.methods}

    @cache
    def studied(method: str) -> Mapping[str, Any]:
        return {"studies": spacing_record(study_methods(scenario, (method,) if method in ids else ()))}

    @cache
    def compared() -> Mapping[str, Any]:
        return comparison_record(compare(scenario))

    def found(name: str) -> FigureValue:
        first, _, rest = name.partition(".")
        if first == "inputs":
            return find_figure({"inputs": written}, name)
        return find_figure(studied(rest.partition(".")[0]) if first == "studies" else compared(), name)

    return found
