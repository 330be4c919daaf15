"""A comparison in the format asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from engine.common.errors import InputError, Problem
from engine.common.progress import ProgressListener, no_listener
from engine.comparison.building_comparison import BuildingComparison, compare_slopes
from engine.comparison.building_record import building_record
from engine.comparison.compare import Comparison, compare
from engine.comparison.record import comparison_record
from engine.design.status import Status
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.scenario.read import Scenario

Compared = Comparison | BuildingComparison
"""The comparison of one slope, or of a building of several."""


@dataclass(frozen=True)
class Request:
    """Options that apply to every file: changes (PATH=VALUE), methods (none: all), format, stamp, width.

    `units_of_standard`: no units were chosen, so each comparison is shown in those of its load standard.
    `slope`: the only one of several that is compared; empty for all.
    """

    changes: tuple[str, ...]
    methods: tuple[str, ...]
    format: str
    stamp: Stamp
    width: int = 100
    units_of_standard: bool = False
    slope: str = ""

    def stamp_of(self, comparison: Compared) -> Stamp:
        """The stamp of a comparison, with its units."""
        if not self.units_of_standard:
            return self.stamp
        return replace(self.stamp, system=_slopes(comparison)[0].scenario.standard.system)


def compared(scenarios: Sequence[Scenario], request: Request, tell: ProgressListener = no_listener) -> Compared:
    """The comparison of a file: of its one slope, or of all slopes of its building."""
    if len(scenarios) == 1:
        return compare(scenarios[0], request.methods, tell)
    return compare_slopes(scenarios, request.methods, tell)


def all_hold(comparison: Compared) -> bool:
    """True if every method shown holds, is complete, and would hold set out inaccurately."""
    columns = [column for slope in _slopes(comparison) for column in slope.columns]
    return all(column.status == Status.HOLDS and column.holds_within_tolerance for column in columns)


def as_json(
    comparison: Compared, request: Request, source: Mapping[str, str] | None = None, *, indent: int | None = 2
) -> str:
    """The comparison as one JSON object and a line break; `source` and `indent` as in `to_json`."""
    if isinstance(comparison, BuildingComparison):
        record = building_record(comparison)
    else:
        record = comparison_record(comparison)
    return to_json(record, request.stamp_of(comparison), source, indent=indent) + "\n"


def in_format(comparison: Compared, request: Request) -> str | bytes:
    """The comparison in the format of the request.

    Raises:
        InputError: the format holds one slope, and there are several.
    """
    if request.format == "json":
        return as_json(comparison, request)
    stamp = request.stamp_of(comparison)
    if request.format == "text":
        return _text(comparison, stamp, request.width)
    return _exported(comparison, request.format, stamp)


def _text(comparison: Compared, stamp: Stamp, width: int) -> str:
    if isinstance(comparison, BuildingComparison):
        from tui.cli.print_building import building_text  # rich: only where text is printed

        return building_text(comparison, stamp, width)
    from tui.cli.print_comparison import comparison_text

    return comparison_text(comparison, stamp, width)


def _exported(comparison: Compared, name: str, stamp: Stamp) -> str | bytes:
    from engine.export import csv, html_page, markdown, xlsx  # heavy libraries: only where a table leaves

    slopes, joined = _slopes(comparison), {"csv": csv.comparison_csv, "md": markdown.comparison_markdown}
    if name in joined:
        return "\n".join(joined[name](slope, stamp) for slope in slopes)
    if len(slopes) > 1:
        raise InputError(
            [Problem("--format", f"{name} holds one slope; choose it with --slope, or choose csv or json")]
        )
    whole: Mapping[str, Callable[[Comparison, Stamp], str | bytes]] = {
        "html": html_page.comparison_page,
        "xlsx": xlsx.comparison_workbook,
    }
    return whole[name](slopes[0], stamp)


def _slopes(comparison: Compared) -> tuple[Comparison, ...]:
    return comparison.slopes if isinstance(comparison, BuildingComparison) else (comparison,)
