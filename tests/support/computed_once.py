"""Designs and studies made once in each test process: equal jobs of several tests are computed for the first of them.

Results are immutable and `design` is pure, so a test cannot see the difference. A result is found again by the
pickled inputs: two jobs that differ in anything have different keys.
"""

from __future__ import annotations

import pickle
from collections import OrderedDict
from collections.abc import Callable
from functools import wraps
from typing import Any

import pytest

from engine.comparison import compare
from engine.studies import spacing
from tui.screens import headroom

MAX_DESIGNS = 150
MAX_STUDIES = 30
"""The oldest are forgotten, for some hold 20 MB."""


def computed_once(
    compute: Callable[..., Any], inputs: int, most: int, decided_by: Callable[..., object] = lambda *inputs: inputs
) -> Callable[..., Any]:
    """The same function, computing once for the same inputs.

    Args:
        compute: a pure function.
        inputs: how many of its arguments decide the result; a progress listener comes after them, and hears nothing
            of what is remembered.
        most: results kept.
        decided_by: what about these arguments decides the result.
    """
    results: OrderedDict[bytes, Any] = OrderedDict()

    @wraps(compute)
    def remembered(*arguments: Any) -> Any:
        key = pickle.dumps(decided_by(*arguments[:inputs]))
        if key not in results:
            results[key] = compute(*arguments)
        results.move_to_end(key)
        while len(results) > most:
            results.popitem(last=False)
        return results[key]

    return remembered


def compute_once(patch: pytest.MonkeyPatch) -> None:
    """Let every comparison and spacing study of this process share designs and studies."""
    patch.setattr(compare, "placed_design", computed_once(compare.placed_design, 3, MAX_DESIGNS))
    patch.setattr(spacing, "_study", computed_once(spacing._study, 2, MAX_STUDIES))
    for study in ("headroom", "sensitivity"):
        shared = computed_once(getattr(headroom, study), 1, MAX_STUDIES, _scenario_and_methods)
        patch.setattr(headroom, study, shared)


def _scenario_and_methods(comparison: compare.Comparison) -> object:
    """What a comparison is computed from."""
    return comparison.scenario, [column.id for column in comparison.columns]
