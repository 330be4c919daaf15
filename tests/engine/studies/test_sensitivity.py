"""Visible changes, and the steps by which inputs are changed; by hand."""

from __future__ import annotations

import pytest

from engine.comparison.compare import compare
from engine.scenario.vary import with_change
from engine.studies.headroom import utilisation_in
from engine.studies.sensitivity import BARS, PERTURBATIONS, InputEffect, Perturbation, VariedOutcome
from tests.support import scenario_of
from tests.support.balance import checked_designs

NOW = VariedOutcome(0.90, 100, holds=True)


def effect(down: VariedOutcome | None, up: VariedOutcome | None) -> InputEffect:
    return InputEffect(PERTURBATIONS[0], down, up)


def test_wind_is_changed_by_a_tenth_and_other_inputs_by_a_fifth() -> None:
    """A stated choice: no source."""
    assert {
        perturbation.input.path: perturbation.part for perturbation in PERTURBATIONS if perturbation.part != 0.2
    } == {"site.wind_speed": 0.1}
    assert len({perturbation.input.path for perturbation in PERTURBATIONS}) == len(PERTURBATIONS) == 11


@pytest.mark.parametrize(
    ("down", "up", "change", "shows"),
    [
        ((0.80, 100), (0.95, 100), 0.10, True),
        ((0.85, 100), (1.10, 100), 0.20, True),
        ((0.90, 100), (0.904, 100), 0.004, False),  # under half a hundredth
        ((0.90, 100), (0.906, 100), 0.006, True),
        ((0.90, 98), (0.90, 100), 0.0, True),
        ((0.90, 100), (0.90, 104), 0.0, True),
        ((0.90, 100), None, 0.0, False),
        (None, (0.90, 120), 0.0, True),
    ],
)
def test_visible_changes(
    down: tuple[float, int] | None, up: tuple[float, int] | None, change: float, shows: bool
) -> None:
    found = effect(*(outcome and VariedOutcome(*outcome, holds=True) for outcome in (down, up)))
    assert found.largest_change(NOW) == pytest.approx(change)
    assert found.shows(NOW) == shows


@pytest.mark.parametrize("perturbation", [one for one in PERTURBATIONS if one.input.path.startswith(BARS)])
def test_strength_of_a_bar_changes_nothing_in_methods_without_it(perturbation: Perturbation) -> None:
    """Checks what sensitivity leaves out: with a tenth of the strength, only designs on that bar change."""
    stated = compare(scenario_of())
    weak = with_change(stated.scenario, perturbation.input.path, lambda strength: 0.1 * strength)
    assert weak
    for found, _ in checked_designs(stated):
        has_it = perturbation.input.path.startswith(f"hardware.{found.layout.member.section}.")
        changed = utilisation_in(weak, found) != utilisation_in(stated.scenario, found)
        assert changed == has_it, found.title
