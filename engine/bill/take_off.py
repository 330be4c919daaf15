"""What a layout is built of: pieces, bars cut from stock, mass, price, labour."""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

from engine.mounting.interface import MountingMethod, PartQuantity
from engine.mounting.layout import Field, Layout
from engine.project.hardware import Part, RailSection
from engine.project.job import Job
from engine.units import GRAVITY

SAW = 0.003
"""What each cut of a bar loses [m]."""


ON_MEMBERS = frozenset({"rail", "rack_beam", "splice", "middle_clamp", "end_clamp"})
"""Parts that members are made of or carry; all others stand beneath."""


@dataclass(frozen=True)
class BillLine:
    """One line of the bill: `quantity` of `unit`, [kg], [currency], [h].

    `lengths` are the bars it is cut into and `offcut` what remains of the stock [m].
    """

    part: str
    name: str
    quantity: float
    unit: str
    mass: float
    unit_price: float
    price: float
    hours: float
    lengths: tuple[float, ...] = ()
    offcut: float = 0.0


@dataclass(frozen=True)
class Bill:
    """The hardware and labour of one layout; modules add labour and mass but no price."""

    items: tuple[BillLine, ...]
    module_mass: float
    module_hours: float
    power: float

    @property
    def hardware_mass(self) -> float:
        """Mass of the hardware [kg]."""
        return sum(item.mass for item in self.items)

    @property
    def mass(self) -> float:
        """Mass of modules and hardware [kg]."""
        return self.module_mass + self.hardware_mass

    @property
    def mass_on_members(self) -> float:
        """Mass of modules, members and what clamps to them [kg]: what members stand on does not hold them down."""
        return self.module_mass + sum(item.mass for item in self.items if item.part in ON_MEMBERS)

    def pressure_on(self, field: Field) -> float:
        """Weight of modules and hardware over the area the modules cover [Pa]."""
        return self.mass * GRAVITY / field.covered

    @property
    def hardware_cost(self) -> float:
        """Price of the hardware [currency]."""
        return sum(item.price for item in self.items)

    @property
    def hours(self) -> float:
        """Labour, the setting of modules included [h]."""
        return self.module_hours + sum(item.hours for item in self.items)

    def total_cost(self, labour_rate: float) -> float:
        """Hardware and labour [currency], at a rate per hour."""
        return self.hardware_cost + self.hours * labour_rate


def take_off(job: Job, field: Field, method: MountingMethod, layout: Layout) -> Bill:
    """Count, cut, weigh and price what a layout is built of."""
    items: list[BillLine] = []
    for need in (*method.parts_needed(job, field, layout), *_piercings(job, layout)):
        items += _bars(job, need) if need.lengths else [_pieces(job, need)]
    return Bill(
        tuple(items),
        module_mass=field.modules * job.module.mass,
        module_hours=field.modules * job.hardware.module_minutes / 60,
        power=field.modules * job.module.power,
    )


def penetrations(job: Job, layout: Layout) -> int:
    """Holes through the roof: every screw of every attachment, where attachments are screwed on."""
    return round(len(layout.attachments) * job.hardware.attachment_screws) if job.hardware.pierces else 0


def _piercings(job: Job, layout: Layout) -> tuple[PartQuantity, ...]:
    if not job.hardware.pierces:
        return ()
    return PartQuantity("screw", "screws", penetrations(job, layout)), PartQuantity(
        "seal", "seals", len(layout.attachments)
    )


def _pieces(job: Job, need: PartQuantity) -> BillLine:
    part: Part = getattr(job.hardware.parts, need.part)
    return BillLine(
        need.part,
        need.name,
        need.pieces,
        "pieces",
        need.pieces * part.mass,
        part.price,
        need.pieces * part.price,
        need.pieces * part.minutes / 60,
    )


def _bars(job: Job, need: PartQuantity) -> list[BillLine]:
    """Bars and the splices that join them; a bar longer than stock is joined from stock lengths."""
    section: RailSection = getattr(job.hardware, need.part)
    cut = cut_from_stock(need.lengths, section.stock_length)
    bars = BillLine(
        need.part,
        need.name,
        cut.stock,
        "stock lengths",
        sum(need.lengths) * section.mass,
        section.price,
        cut.stock * section.price,
        sum(need.lengths) / section.stock_length * section.minutes / 60,
        need.lengths,
        cut.offcut,
    )
    return [bars, _pieces(job, PartQuantity("splice", "splices", cut.splices))] if cut.splices else [bars]


@dataclass(frozen=True)
class Cut:
    """How bars were cut: stock lengths bought, splices made, what is left over [m]."""

    stock: int
    splices: int
    offcut: float


def cut_from_stock(lengths: Sequence[float], stock: float) -> Cut:
    """Cut bars from stock lengths, longest first, each from the shortest offcut that serves.

    A bar longer than stock takes whole lengths and one cut piece, joined by splices; two pieces
    of a bar meet at each splice.
    """
    whole = [math.floor(length / stock + 1e-9) for length in lengths]
    rest = [length - count * stock for length, count in zip(lengths, whole, strict=True)]
    pieces = sorted((piece for piece in rest if piece > 1e-6), reverse=True)
    offcuts: list[float] = []
    opened = 0
    for piece in pieces:
        shortest = bisect_left(offcuts, piece - 1e-9)
        if shortest < len(offcuts):
            offcut = offcuts.pop(shortest)
        else:
            offcut, opened = stock, opened + 1
        if offcut - piece > SAW:
            insort(offcuts, offcut - piece - SAW)
    splices = sum(count - (piece <= 1e-6) for count, piece in zip(whole, rest, strict=True) if count)
    bought = sum(whole) + opened
    return Cut(bought, splices, bought * stock - sum(lengths))
