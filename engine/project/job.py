"""One job: building, roof, modules, array, hardware and permit documents."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.project.array import Array
from engine.project.building import Building
from engine.project.hardware import Hardware
from engine.project.module import Module
from engine.project.permit_documents import PermitDocuments
from engine.project.roof import Roof
from engine.strength import Capacity, strength

RACK_LEG = "rack leg"


@dataclass(frozen=True)
class NamedStrength:
    """A strength of the job with its name; `capacity` is None if not set, `given` False for a placeholder."""

    name: str
    capacity: Capacity | None
    given: bool = True

    @property
    def sentence(self) -> str:
        """Origin of the strength, in one sentence."""
        if self.capacity is None:
            return "not set: not checked"
        if not self.given:
            return "not set: a placeholder is used, enter the maker's value"
        return "; ".join(basis.description() for basis in self.capacity)

    @property
    def cautions(self) -> tuple[str, ...]:
        """Sentences to be shown wherever it is used: an assumption, or an input outside the range of an equation."""
        return strength(self.capacity).cautions if self.capacity else ()


@dataclass(frozen=True)
class Job:
    """The input of one job, without the site of the load standard and without the mounting methods."""

    title: str
    currency: str
    building: Building
    roof: Roof
    module: Module
    array: Array
    hardware: Hardware
    papers: PermitDocuments

    @property
    def strengths(self) -> Iterator[NamedStrength]:
        """All strengths of the job."""
        roof, fastening, word = self.roof, self.roof.fastening, self.roof.fastening_word
        yield NamedStrength(f"{word}, uplift", fastening.uplift)
        yield NamedStrength(f"{word}, bearing", fastening.bearing)
        if roof.floats:
            yield NamedStrength("panel fixed point", roof.fixed_point.in_plane if roof.fixed_point else None)
        else:
            yield NamedStrength(f"{word}, along the slope", fastening.in_plane)
        for name, key in {
            "attachment, uplift": "attachment_uplift",
            "attachment, downward": "attachment_down",
            "attachment, along the slope": "attachment_in_plane",
            f"attachment, across the {roof.rib_word}": "attachment_across",
            "module clamp, uplift": "clamp_uplift",
            RACK_LEG: "leg_capacity",
        }.items():
            yield NamedStrength(name, getattr(self.hardware, key), given=key in self.hardware.model_fields_set)
