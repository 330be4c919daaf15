"""A comparison in the format asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from engine.common.progress import ProgressListener, no_listener
from engine.comparison.building_comparison import BuildingComparison, Compared, compare_file
from engine.comparison.building_record import building_record
from engine.comparison.compare import Comparison
from engine.comparison.record import WaysOfMethods, comparison_record
from engine.design.status import Status
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.scenario.read import Scenario

if TYPE_CHECKING:
    from engine.studies.ways_out import WaysOut


@dataclass(frozen=True)
class Request:
    """Options that apply to every file: changes (PATH=VALUE), methods (none: all), format, stamp, width.

    `units_of_standard`: no units were chosen, so each comparison is shown in those of its load standard.
    `slope`: the only one of several that is compared; empty for all. `ways`: search the ways out of methods that are
    over.
    """

    changes: tuple[str, ...]
    methods: tuple[str, ...]
    format: str
    stamp: Stamp
    width: int = 100
    units_of_standard: bool = False
    slope: str = ""
    ways: bool = False

    def stamp_of(self, comparison: Compared) -> Stamp:
        """The stamp of a comparison, with its units."""
        if not self.units_of_standard:
            return self.stamp
        return replace(self.stamp, system=_slopes(comparison)[0].scenario.standard.system)

    def ways_out(self, comparison: Comparison) -> tuple[WaysOut, ...] | None:
        """The ways out of a comparison; None where they were not asked for: they take seconds."""
        if not self.ways:
            return None
        from engine.studies.ways_out import ways_out

        return ways_out(comparison)


def compared(scenarios: Sequence[Scenario], request: Request, tell: ProgressListener = no_listener) -> Compared:
    """The comparison of a file by the methods of the request, with its alternatives."""
    return compare_file(scenarios, request.methods, tell)


def all_hold(comparison: Compared) -> bool:
    """True if every method shown holds, is complete, and would hold set out inaccurately."""
    columns = [column for slope in _slopes(comparison) for column in slope.columns]
    return all(column.status == Status.HOLDS and column.holds_within_tolerance for column in columns)


def as_json(
    comparison: Compared, request: Request, source: Mapping[str, str] | None = None, *, indent: int | None = 2
) -> str:
    """The comparison as one JSON object and a line break; `source` and `indent` as in `to_json`."""
    if isinstance(comparison, BuildingComparison):
        record = building_record(comparison, [_ways_by_method(slope, request) for slope in comparison.slopes])
    else:
        record = comparison_record(comparison, _ways_by_method(comparison, request))
    return to_json(record, request.stamp_of(comparison), source, indent=indent) + "\n"


def _ways_by_method(comparison: Comparison, request: Request) -> WaysOfMethods | None:
    ways = request.ways_out(comparison)
    if ways is None:
        return None
    from engine.studies.record import ways_by_method

    return ways_by_method(ways)


def in_format(comparison: Compared, request: Request) -> str | bytes:
    """The comparison in the format of the request."""
    if request.format == "json":
        return as_json(comparison, request)
    if request.format == "text":
        return _text(comparison, request)
    return _exported(comparison, request.format, request.stamp_of(comparison))


def _text(comparison: Compared, request: Request) -> str:
    from tui.cli.print_comparison import comparison_text  # rich: only where text is printed

    stamp, width = request.stamp_of(comparison), request.width
    texts = [comparison_text(slope, stamp, width, request.ways_out(slope)) for slope in _slopes(comparison)]
    if isinstance(comparison, BuildingComparison):
        from tui.cli.print_building import totals_text

        texts.insert(0, totals_text(comparison, stamp, width))
    return "\n".join(texts)


def _exported(comparison: Compared, name: str, stamp: Stamp) -> str | bytes:
    from engine.export import building_report, csv, document_files, html_page, markdown, xlsx  # heavy: only for tables

    if isinstance(comparison, BuildingComparison):
        of_building: Mapping[str, Callable[[BuildingComparison, Stamp], str | bytes]] = {
            "csv": lambda building, stamp: "\n".join(
                [csv.totals_csv(building, stamp), *(csv.comparison_csv(slope, stamp) for slope in building.slopes)]
            ),
            "md": markdown.building_markdown,
            "html": lambda building, stamp: document_files.to_html(building_report.building_answer(building, stamp)),
            "xlsx": xlsx.building_workbook,
        }
        return of_building[name](comparison, stamp)
    of_slope: Mapping[str, Callable[[Comparison, Stamp], str | bytes]] = {
        "csv": csv.comparison_csv,
        "md": markdown.comparison_markdown,
        "html": html_page.comparison_page,
        "xlsx": xlsx.comparison_workbook,
    }
    return of_slope[name](comparison, stamp)


def _slopes(comparison: Compared) -> tuple[Comparison, ...]:
    return comparison.slopes if isinstance(comparison, BuildingComparison) else (comparison,)
