"""The kinds of attachment: what each fits, and that each is declared in one place."""

from __future__ import annotations

import pytest

from engine.project.bracket import BRACKETS, EXPOSED_FASTENER, STANDING_SEAM, SUPPORTS, brackets_for


@pytest.mark.parametrize(
    ("kind", "support", "fit"),
    [
        (STANDING_SEAM, "purlin", ("seam clamp",)),
        (EXPOSED_FASTENER, "purlin", ("sheet", "structure")),
        (STANDING_SEAM, "steel deck", ("seam clamp", "deck")),
        (STANDING_SEAM, "wood deck", ("seam clamp", "deck", "rafter")),
        (EXPOSED_FASTENER, "wood deck", ("sheet", "structure", "deck", "rafter")),
    ],
)
def test_what_fits_a_roof(kind: str, support: str, fit: tuple[str, ...]) -> None:
    """A deck can hold brackets under any sheet; rafters lie only under a wood deck; seams are on seamed roofs."""
    assert brackets_for(kind, support) == fit


def test_every_kind_fits_a_roof_and_loads_something() -> None:
    for name, bracket in BRACKETS.items():
        assert any(bracket.fits(kind, support) for kind in bracket.roof_kinds for support in SUPPORTS), name
        assert not (bracket.loads_sheet and (bracket.pulls_on_deck or bracket.at_rafters)), name
