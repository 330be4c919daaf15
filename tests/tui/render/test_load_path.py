"""The load path's words on the selected link."""

from __future__ import annotations

from engine import links
from engine.comparison.compare import compare
from support import scenario_of
from tui.render.load_path import draw


def test_what_others_have_shown_is_not_called_open() -> None:
    """Swallow Cottage: the deck is accepted with its document, the nails are not."""
    comparison = compare(scenario_of("swallow_cottage"), ("rail",))
    keys = [link.key for link in links.LINKS]

    def shown(key: str) -> str:
        return str(draw(comparison, comparison.columns[0], keys.index(key), "us", 80, 40))

    assert "others deck shown by others" in shown("roof_member")
    assert "\nopen " not in shown("roof_member")
    assert "\nopen   deck nails, up not checked" in shown("attachment")
