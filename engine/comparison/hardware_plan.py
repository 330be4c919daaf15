"""The hardware of a layout as plain geometry: its members, the frames between their feet, and the module clamps.

All in the plane of the slope that carries the array [m], x along the eave from the left rake, y up the slope from the
eave.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from engine.common.arrays import Floats
from engine.mounting.layout import Layout, SupportLines


@dataclass(frozen=True, eq=False)
class Segments:
    """Straight lines from (x1, y1) to (x2, y2) [m], arrays (n,)."""

    x1: Floats
    y1: Floats
    x2: Floats
    y2: Floats

    def __len__(self) -> int:
        return len(self.x1)


@dataclass(frozen=True, eq=False)
class HardwarePlan:
    """Rails or rack beams, `frames` from foot to foot of racks, and clamps at `clamp_x`, `clamp_y` (K,) [m].

    `member` is the name of the members; modules on their own frames have none, and their clamps are the attachments.
    """

    member: str
    members: Segments
    frames: Segments
    clamp_x: Floats
    clamp_y: Floats


def hardware_plan(layout: Layout) -> HardwarePlan:
    """The hardware of a layout."""
    member = layout.member
    if member.section is None:
        return HardwarePlan(member.title, segments([]), segments([]), np.empty(0), np.empty(0))
    bars = [_on_roof(layout, *_bars(lines)) for lines in layout.lines]
    frames = [_on_roof(layout, *_frames(layout, lines)) for lines in layout.lines if len(lines.feet) > 1]
    clamps = [member.on_roof(*_clamps(lines)) for lines in layout.lines if member.clamped]
    x, y = (
        (np.concatenate([np.empty(0), *part]) for part in zip(*clamps, strict=True)) if clamps else (np.empty(0),) * 2
    )
    return HardwarePlan(member.title, _joined(bars), _joined(frames), x, y)


def segments(rows: Sequence[tuple[float, float, float, float]]) -> Segments:
    """Lines from rows of x1, y1, x2, y2."""
    return Segments(*np.array(rows, dtype=np.float64).reshape(-1, 4).T)


def _joined(parts: Sequence[Segments]) -> Segments:
    rows = [np.empty((0, 4)), *(np.column_stack([each.x1, each.y1, each.x2, each.y2]) for each in parts)]
    return Segments(*np.concatenate(rows).T)


def _on_roof(layout: Layout, start: Floats, across_start: Floats, end: Floats, across_end: Floats) -> Segments:
    on_roof = layout.member.on_roof
    return Segments(*on_roof(start, across_start), *on_roof(end, across_end))


def _offsets(lines: SupportLines) -> Floats:
    """Offsets of the bars of a line: one over each row of its feet (G,) [m]."""
    return np.array([foot.offset for foot in lines.feet])


def _bars(lines: SupportLines) -> tuple[Floats, Floats, Floats, Floats]:
    across = np.ravel(lines.across + _offsets(lines)[:, None])
    return np.full(across.size, lines.start), across, np.full(across.size, lines.end), across


def _frames(layout: Layout, lines: SupportLines) -> tuple[Floats, Floats, Floats, Floats]:
    along, offsets = layout.supports(lines), _offsets(lines)
    places, across = (np.ravel(part) for part in np.meshgrid(along, lines.across))
    return places, across + offsets.min(), places, across + offsets.max()


def _clamps(lines: SupportLines) -> tuple[Floats, Floats]:
    """Places of the clamps along the bars and across: the middle of the loads that share a clamp."""
    middle = (lines.load_start + lines.load_end) / 2
    along = np.bincount(lines.clamp, middle) / np.bincount(lines.clamp)
    places, across = np.meshgrid(along, np.ravel(lines.across + _offsets(lines)[:, None]))
    return np.ravel(places), np.ravel(across)
