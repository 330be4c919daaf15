"""The links of the load path, from module to structure.

To add a link: one file with its `LINK`, and its place in `LINKS`. Everything else follows from the record.
"""

from __future__ import annotations

from engine.links import (
    attachment,
    clamp,
    fixed_point,
    member,
    module,
    panel_travel,
    rib,
    rib_at_clamp,
    roof_fastening,
    roof_member,
    structure,
)
from engine.links.check import Check, Location, governing_of
from engine.links.link import Link
from engine.links.unchecked import Unchecked
from engine.load_path.demands import Demands

__all__ = ["LINKS", "Check", "Link", "Location", "Unchecked", "check_roof_alone", "ids"]

LINKS: tuple[Link, ...] = (
    module.LINK,
    clamp.LINK,
    member.LINK,
    attachment.LINK,
    rib.LINK,
    rib_at_clamp.LINK,
    roof_fastening.LINK,
    fixed_point.LINK,
    panel_travel.LINK,
    roof_member.LINK,
    structure.LINK,
)


def ids() -> tuple[str, ...]:
    """The id of every link, as JSON and [accepted] name them."""
    return tuple(id_ for link in LINKS for id_ in link.ids or (link.key,))


def check_roof_alone(demands: Demands) -> Check:
    """The controlling check of the roof without the array, on the whole slope."""
    return governing_of([link.check_roof_alone(demands) for link in LINKS if link.check_roof_alone])
