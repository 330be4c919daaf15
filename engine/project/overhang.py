"""Overhangs of the roof beyond the walls."""

from __future__ import annotations

from typing import Annotated

from engine.schema import Choice, InputTable, Quantity, Switch, input_field

OPEN, CLOSED = SOFFITS = ("open", "closed")


class Overhang(InputTable):
    """Parts of the roof's plan that lie beyond the walls; the plan itself is measured to its outer edges."""

    eave: Annotated[float, Quantity("length", "0 ft", "15 ft")] = input_field(
        "0 ft", description="overhang beyond the wall at every eave, horizontal"
    )
    high_edge: Annotated[float, Quantity("length", "0 ft", "15 ft")] = input_field(
        "0 ft", description="overhang beyond the wall at the high edge of a single slope, horizontal"
    )
    rake: Annotated[float, Quantity("length", "0 ft", "15 ft")] = input_field(
        "0 ft", description="overhang beyond the wall at both rakes, horizontal"
    )
    soffit: Annotated[str, Choice(SOFFITS)] = input_field(
        OPEN, description="below the overhang: open to the wind, which then pushes the panel up, or closed"
    )
    attachments: Annotated[bool, Switch()] = input_field(
        False, description="true if attachments may stand on the overhang, which the building's engineer allows"
    )

    @property
    def exists(self) -> bool:
        """True if the roof reaches beyond a wall."""
        return max(self.eave, self.high_edge, self.rake) > 0
