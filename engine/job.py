"""One job: the building, its roof, the modules, the array and the hardware at hand."""

from __future__ import annotations

from dataclasses import dataclass

from engine.array import Array, Module
from engine.hardware import Hardware
from engine.papers import Papers
from engine.roof import Building, Roof


@dataclass(frozen=True)
class Job:
    """What a person describes, apart from the site's loads and the mounting methods."""

    title: str
    currency: str
    building: Building
    roof: Roof
    module: Module
    array: Array
    hardware: Hardware
    papers: Papers
