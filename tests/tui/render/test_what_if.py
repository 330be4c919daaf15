"""Headroom and sensitivity as text, from findings made up for it."""

from __future__ import annotations

import pytest

from engine.units import System
from tests.support.made_up_findings import HEADROOM, SENSITIVITY
from tui.render.plain_text import plain_text
from tui.render.what_if import headroom_parts, sensitivity_parts


def test_headroom_in_words() -> None:
    assert plain_text(*headroom_parts([HEADROOM], "us"), width=74).splitlines() == [
        "RAILS as laid out (every 2nd seam)",
        "  wind speed 105 mph: the clip reaches its limit at 112 mph",
        "  ground snow 25.0 psf: no limit is reached up to 75.0 psf; the rail",
        "  controls",
        "  ground snow 25.0 psf: the clip is over at every value up to 75.0 psf",
        "  at its own span limit, 8.00 ft: the worst clip needs an allowable of 581",
        "  lb in uplift; 350 lb is stated",
        "  at its own span limit, 8.00 ft: the worst attachment needs an allowable",
        "  of 702 lb in uplift; 600 lb is stated",
    ]


def test_sensitivity_in_words() -> None:
    head, columns, *rows = plain_text(*sensitivity_parts([SENSITIVITY]), width=80).splitlines()
    assert head == "MODULES ON SEAMS: 336 attachments, utilisation 0.90, roof alone included"
    assert columns.split() == ["input", "step", "utilisation", "attachments"]
    assert [" ".join(row.split()) for row in rows if row] == [
        "wind speed ± 10% 0.72 … 1.11 336 … 400*",
        "module mass ± 20% – … 0.90 – … 340",
        "No change from: ground snow; mean roof height.",
        "Input lowered … input raised. * the new layout does not hold. – outside the",
        "range allowed.",
    ]


@pytest.mark.parametrize("system", ["us", "si"])
@pytest.mark.parametrize("width", [100, 80, 60])
def test_no_line_is_wider_than_a_terminal(system: System, width: int) -> None:
    for line in plain_text(
        *headroom_parts([HEADROOM], system), *sensitivity_parts([SENSITIVITY]), width=width
    ).splitlines():
        assert len(line) <= width


def test_in_a_narrow_terminal_no_figure_is_cut_off() -> None:
    written = plain_text(*sensitivity_parts([SENSITIVITY]), width=20)
    for figures in ("0.72 … 1.11", "336 … 400*", "± 10%"):
        assert figures in written
