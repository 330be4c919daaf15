"""The contents of a sheet with a roof plan: one slope, or all slopes of a building one above the other."""

from __future__ import annotations

from dataclasses import dataclass

from engine.comparison.building_comparison import BuildingComparison, Total
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.comparison.roof_plan import Plan, plan
from engine.export.plan_legend import LegendItem, legend
from engine.export.stamp import Stamp


@dataclass(frozen=True, eq=False)
class SlopePlan:
    """The plan of one method on one slope; the slope's name is empty where there is only one."""

    column: Column
    plan: Plan
    slope: str = ""

    @property
    def name(self) -> str:
        """The slope as it is named on the drawing; empty where there is only one."""
        return f"slope {self.slope}" if self.slope else ""


@dataclass(frozen=True, eq=False)
class PlanSheet:
    """Slopes from the top of the sheet; `method`: what holds the modules; statements by name, the title first."""

    slopes: tuple[SlopePlan, ...]
    method: str
    statements: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]

    @property
    def title(self) -> str:
        """The job's title."""
        return self.statements[0][1]

    @property
    def view(self) -> str:
        """From where the slopes are seen, in words."""
        count = len(self.slopes)
        return "one slope, seen perpendicular to it" if count == 1 else f"{count} slopes, each seen perpendicular to it"

    @property
    def verdicts(self) -> tuple[str, ...]:
        """The verdict of each slope, with its method."""
        pairs = ((each.name, f"{each.column.title}: {verdict_line(each.column)}") for each in self.slopes)
        return tuple(f"{name}, {verdict}" if name else verdict for name, verdict in pairs)

    @property
    def legend(self) -> tuple[LegendItem, ...]:
        """The signs that the plans have, each once."""
        return tuple(dict.fromkeys(item for each in self.slopes for item in legend(each.plan)))

    @property
    def length(self) -> float:
        """The longest eave [m]."""
        return max(each.plan.length for each in self.slopes)

    @property
    def depth(self) -> float:
        """All slopes together, from eave to upper edge [m]."""
        return sum(each.plan.depth for each in self.slopes)


def sheet_of_slope(comparison: Comparison, column: Column, drawn: Plan, stamp: Stamp) -> PlanSheet:
    """The sheet of one method on one slope."""
    return PlanSheet((SlopePlan(column, drawn),), column.title, stamp.of(comparison), comparison.cautions)


def sheet_of_building(building: BuildingComparison, total: Total, stamp: Stamp) -> PlanSheet:
    """The sheet of one way to hold the arrays of all slopes; slopes on which it was refused are left out."""
    pairs = zip(total.slopes, total.columns, strict=True)
    slopes = tuple(SlopePlan(column, plan(column.design), name) for name, column in pairs if column.design)
    return PlanSheet(slopes, total.title, stamp.of_building(building), building.cautions)
