"""Interface of a load standard.

A standard gives **load cases** ("D", "S", "W up" …), each a pressure on modules or on the roof alone, and
**combinations** of them. The rest of the engine does not depend on the standard, nor on its combinations being of
allowable or of factored loads: a strength gives its resistance *in a combination*.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, ClassVar, Protocol

from engine.common.arrays import Bools, Floats, Ints
from engine.common.calculation import CalculationStep, Recorder, Reference, silent
from engine.common.combination import Combination
from engine.common.errors import Problem
from engine.common.vocabulary import Vocabulary
from engine.mounting.layout import Field, Rectangles
from engine.project.job import Job
from engine.schema import InputTable
from engine.units import System


@dataclass(frozen=True)
class WeightCase:
    """A load case in proportion to the weight of modules and hardware, as billed.

    `downward`, `toward_eave` (horizontal) and `across` (along the eave) are its parts of that weight [-]; `steps` is
    their calculation.
    """

    downward: float = 0.0
    toward_eave: float = 0.0
    across: float = 0.0
    steps: tuple[CalculationStep, ...] = ()


DEAD = "D"
"""Load case of the weight itself; every standard has it."""

DEAD_LOAD_ONLY: Mapping[str, WeightCase] = MappingProxyType({DEAD: WeightCase(downward=1.0)})
"""Weight cases without an earthquake."""


@dataclass(frozen=True)
class ExceededLimit:
    """A limit of the standard that this job exceeds; `sentence` gives the limit and the value."""

    clause: str
    sentence: str

    def __str__(self) -> str:
        return f"{self.clause}: {self.sentence}"


@dataclass(frozen=True)
class Remark:
    """A remark for the reader: a code, a severity ("note" or "caution") and a sentence."""

    code: str
    severity: str
    text: str


class ZonedModules(Protocol):
    """Wind zones and exposure of one field of modules; `zone_names[zone[m]]` is the zone of module m."""

    @property
    def outside(self) -> tuple[ExceededLimit, ...]:
        """Limits exceeded; if there is one, the standard gives no wind on the modules."""
        ...

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """Remarks for the reader."""
        ...

    @property
    def zone_names(self) -> tuple[str, ...]:
        """Names of the wind zones, smallest suction first."""
        ...

    @property
    def zone(self) -> Ints:
        """Wind zone of each module, an index into `zone_names` (M,)."""
        ...

    @property
    def exposed(self) -> Bools:
        """True for each module that is exposed at an edge of the array (M,)."""
        ...

    @property
    def kind(self) -> Ints:
        """A number for each module (M,): modules of one kind have the same wind at the same effective area.

        So have those of one kind where the field lies elsewhere on the roof.
        """
        ...


@dataclass(frozen=True, eq=False)
class RoofZones:
    """Wind zones of the roof alone: rectangles that cover it, each in one zone; `names` as in `zone_names`.

    `widths` are the steps to the widths of strips and corners, on the plan.
    """

    places: Rectangles
    zone: Ints
    names: tuple[str, ...]
    widths: tuple[CalculationStep, ...] = ()


class Loads(ZonedModules, Protocol):
    """The loads on one field of modules and on the roof around it: characteristic values with their sign, SI.

    Arrays of modules, areas and resulting pressures have one shape (n,).
    """

    @property
    def unproven(self) -> str:
        """Why no standard or report stands behind the wind on the modules, in a few words; empty where one does."""
        ...

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """The combinations to check."""
        ...

    @property
    def weight_cases(self) -> Mapping[str, WeightCase]:
        """The cases in proportion to the weight: the weight itself and the earthquake."""
        ...

    @property
    def wind_cases(self) -> tuple[str, ...]:
        """The wind cases; their pressure depends on the effective area."""
        ...

    @property
    def snow_cases(self) -> tuple[str, ...]:
        """The snow cases."""
        ...

    def wind(self, case: str, module: Ints, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure of a wind case normal to the given modules, for their effective areas [m²] [Pa]."""
        ...

    def snow(self, case: str, module: Ints, record: Recorder = silent) -> Floats:
        """Snow on the given modules [Pa of horizontal projection]."""
        ...

    def snow_on_roof(self, case: str, places: Rectangles, record: Recorder = silent) -> Floats:
        """Snow on rectangles of the roof alone [Pa of horizontal projection]."""
        ...

    def snow_beside_modules(self, case: str, places: Rectangles, partly: Bools, record: Recorder = silent) -> Floats:
        """Snow on the part of rectangles of roof that modules leave free, with the array in place (n,).

        In Pa of horizontal projection; `partly` (n,) is True where modules cover some of the rectangle.
        """
        ...

    def cladding_pressure(
        self, case: str, places: Rectangles, record: Recorder = silent, area: Floats | None = None
    ) -> Floats:
        """External plus internal pressure on the roof over rectangles, at their effective wind areas [m²] [Pa].

        `area` is that of the part which carries them; None for their own, as for cladding.
        """
        ...

    def internal_pressure(self, case: str) -> float:
        """Internal pressure on the roof [Pa]."""
        ...

    def pressure_below_panel(self, case: str, places: Rectangles, area: Floats, record: Recorder = silent) -> Floats:
        """Pressure on the panel from below, which acts under modules too, over rectangles of areas [m²] (n,) [Pa]."""
        ...

    def roof_zones(self) -> RoofZones:
        """Wind zones of the slope's cladding, for the roof plan."""
        ...


class LoadStandard(Protocol):
    """A load standard: its `[site]` table and the loads on a field.

    `system`: the units that its jobs are shown in unless the user chooses others; `words`: its names of loads and
    resistances.
    """

    system: ClassVar[System]
    words: ClassVar[Vocabulary]

    def __init__(self, site: Any) -> None: ...

    @classmethod
    def site_model(cls) -> type[InputTable]:
        """Model of its `[site]` table."""
        ...

    @property
    def site(self) -> InputTable:
        """The `[site]` table of the scenario."""
        ...

    @property
    def title(self) -> str:
        """Document and edition, as in `site.standard`."""
        ...

    @property
    def basis(self) -> str:
        """Design basis, in one line for people ("allowable-stress design")."""
        ...

    def level(self, case: str) -> str:
        """Level of a load case before any factor, in a word ("service", "strength")."""
        ...

    @property
    def not_covered(self) -> tuple[str, ...]:
        """Rules of the standard that are not computed here, and not said where they matter, in a few words each."""
        ...

    @property
    def unverified(self) -> tuple[Reference, ...]:
        """Clauses seen in a single source or cited from memory: check these first."""
        ...

    def summary(self, job: Job) -> tuple[tuple[str, float, str], ...]:
        """Main loads of the site: (name, SI value, dimension)."""
        ...

    def unsupported(self, job: Job) -> Iterable[Problem]:
        """Problems of jobs that the standard does not cover, found when the file is read."""
        ...

    def loads(self, job: Job, field: Field) -> Loads:
        """The loads on a field of this job; `unsupported` found no problem in it."""
        ...
