"""Sensitivity: the effect of each main input, lowered and raised by a stated step, largest effect first."""

from __future__ import annotations

from dataclasses import dataclass

from engine.common.progress import ProgressListener, counted, no_listener
from engine.comparison.compare import Column, Comparison
from engine.design.design import Design
from engine.design.elsewhere import layout_or_search
from engine.design.shared_roof import SharedRoof
from engine.scenario.read import Scenario
from engine.scenario.vary import VariedInput, bounds_at, number_at, with_change
from engine.studies.headroom import utilisation_in

LOWERED, RAISED = -1, 1


@dataclass(frozen=True)
class Perturbation:
    """An input, and the part of its stated value by which it is lowered and raised [-].

    `harder`: the change after which no method needs fewer attachments; None if either change may spare some, as weight
    does against uplift, and snow, whose standard steps.
    """

    input: VariedInput
    part: float
    harder: int | None = None


PERTURBATIONS = (
    Perturbation(VariedInput("site.wind_speed", "wind speed", "speed"), 0.1, RAISED),
    Perturbation(VariedInput("site.ground_snow", "ground snow", "pressure"), 0.2),
    Perturbation(VariedInput("building.mean_roof_height", "mean roof height", "length"), 0.2, RAISED),
    Perturbation(VariedInput("module.mass", "module mass", "mass"), 0.2),
    Perturbation(VariedInput("roof.fastening.uplift", "strength of the roof's fastening", "force"), 0.2, LOWERED),
    Perturbation(VariedInput("roof.fixed_point.in_plane", "strength of the fixed point", "force"), 0.2, LOWERED),
    Perturbation(
        VariedInput("roof.panel.moment_rib_compressed", "seam or rib moment, top compressed", "moment"), 0.2, LOWERED
    ),
    Perturbation(
        VariedInput("roof.panel.moment_pan_compressed", "seam or rib moment, pan compressed", "moment"), 0.2, LOWERED
    ),
    Perturbation(VariedInput("hardware.attachment_uplift", "strength of an attachment", "force"), 0.2, LOWERED),
    Perturbation(VariedInput("hardware.rail.moment_strong", "rail moment", "moment"), 0.2, LOWERED),
    Perturbation(VariedInput("hardware.rack_beam.moment_strong", "rack beam moment", "moment"), 0.2, LOWERED),
)

BARS = ("hardware.rail.", "hardware.rack_beam.")
"""Beginnings of the paths of inputs that only methods with these bars read."""

MIN_VISIBLE_CHANGE = 0.005
"""Smallest change of a utilisation that shows in two decimals [-]."""


@dataclass(frozen=True)
class VariedOutcome:
    """Result of a changed input.

    `used`: largest utilisation of the unchanged layout, the roof alone included [-]; `attachments` and `holds`: of a
    new layout.
    """

    used: float
    attachments: int
    holds: bool


@dataclass(frozen=True)
class InputEffect:
    """Results of one input lowered and raised; None if the changed value is not allowed."""

    perturbation: Perturbation
    down: VariedOutcome | None
    up: VariedOutcome | None

    def largest_change(self, now: VariedOutcome) -> float:
        """Largest change of that utilisation, either way [-]."""
        return max(abs(outcome.used - now.used) for outcome in (self.down, self.up) if outcome)

    def shows(self, now: VariedOutcome) -> bool:
        """True if a change would be visible to a reader."""
        return self.largest_change(now) >= MIN_VISIBLE_CHANGE or any(
            outcome.attachments != now.attachments for outcome in (self.down, self.up) if outcome
        )


@dataclass(frozen=True)
class Sensitivity:
    """One method: its result as stated, and the effect of every input, the largest first."""

    id: str
    title: str
    now: VariedOutcome
    effects: tuple[InputEffect, ...]


def sensitivity(comparison: Comparison, tell: ProgressListener = no_listener) -> tuple[Sensitivity, ...]:
    """Sensitivity of every method that was checked."""
    checked = [(column, column.design) for column in comparison.columns if column.design and column.candidate]
    tell = counted(tell, len(checked) * len(PERTURBATIONS))
    return tuple(_sensitivity_of(comparison.scenario_of(column), column, design, tell) for column, design in checked)


def _sensitivity_of(scenario: Scenario, column: Column, stated: Design, tell: ProgressListener) -> Sensitivity:
    """Sensitivity of one method to all inputs that can be changed."""
    now = VariedOutcome(
        utilisation_in(scenario, stated) or 0.0, len(stated.layout.attachments), stated.status.nothing_over
    )
    effects = [_effect(scenario, stated, perturbation, now, tell) for perturbation in PERTURBATIONS]
    possible = [effect for effect in effects if effect.down or effect.up]
    ranked = sorted(possible, key=lambda effect: -effect.largest_change(now))
    return Sensitivity(column.id, column.title, now, tuple(ranked))


def _effect(
    scenario: Scenario, stated: Design, perturbation: Perturbation, now: VariedOutcome, tell: ProgressListener
) -> InputEffect:
    """Effect of one input on a design; none of the strength of a bar that its method does not have."""
    tell(f"{stated.title}: {perturbation.input.name}")
    path = perturbation.input.path
    value = number_at(scenario, path)
    if value is None:
        return InputEffect(perturbation, None, None)
    if path.startswith(BARS) and not path.startswith(f"hardware.{stated.layout.member.section}."):
        return InputEffect(perturbation, now, now)
    low, high = bounds_at(scenario, path)

    def outcome(change: int) -> VariedOutcome | None:
        factor = 1 + change * perturbation.part
        if not low <= factor * value <= high:
            return None
        changed = with_change(scenario, path, lambda one: factor * one)
        return _outcome(changed, stated, is_harder=change == perturbation.harder) if changed else None

    return InputEffect(perturbation, outcome(LOWERED), outcome(RAISED))


def _outcome(changed: Scenario, stated: Design, *, is_harder: bool) -> VariedOutcome | None:
    """Result of a changed scenario; None if the method is refused in it.

    The stated layout is not searched anew where it still holds and no other can have fewer attachments.
    """
    (method,) = changed.methods_named((stated.method.id,))
    enough = len(stated.layout.attachments) if is_harder else stated.field.minimum_attachments
    new = layout_or_search(changed.job, stated, enough, method, changed.standard, SharedRoof())
    used = utilisation_in(changed, stated)
    if not isinstance(new, Design) or used is None:
        return None
    return VariedOutcome(used, len(new.layout.attachments), new.status.nothing_over)
