"""Bill of a layout: pieces, bars cut from stock, mass, price and labour."""

from __future__ import annotations

import math
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

from engine.common.tolerances import SAME_LENGTH, SUMMED_LENGTH, WHOLE_NUMBER
from engine.mounting.interface import MountingMethod, PartQuantity
from engine.mounting.layout import Field, Layout
from engine.project.hardware import Part, RailSection
from engine.project.job import Job
from engine.units import GRAVITY

SAW_CUT = 0.003
"""Length lost at each cut of a bar [m]."""

ON_MEMBERS = frozenset({"rail", "rack_beam", "splice", "middle_clamp", "end_clamp"})
"""Parts of members or on members; all other parts are below them."""


@dataclass(frozen=True)
class BillLine:
    """One line of the bill: `quantity` of `unit`, [kg], [currency], [h].

    `lengths` are the bars cut from stock and `offcut` is the rest of the stock [m].
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
    """Hardware and labour of one layout; modules add labour and mass but no price."""

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
        """Mass of modules, members and their clamps [kg]; parts below the members do not hold them down."""
        return self.module_mass + sum(item.mass for item in self.items if item.part in ON_MEMBERS)

    def pressure_on(self, field: Field) -> float:
        """Weight of modules and hardware over the area of the modules [Pa]."""
        return self.mass * GRAVITY / field.covered

    @property
    def hardware_cost(self) -> float:
        """Price of the hardware [currency]."""
        return sum(item.price for item in self.items)

    @property
    def hours(self) -> float:
        """Labour, including the modules [h]."""
        return self.module_hours + sum(item.hours for item in self.items)

    def total_cost(self, labour_rate: float) -> float:
        """Cost of hardware and labour at a rate per hour [currency]."""
        return self.hardware_cost + self.hours * labour_rate


def take_off(job: Job, field: Field, method: MountingMethod, layout: Layout) -> Bill:
    """The bill of a layout, with prices, mass and labour."""
    items: list[BillLine] = []
    for quantity in (*method.parts_needed(job, field, layout), *_screws_and_seals(job, layout)):
        items += _bars(job, quantity) if quantity.lengths else [_pieces(job, quantity)]
    return Bill(
        tuple(items),
        module_mass=field.modules * job.module.mass,
        module_hours=field.modules * job.hardware.module_minutes / 60,
        power=field.modules * job.module.power,
    )


def penetrations(job: Job, layout: Layout) -> int:
    """Number of roof penetrations: all screws of all attachments, if attachments are screwed on."""
    return len(layout.attachments) * job.hardware.screws_per_attachment if job.hardware.pierces else 0


def _screws_and_seals(job: Job, layout: Layout) -> tuple[PartQuantity, ...]:
    if not job.hardware.pierces:
        return ()
    screws = PartQuantity("screw", "screws", penetrations(job, layout))
    return screws, PartQuantity("seal", "seals", len(layout.attachments))


def _pieces(job: Job, quantity: PartQuantity) -> BillLine:
    part: Part = getattr(job.hardware.parts, quantity.part)
    return BillLine(
        quantity.part,
        quantity.name,
        quantity.pieces,
        "pieces",
        mass=quantity.pieces * part.mass,
        unit_price=part.price,
        price=quantity.pieces * part.price,
        hours=quantity.pieces * part.minutes / 60,
    )


def _bars(job: Job, quantity: PartQuantity) -> list[BillLine]:
    """Lines of bars and of their splices; a bar longer than stock is spliced from stock lengths."""
    section: RailSection = getattr(job.hardware, quantity.part)
    cut = cut_from_stock(quantity.lengths, section.stock_length)
    bars = BillLine(
        quantity.part,
        quantity.name,
        cut.stock,
        "stock lengths",
        mass=sum(quantity.lengths) * section.mass,
        unit_price=section.price,
        price=cut.stock * section.price,
        hours=sum(quantity.lengths) / section.stock_length * section.minutes / 60,
        lengths=quantity.lengths,
        offcut=cut.offcut,
    )
    return [bars, _pieces(job, PartQuantity("splice", "splices", cut.splices))] if cut.splices else [bars]


@dataclass(frozen=True)
class Cut:
    """Cutting plan: stock lengths bought, splices, offcut [m]."""

    stock: int
    splices: int
    offcut: float


def cut_from_stock(lengths: Sequence[float], stock: float) -> Cut:
    """Cutting plan of bars: longest first, each from the shortest offcut that is long enough.

    A bar longer than stock takes whole stock lengths and one cut piece, with a splice at each joint.

    Args:
        lengths: of the bars [m].
        stock: length of one bar as sold [m].
    """
    whole = [math.floor(length / stock + WHOLE_NUMBER) for length in lengths]
    rest = [length - count * stock for length, count in zip(lengths, whole, strict=True)]
    pieces = sorted((piece for piece in rest if piece > SUMMED_LENGTH), reverse=True)
    offcuts: list[float] = []
    opened = 0
    for piece in pieces:
        shortest = bisect_left(offcuts, piece - SAME_LENGTH)
        if shortest < len(offcuts):
            offcut = offcuts.pop(shortest)
        else:
            offcut, opened = stock, opened + 1
        if offcut - piece > SAW_CUT:
            insort(offcuts, offcut - piece - SAW_CUT)
    splices = sum(count - (piece <= SUMMED_LENGTH) for count, piece in zip(whole, rest, strict=True) if count)
    bought = sum(whole) + opened
    return Cut(bought, splices, bought * stock - sum(lengths))
