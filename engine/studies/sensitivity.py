"""Which input moves the verdict: each main one a stated step down and up, ranked by what it does."""

from __future__ import annotations

from dataclasses import dataclass

from engine.common.progress import Tell, nobody
from engine.comparison.compare import Comparison
from engine.design.design import Design, design
from engine.scenario.read import Scenario
from engine.scenario.vary import Varied, bounds_of, changed, value_of
from engine.studies.headroom import used_in


@dataclass(frozen=True)
class Nudge:
    """An input, and the part of its stated value by which it is made smaller and larger."""

    input: Varied
    part: float


NUDGES = (
    Nudge(Varied("site.wind_speed", "wind speed", "speed"), 0.1),
    Nudge(Varied("site.ground_snow", "ground snow", "pressure"), 0.2),
    Nudge(Varied("building.mean_roof_height", "mean roof height", "length"), 0.2),
    Nudge(Varied("module.mass", "module mass", "mass"), 0.2),
    Nudge(Varied("roof.fastening.uplift", "strength of the roof's fastening", "force"), 0.2),
    Nudge(Varied("roof.fixed_point.in_plane", "strength of the fixed point", "force"), 0.2),
    Nudge(Varied("roof.panel.moment_rib_compressed", "seam or rib moment, top compressed", "moment"), 0.2),
    Nudge(Varied("roof.panel.moment_pan_compressed", "seam or rib moment, pan compressed", "moment"), 0.2),
    Nudge(Varied("hardware.attachment_uplift", "strength of an attachment", "force"), 0.2),
    Nudge(Varied("hardware.rail.moment_strong", "rail moment", "moment"), 0.2),
    Nudge(Varied("hardware.rack_beam.moment_strong", "rack beam moment", "moment"), 0.2),
)

SEEN = 0.005
"""Changes of a utilisation smaller than this are not seen in two digits."""


@dataclass(frozen=True)
class Outcome:
    """What a changed input comes to: the weakest utilisation of the layout as it is, and a layout made anew with its attachments."""

    used: float
    attachments: int
    holds: bool


@dataclass(frozen=True)
class Effect:
    """One input a step down and a step up; None where that cannot be asked."""

    nudge: Nudge
    down: Outcome | None
    up: Outcome | None

    def moves(self, now: Outcome) -> float:
        """How far the weakest utilisation goes either way."""
        return max(abs(outcome.used - now.used) for outcome in (self.down, self.up) if outcome)

    def shows(self, now: Outcome) -> bool:
        """Whether anything changes that a reader would see."""
        return self.moves(now) >= SEEN or any(outcome.attachments != now.attachments for outcome in (self.down, self.up) if outcome)


@dataclass(frozen=True)
class Sensitivity:
    """One method: as it is, and every input's effect, the largest first."""

    id: str
    title: str
    now: Outcome
    effects: tuple[Effect, ...]


def sensitivity(comparison: Comparison, tell: Tell = nobody) -> tuple[Sensitivity, ...]:
    """Every method that was laid out and checked."""
    found = []
    for column in comparison.columns:
        if column.design and column.design.attempt:
            now = _as_it_is(comparison.scenario, column.design)
            effects = [_effect(comparison.scenario, column.design, nudge, tell) for nudge in NUDGES]
            known = [effect for effect in effects if effect.down or effect.up]
            found.append(Sensitivity(column.id, column.title, now, tuple(sorted(known, key=lambda each: -each.moves(now)))))
    return tuple(found)


def _as_it_is(scenario: Scenario, laid: Design) -> Outcome:
    """What the comparison has found already."""
    return Outcome(used_in(scenario, laid) or 0.0, len(laid.layout.points), laid.status == "holds")


def _effect(scenario: Scenario, laid: Design, nudge: Nudge, tell: Tell) -> Effect:
    tell(f"{laid.title}: {nudge.input.name}")

    path, stated = nudge.input.path, value_of(scenario, nudge.input.path)
    if stated is None:
        return Effect(nudge, None, None)
    low, high = bounds_of(scenario, path)

    def times(factor: float) -> Outcome | None:
        within = low <= factor * stated <= high
        return _outcome(changed(scenario, path, lambda value: factor * value), laid) if within else None

    return Effect(nudge, times(1 - nudge.part), times(1 + nudge.part))


def _outcome(scenario: Scenario | None, laid: Design) -> Outcome | None:
    if scenario is None:
        return None
    (stated,) = scenario.methods_named((laid.method.id,))
    anew, used = design(scenario.job, stated, scenario.standard), used_in(scenario, laid)
    if not isinstance(anew, Design) or used is None:
        return None
    return Outcome(used, len(anew.layout.points), anew.status == "holds")
