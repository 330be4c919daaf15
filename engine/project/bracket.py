"""The kinds of attachment, each declared once: what it is fastened to, and where it may be placed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

STANDING_SEAM, EXPOSED_FASTENER = "standing seam", "exposed fastener"
PURLIN, WOOD_DECK, STEEL_DECK = "purlin", "wood deck", "steel deck"
ROOF_KINDS, SUPPORTS = (STANDING_SEAM, EXPOSED_FASTENER), (PURLIN, WOOD_DECK, STEEL_DECK)


@dataclass(frozen=True)
class Bracket:
    """One kind of attachment.

    Attributes:
        description: what it does, after its name in the help.
        stands_on: what carries its load, in a sentence.
        roof_kinds: the kinds of roof that it fits.
        supports: what must lie under the panel.
        word: its name in sentences.
        pierces: it makes holes in the roof.
        loads_sheet: the rib and the panel's own fastening carry its load; else its load bypasses them.
        at_fastenings: up the slope it fits only over the panel's supports, not anywhere.
        at_rafters: along the eave it fits only at rafters, not at every rib.
        pulls_on_deck: the deck, and the nails that hold it, carry its uplift.
    """

    description: str
    stands_on: str
    roof_kinds: tuple[str, ...]
    supports: tuple[str, ...] = SUPPORTS
    word: str = "bracket"
    pierces: bool = True
    loads_sheet: bool = False
    at_fastenings: bool = False
    at_rafters: bool = False
    pulls_on_deck: bool = False

    @property
    def in_pan(self) -> bool:
        """True if its holes may be in the flat pan beside a rib: its load bypasses the sheet, wherever it stands."""
        return self.at_rafters or self.pulls_on_deck

    def fits(self, kind: str, support: str) -> bool:
        """True on a roof of this kind with this support."""
        return kind in self.roof_kinds and support in self.supports


BRACKETS: Mapping[str, Bracket] = MappingProxyType(
    {
        "seam clamp": Bracket(
            "clamped to the seam", "the seam", (STANDING_SEAM,), word="clamp", pierces=False, loads_sheet=True
        ),
        "sheet": Bracket("screwed to the sheet", "the sheet", (EXPOSED_FASTENER,), loads_sheet=True),
        "structure": Bracket(
            "screwed through the sheet to the structure", "the structure", (EXPOSED_FASTENER,), at_fastenings=True
        ),
        "deck": Bracket(
            "screwed through the sheet to the deck", "the deck", ROOF_KINDS, (WOOD_DECK, STEEL_DECK), pulls_on_deck=True
        ),
        "rafter": Bracket(
            "screwed through sheet and deck to the rafters", "the rafters", ROOF_KINDS, (WOOD_DECK,), at_rafters=True
        ),
    }
)
"""Name in the scenario → kind of attachment."""


def brackets_for(kind: str, support: str) -> tuple[str, ...]:
    """Names of the kinds of attachment that fit a roof of this kind with this support."""
    return tuple(name for name, bracket in BRACKETS.items() if bracket.fits(kind, support))
