"""Figures of a scenario by name: comparison, study, calculation steps, inputs as written, words of the standard."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from engine import units
from engine.common.calculation import CalculationStep, Term
from engine.comparison.compare import Comparison, compare
from engine.comparison.figures import figure_named, figures
from engine.comparison.record import comparison_record
from engine.explain.find import explain_figure
from engine.lessons.figures import FigureLookup, FigureValue, MissingStepError, find_figure
from engine.scenario.read import Scenario
from engine.scenario.validation import describe_unknown
from engine.studies.record import spacing_record
from engine.studies.spacing import study as study_methods

Steps = Mapping[str, CalculationStep]


def all_figures(scenario: Scenario) -> FigureLookup:
    """A lookup of figures by name, inputs as written among them; each part is computed at its first use."""
    ids = {method.id for method in scenario.methods}
    comparison = cache(lambda: compare(scenario))

    @cache
    def studied(method: str) -> Mapping[str, Any]:
        return {"studies": spacing_record(study_methods(scenario, (method,) if method in ids else ()))}

    @cache
    def compared() -> Mapping[str, Any]:
        return comparison_record(comparison())

    @cache
    def explained(method: str, figure: str) -> Steps:
        return _explained(comparison(), method, figure)

    words = {"title": scenario.standard.title, "resistance": scenario.job.words.resistance}

    def found(name: str) -> FigureValue:
        first, _, rest = name.partition(".")
        if first == "standard":
            return find_figure({"standard": words}, name)
        if first == "inputs":
            return _input(find_figure({"inputs": scenario.written}, name))
        if first == "explain":
            method, _, of_method = rest.partition(".")
            figure, _, symbols = of_method.partition(".")
            return _step(explained(method, figure), name, symbols)
        return find_figure(studied(rest.partition(".")[0]) if first == "studies" else compared(), name)

    return found


def _explained(comparison: Comparison, method: str, figure: str) -> Steps:
    """The calculation steps behind a figure of a method, by their symbols."""
    column = comparison.column(method)
    if column is None:
        ids = tuple(each.id for each in comparison.columns)
        raise ValueError(f"'{method[:40]}' is {describe_unknown(method, ids)}")
    keys = tuple(each.key for each in figures())
    if figure not in keys:
        raise ValueError(f"'{figure[:40]}' is {describe_unknown(figure, keys)}")
    steps = explain_figure(comparison, column, figure_named(figure), "us").steps
    return {step.symbol: step for step in reversed(steps)}  # of several the first one


def _step(steps: Steps, name: str, symbols: str) -> FigureValue:
    """The result of a calculation step by its symbol ("M"), or one of its terms ("M.others")."""
    symbol, _, term = symbols.partition(".")
    if symbol not in steps:
        raise MissingStepError(
            f"there is no figure '{name[:80]}': '{symbol[:40]}' is {describe_unknown(symbol, tuple(steps))}"
        )
    step = steps[symbol]
    if term and term not in step.terms:
        raise MissingStepError(
            f"there is no figure '{name[:80]}': '{term[:40]}' is {describe_unknown(term, tuple(step.terms))}"
        )
    return _in_si(step.terms[term] if term else step.result)


def _in_si(term: Term) -> FigureValue:
    """The value of a step in SI."""
    for dimension, sizes in units.UNITS.items():
        if term.unit in sizes:
            small = "small " if term.unit == "in" else ""
            return FigureValue(term.value * sizes[term.unit], f"{small}{dimension}")
    return FigureValue(term.value, "count" if isinstance(term.value, int) else "ratio")


def _input(found: FigureValue) -> FigureValue:
    """An input that is a quantity, in SI and as it is written; any other as it is."""
    for dimension in units.UNITS if isinstance(found.value, str) else ():
        try:
            return FigureValue(units.parse(str(found.value), dimension), dimension, str(found.value))
        except ValueError:
            continue
    return found
