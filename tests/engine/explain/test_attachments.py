"""Every step that `explain` prints can be evaluated again from what it prints, and ends at the comparison's own figure."""

from __future__ import annotations

import numpy as np
import pytest

from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.explain.find import Explanation, explain_attachment
from engine.links.trail import CalculationTrail
from engine.units import FOOT
from support import assert_told, scenario_of


def explained(
    name: str, method: str, attachment: int | None = None, **changes: object
) -> tuple[Explanation, dict[str, float | None]]:
    comparison = compare(scenario_of(name, **changes), (method,))
    column = comparison.columns[0]
    return explain_attachment(column, attachment), {check.link: check.utilisation for check in column.checks.values()}


CASES = [
    ("kestrel_yard", "rail"),
    ("kestrel_yard", "tilted_rack"),
    ("kestrel_yard", "direct"),
    ("sparrow_lane", "rail"),
    ("sparrow_lane", "direct"),
    ("heron_depot", "tilted_rack"),
    ("wren_workshop", "direct"),
]


@pytest.mark.parametrize(("name", "method"), CASES)
def test_steps_evaluate_to_their_results(name: str, method: str) -> None:
    explanation, _ = explained(name, method)
    assert len([step for step in explanation.steps if step.equation]) > 8
    assert_told(explanation.steps)


@pytest.mark.parametrize(("name", "method"), CASES[:6])
def test_the_chain_ends_at_the_comparisons_figure(name: str, method: str) -> None:
    """The worst fastening with the array in place; where the bare roof is worse still, the comparison shows that one."""
    explanation, links = explained(name, method)
    used = explanation.steps[-1].result.value
    assert used == pytest.approx(links["roof_fastening"], rel=1e-9)


def test_an_earthquake_is_explained_too() -> None:
    explanation, _ = explained(
        "kestrel_yard", "direct", site__seismic_sds=3.0, site__wind_speed="60 mph", site__ground_snow="0 psf"
    )
    assert any(step.symbol == "Fp" for step in explanation.steps) or any(
        "W up" in step.meaning for step in explanation.steps
    )
    assert_told(explanation.steps)


@pytest.mark.parametrize("attachment", [0, 7, 335])
def test_any_point_can_be_explained(attachment: int) -> None:
    comparison = compare(scenario_of("kestrel_yard"), ("direct",))
    explanation, design = explain_attachment(comparison.columns[0], attachment), comparison.columns[0].design
    assert design
    seam, y = design.layout.attachments.rib[attachment] + 1, design.layout.attachments.y[attachment] / FOOT
    assert explanation.heading.startswith(
        f"modules on seams: attachment {attachment + 1} on seam {seam}, {2 * (seam - 1):.2f} ft"
    )
    assert f"{y:.2f} ft" in explanation.heading
    assert_told(explanation.steps)


@pytest.mark.parametrize("up", [True, False])
def test_the_largest_pull_and_the_largest_push_are_told(up: bool) -> None:
    comparison = compare(scenario_of("kestrel_yard"), ("rail",))
    column = comparison.columns[0]
    assert column.design
    assert column.design.candidate
    trail, normal = CalculationTrail(column.design.candidate.demands), column.design.candidate.demands.attachment_normal
    named, steps = trail.largest_force(up=up)
    attachment = int(np.argmin(normal.min(axis=1)) if up else np.argmax(normal.max(axis=1)))
    assert named == attachment
    assert trail.attachment_name(attachment).startswith(f"attachment {attachment + 1} on seam")
    force = value_of(column, "point_load_up_n" if up else "point_load_down_n")
    assert isinstance(force, float)
    assert steps[-1].result.value * 4.4482216152605 == pytest.approx(-force if up else force)


def test_what_cannot_be_explained_says_why() -> None:
    explanation, _ = explained("sparrow_lane", "tilted_rack")
    assert not explanation.steps
    assert "26.57 deg" in explanation.heading
    with pytest.raises(InputError, match="attachments 1 to 336"):
        explained("kestrel_yard", "direct", 336)


@pytest.mark.parametrize("attachment", [None, 3])
def test_where_brackets_bypass_the_sheet_the_steps_end_at_the_attachment(attachment: int | None) -> None:
    """On Swallow Cottage's deck no attachment loads a panel screw."""
    comparison = compare(scenario_of("swallow_cottage"), ("rail",))
    explanation = explain_attachment(comparison.columns[0], attachment)
    assert explanation.steps[-1].symbol == "u_attachment"
    if attachment is None:
        used = comparison.columns[0].checks["attachment"].utilisation
        assert explanation.steps[-1].result.value == pytest.approx(used)
    else:
        assert "attachment 4 on rib" in explanation.heading
