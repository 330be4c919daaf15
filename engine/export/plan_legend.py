"""The legend of a roof plan: what each of its signs means."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from engine.comparison.roof_plan import Plan


@dataclass(frozen=True)
class LegendItem:
    """A sign by its shape and the style it is drawn in, with its meaning."""

    shape: Literal["line", "rectangle", "clamp", "circle"]
    style: str
    words: str


def legend(plan: Plan) -> tuple[LegendItem, ...]:
    """The signs that a plan has."""
    return (*_attachments(plan), *_hardware(plan), *_array(plan), *_roof(plan))


def _attachments(plan: Plan) -> Iterator[LegendItem]:
    checked = plan.attachments.is_checked
    if not checked:
        yield LegendItem("circle", "not-checked", "attachment, not checked")
        return
    yield LegendItem("circle", "holds", f"{checked} hold there")
    if "over" in plan.attachments.verdicts:
        yield LegendItem("circle", "over", "one of them is over, there or beside it")


def _hardware(plan: Plan) -> Iterator[LegendItem]:
    hardware = plan.hardware
    if len(hardware.members):
        yield LegendItem("line", "member", hardware.member)
    if len(hardware.frames):
        yield LegendItem("line", "frame", "frame, from foot to foot")
    if len(hardware.clamp_x):
        yield LegendItem("clamp", "clamp", "module clamp")


def _array(plan: Plan) -> Iterator[LegendItem]:
    if not plan.exposed.all():
        yield LegendItem("rectangle", "module", "module")
    if plan.exposed.any():
        yield LegendItem("rectangle", "exposed", "module exposed to wind")
    if len(plan.exposed_edges):
        yield LegendItem("line", "edge", "its exposed edges")
    if plan.keep_clear:
        yield LegendItem("rectangle", "clear", "keep-clear area")


def _roof(plan: Plan) -> Iterator[LegendItem]:
    yield LegendItem("line", "zone", "border of a wind zone, with its name")
    yield LegendItem("line", "rib", f"{plan.rib_word}, numbered from the left {plan.side}")
    if len(plan.supports):
        yield LegendItem("line", "support", "purlin or fastening line, numbered from the eave")
    if len(plan.rafters):
        yield LegendItem("line", "support", "upright: rafter")
