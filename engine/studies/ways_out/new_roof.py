"""Ways out on a roof that is still to be chosen: its supports closer together."""

from __future__ import annotations

from collections.abc import Iterator

from engine.comparison.compare import Column, Comparison
from engine.scenario.changes import Steps
from engine.studies.ways_out.as_written import system_at
from engine.studies.ways_out.proposal import Proposal
from engine.units import FOOT, INCH, System, text

SPACING: Steps = ("roof", "support_spacing")
EDGE_SPACING: Steps = ("roof", "edge_support_spacing")

STEPS: dict[System, tuple[float, float]] = {"us": (6 * INCH, 1 * INCH), "si": (0.15, 0.025)}
"""Steps between the spacings that are tried for wide and for close supports [m] (judgement)."""

WIDE = 2 * FOOT
"""Spacing from which supports count as wide [m]."""

CLOSEST_PART = 0.5
"""Part of the spacing below which no closer one is proposed: that is another roof (judgement) [-]."""


def closer_supports(column: Column, comparison: Comparison) -> Iterator[Proposal]:
    """The purlins, or the clips on a deck, closer together, the widest spacing first; none on a roof that stands."""
    roof, scenario = comparison.scenario.job.roof, comparison.scenario
    if roof.existing or column.design is None:
        return
    system = system_at(scenario, SPACING)
    wide, close = STEPS[system]
    step = wide if roof.support_spacing >= WIDE else close
    what = f"{roof.fastening_word}{'s' if roof.floats else ''}" if roof.solid_deck else f"{roof.support}s"
    for number in range(1, int(roof.support_spacing * (1 - CLOSEST_PART) / step) + 1):
        spacing = roof.support_spacing - number * step
        written = _written(spacing, system)
        changes = {SPACING: written}
        if roof.edge_support_spacing is not None and roof.edge_support_spacing > spacing:
            changes[EDGE_SPACING] = written
        yield Proposal(f"space the {what} of the new roof {text(spacing, 'length', system)} apart", changes)


def _written(spacing: float, system: System) -> str:
    return f"{spacing:.4f} m" if system == "si" else f"{spacing / INCH:g} in"
