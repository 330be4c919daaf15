"""A comparison in the format asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from engine.comparison.compare import Comparison
from engine.design.status import Status
from engine.export.json import to_json
from engine.export.stamp import Stamp
from engine.studies.ways_out import WaysOut, ways_out


@dataclass(frozen=True)
class Request:
    """Options that apply to every file: changes (PATH=VALUE), methods (none: all), format, stamp, width of text.

    `units_of_standard`: no units were chosen, so each comparison is shown in those of its load standard. `ways`: search
    the ways out of methods that are over.
    """

    changes: tuple[str, ...]
    methods: tuple[str, ...]
    format: str
    stamp: Stamp
    width: int = 100
    units_of_standard: bool = False
    ways: bool = False

    def stamp_of(self, comparison: Comparison) -> Stamp:
        """The stamp of a comparison, with its units."""
        if not self.units_of_standard:
            return self.stamp
        return replace(self.stamp, system=comparison.scenario.standard.system)

    def ways_out(self, comparison: Comparison) -> tuple[WaysOut, ...] | None:
        """The ways out of a comparison; None where they were not asked for: they take seconds."""
        return ways_out(comparison) if self.ways else None


def all_hold(comparison: Comparison) -> bool:
    """True if every method shown holds, is complete, and would hold set out inaccurately."""
    return all(column.status == Status.HOLDS and column.holds_within_tolerance for column in comparison.columns)


def in_format(comparison: Comparison, request: Request) -> str | bytes:
    """The comparison in the format of the request."""
    if request.format == "json":
        return to_json(comparison, request.stamp_of(comparison), ways=request.ways_out(comparison)) + "\n"
    if request.format == "text":
        from tui.cli.print_comparison import comparison_text  # rich: only where text is printed

        stamp, ways = request.stamp_of(comparison), request.ways_out(comparison)
        return comparison_text(comparison, stamp, request.width, ways)
    return _exported(comparison, request)


def _exported(comparison: Comparison, request: Request) -> str | bytes:
    from engine.export import csv, html_page, markdown, xlsx  # heavy libraries: only where a table leaves

    writers: Mapping[str, Callable[[Comparison, Stamp], str | bytes]] = {
        "csv": csv.comparison_csv,
        "md": markdown.comparison_markdown,
        "html": html_page.comparison_page,
        "xlsx": xlsx.comparison_workbook,
    }
    return writers[request.format](comparison, request.stamp_of(comparison))
