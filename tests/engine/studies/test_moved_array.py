"""The array moved across the seams: every place is a job of its own, and after one seam the roof repeats."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.design.elsewhere import moved
from engine.links.roof_fastening import LINK as FASTENING
from engine.studies.moved_array import STEPS, column_moved, moved_study
from engine.studies.spacing import SpacingStudy
from engine.units import INCH
from support import scenario_of


def moves(method: str, scenario: str = "kestrel_yard", **changes: object) -> SpacingStudy:
    comparison = compare(scenario_of(scenario, **changes), (method,))
    return moved_study(comparison, comparison.columns[0])


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_after_one_seam_the_loads_repeat(method: str) -> None:
    """24 in farther the modules lie on the seams as before, and here they stay in the same zones."""
    rows = moves(method).rows
    first, last = rows[0], rows[-1]
    assert last.moved == pytest.approx(24 * INCH)
    for figure in ("attachments", "attachment_up", "attachment_down_load", "roof_utilisation", "member_utilisation"):
        assert getattr(last, figure) == pytest.approx(getattr(first, figure), rel=1e-9)
    assert len({round(row.roof_utilisation or 0, 4) for row in rows}) > 3, "between two seams they differ"


def test_a_place_has_the_loads_of_a_job_that_states_it() -> None:
    """A rack with a fixed spacing, moved by 18 in in the study, and with its origin stated there."""
    clip = {"roof__fastening__uplift": {"allowable": "405 lb"}}
    scenario = scenario_of("kestrel_yard", methods__tilted_rack__spacing="3 ribs", **clip)
    comparison = compare(scenario, ("tilted_rack",))
    rows = moved_study(comparison, comparison.columns[0]).rows
    row = next(row for row in rows if row.moved == pytest.approx(18 * INCH))
    (stated,) = compare(replace(scenario, job=moved(scenario.job, 18 * INCH, 0.0)), ("tilted_rack",)).columns
    assert stated.candidate
    assert row.roof_utilisation == pytest.approx(stated.candidate.roof_check.utilisation)
    assert row.attachment_up == pytest.approx(float(stated.candidate.demands.attachment_up.max()))
    assert row.checks[FASTENING.key].holds is False, "at this place the clip of the rack is over"
    assert rows[0].checks[FASTENING.key].holds
    number = rows.index(row)
    column = column_moved(comparison, "tilted_rack", number)
    assert column
    assert column.checks[FASTENING.key].utilisation == row.checks[FASTENING.key].utilisation


def test_rails_up_the_slope_are_moved_across_the_purlins() -> None:
    found, roof = (
        moves("rail", "swallow_cottage", methods__rail__runs="up the slope"),
        scenario_of("swallow_cottage").job.roof,
    )
    assert found.runs_up_slope
    steps = np.arange(STEPS + 1) * roof.support_spacing / STEPS
    assert [row.moved for row in found.rows] == pytest.approx(steps[: len(found.rows)].tolist())
    assert len(found.rows) > 1


def test_a_roof_that_nobody_surveyed_is_refused_in_one_sentence() -> None:
    found = moves("rail", roof__first_rib=None)
    assert found.rows == ()
    assert found.sentence == (
        "Nobody has surveyed where the seams are, so the array cannot be moved against them: state roof.first_rib."
    )


def test_what_is_not_checked_is_not_moved() -> None:
    comparison = compare(scenario_of("finch_shed"), ("tilted_rack",))
    found = moved_study(comparison, comparison.columns[0])
    assert found.rows == ()
    assert found.sentence == "Nothing is checked, so nothing can be moved."
    assert column_moved(comparison, "tilted_rack", 0) is None
