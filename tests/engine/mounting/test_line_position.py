"""Clearance of clamps from floating clips: kept if the method can move its lines, else flagged."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from support import scenario_of


def column(method: str, clearance: str) -> Column:
    hardware = {"clip_clearance": clearance} if clearance else {}
    return compare(scenario_of(hardware=hardware, methods__rail__spacing="2 ribs"), (method,)).columns[0]


def from_clips(of: Column) -> np.ndarray:
    assert of.design
    assert of.design.candidate
    return np.abs(of.design.layout.attachments.y[:, None] - of.design.candidate.demands.fastening_y).min(axis=1)


def test_a_rail_moves_within_its_clamp_zone() -> None:
    """Rails of row 4 would lie 2.0 in from a clip; the zone of 250 to 500 mm leaves room to keep 6 in."""
    assert from_clips(column("rail", "")).min() < 6 * 0.0254
    moved = column("rail", "6 in")
    assert from_clips(moved).min() >= 6 * 0.0254 - 1e-9
    assert "near_clip" not in {flag.code for flag in moved.flags}
    assert moved.design
    low, high = moved.design.field.outlines.low, moved.design.field.outlines.high
    for lines in moved.design.layout.lines:
        for y, modules in zip(lines.across, lines.module, strict=True):
            inside = min(y - low[modules[0]], high[modules[0]] - y)
            assert 0.25 - 1e-9 <= inside <= 0.5 + 1e-9


def test_modules_on_seams_cannot_move_and_are_flagged() -> None:
    direct = column("direct", "6 in")
    flag = next(flag for flag in direct.flags if flag.code == "near_clip")
    assert flag.text.startswith(f"{int((from_clips(direct) < 6 * 0.0254).sum())} attachments are closer")


@pytest.mark.parametrize("method", ["rail", "direct"])
def test_no_clearance_no_flag(method: str) -> None:
    assert "near_clip" not in {flag.code for flag in column(method, "").flags}
