"""The members under the panel: purlins, or joists and rafters under a deck, with their spans and their strength.

Purlins lie where the panel is fastened, along the eave. Under a deck rafters run up the slope, or joists along the
eave, at a spacing of their own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

import numpy as np

from engine.common.arrays import Floats
from engine.project.building import Building
from engine.schema import Choice, InputTable, Lengths, Number, Quantity, TextLine, input_field
from engine.units import FOOT, INCH, KSI

UP_SLOPE, ALONG_EAVE = "up the slope", "along the eave"

MEASURED = 0.5 * INCH
"""Spans fill a building that differs from their sum by less [m]: few know a slope's length better (judgement)."""

SAFETY_FACTOR = 1.67
"""Safety factor of bending in allowable-stress design, AISI S100 (public code texts)."""

LONGEST_SPAN = 33 * FOOT
"""Longest span for which the uplift factors of AISI S100-07, D6.1.1, hold [m] (public code texts)."""

HIGHEST_YIELD = 60 * KSI
"""Highest yield strength for which they hold [Pa] (public code texts)."""

Moment = Annotated[float, Quantity("moment", "10 lb ft", "1000000 lb ft")]


@dataclass(frozen=True)
class AllowableMoments:
    """Allowable moments of a member [N m].

    `midspan` and `support`: under down load, between supports and over them. `up`: between supports under uplift,
    where the flange below, which no panel holds, is compressed; None if unknown.
    """

    midspan: float
    support: float
    up: float | None


class RoofMember(InputTable):
    """The members: continuous beams over the frames, beams or walls that carry them."""

    kind: Annotated[str, TextLine(60)] = input_field("member", description='what they are, such as "Z purlin 8 in"')
    runs: Annotated[str, Choice((UP_SLOPE, ALONG_EAVE))] = input_field(
        UP_SLOPE, description="direction under a deck: rafters up the slope, joists along the eave; purlins need none"
    )
    spacing: Annotated[float, Quantity("length", "6 in", "20 ft", shown="small length")] | None = input_field(
        None, description="spacing under a deck, middle to middle; not set: that of roof.rafters"
    )
    first: Annotated[float, Quantity("length", "0 in", "20 ft", shown="small length")] | None = input_field(
        None,
        description="distance of the first one from the left rake, or from the eave; not set: that of roof.rafters",
    )
    spans: Annotated[tuple[float, ...], Lengths()] | None = input_field(
        None,
        description="spans from the left wall, or up the slope from the wall at the eave, along the roof; "
        "a single one is repeated; not set: the members are not computed",
    )
    dead_load: Annotated[float, Quantity("pressure", "0 psf", "100 psf")] | None = input_field(
        None, description="dead load of the roof that they carry, with their own; not set: the weight of the panel"
    )
    moment_down_midspan: Moment | None = input_field(
        None,
        description="allowable or characteristic moment between supports under down load; not set: not checked",
    )
    moment_down_support: Moment | None = input_field(
        None,
        description="allowable or characteristic moment over a support, with its lap, under down load; not set: not "
        "checked",
    )
    moment_up: Moment | None = input_field(
        None,
        description="allowable or characteristic moment between supports under uplift; not set: not checked",
    )
    section_modulus: Annotated[float, Quantity("section modulus", "0.01 in3", "1000 in3")] | None = input_field(
        None, description="effective section modulus, in place of allowable moments; laps over frames are left out"
    )
    yield_strength: Annotated[float, Quantity("stress", "20 ksi", "100 ksi")] | None = input_field(
        None, description="yield strength, with section_modulus: allowable moment Se Fy / 1.67"
    )
    uplift_factor: Annotated[float, Number(0.1, 1.0)] | None = input_field(
        None,
        description="R for uplift, with section_modulus: continuous Z 0.70, C 0.60 under screwed panels "
        "(AISI S100, within its limits); on a standing seam roof only from a test; not set: not checked",
    )
    uplift_factor_source: Annotated[str, TextLine(300)] | None = input_field(
        None, description="source of uplift_factor, such as a test by AISI S908; needed on a standing seam roof"
    )

    @property
    def is_stated(self) -> bool:
        """True if anything but its name and its direction is stated."""
        return any(value is not None for name, value in self if name not in ("kind", "runs"))

    @property
    def allowable(self) -> AllowableMoments | None:
        """The allowable moments, stated or Se Fy / 1.67 and R Se Fy / 1.67; None if no strength is stated."""
        if self.section_modulus and self.yield_strength:
            full, factor = self.section_modulus * self.yield_strength / SAFETY_FACTOR, self.uplift_factor
            return AllowableMoments(full, full, factor * full if factor else None)
        if self.moment_down_midspan and self.moment_down_support:
            return AllowableMoments(self.moment_down_midspan, self.moment_down_support, self.moment_up)
        return None

    def between(self, building: Building, *, up_slope: bool) -> tuple[float, float]:
        """Ends of the spans: from wall to wall along the eave, or up the slope [m along the roof]."""
        if up_slope:
            return building.inside_walls
        return building.overhang.rake, building.length - building.overhang.rake

    def fills(self, building: Building, *, up_slope: bool) -> bool:
        """True if the spans fill a building from wall to wall, or its slope."""
        start, end = self.between(building, up_slope=up_slope)
        return abs(float(np.sum(self._spans_over(end - start))) - (end - start)) < MEASURED

    def supports(self, building: Building, *, up_slope: bool) -> Floats:
        """Supports of the members, on a building that the spans fill (S,) [m from the left rake or the eave]."""
        start, end = self.between(building, up_slope=up_slope)
        return start + np.concatenate([[0.0], np.cumsum(self._spans_over(end - start))])

    def _spans_over(self, length: float) -> tuple[float, ...]:
        """The spans; a single one as often as it fits in a length [m]."""
        spans = self.spans or ()
        return spans * max(round(length / spans[0]), 1) if len(spans) == 1 else spans
