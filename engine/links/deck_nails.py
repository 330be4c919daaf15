"""The nails that hold a deck to its rafters, under brackets that pull on the deck.

How many nails share the uplift of one attachment is not known here, so the load is handed over and not checked. For
scale: an 8d nail (0.131 in, 2 1/2 in long) through 7/16 in of deck holds 105 lb in wood of G 0.50 and 68 lb in G 0.42
against wind, 1380 G^2.5 D an inch (NDS Eq. 12.2-3, from memory).
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.links.unchecked import BUILDING_ENGINEER, UP, Unchecked
from engine.load_path.demands import Demands
from engine.units import both

DECK_NAILS, TITLE = "deck_nails", "deck nails"


def unchecked_deck_nails(demands: Demands) -> Iterator[Unchecked]:
    """The deck's own fastening, with the largest uplift of an attachment; none if nothing is lifted."""
    uplift = float(demands.attachment_up.max())
    if uplift:
        reason = f"up to {both(uplift, 'force', demands.job.system)} lifts the deck at an attachment"
        document = "nailing of the deck to its rafters, for this uplift"
        yield Unchecked(DECK_NAILS, TITLE, UP, reason, BUILDING_ENGINEER, document)
