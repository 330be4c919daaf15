"""One job: building, roof, modules, array, hardware and permit documents."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.common.arrays import Floats
from engine.common.vocabulary import ALLOWABLES, Vocabulary
from engine.project.acceptance import Accepted
from engine.project.array import Array, KeepClear
from engine.project.building import Building
from engine.project.hardware import IN_PAN, Hardware
from engine.project.module import Module
from engine.project.permit_documents import PermitDocuments
from engine.project.placement import Placement, SeamDrift
from engine.project.report_heading import ReportHeading
from engine.project.roof import Roof
from engine.strength import Capacity, StrengthBasis, strength
from engine.units import System

RACK_LEG = "rack leg"


@dataclass(frozen=True)
class NamedStrength:
    """A strength with its path in the file; `capacity` is None if not set, `given` False for a placeholder."""

    path: str
    name: str
    capacity: Capacity | None
    given: bool = True

    @property
    def sentence(self) -> str:
        """Origin of the strength, in one sentence."""
        if self.capacity is None:
            return "not set: a load that needs it is not checked"
        if not self.given:
            return "not set: a placeholder is used, enter the maker's value"
        return "; ".join(basis.description() for basis in self.capacity)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Sentences to be shown wherever it is used: an assumption, or an input outside the range of an equation."""
        return strength(self.capacity).cautions if self.capacity else ()


@dataclass(frozen=True)
class Job:
    """The input of one job, without the site of the load standard and without the mounting methods.

    `words` are those of the standard for loads and resistances, `system` is its system of units. `seam_drift`: that of
    seams which are not quite where they are stated; None where they are.
    """

    title: str
    currency: str
    building: Building
    roof: Roof
    module: Module
    arrays: tuple[Array, ...]
    hardware: Hardware
    papers: PermitDocuments
    placement: Placement = field(default_factory=Placement)
    report: ReportHeading = field(default_factory=ReportHeading)
    accepted: Accepted = field(default_factory=dict)
    words: Vocabulary = ALLOWABLES
    system: System = "us"
    seam_drift: SeamDrift | None = None

    @property
    def ribs(self) -> Floats:
        """Distances of all seams or ribs from the left rake, with their drift (R,) [m]."""
        ribs = self.roof.ribs(self.building)
        return self.seam_drift.added_to(ribs) if self.seam_drift else ribs

    @property
    def module_gap(self) -> float:
        """Clear distance between neighbouring modules, the same in all arrays [m]."""
        return self.arrays[0].gap

    @property
    def height_above_roof(self) -> float:
        """Height of the modules' top above the pan for mounting parallel to the roof, the same in all arrays [m]."""
        return self.arrays[0].height_above_roof

    @property
    def origin(self) -> tuple[float, float]:
        """Lower left corner of all arrays together [m]."""
        x, y = zip(*(array.origin for array in self.arrays), strict=True)
        return min(x), min(y)

    @property
    def keep_clear(self) -> tuple[KeepClear, ...]:
        """The areas without modules, whichever array states them."""
        return tuple(area for array in self.arrays for area in array.keep_clear)

    @property
    def place_word(self) -> str:
        """Name of an attachment's place, before the number of its rib: "seam", "pan at seam"."""
        word = self.roof.rib_word
        return f"pan at {word}" if self.hardware.place == IN_PAN else word

    @property
    def placement_window(self) -> tuple[float, float]:
        """Room in which the array may be moved, along the eave and up the slope [m]."""
        return self.placement.window or (self.roof.rib_spacing, self.roof.support_spacing)

    @property
    def stated_bases(self) -> Iterator[tuple[str, StrengthBasis]]:
        """Each basis of each strength that the scenario states, with the path of the strength."""
        for known in self.strengths:
            for basis in known.capacity or () if known.given else ():
                yield known.path, basis

    @property
    def strengths(self) -> Iterator[NamedStrength]:
        """All strengths of the job."""
        roof, fastening, word = self.roof, self.roof.fastening, self.roof.fastening_word
        yield NamedStrength("roof.fastening.uplift", f"{word}, uplift", fastening.uplift)
        yield NamedStrength("roof.fastening.bearing", f"{word}, bearing", fastening.bearing)
        if roof.floats:
            fixed = roof.fixed_point.in_plane if roof.fixed_point else None
            yield NamedStrength("roof.fixed_point.in_plane", "panel fixed point", fixed)
        else:
            yield NamedStrength("roof.fastening.in_plane", f"{word}, along the slope", fastening.in_plane)
        for key, direction in (("at_clamp_uplift", "uplift"), ("at_clamp_down", "down load")):
            capacity = getattr(roof.panel, key)
            yield NamedStrength(f"roof.panel.{key}", f"{roof.rib_word} at an attachment, {direction}", capacity)
        for name, key in {
            "attachment, uplift": "attachment_uplift",
            "attachment, downward": "attachment_down",
            "attachment, along the slope": "attachment_in_plane",
            f"attachment, across the {roof.rib_word}": "attachment_across",
            "module clamp, uplift": "clamp_uplift",
            RACK_LEG: "leg_capacity",
        }.items():
            given = key in self.hardware.model_fields_set
            yield NamedStrength(f"hardware.{key}", name, getattr(self.hardware, key), given)
