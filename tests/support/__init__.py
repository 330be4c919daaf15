"""What tests share: the bundled scenarios as tables, and the made-up standard beside the real ones."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Iterable
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from engine.common.calculation import CalculationStep, Confidence, Reference
from engine.design.design import prepare
from engine.design.trial import DesignContext
from engine.explain.print import in_system
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import Scenario, read_scenario
from support.made_up_standard import Factored

SCENARIOS = Path(__file__).parents[2] / "scenarios"
ALL_STANDARDS = {**STANDARDS, "Made-up 1": Factored}
Tables = dict[str, Any]

DRAWN = (
    "kestrel_yard",
    "heron_depot",
    "sparrow_lane",
    "swallow_cottage",
    "wren_workshop",
    "magpie_annex",
    "dunlin_hall",
)
"""Scenarios whose plans are drawn: standing seams and screwed panels, purlins and rafters, both standards."""

WEAKER_ROOF: Tables = {
    "roof__fastening__uplift": {
        "tested_pressure": "70 psf",
        "tested_rib_spacing": "24 in",
        "tested_fastening_spacing": "5 ft",
        "safety_factor": 2.0,
    },
    "roof__panel__moment_rib_compressed": "580 lb ft",
    "roof__panel__moment_pan_compressed": "400 lb ft",
}
"""Changes that make the default scenario's rails fail at every spacing: clips that may carry 350 lb, weaker seams."""


def tables_of(name: str) -> Tables:
    """A bundled scenario's tables."""
    return tomllib.loads((SCENARIOS / f"{name}.toml").read_text(encoding="utf-8"))


def laid_over(tables: Tables, **changes: object) -> Tables:
    """A copy with changes laid over it; "__" in a name leads into a table."""
    result = deepcopy(tables)
    for path, value in changes.items():
        *steps, last = path.split("__")
        table = result
        for step in steps:
            table = table.setdefault(step, {})
        if value is None:
            table.pop(last, None)
        else:
            table[last] = value
    return result


def scenario_of(name: str = "kestrel_yard", **changes: object) -> Scenario:
    """Read a bundled scenario with changes laid over it."""
    return read_scenario(laid_over(tables_of(name), **changes), METHODS, ALL_STANDARDS)


def context_of(name: str, method: str, **changes: object) -> DesignContext:
    """One method on such a job, ready for patterns to be tried."""
    scenario = scenario_of(name, **changes)
    (asked,) = scenario.methods_named((method,))
    prepared = prepare(scenario.job, asked, scenario.standard)
    assert isinstance(prepared, DesignContext)
    return prepared


FUNCTIONS = {
    "log": math.log10,
    "exp": math.exp,
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
    "sin": lambda angle: math.sin(math.radians(angle)),
    "cos": lambda angle: math.cos(math.radians(angle)),
    "tan": lambda angle: math.tan(math.radians(angle)),
}


def evaluated(step: CalculationStep) -> float:
    """A recorded step worked out again from its own equation and terms."""
    return float(
        eval(step.equation, {"__builtins__": {}}, FUNCTIONS | {name: term.value for name, term in step.terms.items()})
    )


def assert_told(steps: Iterable[CalculationStep], *, of: object = "") -> None:
    """Every step says what it is, in which unit and by which source; its equation gives its result again."""
    for step in steps:
        where = f"{of} {step.symbol}"
        assert step.symbol, where
        assert step.meaning, where
        assert isinstance(step.reference, Reference), where
        assert all(
            isinstance(term.unit, str) and math.isfinite(term.value) for term in (step.result, *step.terms.values())
        ), where
        assert isinstance(step.reference.confidence, Confidence), where
        assert step.equation or not step.terms, where
        if step.equation:
            assert evaluated(step) == pytest.approx(step.result.value, rel=1e-12, abs=1e-12), where
            metric = in_system(step, "si")
            assert evaluated(metric) == pytest.approx(metric.result.value, rel=1e-9, abs=1e-12), where
