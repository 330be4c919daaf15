"""The metal roof: ribs, supports, fastenings and the panel between them."""

from __future__ import annotations

from typing import Annotated

import numpy as np

from engine.common.arrays import Floats
from engine.project.building import Building
from engine.schema import Choice, InputTable, Quantity, input_field
from engine.strength import Capacity


class Panel(InputTable):
    """One seam or rib as a beam up the slope, and what the sheet weighs."""

    moment_rib_compressed: Annotated[float, Quantity("moment", "1 lb ft", "100000 lb ft")] = input_field(
        description="allowable moment of one seam or rib with its top compressed (pushed down between supports)"
    )
    moment_pan_compressed: Annotated[float, Quantity("moment", "1 lb ft", "100000 lb ft")] = input_field(
        description="allowable moment of one seam or rib with the flat pan compressed (lifted between supports)"
    )
    weight: Annotated[float, Quantity("pressure", "0 psf", "20 psf")] = input_field(
        "1.5 psf", description="the sheet's own weight, which slides with what lies on it (common for steel, no source)"
    )


class Fastening(InputTable):
    """A clip, or the screws at one rib and one support: what holds the panel down."""

    uplift: Capacity = input_field(
        description="how much uplift one fastening, a clip or the screws at one rib and support, may carry"
    )
    in_plane: Capacity | None = input_field(
        None, description="load along the slope one fastening may carry, on a face-fastened roof; left out: not checked"
    )
    bearing: Capacity | None = input_field(
        None, description="how much one fastening may be pushed down; left out: not checked"
    )


class FixedPoint(InputTable):
    """Where a floating panel is held against sliding."""

    in_plane: Capacity = input_field(description="how much load along the slope one panel's fixed point may carry")


class Roof(InputTable):
    """The metal roof: seams or ribs up the slope, fastened to supports across it."""

    kind: Annotated[str, Choice(("standing seam", "exposed fastener"))] = input_field(
        description="how the panels are joined and fastened"
    )
    rib_spacing: Annotated[float, Quantity("length", "3 in", "48 in", shown="small length")] = input_field(
        description="seam to seam, or rib to rib"
    )
    first_rib: Annotated[float, Quantity("length", "0 in", "48 in", shown="small length")] = input_field(
        "0 in", description="first seam or rib from the left rake"
    )
    support: Annotated[str, Choice(("purlin", "wood deck", "steel deck"))] = input_field(
        description="what the panels are fastened to"
    )
    support_spacing: Annotated[float, Quantity("length", "3 in", "12 ft")] = input_field(
        description="fastening to fastening along a seam or rib"
    )
    first_support: Annotated[float, Quantity("length", "0 in", "12 ft")] = input_field(
        description="first fastening from the eave"
    )
    last_support: Annotated[float, Quantity("length", "0 in", "12 ft")] = input_field(
        description="last fastening from the ridge or high edge"
    )
    edge_strip: Annotated[float, Quantity("length", "0 ft", "500 ft")] | None = input_field(
        None,
        description="width of the strips at eave, ridge and rakes where panels are fastened more closely; left out: nowhere",
    )
    edge_support_spacing: Annotated[float, Quantity("length", "3 in", "12 ft")] | None = input_field(
        None,
        description="fastening to fastening in the edge strips, at most: bays of support_spacing are divided evenly",
    )
    collateral_allowance: Annotated[float, Quantity("pressure", "0.1 psf", "200 psf")] | None = input_field(
        None, description="added weight the structure was designed to take; left out: not checked"
    )
    panel: Panel = input_field(description="one seam or rib as a beam")
    fastening: Fastening = input_field(description="what holds the panel to its supports")
    fixed_point: FixedPoint | None = input_field(
        None, description="what holds a panel against sliding; left out: not checked"
    )

    @property
    def solid_deck(self) -> bool:
        """Whether the panel lies on a deck, so that downward load bends no seam."""
        return self.support != "purlin"

    @property
    def floats(self) -> bool:
        """Whether panels float on their clips and are held against sliding at one place."""
        return self.kind == "standing seam"

    @property
    def rib_word(self) -> str:
        """What people call the rib on this roof."""
        return "seam" if self.kind == "standing seam" else "rib"

    @property
    def fastening_word(self) -> str:
        """What people call the fastening on this roof."""
        return "clip" if self.kind == "standing seam" else "panel screws"

    def ribs(self, building: Building) -> Floats:
        """Every seam or rib's distance from the left rake [m]."""
        count = int(np.floor((building.length - self.first_rib) / self.rib_spacing + 1e-9)) + 1
        return self.first_rib + self.rib_spacing * np.arange(count, dtype=np.float64)

    def supports(self, building: Building, *, top: float | None = None, close: bool = False) -> Floats:
        """Every fastening's distance from the eave [m]; the last bay takes what is left over.

        A last fastening closer than a quarter of the spacing to the one before is taken as one with it.
        Bays that reach into the edge strips at eave and ridge are divided; all of them with `close`, as near a rake.
        Under a hip a panel ends at `top` [m] instead of at the ridge.
        """
        top = building.slope_length if top is None else top
        last = top - self.last_support
        if last < self.first_support:
            return np.empty(0)
        bays = int(np.floor((last - self.first_support) / self.support_spacing + 1e-9))
        even: Floats = self.first_support + self.support_spacing * np.arange(bays + 1, dtype=np.float64)
        wide = even if last - even[-1] < self.support_spacing / 4 else np.append(even, last)
        if self.edge_strip is None or self.edge_support_spacing is None:
            return wide
        near = close | (wide[:-1] < self.edge_strip - 1e-9) | (wide[1:] > top - self.edge_strip + 1e-9)
        parts = np.where(near, np.ceil(np.diff(wide) / self.edge_support_spacing - 1e-9), 1).astype(int).tolist()
        within = [
            low + (high - low) * np.arange(n) / n for low, high, n in zip(wide[:-1], wide[1:], parts, strict=True)
        ]
        return np.concatenate([*within, wide[-1:]])
