"""Which input moves the verdict: each main one a stated step down and up, ranked by what it does."""

from __future__ import annotations

from dataclasses import dataclass

from engine.common.progress import ProgressListener, no_listener
from engine.comparison.compare import Comparison
from engine.design.design import Design, design
from engine.scenario.read import Scenario
from engine.scenario.vary import VariedInput, bounds_at, number_at, with_change
from engine.studies.headroom import used_in


@dataclass(frozen=True)
class Perturbation:
    """An input, and the part of its stated value by which it is made smaller and larger."""

    input: VariedInput
    part: float


PERTURBATIONS = (
    Perturbation(VariedInput("site.wind_speed", "wind speed", "speed"), 0.1),
    Perturbation(VariedInput("site.ground_snow", "ground snow", "pressure"), 0.2),
    Perturbation(VariedInput("building.mean_roof_height", "mean roof height", "length"), 0.2),
    Perturbation(VariedInput("module.mass", "module mass", "mass"), 0.2),
    Perturbation(VariedInput("roof.fastening.uplift", "strength of the roof's fastening", "force"), 0.2),
    Perturbation(VariedInput("roof.fixed_point.in_plane", "strength of the fixed point", "force"), 0.2),
    Perturbation(VariedInput("roof.panel.moment_rib_compressed", "seam or rib moment, top compressed", "moment"), 0.2),
    Perturbation(VariedInput("roof.panel.moment_pan_compressed", "seam or rib moment, pan compressed", "moment"), 0.2),
    Perturbation(VariedInput("hardware.attachment_uplift", "strength of an attachment", "force"), 0.2),
    Perturbation(VariedInput("hardware.rail.moment_strong", "rail moment", "moment"), 0.2),
    Perturbation(VariedInput("hardware.rack_beam.moment_strong", "rack beam moment", "moment"), 0.2),
)

MIN_VISIBLE_CHANGE = 0.005
"""Changes of a utilisation smaller than this are not seen in two digits."""


@dataclass(frozen=True)
class VariedOutcome:
    """What a changed input comes to: the weakest utilisation of the layout as it is, and a layout made anew with its attachments."""

    used: float
    attachments: int
    holds: bool


@dataclass(frozen=True)
class InputEffect:
    """One input a step down and a step up; None where that cannot be asked."""

    perturbation: Perturbation
    down: VariedOutcome | None
    up: VariedOutcome | None

    def moves(self, now: VariedOutcome) -> float:
        """How far the weakest utilisation goes either way."""
        return max(abs(outcome.used - now.used) for outcome in (self.down, self.up) if outcome)

    def shows(self, now: VariedOutcome) -> bool:
        """Whether anything changes that a reader would see."""
        return self.moves(now) >= MIN_VISIBLE_CHANGE or any(
            outcome.attachments != now.attachments for outcome in (self.down, self.up) if outcome
        )


@dataclass(frozen=True)
class Sensitivity:
    """One method: as it is, and every input's effect, the largest first."""

    id: str
    title: str
    now: VariedOutcome
    effects: tuple[InputEffect, ...]


def sensitivity(comparison: Comparison, tell: ProgressListener = no_listener) -> tuple[Sensitivity, ...]:
    """Every method that was laid out and checked."""
    found = []
    for column in comparison.columns:
        if column.design and column.design.candidate:
            now = _as_it_is(comparison.scenario, column.design)
            effects = [
                _effect(comparison.scenario, column.design, perturbation, tell) for perturbation in PERTURBATIONS
            ]
            known = [effect for effect in effects if effect.down or effect.up]
            found.append(
                Sensitivity(column.id, column.title, now, tuple(sorted(known, key=lambda each: -each.moves(now))))
            )
    return tuple(found)


def _as_it_is(scenario: Scenario, laid: Design) -> VariedOutcome:
    """What the comparison has found already."""
    return VariedOutcome(used_in(scenario, laid) or 0.0, len(laid.layout.attachments), laid.status == "holds")


def _effect(scenario: Scenario, laid: Design, perturbation: Perturbation, tell: ProgressListener) -> InputEffect:
    tell(f"{laid.title}: {perturbation.input.name}")

    path, stated = perturbation.input.path, number_at(scenario, perturbation.input.path)
    if stated is None:
        return InputEffect(perturbation, None, None)
    low, high = bounds_at(scenario, path)

    def times(factor: float) -> VariedOutcome | None:
        within = low <= factor * stated <= high
        return _outcome(with_change(scenario, path, lambda value: factor * value), laid) if within else None

    return InputEffect(perturbation, times(1 - perturbation.part), times(1 + perturbation.part))


def _outcome(scenario: Scenario | None, laid: Design) -> VariedOutcome | None:
    if scenario is None:
        return None
    (stated,) = scenario.methods_named((laid.method.id,))
    anew, used = design(scenario.job, stated, scenario.standard), used_in(scenario, laid)
    if not isinstance(anew, Design) or used is None:
        return None
    return VariedOutcome(used, len(anew.layout.attachments), anew.status == "holds")
