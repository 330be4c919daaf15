"""Bill of a layout: pieces, bars cut from stock, mass, price and labour."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace

from engine.bill.cutting import cut_from_stock
from engine.common.tolerances import WHOLE_NUMBER
from engine.mounting.interface import MountingMethod, PartQuantity
from engine.mounting.layout import Field, Layout
from engine.project.hardware import Part, RailSection
from engine.project.job import Job
from engine.units import GRAVITY

ON_MEMBERS = frozenset({"rail", "rack_beam", "splice", "middle_clamp", "end_clamp"})
"""Parts of members or on members; all other parts are below them."""


@dataclass(frozen=True)
class BillLine:
    """One line of the bill: `quantity` of `unit`, [kg], [currency], [h].

    `part_number` is your own. `lengths` are the bars cut from stock of `stock_length` and `offcut` is the rest of that
    stock [m]. `spares` are bought in addition: they have a price, but neither mass nor labour.
    """

    part: str
    name: str
    quantity: float
    unit: str
    mass: float
    unit_price: float
    price: float
    hours: float
    part_number: str | None = None
    spares: int = 0
    lengths: tuple[float, ...] = ()
    stock_length: float | None = None
    offcut: float = 0.0

    @property
    def name_and_number(self) -> str:
        """Its name, and your own number of it where one is stated."""
        return with_number(self.name, self.part_number)

    @property
    def ordered(self) -> float:
        """Pieces or stock lengths to order, spares included."""
        return self.quantity + self.spares


@dataclass(frozen=True)
class Bill:
    """Hardware and labour of one layout; modules add labour and mass but no price."""

    items: tuple[BillLine, ...]
    modules: int
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


def with_number(name: str, part_number: str | None) -> str:
    """The name of a part with your own number of it, if any: "rails (R-14)"."""
    return f"{name} ({part_number})" if part_number else name


def take_off(job: Job, field: Field, method: MountingMethod, layout: Layout) -> Bill:
    """The bill of a layout, with prices, mass and labour."""
    items: list[BillLine] = []
    for quantity in (*method.parts_needed(job, field, layout), *_screws_and_seals(job, layout)):
        items += _bars(job, quantity) if quantity.lengths else [_pieces(job, quantity)]
    return Bill(
        tuple(items),
        modules=field.modules,
        module_mass=field.modules * job.module.mass,
        module_hours=field.modules * job.hardware.module_minutes / 60,
        power=field.modules * job.module.power,
    )


def joined(bills: Sequence[Bill]) -> Bill:
    """One bill of several layouts; spares and cuts are those of each."""
    by_part = defaultdict[str, list[BillLine]](list)
    for bill in bills:
        for item in bill.items:
            by_part[item.part].append(item)
    return Bill(
        tuple(map(_joined, by_part.values())),
        modules=sum(bill.modules for bill in bills),
        module_mass=sum(bill.module_mass for bill in bills),
        module_hours=sum(bill.module_hours for bill in bills),
        power=sum(bill.power for bill in bills),
    )


def _joined(items: Sequence[BillLine]) -> BillLine:
    """The lines of one part as one."""
    return replace(
        items[0],
        quantity=sum(item.quantity for item in items),
        mass=sum(item.mass for item in items),
        price=sum(item.price for item in items),
        hours=sum(item.hours for item in items),
        spares=sum(item.spares for item in items),
        lengths=tuple(length for item in items for length in item.lengths),
        offcut=sum(item.offcut for item in items),
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
    spares = _spares(job, quantity.pieces)
    return BillLine(
        quantity.part,
        quantity.name,
        quantity.pieces,
        "pieces",
        mass=quantity.pieces * part.mass,
        unit_price=part.price,
        price=(quantity.pieces + spares) * part.price,
        hours=quantity.pieces * part.minutes / 60,
        part_number=part.part_number,
        spares=spares,
    )


def _spares(job: Job, quantity: int) -> int:
    """Spare pieces or stock lengths of one part, whole ones."""
    return math.ceil(quantity * job.hardware.spares / 100 - WHOLE_NUMBER)


def _bars(job: Job, quantity: PartQuantity) -> list[BillLine]:
    """Lines of bars and of their splices; a bar longer than stock is spliced from stock lengths."""
    section: RailSection = getattr(job.hardware, quantity.part)
    cut = cut_from_stock(quantity.lengths, section.stock_length)
    spares = _spares(job, cut.stock)
    bars = BillLine(
        quantity.part,
        quantity.name,
        cut.stock,
        "stock lengths",
        mass=sum(quantity.lengths) * section.mass,
        unit_price=section.price,
        price=(cut.stock + spares) * section.price,
        hours=sum(quantity.lengths) / section.stock_length * section.minutes / 60,
        part_number=section.part_number,
        spares=spares,
        lengths=quantity.lengths,
        stock_length=section.stock_length,
        offcut=cut.offcut,
    )
    return [bars, _pieces(job, PartQuantity("splice", "splices", cut.splices))] if cut.splices else [bars]
