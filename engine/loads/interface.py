"""The vocabulary of loads: what a load standard says to everything downstream.

A standard answers in **load cases** ("D", "S", "W up" …), each a pressure on modules or on the
bare roof, and in **combinations** of them. Nothing downstream knows which standard spoke, nor
whether its combinations are of allowable or of factored loads: a strength is asked for its
resistance *to a combination*.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Protocol

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Reference, silent
from engine.common.combination import Combination
from engine.common.errors import Problem
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.schema import InputTable


@dataclass(frozen=True)
class WeightCase:
    """A case that is a part of the weight of modules and hardware, as billed.

    `downward`, `toward_eave` (horizontal) and `across` (along the eave) are parts of that weight;
    `steps` say how they came about.
    """

    downward: float = 0.0
    toward_eave: float = 0.0
    across: float = 0.0
    steps: tuple[CalculationStep, ...] = ()


DEAD = "D"
"""The case every standard has: the weight itself."""

DEAD_LOAD_ONLY: Mapping[str, WeightCase] = MappingProxyType({DEAD: WeightCase(downward=1.0)})
"""The weight cases of a standard that has no earthquake to speak of."""


@dataclass(frozen=True)
class ExceededLimit:
    """A limit of the standard's that this job is beyond: what it is, and by how much, in a sentence."""

    clause: str
    sentence: str

    def __str__(self) -> str:
        return f"{self.clause}: {self.sentence}"


@dataclass(frozen=True)
class Remark:
    """Something the standard's user must know: a code, a severity ("note", "caution") and a sentence."""

    code: str
    severity: str
    text: str


class ZonedModules(Protocol):
    """How a standard's wind sees one field of modules: `zone_names[zone[m]]` is module m's wind zone."""

    @property
    def outside(self) -> tuple[ExceededLimit, ...]:
        """Limits passed: where there are any, the standard gives no wind on the modules."""
        ...

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """What the reader must know."""
        ...

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the wind zones, mildest first."""
        ...

    @property
    def zone(self) -> Ints:
        """Each module's wind zone, an index into `zone_names`."""
        ...

    @property
    def exposed(self) -> Bools:
        """Whether each module is exposed at an edge of the array."""
        ...


@dataclass(frozen=True, eq=False)
class RoofZones:
    """The wind zones of the bare roof: rectangles that cover it, each of one zone; `names` mildest first."""

    places: Rectangles
    zone: Ints
    names: tuple[str, ...]


class Loads(ZonedModules, Protocol):
    """The loads on one field of modules and on the roof around it. Characteristic, signed, SI.

    Arrays of modules and areas are of one shape (n,) and so are the pressures given back [Pa].
    """

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """The combinations to be checked."""
        ...

    @property
    def weight_cases(self) -> Mapping[str, WeightCase]:
        """The cases that are parts of the weight: the weight itself, and what an earthquake makes of it."""
        ...

    @property
    def wind_cases(self) -> tuple[str, ...]:
        """The cases that press on modules and depend on the effective area."""
        ...

    @property
    def snow_cases(self) -> tuple[str, ...]:
        """The cases of snow."""
        ...

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure of a wind case normal to the modules named, for effective areas [m²]."""
        ...

    def snow(self, case: str, module: Ints, record: Recorder = silent) -> Floats:
        """Snow on the modules named [Pa of horizontal projection]."""
        ...

    def snow_on_roof(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Snow on rectangles of the bare roof [Pa of horizontal projection]."""
        ...

    def cladding_pressure(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Outside plus inside pressure on roof cladding of these tributary rectangles [Pa]."""
        ...

    def internal_pressure(self, case: str, record: Recorder = silent) -> float:
        """The part of the roof's pressure that acts from inside, also beneath modules [Pa]."""
        ...

    def roof_zones(self) -> RoofZones:
        """The wind zones of the slope's own cladding, for a plan of it."""
        ...


class LoadStandard(Protocol):
    """A load standard: its own `[site]` table, and the loads it finds on a field."""

    def __init__(self, site: Any) -> None: ...

    @classmethod
    def site_model(cls) -> type[InputTable]:
        """The model of its `[site]` table."""
        ...

    @property
    def site(self) -> InputTable:
        """That table, as it was read."""
        ...

    @property
    def title(self) -> str:
        """Document and edition, as the scenario names it."""
        ...

    @property
    def basis(self) -> str:
        """One line for people: the basis of the numbers ("allowable-stress design" …)."""
        ...

    @property
    def unverified(self) -> tuple[Reference, ...]:
        """All that was taken from a single source or from memory: to be checked first."""
        ...

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        """The headline loads of the site: (name, SI value, dimension)."""
        ...

    def unsupported(self, job: Job) -> Iterable[Problem]:
        """What it has no figures for, whatever the field: said when the file is read, each with its path there."""
        ...

    def loads(self, job: Job, field: Field) -> Loads:
        """The loads on a field of this job, to which it had no objection."""
        ...
